// What comes out, and the debris it makes.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "tables/materials.hpp"
#include "tables/usual.hpp"
#include "takeoff/parts.hpp"
#include "takeoff/quantities.hpp"

namespace awlmark::takeoff {
namespace {

void add_debris(Material material, double area_sf, double thick_in, TakeOff& found) {
  const auto debris = debris_of(material, area_sf, thick_in);
  found.debris_lb += debris.lb;
  found.debris_yd3 += debris.yd3;
}

int pieces_out(const cutback::CutBack& cut, const std::string& layer) {
  return static_cast<int>(std::count_if(cut.pieces.begin(), cut.pieces.end(), [&](const cutback::Piece& p) { return p.out && p.layer == layer; }));
}

void layers_out(const Site& site, TakeOff& found) {
  for (const auto& layer : site.job.layers) {
    const auto area = site.cut.area_sf.find(layer.id);
    if (area == site.cut.area_sf.end() || area->second <= 0) continue;
    const auto& facts = tables::material_facts(doc::word_of(layer.material));
    const double thick_in = thickness_in(layer);
    const int pieces = pieces_out(site.cut, layer.id);
    found.lines.push_back({"out." + layer.id, "take out " + facts.spoken, area->second, "sf",
                           layer.id + ": " + figure_text(area->second) + " sf" +
                               (pieces > 0 ? " of " + std::to_string(pieces) + (pieces == 1 ? " piece" : " pieces") : std::string()) +
                               ", measured from the cut-back",
                           "take_out", 0, with_layer(layer.id)});
    add_debris(layer.material, area->second, thick_in, found);
  }
}

void walls_out(const Site& site, TakeOff& found) {
  const double plate_ft = site.cut.quantities.plate_ft, board_sf = site.cut.quantities.wallboard_sf;
  if (plate_ft > 0) {
    found.lines.push_back({"out.plate", "take out bottom plate", plate_ft, "lf", "length of the plate pieces", "take_out", 0, {goods::Extent::plate_ft, {}}});
    add_debris(Material::wall_plate, plate_ft * tables::usual().plate_width_in / 12, tables::usual().plate_thickness_in, found);
  }
  if (board_sf > 0) {
    found.lines.push_back({"out.wallboard",
                           "cut off wallboard",
                           board_sf,
                           "sf",
                           "strip above the plates, both lengths and height as cut",
                           "take_out",
                           0,
                           {goods::Extent::wallboard_sf, {}}});
    add_debris(Material::gypsum_board, board_sf, tables::usual().wallboard_in, found);
  }
}

}  // namespace

void take_out(const Site& site, TakeOff& found) {
  layers_out(site, found);
  walls_out(site, found);
  for (const auto& fixture : site.job.fixtures)
    if (fixture.stands)
      found.lines.push_back({"lift." + fixture.id, "lift " + doc::spoken(fixture.kind), 1, "each", fixture.id + " stands in the room", "take_out", 0, {}});
  double edge_ft = 0;
  for (const auto& edge : site.cut.edges)
    if (edge.kind == cutback::EdgeKind::rip || edge.kind == cutback::EdgeKind::cross_on_support || edge.kind == cutback::EdgeKind::cross_in_air)
      edge_ft += edge.length_in / 12;
  if (edge_ft > 0)
    found.lines.push_back(
        {"out.edges", "saw cut", edge_ft, "lf", "edges of the cut-back by kind, without walls and seams", "take_out", 0, {goods::Extent::saw_ft, {}}});
  found.bags = bags_for(found.debris_lb, found.debris_yd3);
}

void protect(const Site& site, TakeOff& found) {
  constexpr double kRoute_sf = 60;  // a walkway of 3 ft for 20 ft
  constexpr double kCeiling_ft = 8;
  const bool lived_in = site.job.job.occupied.value_or(true);
  double plastic_sf = kRoute_sf;
  std::string from = "walkway of 3 x 20 ft";
  if (lived_in) {
    double doors_ft = 0;
    for (const auto& door : site.job.room.doors) doors_ft += distance_in(door.from_in, door.to_in) / 12;
    plastic_sf += 2 * doors_ft * kCeiling_ft;
    from += ", two curtains at each door, 8 ft high";
  }
  add_line(found, "protect.plastic", good(site.job, "plastic"), plastic_sf, from, "protect");
  const int crew = site.job.work && site.job.work->crew ? *site.job.work->crew : 2;
  add_line(found, "protect.masks", good(site.job, "mask"), 2 * crew, "two a person for the days of tear-out", "protect");
  if (found.bags > 0) {
    add_line(found, "protect.bags", good(site.job, "bag"), found.bags,
             figure_text(found.debris_lb, 0) + " lb and " + figure_text(found.debris_yd3, 2) + " yd3 loose; 50 lb or 60 percent full, whichever comes first",
             "protect");
    add_line(found, "protect.dump", good(site.job, "dump"), found.debris_lb, "weight of what comes out", "protect");
    const auto load = good(site.job, "dump_load");
    add_line(found, "protect.dump_load", load, packs(found.debris_lb, load.covers), figure_text(load.covers, 0) + " lb a load", "protect");
  }
}

}  // namespace awlmark::takeoff
