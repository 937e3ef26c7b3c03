// Clear floor at shower and toilets by code family, and by the accessible-design standard where the job
// asks for it; what the walls need behind them.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "shower/site.hpp"

namespace awlmark::shower {
namespace {

constexpr double kLook_in = 84;  // no rule asks for more

void at_least(Shower& found, const std::string& id, const std::string& member, const std::string& row, PlumbingCode code, double has,
              const std::string& words) {
  Reason reason = rule_reason(row, code);
  reason.rule = words;
  found.checks.push_back(make_check(id, member, "clearance", rule(row, code), has, reason));
}

// Whether something stands in the way within this region: a wall, or a fixture of those that count.
template <class Counts>
bool blocked(const Place& place, const Region& front, Counts counts) {
  constexpr double kCrumb_in2 = 2;
  if (area_in2(subtract(front, as_region(place.job.room.outline_in))) > kCrumb_in2) return true;
  for (const auto& fixture : place.job.fixtures)
    if (counts(fixture) && area_in2(intersect(front, as_region(fixture.outline_in))) > kCrumb_in2) return true;
  return false;
}

// Clear floor in front of a side: the depth to which nothing of the other fixtures or walls comes.
double clear_before_in(const Place& place, const Side& side, double at_most_in) {
  const auto counts = [](const Fixture& f) { return f.kind != FixtureKind::shower && f.kind != FixtureKind::tub; };
  for (double depth = 1; depth <= at_most_in; depth += 1)
    if (blocked(place, as_region(strip(side, depth)), counts)) return depth - 1;
  return at_most_in;
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

// A toilet as it stands: its back at the nearest wall, its middle line out into the room.
struct Seat {
  Point back;  // middle of its back
  Point out;   // unit, into the room
  double length_in = 0, width_in = 0;
};

Seat seat_of(const Place& place, const Polygon& ring) {
  const auto& room = place.job.room.outline_in;
  double nearest = 1e300;
  std::size_t back = 0;
  const auto to_wall = [&](Point p) {
    double least = 1e300;
    for (std::size_t i = 0; i < room.size(); ++i) least = std::min(least, distance_to_segment_in(p, room[i], room[(i + 1) % room.size()]));
    for (const auto& wall : place.job.walls) least = std::min(least, distance_to_segment_in(p, wall.from_in, wall.to_in));
    return least;
  };
  for (std::size_t i = 0; i < ring.size(); ++i) {
    // The back is a short side: a bowl is longer than it is wide.
    const Point a = ring[i], b = ring[(i + 1) % ring.size()];
    const double away = std::max(to_wall(a), to_wall(b)) + 0.01 * distance_in(a, b);
    if (away >= nearest) continue;
    nearest = away;
    back = i;
  }
  const Point a = ring[back], b = ring[(back + 1) % ring.size()], middle = centroid(ring);
  Seat seat;
  seat.back = between(a, b, 0.5);
  seat.width_in = distance_in(a, b);
  Point n{-(b.y_in - a.y_in) / seat.width_in, (b.x_in - a.x_in) / seat.width_in};
  if ((middle.x_in - seat.back.x_in) * n.x_in + (middle.y_in - seat.back.y_in) * n.y_in < 0) n = {-n.x_in, -n.y_in};
  seat.out = n;
  for (const Point& p : ring) seat.length_in = std::max(seat.length_in, (p.x_in - seat.back.x_in) * n.x_in + (p.y_in - seat.back.y_in) * n.y_in);
  return seat;
}

// A rectangle in the seat's own frame: from the back outward, and to its left (positive) and right.
Region beside(const Seat& seat, double out0, double out1, double left0, double left1) {
  const Point left{-seat.out.y_in, seat.out.x_in};
  const auto at = [&](double o, double l) {
    return Point{seat.back.x_in + seat.out.x_in * o + left.x_in * l, seat.back.y_in + seat.out.y_in * o + left.y_in * l};
  };
  Polygon ring{at(out0, left0), at(out1, left0), at(out1, left1), at(out0, left1)};
  if (signed_area_in2(ring) < 0) std::reverse(ring.begin(), ring.end());
  return as_region(ring);
}

struct Around {
  double left_in = kLook_in, right_in = kLook_in, front_in = kLook_in;
};

Around around(const Place& place, const Fixture& toilet, const Seat& seat) {
  // A shower without a curb is floor that one may stand on; beside the seat its glass may stand.
  const Region shower = as_region(place.ring);
  const auto counts = [&](const Fixture& f) { return f.id != toilet.id && f.kind != FixtureKind::shower; };
  const auto hit = [&](const Region& part, bool shower_counts) {
    return blocked(place, part, counts) || (shower_counts && area_in2(intersect(part, shower)) > 2);
  };
  Around out;
  const double from = 1;  // the wall behind may be out of true
  for (double reach = 1; reach <= kLook_in && out.left_in == kLook_in; reach += 0.5)
    if (hit(beside(seat, from, seat.length_in, 0, reach), true)) out.left_in = reach - 0.5;
  for (double reach = 1; reach <= kLook_in && out.right_in == kLook_in; reach += 0.5)
    if (hit(beside(seat, from, seat.length_in, -reach, 0), true)) out.right_in = reach - 0.5;
  const double half = seat.width_in / 2;
  for (double reach = 1; reach <= kLook_in && out.front_in == kLook_in; reach += 0.5)
    if (hit(beside(seat, seat.length_in, seat.length_in + reach, -half, half), place.plan.entry == Entry::curb)) out.front_in = reach - 0.5;
  return out;
}

void accessible_toilet(const Fixture& toilet, const Seat& seat, const Around& clear, Shower& found) {
  const auto any = PlumbingCode::irc;
  const double side = std::min(clear.left_in, clear.right_in);
  at_least(found, "accessible." + toilet.id + ".side", toilet.id, "toilet_side_accessible", any, side, "middle of the toilet to the side wall");
  Reason most = rule_reason("toilet_side_most");
  most.rule = "middle of the toilet to the side wall, at most";
  found.checks.push_back(make_check("accessible." + toilet.id + ".side_most", toilet.id, "reach", side, rule("toilet_side_most"), most));
  at_least(found, "accessible." + toilet.id + ".across", toilet.id, "toilet_space_across", any, clear.left_in + clear.right_in,
           "clear floor across the toilet, from its side wall");
  at_least(found, "accessible." + toilet.id + ".out", toilet.id, "toilet_space_out", any, seat.length_in + clear.front_in,
           "clear floor from the wall behind the toilet");
  if (side > rule("toilet_side_most") + 1e-9)
    found.conflicts.push_back("The accessible-design standard wants the middle of " + toilet.id + " 16 to 18 in. from its side wall; it is " +
                              format_inches(side) + ".");
}

void toilet_checks(const Place& place, Shower& found) {
  const auto code = place.job.job.plumbing_code;
  for (const auto& fixture : place.job.fixtures) {
    if (fixture.kind != FixtureKind::toilet || fixture.outline_in.size() < 3) continue;
    const Seat seat = seat_of(place, fixture.outline_in);
    const Around clear = around(place, fixture, seat);
    at_least(found, fixture.id + ".side", fixture.id, "toilet_side", code, std::min(clear.left_in, clear.right_in),
             "middle of " + fixture.id + " to the nearest wall or fixture beside it");
    at_least(found, fixture.id + ".front", fixture.id, "toilet_front", code, clear.front_in, "clear floor before " + fixture.id);
    if (place.plan.accessible.value_or(false)) accessible_toilet(fixture, seat, clear, found);
  }
}

void accessible_shower(const Place& place, Shower& found) {
  if (!place.plan.accessible.value_or(false)) return;
  const auto any = PlumbingCode::irc;
  const Box box = bounds(place.ring);
  const double shorter = std::min(box.width_in(), box.height_in()), longer = std::max(box.width_in(), box.height_in());
  const bool transfer = std::fabs(shorter - rule("transfer_side")) < 0.5 && std::fabs(longer - rule("transfer_side")) < 0.5;
  if (!transfer) {
    at_least(found, "accessible.short", "shower", "roll_in_short", any, shorter, "short side of a roll-in shower");
    at_least(found, "accessible.long", "shower", "roll_in_long", any, longer, "long side of a roll-in shower");
  }
  const Side* open = longest_open(place);
  if (!open) return;
  const bool narrow_will_do = transfer || shorter >= rule("entry_alternate") - 0.5;
  at_least(found, "accessible.entry", "shower", narrow_will_do ? "entry_alternate" : "entry_roll_in", any, open->length_in(), "entry of the shower");
  at_least(found, "accessible.space", "shower", transfer ? "space_transfer_deep" : "roll_in_short", any, clear_before_in(place, *open, 48),
           "clear floor along the entry");
}

}  // namespace

void accessible_step(const Place& place, const ShowerAnswer& answer, Shower& found) {
  if (!place.plan.accessible.value_or(false)) return;
  Reason reason = rule_reason("step_bevel");
  reason.rule = "threshold of the shower, bevelled above 1/4 in.";
  found.checks.push_back(make_check("accessible.threshold", "shower", "step", std::fabs(answer.step_at_entry_in), rule("step_bevel"), reason));
  if (!found.checks.back().ok)
    found.conflicts.push_back("The accessible-design standard allows a threshold of 1/2 in.; this way has " +
                              format_inches(std::fabs(answer.step_at_entry_in)) + ".");
}

void clearances(const Place& place, Shower& found) {
  size_checks(place, found);
  toilet_checks(place, found);
  accessible_shower(place, found);
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
