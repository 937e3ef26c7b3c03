// The floor that goes back: what the chosen option needs, or, without one, like for like from the
// pieces that came out.
#include <algorithm>
#include <cmath>
#include <map>

#include "base/length.hpp"
#include "base/special.hpp"
#include "tables/materials.hpp"
#include "takeoff/parts.hpp"
#include "takeoff/sheets.hpp"

namespace awlmark::takeoff {
namespace {

constexpr double kJoin_in = 0.75;  // pieces of one plank this close are one new plank
constexpr double kWaste = 0.10;    // of what is bought by the square foot

bool speaks_of(const std::string& text, std::initializer_list<const char*> words) {
  return std::any_of(words.begin(), words.end(), [&](const char* word) { return text.find(word) != std::string::npos; });
}

double material_scale(const Job& job) { return job.rates && job.rates->material_scale ? *job.rates->material_scale : 1; }

bool is_plank(const Layer& layer) { return layer.material == Material::board || layer.material == Material::plank_tg; }
bool is_sheet(const Layer& layer) { return layer.material == Material::plywood || layer.material == Material::osb; }

struct Extent {
  double from_in = 0;
  double to_in = 0;
};

// New planks: the bays of one plank that touch come back as one piece.
std::vector<PieceNeed> plank_pieces(const cutback::CutBack& cut, const Layer& layer, int& bearings) {
  const double angle = layer.runs ? layer.runs->degrees * 3.14159265358979323846 / 180 : 0;
  const double c = det_cos(angle), s = det_sin(angle);
  std::map<int, std::vector<Extent>> by_plank;
  for (const auto& piece : cut.pieces) {
    if (!piece.out || piece.layer != layer.id || piece.kind != "plank") continue;
    Extent extent{1e300, -1e300};
    for (const auto& p : piece.outline_in) {
      const double along = p.x_in * c + p.y_in * s;
      extent.from_in = std::min(extent.from_in, along);
      extent.to_in = std::max(extent.to_in, along);
    }
    by_plank[piece.plank].push_back(extent);
  }
  std::map<long, int> count;  // by length in sixty-fourths
  for (auto& [plank, extents] : by_plank) {
    std::stable_sort(extents.begin(), extents.end(), [](const Extent& a, const Extent& b) { return a.from_in < b.from_in; });
    bearings += static_cast<int>(extents.size()) + 1;
    Extent run = extents.front();
    for (std::size_t i = 1; i <= extents.size(); ++i) {
      if (i < extents.size() && extents[i].from_in <= run.to_in + kJoin_in) {
        run.to_in = std::max(run.to_in, extents[i].to_in);
        continue;
      }
      ++count[std::lround((run.to_in - run.from_in) * 64)];
      if (i < extents.size()) run = extents[i];
    }
  }
  std::vector<PieceNeed> pieces;
  for (const auto& [length, number] : count) pieces.push_back({static_cast<double>(length) / 64, number});
  return pieces;
}

void planks_back(const Site& site, const Layer& layer, TakeOff& found) {
  int bearings = 0;
  auto pieces = plank_pieces(site.cut, layer, bearings);
  if (pieces.empty()) return;
  int count = 0;
  for (const auto& piece : pieces) count += piece.count;
  const double b = nominal_of(thickness_in(layer)),
               d = nominal_of(layer.face_width_in.value_or(tables::material_facts(doc::word_of(layer.material)).usual_width_in.value_or(5.5)));
  const std::string item =
      format_number(b, b == std::floor(b) ? 0 : 2) + "x" + format_number(d, 0) + " " + tables::material_facts(doc::word_of(layer.material)).spoken;
  buy_sticks(site.job, "back." + layer.id, item, lumber_price_per_ft(site.job, b, d, true), std::move(pieces),
             std::to_string(count) + " new planks, bays of one plank joined", layer.id, found);
  add_line(found, "back." + layer.id + ".screws", good(site.job, "deck_screw"), 2.0 * bearings, "two at each of " + std::to_string(bearings) + " bearings",
           "put_back", layer.id);
}

void sheets_back(const Site& site, const Layer& layer, TakeOff& found) {
  const auto outlines = site.cut.outlines_in.find(layer.id);
  if (outlines == site.cut.outlines_in.end()) return;
  const auto count = lay_sheets(outlines->second, layer.runs ? layer.runs->degrees : 0);
  if (count.sheets == 0) return;
  const auto& facts = tables::material_facts(doc::word_of(layer.material));
  const double price = tables::rate("panel_per_sf_in").value * thickness_in(layer) * 32 *
                       (site.job.rates && site.job.rates->material_scale ? *site.job.rates->material_scale : 1);
  found.lines.push_back({"back." + layer.id, facts.spoken + " " + format_inches(thickness_in(layer)) + ", 4 x 8 ft", static_cast<double>(count.sheets), "sheet",
                         layer.id + ": " + std::to_string(count.pieces) + " pieces laid out in 4 ft courses, " + figure_text(count.area_sf) + " sf", "put_back",
                         price, layer.id});
  // Every 6 in. around each piece and 12 in. between: about 2 a square foot on 16 in. supports.
  const double screws = std::ceil(count.area_sf * 2);
  add_line(found, "back." + layer.id + ".screws", good(site.job, "deck_screw"), screws, "6 in. at edges and 12 in. between, 2 a sf", "put_back", layer.id);
}

void blocking_back(const Site& site, TakeOff& found) {
  std::map<long, int> count;
  for (const auto& block : site.cut.blocking) ++count[std::lround(block.length_in * 64)];
  std::vector<PieceNeed> pieces;
  for (const auto& [length, number] : count)
    if (length > 0) pieces.push_back({static_cast<double>(length) / 64, number});
  if (pieces.empty()) return;
  // Blocking is as deep as what it braces; unknown depth takes 2x8.
  double b = 2, d = 8;
  for (const auto& support : site.job.supports)
    if (support.size) {
      b = 2;
      d = nominal_of(support.size->d_in);
      break;
    }
  buy_sticks(site.job, "back.blocking", format_number(b, 0) + "x" + format_number(d, 0) + " blocking", lumber_price_per_ft(site.job, b, d, false),
             std::move(pieces), std::to_string(site.cut.blocking.size()) + " blocks at the edges of the cut-back", "blocking_ft", found);
}

const std::initializer_list<const char*> kDeckWords{"plank", "board", "panel", "plywood", "OSB"};

// Thickness named before " in." in an item: "plywood 23/32 in., dropped bay" -> 0.71875.
double thickness_named_in(const std::string& item, double otherwise_in) {
  const auto end = item.find(" in.");
  if (end == std::string::npos || end == 0) {
    // Or the last word, as inches: "OSB 23/32\"".
    const auto word = item.rfind(' ');
    return word == std::string::npos ? otherwise_in : parse_length_in(item.substr(word + 1)).value_or(otherwise_in);
  }
  const auto start = item.rfind(' ', end - 1);
  return parse_length_in(item.substr(start == std::string::npos ? 0 : start + 1, end - (start == std::string::npos ? 0 : start + 1))).value_or(otherwise_in);
}

// Price of a foot of what an item names: a nominal section, a sister ripped to a depth, or new deck.
double price_per_ft(const Site& site, const Layer* deck, const std::string& item) {
  double b = 0, d = 0;
  if (find_section(item, b, d)) return lumber_price_per_ft(site.job, b, d, false);
  const auto ripped = item.find("ripped to ");
  if (ripped != std::string::npos) return lumber_price_per_ft(site.job, 2, nominal_of(parse_length_in(item.substr(ripped + 10)).value_or(7.25)), false);
  if (deck && is_plank(*deck) && speaks_of(item, kDeckWords))
    return lumber_price_per_ft(site.job, nominal_of(thickness_in(*deck)),
                               nominal_of(deck->face_width_in.value_or(tables::material_facts(doc::word_of(deck->material)).usual_width_in.value_or(5.5))),
                               true);
  return lumber_price_per_ft(site.job, 2, 8, false);
}

// What of the option grows when opening up reveals more.
std::string grows_with(const Site& site, const Layer* deck, const std::string& item) {
  if (speaks_of(item, {"joist", "sister", "girder", "hanger", "post", "ledger"})) return "members";
  if (speaks_of(item, {"block"})) return "blocking_ft";
  return deck && option_follows_cut(site.job, site.cut, *site.option) ? deck->id : std::string();
}

// Pieces of one item are cut from the same sticks, whatever their lengths.
void option_sticks(const Site& site, const Layer* deck, TakeOff& found) {
  std::vector<std::string> items;
  std::map<std::string, std::vector<PieceNeed>> pieces;
  for (const auto& need : site.option->materials) {
    if (need.unit != "lf" || !need.piece_length_in || *need.piece_length_in <= 0) continue;
    if (!pieces.count(need.item)) items.push_back(need.item);
    pieces[need.item].push_back({*need.piece_length_in, static_cast<int>(std::ceil(need.quantity * 12 / *need.piece_length_in - 1e-6))});
  }
  for (std::size_t i = 0; i < items.size(); ++i) {
    int count = 0;
    for (const auto& piece : pieces[items[i]]) count += piece.count;
    buy_sticks(site.job, "back.sticks." + std::to_string(i + 1), items[i], price_per_ft(site, deck, items[i]), pieces[items[i]],
               std::to_string(count) + (count == 1 ? " piece for " : " pieces for ") + site.option->title, grows_with(site, deck, items[i]), found);
  }
}

bool sold_in_sheets(const std::string& item) { return speaks_of(item, {"panel", "plywood", "OSB"}); }

// Panels by the sheet: laid out over the cut-back where that is what they cover, else by area, whose
// waste the option has put in already.
void option_panels(const Site& site, const Layer* deck, const floor::MaterialNeed& need, const std::string& id, TakeOff& found) {
  const auto outlines = deck ? site.cut.outlines_in.find(deck->id) : site.cut.outlines_in.end();
  const auto over_cut = outlines == site.cut.outlines_in.end() ? SheetCount{} : lay_sheets(outlines->second, 0);
  const auto over_room = lay_sheets({site.job.room.outline_in}, 0);
  const auto near = [&](const SheetCount& laid) { return laid.sheets > 0 && laid.area_sf * 1.3 >= need.quantity && laid.area_sf <= need.quantity; };
  const SheetCount* laid = near(over_room) ? &over_room : near(over_cut) ? &over_cut : nullptr;
  const double sheets = laid ? laid->sheets : packs(need.quantity, 32);
  const double price = tables::rate("panel_per_sf_in").value * thickness_named_in(need.item, 0.75) * 32 * material_scale(site.job);
  found.lines.push_back(
      {id, need.item + ", 4 x 8 ft", sheets, "sheet",
       (laid ? std::to_string(laid->pieces) + " pieces laid out in 4 ft courses, for " : "by area with 10 percent waste, for ") + site.option->title,
       "put_back", price, grows_with(site, deck, need.item)});
}

void option_rest(const Site& site, const Layer* deck, const floor::MaterialNeed& need, std::size_t index, TakeOff& found) {
  const std::string id = "back.option." + std::to_string(index + 1), from = "for " + site.option->title;
  if (need.unit == "lf" && need.piece_length_in && *need.piece_length_in > 0) return;  // bought as sticks
  if (need.unit == "sf" && sold_in_sheets(need.item)) return option_panels(site, deck, need, id, found);
  double price = 0;
  if (need.unit == "lf")
    price = price_per_ft(site, deck, need.item);
  else if (speaks_of(need.item, {"fastener", "screw", "nail"}))
    price = tables::rate("floor_fasteners_per_sf").value * material_scale(site.job);
  else if (speaks_of(need.item, {"hanger", "angle", "connector"}))
    price = tables::rate("hanger_each").value * material_scale(site.job);
  else if (speaks_of(need.item, {"shore"}))
    price = tables::rate("shore_each").value * material_scale(site.job);
  found.lines.push_back({id, need.item, need.quantity, need.unit, from, "put_back", price, grows_with(site, deck, need.item)});
  if (price == 0) found.notes.push_back("No price is known for " + need.item + ": ask the yard.");
}

}  // namespace

void put_back_floor(const Site& site, TakeOff& found) {
  const Layer* deck = structural_deck(site.job);
  const bool from_option = site.option && !site.option->materials.empty();
  bool option_brings_deck = false;
  if (from_option) {
    option_sticks(site, deck, found);
    for (std::size_t i = 0; i < site.option->materials.size(); ++i) {
      option_rest(site, deck, site.option->materials[i], i, found);
      option_brings_deck = option_brings_deck || speaks_of(site.option->materials[i].item, kDeckWords);
    }
  }
  if (deck && !option_brings_deck) {
    if (is_plank(*deck))
      planks_back(site, *deck, found);
    else if (is_sheet(*deck))
      sheets_back(site, *deck, found);
  }
  const bool option_blocks = from_option && std::any_of(site.option->materials.begin(), site.option->materials.end(),
                                                        [](const floor::MaterialNeed& n) { return speaks_of(n.item, {"block"}); });
  if (!option_blocks) blocking_back(site, found);
  double plate_ft = 0, board_sf = 0;
  for (const auto& [wall, feet] : site.cut.plate_ft) plate_ft += feet;
  for (const auto& [wall, sf] : site.cut.wallboard_sf) board_sf += sf;
  if (plate_ft > 0)
    add_line(found, "back.plate", good(site.job, "plate_stock"), plate_ft * (1 + kWaste), figure_text(plate_ft) + " lf taken out, with 10 percent waste",
             "put_back", "plate_ft");
  if (board_sf > 0) {
    const auto sheet = good(site.job, "wallboard");
    add_line(found, "back.wallboard", sheet, packs(board_sf * (1 + kWaste), sheet.covers), figure_text(board_sf) + " sf cut off, with 10 percent waste",
             "put_back", "wallboard_sf");
  }
}

}  // namespace awlmark::takeoff
