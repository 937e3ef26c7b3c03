// What is made tight against water.
#include <algorithm>
#include <cmath>

#include "shower/site.hpp"

namespace awlmark::shower {
namespace {

constexpr double kWallAbove_in = 8;  // above a shower's opening is wall; no opening is drawn in the job

}  // namespace

WetArea wet_area(const Place& place) {
  WetArea out;
  out.floor_sf = area_in2(place.ring) / 144;
  double walls_in = 0;
  Region band;
  std::vector<Polygon> strips;
  for (const auto& side : place.sides) {
    if (!side.open)
      walls_in += side.length_in();
    else if (place.plan.entry != Entry::curb)
      strips.push_back(strip(side, rule("band")));
  }
  if (!strips.empty())
    for (const auto& part : intersect(unite(strips), as_region(place.job.room.outline_in))) {
      out.band_in.push_back(part.outline);
      out.band_sf += area_in2(part.outline) / 144;
    }
  out.turn_up_sf = walls_in * rule("turn_up") / 144;
  out.total_sf = out.floor_sf + out.band_sf + out.turn_up_sf;
  out.wall_height_in = rule("wall_height");
  out.wall_sf = walls_in * (out.wall_height_in + kWallAbove_in) / 144;
  for (const char* id : {"turn_up", "wall_height"}) out.reasons.push_back(rule_reason(id));
  if (!strips.empty()) out.reasons.push_back(rule_reason("band"));
  return out;
}

}  // namespace awlmark::shower
