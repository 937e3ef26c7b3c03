#include "shower/site.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "tables/table.hpp"

namespace awlmark::shower {
namespace {

constexpr double kAtWall_in = 4;  // a side this near a wall lies along it
constexpr double kBehind_in = 4;  // a line drain this near a wall is the wall's
constexpr double kShort_in = 6;   // a line drain that ends this near the walls reaches them

const tables::Row& rule_row(const std::string& id, PlumbingCode code) {
  const auto& table = tables::table("shower_rules.csv");
  const auto* row = table.find("id", id, "code", code == PlumbingCode::upc ? "upc" : "irc");
  if (!row) row = table.find("id", id, "code", "any");
  if (!row) throw std::logic_error("shower_rules.csv has no row " + id);
  return *row;
}

const tables::Row& build_row(const std::string& id) {
  const auto* row = tables::table("shower_build.csv").find("id", id);
  if (!row) throw std::logic_error("shower_build.csv has no row " + id);
  return *row;
}

double to_ring_in(const Polygon& ring, Point p) {
  double least = 1e300;
  for (std::size_t i = 0; i < ring.size(); ++i) least = std::min(least, distance_to_segment_in(p, ring[i], ring[(i + 1) % ring.size()]));
  return least;
}

bool along_wall(const Job& job, const Side& side) {
  for (const double t : {0.1, 0.5, 0.9}) {
    const Point p = between(side.from, side.to, t);
    double least = to_ring_in(job.room.outline_in, p);
    for (const auto& wall : job.walls) least = std::min(least, distance_to_segment_in(p, wall.from_in, wall.to_in));
    if (least > kAtWall_in) return false;
  }
  return true;
}

void read_sides(Place& place) {
  for (std::size_t i = 0; i < place.ring.size(); ++i) {
    Side side{place.ring[i], place.ring[(i + 1) % place.ring.size()], false};
    if (side.length_in() < 1e-6) continue;
    side.open = !along_wall(place.job, side);
    place.sides.push_back(side);
  }
  if (std::any_of(place.sides.begin(), place.sides.end(), [](const Side& s) { return s.open; })) return;
  const auto longest = std::max_element(place.sides.begin(), place.sides.end(), [](const Side& a, const Side& b) { return a.length_in() < b.length_in(); });
  if (longest == place.sides.end()) return;
  longest->open = true;
  place.assumed.push_back("every side of the shower lies along a wall: its longest side is taken as the entry");
}

// The chord of the ring along the line through a and b, about the middle of a-b.
std::optional<std::pair<Point, Point>> chord(const Polygon& ring, Point a, Point b) {
  const double length = distance_in(a, b);
  const Point u{(b.x_in - a.x_in) / length, (b.y_in - a.y_in) / length};
  double low = -1e300, high = 1e300;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point p = ring[i], q = ring[(i + 1) % ring.size()];
    const double sp = u.x_in * (p.y_in - a.y_in) - u.y_in * (p.x_in - a.x_in), sq = u.x_in * (q.y_in - a.y_in) - u.y_in * (q.x_in - a.x_in);
    if (std::fabs(sp) < 1e-9 && std::fabs(sq) < 1e-9) continue;  // a side on the line itself
    if ((sp > 1e-9 && sq > 1e-9) || (sp < -1e-9 && sq < -1e-9)) continue;
    const Point hit = between(p, q, sp / (sp - sq));
    const double at = u.x_in * (hit.x_in - a.x_in) + u.y_in * (hit.y_in - a.y_in);
    if (at <= length / 2) low = std::max(low, at);
    if (at >= length / 2) high = std::min(high, at);
  }
  if (low < -1e200 || high > 1e200) return std::nullopt;
  return std::pair{Point{a.x_in + u.x_in * low, a.y_in + u.y_in * low}, Point{a.x_in + u.x_in * high, a.y_in + u.y_in * high}};
}

void lay_line_drain(Place& place, Point a, Point b) {
  place.question.drain_from_in = a;
  place.question.drain_to_in = b;
  if (distance_in(a, b) < 1e-6) return;
  // A drain on the outline itself is the wall's already.
  const auto whole = chord(place.ring, a, b);
  if (!whole) return;
  const bool reaches = distance_in(whole->first, a) <= kShort_in && distance_in(whole->second, b) <= kShort_in;
  if (!reaches) return;
  place.question.drain_from_in = whole->first;
  place.question.drain_to_in = whole->second;
  const Polygon left = clip_left_of(place.ring, whole->first, whole->second), right = clip_left_of(place.ring, whole->second, whole->first);
  const Polygon &front = area_in2(left) >= area_in2(right) ? left : right, &behind = area_in2(left) >= area_in2(right) ? right : left;
  double depth = 0;
  for (const Point& p : behind) depth = std::max(depth, distance_to_segment_in(p, whole->first, whole->second));
  if (depth > kBehind_in || front.size() < 3) return;
  place.question.outline_in = front;
  place.strip_in2 = area_in2(behind);
}

void lay_drain(Place& place) {
  const auto& drain = place.plan.drain;
  if (drain && drain->kind == DrainKind::line && drain->from_in && drain->to_in) return lay_line_drain(place, *drain->from_in, *drain->to_in);
  Point at = centroid(place.ring);
  if (drain && drain->at_in) at = *drain->at_in;
  if (!drain || !drain->at_in) {
    place.assumed.push_back("no drain is given: a point drain in the middle of the shower is taken");
    place.asks.push_back("Where is the drain, and which kind? (shower.drain)");
  }
  place.question.drain_from_in = place.question.drain_to_in = at;
}

}  // namespace

Polygon strip(const Side& side, double depth_in) {
  // The ring runs counter-clockwise: outside lies to the right of the side.
  const double length = side.length_in();
  const Point out{(side.to.y_in - side.from.y_in) / length * depth_in, -(side.to.x_in - side.from.x_in) / length * depth_in};
  return {side.from, {side.from.x_in + out.x_in, side.from.y_in + out.y_in}, {side.to.x_in + out.x_in, side.to.y_in + out.y_in}, side.to};
}

double rule(const std::string& id, PlumbingCode code) { return rule_row(id, code).number("value"); }

Reason rule_reason(const std::string& id, PlumbingCode code) {
  const auto& row = rule_row(id, code);
  Reason reason = row.reason();
  reason.compares = row.text("what");
  reason.unit = row.text("unit");
  return reason;
}

double usual_in(const std::string& id) { return build_row(id).number("usual_in"); }
std::string spoken(const std::string& id) { return build_row(id).text("what"); }

double Place::height_in(Point p) const { return pan ? pan_height_in(*pan, p) : 0; }

double Place::open_length_in() const {
  double sum = 0;
  for (const auto& side : sides)
    if (side.open) sum += side.length_in();
  return sum;
}

double Place::entry_length_in() const {
  double longest = 0;
  for (const auto& side : sides)
    if (side.open) longest = std::max(longest, side.length_in());
  return longest;
}

Place place_of(const Job& job) {
  Place place{job, *job.shower, job.shower->outline_in, {}, {}, 0, 0.25, {}, {}, {}, {}, 0, 0};
  if (signed_area_in2(place.ring) < 0) std::reverse(place.ring.begin(), place.ring.end());
  place.least_fall = place.plan.least_fall_in_per_ft.value_or(rule("fall_least"));
  place.question.outline_in = place.ring;
  place.question.least_fall_in_per_ft = place.least_fall;
  if (place.ring.size() < 3) {
    place.problems.push_back({"outline_in", "is not given, so nothing can be laid", "give the corners of the shower floor in order"});
    return place;
  }
  read_sides(place);
  lay_drain(place);
  auto pan = pan_fall(place.question);
  place.problems = std::move(pan.problems);
  place.pan = std::move(pan.value);
  if (!place.pan) return place;
  place.entry_low_in = 1e300;
  for (const auto& side : place.sides) {
    if (!side.open) continue;
    for (int k = 0; k <= 8; ++k) {
      const double height = place.height_in(between(side.from, side.to, k / 8.0));
      place.entry_low_in = std::min(place.entry_low_in, height);
      place.entry_high_in = std::max(place.entry_high_in, height);
    }
  }
  return place;
}

}  // namespace awlmark::shower
