// The floor that goes back: what the chosen option needs, or, without one, like for like from the
// pieces that came out.
#include <algorithm>
#include <cmath>
#include <map>

#include "base/length.hpp"
#include "tables/materials.hpp"
#include "tables/usual.hpp"
#include "takeoff/parts.hpp"
#include "takeoff/sheets.hpp"

namespace awlmark::takeoff {
namespace {

constexpr double kJoin_in = 0.75;  // pieces of one plank this close are one new plank
constexpr double kSheet_sf = 32;   // 4 x 8 ft

bool is_plank(const Layer& layer) { return layer.material == Material::board || layer.material == Material::plank_tg; }
bool is_sheet(const Layer& layer) { return layer.material == Material::plywood || layer.material == Material::osb; }

struct Extent {
  double from_in = 0;
  double to_in = 0;
};

// New planks: the bays of one plank that touch come back as one piece.
std::vector<PieceNeed> plank_pieces(const cutback::CutBack& cut, const Layer& layer, int& bearings) {
  std::map<int, std::vector<Extent>> by_plank;
  for (const auto& piece : cut.pieces)
    if (piece.out && !piece.by_way && piece.layer == layer.id && piece.row >= 0) by_plank[piece.row].push_back({piece.from_in, piece.to_in});
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
  const goods::Section section{
      goods::nominal_in(thickness_in(layer)),
      goods::nominal_in(layer.face_width_in.value_or(tables::material_facts(doc::word_of(layer.material)).usual_width_in.value_or(5.5))), 1};
  const auto plank = goods::planks(format_number(section.b_in, section.b_in == std::floor(section.b_in) ? 0 : 2) + "x" + format_number(section.d_in, 0) + " " +
                                       tables::material_facts(doc::word_of(layer.material)).spoken,
                                   section, 12, 1);
  buy_sticks(site.job, "back." + layer.id, plank.item, goods::unit_price(site.job, plank), std::move(pieces),
             std::to_string(count) + " new planks, bays of one plank joined", with_layer(layer.id), found);
  add_line(found, "back." + layer.id + ".screws", good(site.job, "deck_screw"), 2.0 * bearings, "two at each of " + std::to_string(bearings) + " bearings",
           "put_back", with_layer(layer.id));
}

void sheets_back(const Site& site, const Layer& layer, TakeOff& found) {
  const auto outlines = site.cut.outlines_in.find(layer.id);
  if (outlines == site.cut.outlines_in.end()) return;
  const auto count = lay_sheets(outlines->second, layer_runs(site.job, layer).degrees);
  if (count.sheets == 0) return;
  const auto& facts = tables::material_facts(doc::word_of(layer.material));
  const auto panel = goods::panels(goods::Kind::deck_panel, facts.spoken, thickness_in(layer), "", count.area_sf);
  found.lines.push_back({"back." + layer.id, facts.spoken + " " + format_inches(thickness_in(layer)) + ", 4 x 8 ft", static_cast<double>(count.sheets), "sheet",
                         layer.id + ": " + std::to_string(count.pieces) + " pieces laid out in 4 ft courses, " + figure_text(count.area_sf) + " sf", "put_back",
                         goods::unit_price(site.job, panel) * kSheet_sf, with_layer(layer.id)});
  // Every 6 in. around each piece and 12 in. between: about 2 a square foot on 16 in. supports.
  const double screws = std::ceil(count.area_sf * 2);
  add_line(found, "back." + layer.id + ".screws", good(site.job, "deck_screw"), screws, "6 in. at edges and 12 in. between, 2 a sf", "put_back",
           with_layer(layer.id));
}

void blocking_back(const Site& site, TakeOff& found) {
  std::map<long, int> count;
  for (const auto& block : site.cut.blocking) ++count[std::lround(block.length_in * 64)];
  std::vector<PieceNeed> pieces;
  for (const auto& [length, number] : count)
    if (length > 0) pieces.push_back({static_cast<double>(length) / 64, number});
  if (pieces.empty()) return;
  // Blocking is as deep as what it braces; unknown depth takes 2x8.
  goods::Section section{2, 8, 1};
  for (const auto& support : site.job.supports)
    if (support.size) {
      section.d_in = goods::nominal_in(support.size->d_in);
      break;
    }
  const auto block = goods::lumber(goods::Kind::blocking, "2x" + format_number(section.d_in, 0) + " blocking", section, 12, 1);
  buy_sticks(site.job, "back.blocking", block.item, goods::unit_price(site.job, block), std::move(pieces),
             std::to_string(site.cut.blocking.size()) + " blocks at the edges of the cut-back", {goods::Extent::blocking_ft, {}}, found);
}

std::string for_option(const Site& site) { return " for " + site.option->title; }

// Pieces of one item are cut from the same sticks, whatever their lengths.
void option_sticks(const Site& site, TakeOff& found) {
  const auto& list = site.option->goods;
  std::vector<char> taken(list.size(), 0);
  int line = 0;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const auto& first = list[i];
    if (taken[i] || !goods::is_lumber(first.kind) || !(first.length_in > 0)) continue;
    std::vector<PieceNeed> pieces;
    int count = 0;
    for (std::size_t k = i; k < list.size(); ++k) {
      const auto& good = list[k];
      if (good.kind != first.kind || good.item != first.item || !(good.section == first.section) || !(good.grows == first.grows) || !(good.length_in > 0))
        continue;
      taken[k] = 1;
      pieces.push_back({good.length_in, static_cast<int>(std::ceil(good.quantity * 12 / good.length_in - 1e-6))});
      count += pieces.back().count;
    }
    buy_sticks(site.job, "back.sticks." + std::to_string(++line), first.item, goods::unit_price(site.job, first), std::move(pieces),
               std::to_string(count) + (count == 1 ? " piece" : " pieces") + for_option(site), first.grows, found);
  }
}

// Panels by the sheet: laid out over the cut-back where that is what they follow, over the room where
// they cover it, else by area, whose waste the option has put in already.
void option_panels(const Site& site, const goods::Good& good, const std::string& id, TakeOff& found) {
  SheetCount laid;
  const auto across = across_supports(site.job);
  if (good.grows.with == goods::Extent::layer_sf) {
    const auto outlines = site.cut.outlines_in.find(good.grows.layer);
    if (outlines != site.cut.outlines_in.end()) laid = lay_sheets(outlines->second, across.runs_degrees, {}, 0.125, across.joints);
  } else {
    // An overlay's joints keep off the joints below, and so off the supports; a deck's lie on them.
    laid = good.kind == goods::Kind::overlay ? lay_sheets({site.job.room.outline_in}, across.runs_degrees, {}, 0.125, {{}, true})
                                             : lay_sheets({site.job.room.outline_in}, across.runs_degrees, {}, 0.125, across.joints);
    constexpr double kPart = 0.95;  // less than the room: a bay of it
    if (good.quantity < kPart * area_in2(site.job.room.outline_in) / 144) laid = {};
  }
  const double sheets = laid.sheets > 0 ? laid.sheets : packs(good.quantity, kSheet_sf);
  found.lines.push_back(
      {id, good.item + ", 4 x 8 ft", sheets, "sheet",
       (laid.sheets > 0 ? std::to_string(laid.pieces) + (good.kind == goods::Kind::overlay
                                                             ? " pieces laid out in 4 ft courses, ends staggered,"
                                                             : " pieces laid out in 4 ft courses across the supports, ends on them and staggered,")
                        : "by area " + waste_words(tables::usual().waste_share) + ",") +
           for_option(site),
       "put_back", goods::unit_price(site.job, good) * kSheet_sf, good.grows});
}

void option_rest(const Site& site, const goods::Good& good, std::size_t index, TakeOff& found) {
  const std::string id = "back.option." + std::to_string(index + 1);
  if (goods::is_lumber(good.kind) && good.length_in > 0) return;  // bought as sticks
  if (goods::sold_in_sheets(good.kind) && good.unit == goods::Unit::sf) return option_panels(site, good, id, found);
  const double price = goods::unit_price(site.job, good);
  found.lines.push_back({id, good.item, good.quantity, doc::word_of(good.unit), for_option(site).substr(1), "put_back", price, good.grows});
  if (price == 0) found.notes.push_back("No price is known for " + good.item + ": ask the yard.");
}

}  // namespace

void put_back_floor(const Site& site, TakeOff& found) {
  const Layer* deck = structural_deck(site.job);
  const auto option_has = [&](auto which) { return site.option && std::any_of(site.option->goods.begin(), site.option->goods.end(), which); };
  if (site.option) {
    option_sticks(site, found);
    for (std::size_t i = 0; i < site.option->goods.size(); ++i) option_rest(site, site.option->goods[i], i, found);
  }
  if (deck && !option_has([](const goods::Good& good) { return goods::makes_deck(good.kind); })) {
    if (is_plank(*deck))
      planks_back(site, *deck, found);
    else if (is_sheet(*deck))
      sheets_back(site, *deck, found);
  }
  if (!option_has([](const goods::Good& good) { return good.kind == goods::Kind::blocking; })) blocking_back(site, found);
  const double plate_ft = site.cut.quantities.plate_ft, board_sf = site.cut.quantities.wallboard_sf;
  if (plate_ft > 0)
    add_line(found, "back.plate", good(site.job, "plate_stock"), plate_ft * (1 + tables::usual().waste_share),
             figure_text(plate_ft) + " lf taken out, " + waste_words(tables::usual().waste_share), "put_back", {goods::Extent::plate_ft, {}});
  if (board_sf > 0) {
    const auto sheet = good(site.job, "wallboard");
    add_line(found, "back.wallboard", sheet, packs(board_sf * (1 + tables::usual().waste_share), sheet.covers),
             figure_text(board_sf) + " sf cut off, " + waste_words(tables::usual().waste_share), "put_back", {goods::Extent::wallboard_sf, {}});
    const auto compound = good(site.job, "joint_compound");
    add_line(found, "back.wallboard.compound", compound, packs(board_sf, compound.covers), "tape, compound and paint for the patch", "put_back",
             {goods::Extent::wallboard_sf, {}});
  }
}

}  // namespace awlmark::takeoff
