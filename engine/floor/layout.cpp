#include "floor/layout.hpp"

#include <algorithm>
#include <cmath>

#include "base/special.hpp"
#include "floor/member_forces.hpp"

namespace awlmark::floor {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kLeastSine = 0.26;  // 15 degrees
constexpr double kStep_in = 6;       // loads are summed over strips of this length of a member
constexpr double kOutside_in = 12;   // a support this far outside the room still carries its deck's edge
constexpr double kOnGirder_in = 4;   // a joist's rest this near a girder's line lies on it

Point direction(double degrees) { return {det_cos(degrees * kPi / 180), det_sin(degrees * kPi / 180)}; }
double cross(Point a, Point b) { return a.x_in * b.y_in - a.y_in * b.x_in; }
double dot(Point a, Point b) { return a.x_in * b.x_in + a.y_in * b.y_in; }
Point minus(Point a, Point b) { return {a.x_in - b.x_in, a.y_in - b.y_in}; }
Point step(Point p, Point u, double by) { return {p.x_in + by * u.x_in, p.y_in + by * u.y_in}; }
Point unit(Point a, Point b) {
  const double length = distance_in(a, b);
  return length > 0 ? Point{(b.x_in - a.x_in) / length, (b.y_in - a.y_in) / length} : Point{1, 0};
}

// Whether some joist rests on this girder.
bool carries_joists(const Model& model, std::size_t girder) {
  const Member& g = model.members[girder];
  for (std::size_t j = 0; j < model.members.size(); ++j) {
    const Member& joist = model.members[j];
    if (j == girder || joist.role != SupportRole::joist) continue;
    if (std::fabs(cross(unit(g.from, g.to), unit(joist.from, joist.to))) < kLeastSine) continue;
    for (const double rest : joist.rests_in)
      if (distance_to_segment_in(joist.at(rest), g.from, g.to) <= kOnGirder_in) return true;
  }
  return false;
}

// Where a line through p along u meets the room's outline: the stretch around p's own place, or the
// widest one when p lies outside.
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

}  // namespace

Point Member::at(double along_in) const { return step(from, unit(from, to), along_in); }

std::vector<std::size_t> deck_supports(const Model& model) {
  std::vector<std::size_t> out;
  const Point u = direction(model.deck.degrees);
  for (std::size_t i = 0; i < model.members.size(); ++i) {
    const Member& member = model.members[i];
    if (member.length_in() <= 0) continue;
    if (std::fabs(cross(u, unit(member.from, member.to))) < kLeastSine) continue;
    if (member.role == SupportRole::girder && carries_joists(model, i)) continue;
    out.push_back(i);
  }
  return out;
}

std::vector<Crossing> crossings(const Model& model, const std::vector<std::size_t>& supports, Point p) {
  std::vector<Crossing> out;
  const Point u = direction(model.deck.degrees);
  for (const std::size_t i : supports) {
    const Member& member = model.members[i];
    const Point v = unit(member.from, member.to);
    const double sine = cross(u, v);
    if (std::fabs(sine) < kLeastSine) continue;
    const double at = cross(minus(member.from, p), v) / sine;
    const double along = cross(minus(member.from, p), u) / sine;
    const double slack = 1e-6;
    if (along < -slack || along > member.length_in() + slack) continue;
    out.push_back({i, at, along, std::fabs(sine)});
  }
  std::sort(out.begin(), out.end(),
            [](const Crossing& a, const Crossing& b) { return a.at_in < b.at_in - 1e-9 || (std::fabs(a.at_in - b.at_in) <= 1e-9 && a.member < b.member); });
  return out;
}

std::vector<BoardLine> board_lines(const Model& model, double pitch_in) {
  std::vector<BoardLine> out;
  if (model.room.size() < 3 || !(pitch_in > 0)) return out;
  const Point u = direction(model.deck.degrees);
  const Point v{-u.y_in, u.x_in};
  double low = 1e300, high = -1e300;
  for (const Point& p : model.room) {
    low = std::min(low, dot(p, v));
    high = std::max(high, dot(p, v));
  }
  const auto supports = deck_supports(model);
  const int count = std::min(400, std::max(1, static_cast<int>(std::ceil((high - low) / pitch_in - 1e-6))));
  for (int k = 0; k < count; ++k) {
    // The last plank may be ripped: keep its line inside the room.
    const double offset = std::min((k + 0.5) * pitch_in, (high - low) - std::min(0.25, (high - low) / 4));
    const Point p = step({0, 0}, v, low + offset);
    double a = 0, b = 0;
    if (!room_stretch(model.room, p, u, a, b)) continue;
    BoardLine line;
    line.start = step(p, u, a);
    line.offset_in = offset;
    line.length_in = b - a;
    for (const auto& hit : crossings(model, supports, line.start)) {
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

namespace {

// Share of the deck that a support takes on one side: half the bay to the next one, or the edge rule.
double side_share_in(const Model& model, const std::vector<Crossing>& hits, std::size_t index, bool forward, Point origin, double inner_bay_in) {
  const bool has_next = forward ? index + 1 < hits.size() : index > 0;
  if (has_next) return std::fabs(hits[forward ? index + 1 : index - 1].at_in - hits[index].at_in) / 2;
  double low = 0, high = 0;
  double edge = 0;
  if (room_stretch(model.room, origin, direction(model.deck.degrees), low, high)) edge = forward ? high - hits[index].at_in : hits[index].at_in - low;
  const double hangs = edge <= kEdgeReach_in ? std::max(0.0, edge) : edge / 2;
  return std::max(hangs, inner_bay_in / 2);
}

void add_even_loads(const Model& model, const std::vector<std::size_t>& supports, std::vector<MemberLoads>& out) {
  for (const std::size_t i : supports) {
    const Member& member = model.members[i];
    const double length = member.length_in();
    const int strips = std::max(1, static_cast<int>(std::ceil(length / kStep_in)));
    for (int k = 0; k < strips; ++k) {
      const double from = length * k / strips, to = length * (k + 1) / strips;
      const Point p = member.at((from + to) / 2);
      const auto hits = crossings(model, supports, p);
      std::size_t mine = hits.size();
      double widest_bay = 0;
      for (std::size_t h = 0; h < hits.size(); ++h) {
        if (hits[h].member == i) mine = h;
        if (h > 0) widest_bay = std::max(widest_bay, std::min(hits[h].at_in - hits[h - 1].at_in, 96.0));
      }
      if (mine == hits.size()) continue;
      double inner = 0;
      if (mine > 0) inner = std::max(inner, hits[mine].at_in - hits[mine - 1].at_in);
      if (mine + 1 < hits.size()) inner = std::max(inner, hits[mine + 1].at_in - hits[mine].at_in);
      const double share = side_share_in(model, hits, mine, true, p, inner) + side_share_in(model, hits, mine, false, p, inner);
      const double width = share * hits[mine].sine;
      out[i].tributary_in = std::max(out[i].tributary_in, width);
      out[i].dead.lines.push_back(mechanics::uniform(model.dead_psf * width / 144, from, to));
      out[i].live.lines.push_back(mechanics::uniform(model.live_psf * width / 144, from, to));
    }
  }
}

// One spot's load to the supports on either side of it, by the lever rule.
void add_spot(const Model& model, const std::vector<std::size_t>& supports, Point p, double lb, bool dead, std::vector<MemberLoads>& out) {
  const auto hits = crossings(model, supports, p);
  if (hits.empty() || !(lb > 0)) return;
  std::size_t after = 0;
  while (after < hits.size() && hits[after].at_in < 0) ++after;
  const auto put = [&](const Crossing& hit, double part) {
    if (part <= 0) return;
    auto& loads = out[hit.member];
    (dead ? loads.dead : loads.live).points.push_back({part, hit.along_member_in});
  };
  // Past the last support recorded the next one is taken to lie as far on as the bay before it, the
  // same reading as for even loads; with one support alone nothing is known and it takes all.
  const auto outside = [&](const Crossing& last, const Crossing* inner) {
    const double bay = inner ? std::fabs(last.at_in - inner->at_in) : 0;
    const double beyond = std::fabs(last.at_in);
    put(last, bay > beyond ? lb * (1 - beyond / bay) : (inner ? 0.0 : lb));
  };
  if (after == 0) {
    outside(hits.front(), hits.size() > 1 ? &hits[1] : nullptr);
  } else if (after == hits.size()) {
    outside(hits.back(), hits.size() > 1 ? &hits[hits.size() - 2] : nullptr);
  } else {
    const Crossing& a = hits[after - 1];
    const Crossing& b = hits[after];
    const double gap = b.at_in - a.at_in;
    const double to_b = gap > 1e-9 ? -a.at_in / gap : 0.5;
    put(a, lb * (1 - to_b));
    put(b, lb * to_b);
  }
}

void add_plan_load(const Model& model, const std::vector<std::size_t>& supports, const PlanLoad& load, std::vector<MemberLoads>& out) {
  std::vector<Point> spots;
  if (load.area.size() >= 3) {
    const Box box = bounds(load.area);
    const int nx = std::max(2, static_cast<int>(std::ceil(box.width_in() / 4))), ny = std::max(2, static_cast<int>(std::ceil(box.height_in() / 4)));
    for (int i = 0; i < std::min(nx, 40); ++i)
      for (int j = 0; j < std::min(ny, 40); ++j) {
        const Point p{box.x0_in + box.width_in() * (i + 0.5) / std::min(nx, 40), box.y0_in + box.height_in() * (j + 0.5) / std::min(ny, 40)};
        if (contains(load.area, p)) spots.push_back(p);
      }
    if (spots.empty()) spots.push_back(centroid(load.area));
  } else {
    const double length = distance_in(load.from, load.to);
    const int parts = std::max(1, static_cast<int>(std::ceil(length / kStep_in)));
    for (int k = 0; k < parts; ++k) spots.push_back(step(load.from, unit(load.from, load.to), length * (k + 0.5) / parts));
  }
  const double relief_lb = load.replaces_live_psf * area_in2(load.area) / 144;
  const double lb = std::max(0.0, load.lb - relief_lb);
  for (const Point& p : spots) add_spot(model, supports, p, lb / static_cast<double>(spots.size()), load.lasting, out);
}

// Spot loads of one strip of the member become one: a thousand points would only slow the beam solver.
void gather(mechanics::Loads& loads, double length_in) {
  const int strips = std::max(1, static_cast<int>(std::ceil(length_in / (kStep_in / 2))));
  std::vector<double> sum(static_cast<std::size_t>(strips), 0.0), moment(static_cast<std::size_t>(strips), 0.0);
  for (const auto& point : loads.points) {
    const auto k = static_cast<std::size_t>(std::clamp(static_cast<int>(point.at_in / length_in * strips), 0, strips - 1));
    sum[k] += point.p_lb;
    moment[k] += point.p_lb * point.at_in;
  }
  loads.points.clear();
  for (std::size_t k = 0; k < sum.size(); ++k)
    if (sum[k] > 0) loads.points.push_back({sum[k], moment[k] / sum[k]});
  std::vector<mechanics::LineLoad> lines;
  for (const auto& line : loads.lines) {
    const bool joins = !lines.empty() && std::fabs(lines.back().to_in - line.from_in) < 1e-9 && std::fabs(lines.back().w_to_pli - line.w_from_pli) < 1e-12 &&
                       std::fabs(line.w_from_pli - line.w_to_pli) < 1e-12 && std::fabs(lines.back().w_from_pli - lines.back().w_to_pli) < 1e-12;
    if (joins)
      lines.back().to_in = line.to_in;
    else
      lines.push_back(line);
  }
  loads.lines = lines;
}

}  // namespace

std::vector<MemberLoads> member_loads(const Model& model) {
  std::vector<MemberLoads> out(model.members.size());
  const auto supports = deck_supports(model);
  add_even_loads(model, supports, out);
  for (const auto& load : model.loads) add_plan_load(model, supports, load, out);
  for (std::size_t i = 0; i < model.members.size(); ++i) {
    const Member& member = model.members[i];
    double plf = mechanics::weight_plf(member.values, member.section);
    if (member.sister) plf += mechanics::weight_plf(member.sister_values.value_or(member.values), *member.sister);
    out[i].dead.lines.push_back(mechanics::uniform(plf / 12, 0, member.length_in()));
    gather(out[i].dead, std::max(1.0, member.length_in()));
    gather(out[i].live, std::max(1.0, member.length_in()));
  }
  // Joists first, then the girders they rest on.
  for (std::size_t j = 0; j < model.members.size(); ++j) {
    const Member& joist = model.members[j];
    if (joist.role == SupportRole::girder) continue;
    const auto forces = member_forces(joist, out[j], 1.0);
    for (const auto& rest : forces.rests) {
      const Point p = joist.at(rest.along_in);
      for (std::size_t g = 0; g < model.members.size(); ++g) {
        const Member& girder = model.members[g];
        if (g == j || girder.role != SupportRole::girder || distance_to_segment_in(p, girder.from, girder.to) > kOnGirder_in) continue;
        if (std::fabs(cross(unit(girder.from, girder.to), unit(joist.from, joist.to))) < kLeastSine) continue;
        const double along = along_segment_in(p, girder.from, girder.to);
        if (rest.dead_lb > 0) out[g].dead.points.push_back({rest.dead_lb, along});
        if (rest.live_lb > 0) out[g].live.points.push_back({rest.live_lb, along});
        break;
      }
    }
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

}  // namespace awlmark::floor
