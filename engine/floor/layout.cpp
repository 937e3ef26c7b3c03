#include "floor/layout.hpp"

#include <algorithm>
#include <cmath>

#include "base/special.hpp"
#include "plan/frame.hpp"

namespace awlmark::floor {
namespace {

constexpr double kLeastSine = 0.26;  // 15 degrees
constexpr double kHungShort_in = 3;  // a hung joist ends at its carrier's face; the deck over that one still has it
constexpr double kOutside_in = 12;   // a support this far outside the room still carries its deck's edge

double cross(Point a, Point b) { return a.x_in * b.y_in - a.y_in * b.x_in; }
double dot(Point a, Point b) { return a.x_in * b.x_in + a.y_in * b.y_in; }
Point minus(Point a, Point b) { return {a.x_in - b.x_in, a.y_in - b.y_in}; }
Point step(Point p, Point u, double by) { return {p.x_in + by * u.x_in, p.y_in + by * u.y_in}; }
Point unit(Point a, Point b) {
  const double length = distance_in(a, b);
  return length > 0 ? Point{(b.x_in - a.x_in) / length, (b.y_in - a.y_in) / length} : Point{1, 0};
}

// Whether some member rests on top of this one: then the deck lies on that, not here. What hangs beside it
// leaves its top to the deck.
bool carries_members(const Model& model, std::size_t carrier) {
  for (const Member& member : model.members)
    for (const auto& rest : member.rests)
      if (rest.carrier.known() && rest.carrier.of() == carrier && rest.on != RestOn::hanger && rest.on != RestOn::header) return true;
  return false;
}

}  // namespace

Point direction(double degrees) { return {det_cos(degrees * kPi / 180), det_sin(degrees * kPi / 180)}; }

bool room_stretch(const Polygon& room, Point p, Point u, double& low, double& high) {
  std::vector<double> hits;
  for (std::size_t i = 0; i < room.size(); ++i) {
    const Point a = room[i], b = room[(i + 1) % room.size()];
    const Point d = minus(b, a);
    const double denominator = cross(u, d);
    if (std::fabs(denominator) < 1e-12) continue;
    const double along = cross(minus(a, p), d) / denominator;
    const double on_edge = cross(minus(a, p), u) / denominator;
    if (on_edge >= 0 && on_edge < 1) hits.push_back(along);
  }
  std::sort(hits.begin(), hits.end());
  double widest = 0;
  for (std::size_t i = 0; i + 1 < hits.size(); i += 2) {
    const double width = hits[i + 1] - hits[i];
    if (width > widest + 1e-9) widest = width, low = hits[i], high = hits[i + 1];
  }
  return widest > 1e-6;
}

double edge_share_in(double inner_bay_in, double beyond_in) {
  const double hangs = beyond_in <= kEdgeReach_in ? std::max(0.0, beyond_in) : beyond_in / 2;
  return std::max(hangs, inner_bay_in / 2);
}

Point Member::at(double along_in) const { return step(from, unit(from, to), along_in); }

std::vector<std::size_t> deck_supports(const Model& model) {
  std::vector<std::size_t> out;
  const Point u = direction(model.deck.degrees);
  for (std::size_t i = 0; i < model.members.size(); ++i) {
    const Member& member = model.members[i];
    if (member.length_in() <= 0 || member.in_bay) continue;
    if (std::fabs(cross(u, unit(member.from, member.to))) < kLeastSine) continue;
    if (member.role == SupportRole::girder && carries_members(model, i)) continue;
    out.push_back(i);
  }
  return out;
}

std::vector<Crossing> crossings(const Model& model, const std::vector<std::size_t>& supports, Point p) {
  return crossings(model, supports, p, model.deck.degrees, 1e-6);
}

std::vector<Crossing> crossings(const Model& model, const std::vector<std::size_t>& supports, Point p, double degrees, double past_in) {
  std::vector<Crossing> out;
  const Point u = direction(degrees);
  for (const std::size_t i : supports) {
    const Member& member = model.members[i];
    const Point v = unit(member.from, member.to);
    const double sine = cross(u, v);
    if (std::fabs(sine) < kLeastSine) continue;
    const double at = cross(minus(member.from, p), v) / sine;
    const double along = cross(minus(member.from, p), u) / sine;
    if (along < -past_in || along > member.length_in() + past_in) continue;
    out.push_back({i, at, std::clamp(along, 0.0, member.length_in()), std::fabs(sine)});
  }
  std::sort(out.begin(), out.end(),
            [](const Crossing& a, const Crossing& b) { return a.at_in < b.at_in - 1e-9 || (std::fabs(a.at_in - b.at_in) <= 1e-9 && a.member < b.member); });
  return out;
}

std::vector<BoardLine> board_lines(const Model& model, double pitch_in) {
  std::vector<BoardLine> out;
  if (model.room.size() < 3 || !(pitch_in > 0)) return out;
  const Point u = direction(model.deck.degrees);
  const Point v = plan::grain_frame(model.deck.degrees, model.room).across;  // lines count as the plan's planks do
  double low = 1e300, high = -1e300;
  for (const Point& p : model.room) {
    low = std::min(low, dot(p, v));
    high = std::max(high, dot(p, v));
  }
  auto supports = deck_supports(model);
  // The rim of a dropped bay stands on the bay's own joists: where they run across the boards these end there.
  if (model.bay) supports.insert(supports.end(), model.bay->supports.begin(), model.bay->supports.end());
  const int count = std::min(400, std::max(1, static_cast<int>(std::ceil((high - low) / pitch_in - 1e-6))));
  for (int k = 0; k < count; ++k) {
    // The last plank may be ripped: keep its line inside the room.
    const double offset = std::min((k + 0.5) * pitch_in, (high - low) - std::min(0.25, (high - low) / 4));
    const Point p = step({0, 0}, v, low + offset);
    double a = 0, b = 0;
    if (!room_stretch(model.room, p, u, a, b)) continue;
    BoardLine line;
    line.row = k;
    line.start = step(p, u, a);
    line.offset_in = offset;
    line.length_in = b - a;
    for (const auto& hit : crossings(model, supports, line.start, model.deck.degrees, kHungShort_in)) {
      if (hit.at_in < -kOutside_in || hit.at_in > line.length_in + kOutside_in) continue;
      // Two members side by side (a lap, a pair) are one support of the deck.
      if (!line.supports_in.empty() && hit.at_in - line.supports_in.back() < 2.5) continue;
      line.supports_in.push_back(hit.at_in);
      line.members.push_back(hit.member);
    }
    for (std::size_t i = 1; i < line.supports_in.size(); ++i) line.longest_in = std::max(line.longest_in, line.supports_in[i] - line.supports_in[i - 1]);
    line.edge_bay_start = line.supports_in.empty() || line.supports_in.front() > kEdgeReach_in;
    line.edge_bay_end = line.supports_in.empty() || line.length_in - line.supports_in.back() > kEdgeReach_in;
    if (line.supports_in.empty()) {
      line.longest_in = line.length_in;
    } else {
      if (line.edge_bay_start) line.longest_in = std::max(line.longest_in, line.supports_in.front());
      if (line.edge_bay_end) line.longest_in = std::max(line.longest_in, line.length_in - line.supports_in.back());
    }
    out.push_back(line);
  }
  return out;
}

double widest_spacing_in(const Model& model) {
  const auto supports = deck_supports(model);
  double widest = 0;
  for (const auto& line : board_lines(model, 6)) {
    const auto hits = crossings(model, supports, line.start);
    for (std::size_t i = 0; i + 1 < line.supports_in.size(); ++i) {
      double sine = 1;
      for (const auto& hit : hits)
        if (hit.member == line.members[i]) sine = hit.sine;
      widest = std::max(widest, (line.supports_in[i + 1] - line.supports_in[i]) * sine);
    }
  }
  return widest;
}

double usual_spacing_in(const Model& model) {
  if (model.room.size() < 3) return 0;
  const auto hits = crossings(model, deck_supports(model), centroid(model.room));
  std::vector<double> bays;
  for (std::size_t h = 0; h + 1 < hits.size(); ++h) bays.push_back((hits[h + 1].at_in - hits[h].at_in) * hits[h].sine);
  if (bays.empty()) return widest_spacing_in(model);
  std::sort(bays.begin(), bays.end());
  return bays[bays.size() / 2];
}

}  // namespace awlmark::floor
