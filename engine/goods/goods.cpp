#include "goods/goods.hpp"

#include <cmath>
#include <stdexcept>
#include <utility>

#include "money/money.hpp"
#include "tables/materials.hpp"

namespace awlmark::goods {
namespace {

constexpr double kSameLength_in = 1.0 / 32;

Good sticks(Kind kind, std::string item, Section section, double length_in, double pieces, const char* price) {
  Good good;
  good.kind = kind;
  good.item = std::move(item);
  good.section = section;
  good.length_in = length_in;
  good.price = price;
  good.quantity = pieces * section.plies * length_in / 12;
  good.unit = Unit::lf;
  return good;
}

Good counted(Kind kind, const char* item, double quantity, const char* price, Unit unit) {
  Good good;
  good.kind = kind;
  good.item = item;
  good.price = price;
  good.quantity = quantity;
  good.unit = unit;
  return good;
}

bool same(const Good& a, const Good& b) {
  return a.kind == b.kind && a.item == b.item && a.section == b.section && std::fabs(a.thickness_in - b.thickness_in) < 1e-9 &&
         std::fabs(a.length_in - b.length_in) < kSameLength_in && a.grade == b.grade && a.treatment == b.treatment && a.grows == b.grows &&
         a.price == b.price && a.unit == b.unit;
}

}  // namespace

double nominal_in(double dressed_in) {
  if (dressed_in <= 0.875) return 1;
  if (dressed_in <= 1.125) return 1.25;
  for (const double nominal : {2.0, 3.0, 4.0})
    if (dressed_in <= nominal + 1e-9) return nominal;
  return std::ceil(dressed_in / 2 - 1e-9) * 2;
}

Good lumber(Kind kind, std::string item, Section section, double length_in, double pieces) {
  return sticks(kind, std::move(item), section, length_in, pieces, "lumber_per_bf");
}

Good planks(std::string item, Section section, double length_in, double pieces) {
  return sticks(Kind::plank, std::move(item), section, length_in, pieces, "decking_per_bf");
}

Good panels(Kind kind, std::string item, double thickness_in, std::string grade, double area_sf) {
  Good good = counted(kind, "", area_sf, "panel_per_sf_in", Unit::sf);
  good.item = std::move(item);
  good.thickness_in = thickness_in;
  good.grade = std::move(grade);
  return good;
}

Good fasteners(double area_sf) { return counted(Kind::fasteners, "fasteners of the deck", area_sf, "floor_fasteners_per_sf", Unit::sf); }
Good connectors(double count) { return counted(Kind::connector, "hangers or angles", count, "hanger_each", Unit::each); }
Good shores(double count) { return counted(Kind::shore, "shores with their pads", count, "shore_each", Unit::each); }

bool makes_deck(Kind kind) { return kind == Kind::plank || kind == Kind::deck_panel; }
bool sold_in_sheets(Kind kind) { return kind == Kind::deck_panel || kind == Kind::overlay; }
bool is_lumber(Kind kind) {
  switch (kind) {
    case Kind::shore:
    case Kind::connector:
    case Kind::deck_panel:
    case Kind::overlay:
    case Kind::fasteners:
    case Kind::other:
      return false;
    default:
      return true;
  }
}

bool framing(Kind kind) { return is_lumber(kind) && kind != Kind::plank; }

void treat(Good& good) {
  good.treatment = Treatment::treated;
  good.item += ", treated";
  if (good.price == "lumber_per_bf") good.price = "treated_lumber_per_bf";
}

double unit_price(const Job& job, const Good& good) {
  if (good.price.empty()) return 0;
  const auto unit = tables::rate(good.price).unit;
  const double price = money::price_of_stock(job, good.price);
  if (unit == "usd/bf") return price * good.section.b_in * good.section.d_in / 12;
  if (unit == "usd/sf/in") return price * good.thickness_in;
  if (unit == "usd/sf" || unit == "usd/each" || unit == "usd/ft") return price;
  throw std::logic_error("data: rates.csv: " + good.price + " has a unit that no good is priced by");
}

void add(std::vector<Good>& list, Good good) {
  if (!(good.quantity > 0)) return;
  for (auto& there : list)
    if (same(there, good)) {
      there.quantity += good.quantity;
      return;
    }
  list.push_back(std::move(good));
}

}  // namespace awlmark::goods
