// What one more square foot or foot takes than was planned: the same goods at the same prices, and
// the weight that is carried out.
#include <algorithm>

#include "tables/materials.hpp"
#include "tables/usual.hpp"
#include "takeoff/parts.hpp"
#include "takeoff/quantities.hpp"

namespace awlmark::takeoff {
namespace {

constexpr double kScrews_per_sf = 2;

double with_waste() { return 1 + tables::usual().waste_share; }

using goods::Extent;
using goods::Growth;

void more(TakeOff& found, const Growth& with, const Stocked& what, double per_unit) {
  if (per_unit > 0) found.one_more.push_back({with, what.item, per_unit, what.unit, what.price});
}
void more(const Job& job, TakeOff& found, const Growth& with, const goods::Good& good, double per_unit) {
  if (per_unit > 0) found.one_more.push_back({with, good.item, per_unit, doc::word_of(good.unit), goods::unit_price(job, good)});
}

void debris(const Job& job, TakeOff& found, const Growth& with, Material material, double sf_per_unit, double thick_in) {
  const auto made = debris_of(material, sf_per_unit, thick_in);
  more(found, with, good(job, "dump"), made.lb);
  const double bags = std::max(made.lb / tables::usual().bag_limit_lb, made.yd3 * 27 / filled_bag_ft3());
  more(found, with, good(job, "bag"), bags);
}

// A way that lays a new deck over the whole room has bought it already.
bool deck_is_whole(const Site& site) {
  if (!site.option) return false;
  const double room_sf = area_in2(site.job.room.outline_in) / 144;
  return std::any_of(site.option->goods.begin(), site.option->goods.end(), [&](const goods::Good& good) {
    return good.kind == goods::Kind::deck_panel && good.grows.with == Extent::fixed && good.quantity > 0.9 * room_sf;
  });
}

void deck(const Site& site, const Layer& layer, TakeOff& found) {
  if (deck_is_whole(site)) return;
  const auto& facts = tables::material_facts(doc::word_of(layer.material));
  const auto with = with_layer(layer.id);
  if (layer.material == Material::board || layer.material == Material::plank_tg) {
    const double face_in = layer.face_width_in.value_or(facts.usual_width_in.value_or(5.5));
    const auto plank = goods::planks(facts.spoken, {goods::nominal_in(thickness_in(layer)), goods::nominal_in(face_in), 1}, 12, 1);
    more(site.job, found, with, plank, 12 / face_in * with_waste());
  } else {
    more(site.job, found, with, goods::panels(goods::Kind::deck_panel, facts.spoken, thickness_in(layer), "", 1), with_waste());
  }
  more(found, with, good(site.job, "deck_screw"), kScrews_per_sf);
}

}  // namespace

void one_more(const Site& site, TakeOff& found) {
  const Layer* bears = structural_deck(site.job);
  for (const auto& layer : site.job.layers) {
    const auto& facts = tables::material_facts(doc::word_of(layer.material));
    const auto with = with_layer(layer.id);
    debris(site.job, found, with, layer.material, 1, thickness_in(layer));
    if (&layer == bears)
      deck(site, layer, found);
    else if (!site.job.rebuild && facts.kind == "finish")
      more(found, with, good(site.job, "other_finish"), with_waste());
    else if (!site.job.rebuild && facts.kind == "underlayment")
      more(found, with, good(site.job, "underlayment"), with_waste() / good(site.job, "underlayment").covers);
  }
  const Growth plate{Extent::plate_ft, {}}, board{Extent::wallboard_sf, {}}, blocking{Extent::blocking_ft, {}};
  more(found, plate, good(site.job, "plate_stock"), with_waste());
  debris(site.job, found, plate, Material::wall_plate, tables::usual().plate_width_in / 12, tables::usual().plate_thickness_in);
  const auto sheet = good(site.job, "wallboard");
  more(found, board, sheet, with_waste() / sheet.covers);
  more(found, board, good(site.job, "joint_compound"), 1 / good(site.job, "joint_compound").covers);
  debris(site.job, found, board, Material::gypsum_board, 1, tables::usual().wallboard_in);
  more(site.job, found, blocking, goods::lumber(goods::Kind::blocking, "2x6 blocking", {2, 6, 1}, 12, 1), with_waste());
}

}  // namespace awlmark::takeoff
