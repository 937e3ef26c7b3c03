// The new finish and the shower.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "tables/materials.hpp"
#include "tables/usual.hpp"
#include "takeoff/parts.hpp"
#include "takeoff/quantities.hpp"
#include "takeoff/sheets.hpp"

namespace awlmark::takeoff {
namespace {

constexpr double kTileSpare = 0.05;  // breakage, where the layout counts the cuts
// A notch of 1/4 x 3/8 in. leaves a mean bed of 3/16 in. held upright, about 0.7 of it held slanted.
constexpr double kBed_in = 0.1875 * 0.7;
constexpr double kTile_in = 12, kJoint_in = 0.125, kTileThick_in = 0.375;
constexpr double kBandOutside_in = 12;  // of membrane past the entry: trade habit
constexpr double kTurnUp_in = 3;

void tile_goods(const Site& site, double area_sf, const std::string& where, const std::string& id, TakeOff& found) {
  const auto& job = site.job;
  const auto bed = good(job, "thinset");
  add_line(found, id + ".thinset", bed, packs(area_sf * kBed_in / 12 * 2, bed.covers),
           "bed of about 1/8 in. under the backer and under the tile, " + figure_text(area_sf) + " sf of " + where, "put_back");
  const auto joints = good(job, "grout");
  const double grout_ft3 = grout_volume(kTile_in, kTile_in, kJoint_in, kTileThick_in, area_sf).volume_in3 / 1728 * (1 + tables::usual().waste_grout_share);
  add_line(found, id + ".grout", joints, packs(grout_ft3, joints.covers),
           "12 in. tile, joints 1/8 by 3/8 in., " + figure_text(grout_ft3, 3) + " ft3 with 15 percent waste", "put_back");
}

// Tiles as the layout counts them and some for breakage, else area and some for cuts.
void add_tile(const std::optional<double>& laid_sf, double area_sf, const std::string& where, const std::string& id, const Stocked& what, TakeOff& found) {
  if (laid_sf && *laid_sf > 0)
    add_line(
        found, id, what, *laid_sf * (1 + kTileSpare),
        figure_text(*laid_sf) + " sf of tiles by the layout, whole and cut, for " + figure_text(area_sf) + " sf of " + where + ", with 5 percent for breakage",
        "put_back");
  else
    add_line(found, id, what, area_sf * (1 + tables::usual().waste_share), figure_text(area_sf) + " sf of " + where + ", with 10 percent for cuts", "put_back");
}

void tile_floor(const Site& site, double area_sf, TakeOff& found) {
  const auto& job = site.job;
  add_tile(site.shower.room_tile_sf, area_sf, "floor", "finish.tile", good(job, job.rebuild->finish == Finish::stone_tile ? "stone_tile" : "tile"), found);
  const auto board = good(job, "cement_board");
  const auto laid = lay_sheets({job.room.outline_in}, 0, {60, 36}, 0.125);
  // Sheets over the shower are not laid: take them off by area, which the layout cannot see.
  const double room_sf = area_in2(job.room.outline_in) / 144;
  const double sheets = packs(laid.sheets * area_sf / std::max(room_sf, 1e-9), 1);
  add_line(found, "finish.backer", board, sheets, "3 x 5 ft sheets laid out over the room, " + figure_text(area_sf) + " sf of it", "put_back");
  add_line(found, "finish.backer_screws", good(job, "backer_screw"), sheets * 54, "6 rows of 9 a sheet", "put_back");
  tile_goods(site, area_sf, "floor", "finish", found);
}

void sheet_floor(const Site& site, double area_sf, TakeOff& found) {
  constexpr double kRoll_in = 144;
  const auto box = bounds(site.job.room.outline_in);
  // Off a 12 ft roll the short way of the room, 3 in. over at each end.
  const double across = std::min(box.width_in(), box.height_in()), along = std::max(box.width_in(), box.height_in());
  const double runs = std::ceil(across / kRoll_in - 1e-9);
  const double sf = std::max(area_sf, runs * (along + 6) * std::min(across + 6, kRoll_in) / 144);
  add_line(found, "finish.sheet", good(site.job, "sheet_vinyl"), sf, "off a 12 ft roll, 3 in. over at each side", "put_back");
  const auto under = good(site.job, "underlayment");
  const auto laid = lay_sheets({site.job.room.outline_in}, 0);
  add_line(found, "finish.underlayment", under, laid.sheets, "laid out in 4 ft courses over the room", "put_back");
}

// Without a new finish the old one is mended over the cut-back.
void patch(const Site& site, TakeOff& found) {
  for (const auto& layer : site.job.layers) {
    const auto area = site.cut.area_sf.find(layer.id);
    const auto& facts = tables::material_facts(doc::word_of(layer.material));
    if (facts.kind != "finish" && facts.kind != "underlayment") continue;
    if (area == site.cut.area_sf.end() || area->second <= 0) continue;
    Stocked what = good(site.job, facts.kind == "underlayment" ? "underlayment" : "other_finish");
    what.item = facts.spoken + " to match";
    const double quantity =
        facts.kind == "underlayment" ? packs(area->second * (1 + tables::usual().waste_share), what.covers) : area->second * (1 + tables::usual().waste_share);
    add_line(found, "finish." + layer.id, what, quantity, layer.id + ": " + figure_text(area->second) + " sf, with 10 percent for cuts", "put_back",
             with_layer(layer.id));
  }
}

}  // namespace

bool is_tile(Finish finish) { return finish == Finish::porcelain_tile || finish == Finish::ceramic_tile || finish == Finish::stone_tile; }

double finish_area_sf(const Job& job) {
  Region left = as_region(job.room.outline_in);
  if (job.shower) left = subtract(left, as_region(job.shower->outline_in));
  for (const auto& fixture : job.fixtures)
    if (fixture.stands && (fixture.kind == FixtureKind::tub || (fixture.kind == FixtureKind::shower && !job.shower)))
      left = subtract(left, as_region(fixture.outline_in));
  return area_in2(left) / 144;
}

double perimeter_ft(const Job& job) {
  double sum_in = 0;
  const auto& ring = job.room.outline_in;
  for (std::size_t i = 0; i < ring.size(); ++i) sum_in += distance_in(ring[i], ring[(i + 1) % ring.size()]);
  for (const auto& door : job.room.doors) sum_in -= distance_in(door.from_in, door.to_in);
  return std::max(0.0, sum_in) / 12;
}

void put_back_finish(const Site& site, TakeOff& found) {
  const auto& job = site.job;
  if (!job.rebuild) {
    patch(site, found);
  } else {
    const double area_sf = finish_area_sf(job);
    if (is_tile(job.rebuild->finish)) {
      tile_floor(site, area_sf, found);
    } else if (job.rebuild->finish == Finish::sheet_vinyl) {
      sheet_floor(site, area_sf, found);
    } else {
      add_line(found, "finish.floor", good(job, "other_finish"), area_sf * (1 + tables::usual().waste_share),
               figure_text(area_sf) + " sf of floor, " + waste_words(tables::usual().waste_share), "put_back");
    }
  }
  add_line(found, "finish.base", good(job, "base"), perimeter_ft(job) * (1 + tables::usual().waste_share),
           figure_text(perimeter_ft(job)) + " lf of wall without doors, " + waste_words(tables::usual().waste_share), "put_back");
  const auto bead = good(job, "sealant");
  add_line(found, "finish.sealant", bead, packs(perimeter_ft(job), bead.covers), "a bead along the walls, 40 ft a cartridge", "put_back");
  for (const auto& fixture : job.fixtures) {
    if (fixture.kind == FixtureKind::cabinet || fixture.kind == FixtureKind::other || !fixture.stands) continue;
    const bool toilet = fixture.kind == FixtureKind::toilet;
    add_line(found, "finish.set." + fixture.id, good(job, toilet ? "wax_ring" : "fixture_fittings"), 1, fixture.id + " goes back", "put_back");
  }
}

void put_in_shower(const Site& site, TakeOff& found) {
  const auto& job = site.job;
  if (!job.shower || job.shower->outline_in.size() < 3) return;
  const auto& outline = job.shower->outline_in;
  const double area_sf = area_in2(outline) / 144;
  // Without a pan that can be laid there is no bed to buy.
  const double bed_ft3 = site.shower.bed_ft3.value_or(0);
  const auto mortar = good(job, "pan_mortar");
  add_line(found, "shower.bed", mortar, packs(bed_ft3 * (1 + tables::usual().waste_bed_share), mortar.covers),
           figure_text(bed_ft3, 2) + " ft3 of sloped bed, " + waste_words(tables::usual().waste_bed_share), "put_back");
  add_line(found, "shower.drain", good(job, "shower_drain"), 1, "one drain", "put_back");
  double around_in = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) around_in += distance_in(outline[i], outline[(i + 1) % outline.size()]);
  const double by_outline_sf =
      area_sf + around_in * kTurnUp_in / 144 + (job.shower->entry == Entry::flush ? std::sqrt(area_in2(outline)) * kBandOutside_in / 144 : 0);
  const double membrane_sf = site.shower.membrane_sf.value_or(by_outline_sf);
  add_line(found, "shower.membrane", good(job, "tile_membrane"), membrane_sf * (1 + tables::usual().waste_share),
           "floor, 3 in. up the walls" + std::string(job.shower->entry == Entry::flush ? ", 12 in. past the entry" : "") + ", with 10 percent for laps",
           "put_back");
  add_tile(site.shower.pan_tile_sf, area_sf, "shower floor", "shower.tile", good(job, "shower_tile"), found);
  tile_goods(site, area_sf, "shower floor", "shower", found);
  found.notes.push_back("Shower walls, valve and glass are not in this take-off: the job document holds the floor only.");
}

}  // namespace awlmark::takeoff
