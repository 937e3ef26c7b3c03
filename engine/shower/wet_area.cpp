// What is made tight against water, what clear floor the codes ask for, what the walls need behind them.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "shower/site.hpp"

namespace awlmark::shower {
namespace {

constexpr double kWallAbove_in = 8;  // above a shower's opening is wall; no opening is drawn in the job

Polygon strip(const Side& side, double depth_in) {
  // The ring runs counter-clockwise: outside lies to the right of the side.
  const double length = side.length_in();
  const Point out{(side.to.y_in - side.from.y_in) / length * depth_in, -(side.to.x_in - side.from.x_in) / length * depth_in};
  return {side.from, {side.from.x_in + out.x_in, side.from.y_in + out.y_in}, {side.to.x_in + out.x_in, side.to.y_in + out.y_in}, side.to};
}

void at_least(Shower& found, const std::string& id, const std::string& member, const std::string& row, PlumbingCode code, double has,
              const std::string& words) {
  Reason reason = rule_reason(row, code);
  reason.rule = words;
  found.checks.push_back(make_check(id, member, "clearance", rule(row, code), has, reason));
}

// Clear floor in front of a side: the depth to which nothing of the other fixtures or walls comes.
double clear_before_in(const Place& place, const Side& side, double at_most_in) {
  double clear = at_most_in;
  for (double depth = 1; depth <= at_most_in; depth += 1) {
    const Region front = as_region(strip(side, depth));
    bool blocked = area_in2(subtract(front, as_region(place.job.room.outline_in))) > 2;
    for (const auto& fixture : place.job.fixtures)
      if (fixture.kind != FixtureKind::shower && fixture.kind != FixtureKind::tub && area_in2(intersect(front, as_region(fixture.outline_in))) > 2)
        blocked = true;
    if (!blocked) continue;
    clear = depth - 1;
    break;
  }
  return clear;
}

const Side* longest_open(const Place& place) {
  const Side* longest = nullptr;
  for (const auto& side : place.sides)
    if (side.open && (!longest || side.length_in() > longest->length_in())) longest = &side;
  return longest;
}

void size_checks(const Place& place, Shower& found) {
  const auto code = place.job.job.plumbing_code;
  const double area = area_in2(place.ring);
  const Box box = bounds(place.ring);
  const double side = std::min(box.width_in(), box.height_in());
  at_least(found, "size.area", "shower", "area_least", code, area, "area of the shower");
  const bool exception = code == PlumbingCode::irc && side >= rule("side_exception", code) && area >= rule("area_exception", code);
  at_least(found, "size.side", "shower", exception ? "side_exception" : "side_least", code, side, "least side of the shower");
  if (const Side* open = longest_open(place)) {
    at_least(found, "opening", "shower", "opening_least", code, open->length_in(), "opening into the shower");
    at_least(found, "front", "shower", "front_shower", code, clear_before_in(place, *open, 48), "clear floor before the opening");
  }
}

void toilet_checks(const Place& place, Shower& found) {
  const auto code = place.job.job.plumbing_code;
  for (const auto& fixture : place.job.fixtures) {
    if (fixture.kind != FixtureKind::toilet) continue;
    const Point middle = centroid(fixture.outline_in);
    const double beside = distance_to_in(place.ring, middle);
    if (beside < 40) at_least(found, fixture.id + ".side", fixture.id, "toilet_side", code, beside, "middle of the toilet to the shower");
  }
}

void accessible_checks(const Place& place, Shower& found) {
  if (!place.plan.accessible.value_or(false)) return;
  const Box box = bounds(place.ring);
  const double shorter = std::min(box.width_in(), box.height_in()), longer = std::max(box.width_in(), box.height_in());
  const bool transfer = std::fabs(shorter - rule("transfer_side")) < 0.5 && std::fabs(longer - rule("transfer_side")) < 0.5;
  if (!transfer) {
    at_least(found, "accessible.short", "shower", "roll_in_short", PlumbingCode::irc, shorter, "short side of a roll-in shower");
    at_least(found, "accessible.long", "shower", "roll_in_long", PlumbingCode::irc, longer, "long side of a roll-in shower");
  }
  const Side* open = longest_open(place);
  if (open) at_least(found, "accessible.space", "shower", "roll_in_short", PlumbingCode::irc, clear_before_in(place, *open, 48), "clear floor along the entry");
}

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

void clearances(const Place& place, Shower& found) {
  size_checks(place, found);
  toilet_checks(place, found);
  accessible_checks(place, found);
  std::string walls;
  for (std::size_t i = 0; i < place.sides.size(); ++i) {
    const auto& side = place.sides[i];
    if (side.open || side.length_in() < 24) continue;
    found.blocking.push_back("side " + std::to_string(i + 1) + " (" + format_inches(side.length_in()) + "): 2x8 flat between the studs, " +
                             format_inches(rule("bar_low") - 2) + " to " + format_inches(rule("bar_high") + 2) +
                             " above the finished floor, for bars that hold " + format_number(rule("bar_load"), 0) + " lb");
  }
  if (!found.blocking.empty()) found.blocking.push_back("at the jambs of the glass and at the valve: 2x6 flat between the studs");
}

}  // namespace awlmark::shower
