#include "floor/member_forces.hpp"

#include <algorithm>
#include <cmath>

namespace awlmark::floor {
namespace {

constexpr double kOverhang_in = 3;       // a shorter end past the last rest is no cantilever worth solving
constexpr double kGoneStiffness = 1e-6;  // of the whole section, at least: keeps the statics solvable where nothing is left
constexpr int kSamplesPerSpan = 24;

struct Frame {
  mechanics::Beam beam;
  double origin_in = 0;  // of the beam, along the member
  std::vector<double> supports_in;
  bool left_free = false;
  bool right_free = false;
};

double stiffness_at(const Member& member, double along_in) {
  const double whole = member.values.e_psi * member.section.i_in4();
  const auto left = section_at(member, along_in);
  double ei = std::max(kGoneStiffness * whole, left ? member.values.e_psi * left->i_in4() : 0.0);
  if (member.sister) ei += member.sister_values.value_or(member.values).e_psi * member.sister->i_in4();
  return ei;
}

std::vector<double> breaks_of(const Member& member, double from_in, double to_in) {
  std::vector<double> out;
  for (const auto& zone : member.decay)
    for (const double at : {zone.from_in, zone.to_in})
      if (at > from_in + 1e-6 && at < to_in - 1e-6) out.push_back(at);
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end(), [](double a, double b) { return std::fabs(a - b) < 1e-6; }), out.end());
  return out;
}

Frame frame_of(const Member& member) {
  Frame frame;
  std::vector<double> rests;
  for (const double rest : member.rests_in)
    if (rests.empty() || rest - rests.back() > 1) rests.push_back(rest);
  if (rests.empty()) return frame;
  const double length = member.length_in();
  const double left = rests.front(), right = length - rests.back();
  frame.left_free = left > kOverhang_in;
  frame.right_free = right > kOverhang_in;
  if (rests.size() == 1) return frame;  // balances on one rest: build.cpp never leaves it so
  frame.origin_in = frame.left_free ? 0 : rests.front();
  if (frame.left_free) frame.beam.spans_in.push_back(left);
  for (std::size_t i = 1; i < rests.size(); ++i) frame.beam.spans_in.push_back(rests[i] - rests[i - 1]);
  if (frame.right_free) frame.beam.spans_in.push_back(right);
  frame.beam.left = frame.left_free ? mechanics::End::free : mechanics::End::pinned;
  frame.beam.right = frame.right_free ? mechanics::End::free : mechanics::End::pinned;
  frame.supports_in = rests;
  const double end = frame.origin_in + frame.beam.length_in();
  double at = frame.origin_in;
  auto breaks = breaks_of(member, frame.origin_in, end);
  breaks.push_back(end);
  for (const double next : breaks) {
    frame.beam.stiffness.push_back({next - frame.origin_in, stiffness_at(member, (at + next) / 2)});
    at = next;
  }
  return frame;
}

// The loads that lie on [from, to] of the member, in the beam's own coordinates. Loads past a short
// end go straight down into the nearest rest; they are returned as points there.
mechanics::Loads clipped(const mechanics::Loads& loads, const Frame& frame, double from_in, double to_in) {
  mechanics::Loads out;
  for (const auto& line : loads.lines) {
    const double a = std::max(line.from_in, from_in), b = std::min(line.to_in, to_in);
    if (b - a < 1e-4) continue;
    const double slope = (line.w_to_pli - line.w_from_pli) / (line.to_in - line.from_in);
    out.lines.push_back({line.w_from_pli + slope * (a - line.from_in), line.w_from_pli + slope * (b - line.from_in), a - frame.origin_in, b - frame.origin_in});
  }
  for (const auto& point : loads.points)
    if (point.at_in >= from_in && point.at_in <= to_in) out.points.push_back({point.p_lb, point.at_in - frame.origin_in});
  return out;
}

// What lies on the trimmed ends, which the beam does not have.
void add_end_loads(const mechanics::Loads& loads, const Frame& frame, std::vector<ForceRest>& rests, bool dead) {
  const double low = frame.origin_in, high = frame.origin_in + frame.beam.length_in();
  const auto put = [&](bool first, double lb) {
    (dead ? (first ? rests.front() : rests.back()).dead_lb : (first ? rests.front() : rests.back()).live_lb) += lb;
  };
  for (const auto& line : loads.lines) {
    const double mean = (line.w_from_pli + line.w_to_pli) / 2;
    if (line.from_in < low) put(true, mean * (std::min(low, line.to_in) - line.from_in));
    if (line.to_in > high) put(false, mean * (line.to_in - std::max(high, line.from_in)));
  }
  for (const auto& point : loads.points) {
    if (point.at_in < low) put(true, point.p_lb);
    if (point.at_in > high) put(false, point.p_lb);
  }
}

struct Solved {
  mechanics::BeamResult dead;
  std::vector<mechanics::BeamResult> live;  // one a span
};

std::vector<double> sample_places(const Frame& frame, const Member& member) {
  std::vector<double> places;
  double at = 0;
  for (const double span : frame.beam.spans_in) {
    for (int k = 0; k <= kSamplesPerSpan; ++k) places.push_back(at + span * k / kSamplesPerSpan);
    at += span;
  }
  for (const double cut : breaks_of(member, frame.origin_in, frame.origin_in + at)) {
    places.push_back(cut - frame.origin_in - 1e-6);
    places.push_back(cut - frame.origin_in + 1e-6);
  }
  std::sort(places.begin(), places.end());
  return places;
}

ForceStation station_at(const Solved& solved, double at_in, double length_in) {
  ForceStation out;
  // Shear jumps at supports and points: look just to either side.
  for (const double side : {-1e-7, 1e-7}) {
    const double x = std::clamp(at_in + side, 0.0, length_in);
    const auto dead = solved.dead.at(x);
    double up = dead.moment_inlb, down = dead.moment_inlb, more = dead.shear_lb, less = dead.shear_lb;
    for (const auto& span : solved.live) {
      const auto live = span.at(x);
      (live.moment_inlb > 0 ? up : down) += live.moment_inlb;
      (live.shear_lb > 0 ? more : less) += live.shear_lb;
    }
    out.moment_max_inlb = std::max(out.moment_max_inlb, up);
    out.moment_min_inlb = std::min(out.moment_min_inlb, down);
    out.shear_lb = std::max({out.shear_lb, std::fabs(more), std::fabs(less)});
  }
  return out;
}

}  // namespace

const DecayZone* zone_at(const Member& member, double along_in) {
  const DecayZone* found = nullptr;
  for (const auto& zone : member.decay)
    if (along_in >= zone.from_in - 1e-9 && along_in <= zone.to_in + 1e-9 && (!found || (zone.rot && !found->rot))) found = &zone;
  return found;
}

std::optional<mechanics::Section> section_at(const Member& member, double along_in) {
  mechanics::Loss loss;
  for (const auto& zone : member.decay) {
    if (along_in < zone.from_in - 1e-9 || along_in > zone.to_in + 1e-9) continue;
    loss.top_in = std::max(loss.top_in, zone.loss.top_in);
    loss.bottom_in = std::max(loss.bottom_in, zone.loss.bottom_in);
    loss.side_in = std::max(loss.side_in, zone.loss.side_in);
  }
  return mechanics::residual(member.section, loss);
}

MemberForces member_forces(const Member& member, const MemberLoads& loads, double creep) {
  MemberForces out;
  const Frame frame = frame_of(member);
  if (frame.beam.spans_in.empty()) return out;
  Solved solved;
  const double low = frame.origin_in, high = frame.origin_in + frame.beam.length_in();
  auto beam = frame.beam;
  beam.loads = clipped(loads.dead, frame, low, high);
  if (!mechanics::check(beam).empty()) return out;
  solved.dead = mechanics::solve(beam);
  double at = low;
  for (std::size_t s = 0; s < frame.beam.spans_in.size(); ++s) {
    const double end = at + frame.beam.spans_in[s];
    // A point exactly on a support belongs to one span only.
    beam.loads = clipped(loads.live, frame, s == 0 ? at : at + 1e-9, end);
    solved.live.push_back(mechanics::solve(beam));
    at = end;
  }
  out.solved = true;

  const double length = frame.beam.length_in();
  for (const double x : sample_places(frame, member)) {
    auto station = station_at(solved, x, length);
    station.along_in = low + x;
    out.stations.push_back(station);
  }
  at = 0;
  for (std::size_t s = 0; s < frame.beam.spans_in.size(); ++s) {
    ForceSpan span;
    span.from_in = low + at;
    span.to_in = low + at + frame.beam.spans_in[s];
    span.cantilever = (s == 0 && frame.left_free) || (s + 1 == frame.beam.spans_in.size() && frame.right_free);
    for (int k = 0; k <= 2 * kSamplesPerSpan; ++k) {
      const double x = at + frame.beam.spans_in[s] * k / (2 * kSamplesPerSpan);
      double live = 0;
      for (const auto& one : solved.live) live += std::max(0.0, one.at(x).deflection_in);
      span.live_in = std::max(span.live_in, live);
      span.total_in = std::max(span.total_in, creep * solved.dead.at(x).deflection_in + live);
    }
    at += frame.beam.spans_in[s];
    // A broken member's figure has no meaning past the length of its own span.
    span.live_in = std::min(span.live_in, span.to_in - span.from_in);
    span.total_in = std::min(span.total_in, span.to_in - span.from_in);
    out.spans.push_back(span);
  }
  for (std::size_t r = 0; r < frame.supports_in.size(); ++r) {
    ForceRest rest;
    rest.along_in = frame.supports_in[r];
    if (r < solved.dead.reactions_lb.size()) rest.dead_lb = solved.dead.reactions_lb[r];
    double least = 0;
    for (const auto& one : solved.live) {
      const double reaction = r < one.reactions_lb.size() ? one.reactions_lb[r] : 0;
      rest.live_lb += std::max(0.0, reaction);
      least += std::min(0.0, reaction);
    }
    rest.uplift_lb = std::max(0.0, -(rest.dead_lb + least));
    out.rests.push_back(rest);
  }
  add_end_loads(loads.dead, frame, out.rests, true);
  add_end_loads(loads.live, frame, out.rests, false);
  return out;
}

}  // namespace awlmark::floor
