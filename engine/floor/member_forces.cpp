#include "floor/member_forces.hpp"

#include <algorithm>
#include <cmath>

#include "mechanics/factors.hpp"

namespace awlmark::floor {
namespace {

constexpr double kOverhang_in = 3;       // a shorter end past the last rest is no cantilever worth solving
constexpr double kGoneStiffness = 1e-6;  // of the whole section, at least: keeps the statics solvable where nothing is left
constexpr int kSamplesPerSpan = 24;

// One piece of the member between its ends or splices.
struct Frame {
  mechanics::Beam beam;
  double origin_in = 0;            // of the beam, along the member
  std::vector<std::size_t> rests;  // of the member
  bool left_free = false;
  bool right_free = false;
  double end_in() const { return origin_in + beam.length_in(); }
};

double wet_e(const Member& member, double e_psi) {
  e_psi *= mechanics::incised_e(member.values);
  return member.wet ? e_psi * mechanics::wet_factors(member.values, 0, 0).e : e_psi;
}

double stiffness_at(const Member& member, double along_in, double low_e_psi) {
  const double e_psi = wet_e(member, near_rot(member, along_in) ? low_e_psi : member.values.e_psi);
  const double whole = member.values.e_psi * member.section.i_in4();
  const auto left = section_at(member, along_in);
  double ei = std::max(kGoneStiffness * whole, left ? e_psi * left->i_in4() : 0.0);
  if (member.sister) {
    const auto& values = member.sister_values ? *member.sister_values : member.values;
    ei += mechanics::incised_e(values) * values.e_psi * member.sister->i_in4();
  }
  return ei;
}

std::vector<double> breaks_of(const Member& member, double from_in, double to_in) {
  std::vector<double> out;
  for (const auto& zone : member.decay) {
    const double more = zone.rot ? kGradedDown_in : 0;
    for (const double at : {zone.from_in - more, zone.from_in, zone.to_in, zone.to_in + more})
      if (at > from_in + 1e-6 && at < to_in - 1e-6) out.push_back(at);
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end(), [](double a, double b) { return std::fabs(a - b) < 1e-6; }), out.end());
  return out;
}

Frame frame_of(const Member& member, const std::vector<std::size_t>& rests, bool first, bool last) {
  Frame frame;
  frame.rests = rests;
  const double low = member.rests[rests.front()].along_in, high = member.rests[rests.back()].along_in;
  const double left = low, right = member.length_in() - high;
  frame.left_free = first && left > kOverhang_in;
  frame.right_free = last && right > kOverhang_in;
  frame.origin_in = frame.left_free ? 0 : low;
  if (frame.left_free) frame.beam.spans_in.push_back(left);
  for (std::size_t i = 1; i < rests.size(); ++i) frame.beam.spans_in.push_back(member.rests[rests[i]].along_in - member.rests[rests[i - 1]].along_in);
  if (frame.right_free) frame.beam.spans_in.push_back(right);
  frame.beam.left = frame.left_free ? mechanics::End::free : mechanics::End::pinned;
  frame.beam.right = frame.right_free ? mechanics::End::free : mechanics::End::pinned;
  const double end = frame.end_in();
  const double low_e_psi = member.decay.empty() ? member.values.e_psi : graded_down(member).e_psi;
  double at = frame.origin_in;
  auto breaks = breaks_of(member, frame.origin_in, end);
  breaks.push_back(end);
  for (const double next : breaks) {
    frame.beam.stiffness.push_back({next - frame.origin_in, stiffness_at(member, (at + next) / 2, low_e_psi)});
    at = next;
  }
  return frame;
}

std::vector<Frame> frames_of(const Member& member, Unsaid unsaid) {
  std::vector<Frame> out;
  const auto& rests = member.rests;
  if (rests.size() < 2) return out;
  std::vector<std::size_t> piece{0};
  bool first = true;
  for (std::size_t i = 1; i < rests.size(); ++i) {
    piece.push_back(i);
    const bool inner = i + 1 < rests.size();
    const bool parts = inner && (rests[i].over == OverRest::splice || (rests[i].over == OverRest::unknown && unsaid == Unsaid::spliced));
    if (inner && !parts) continue;
    out.push_back(frame_of(member, piece, first, !inner));
    piece = {i};
    first = false;
  }
  return out;
}

// The loads that lie on (from, to] of the member, in the beam's own coordinates; `closed`: at from too.
mechanics::Loads clipped(const mechanics::Loads& loads, const Frame& frame, double from_in, double to_in, bool closed) {
  mechanics::Loads out;
  for (const auto& line : loads.lines) {
    const double a = std::max(line.from_in, from_in), b = std::min(line.to_in, to_in);
    if (b - a < 1e-4) continue;
    const double slope = (line.w_to_pli - line.w_from_pli) / (line.to_in - line.from_in);
    out.lines.push_back({line.w_from_pli + slope * (a - line.from_in), line.w_from_pli + slope * (b - line.from_in), a - frame.origin_in, b - frame.origin_in});
  }
  for (const auto& point : loads.points)
    if ((closed ? point.at_in >= from_in : point.at_in > from_in + 1e-9) && point.at_in <= to_in + 1e-9)
      out.points.push_back({point.p_lb, std::clamp(point.at_in - frame.origin_in, 0.0, frame.beam.length_in())});
  return out;
}

// What lies on the short ends past the outer rests, which the beams do not have: straight into those rests.
double on_end(const mechanics::Loads& loads, double low_in, double high_in, bool at_start) {
  double sum = 0;
  for (const auto& line : loads.lines) {
    const double mean = (line.w_from_pli + line.w_to_pli) / 2;
    if (at_start && line.from_in < low_in) sum += mean * (std::min(low_in, line.to_in) - line.from_in);
    if (!at_start && line.to_in > high_in) sum += mean * (line.to_in - std::max(high_in, line.from_in));
  }
  for (const auto& point : loads.points)
    if (at_start ? point.at_in < low_in - 1e-9 : point.at_in > high_in + 1e-9) sum += point.p_lb;
  return sum;
}

struct Solved {
  mechanics::BeamResult dead, full;
  std::vector<mechanics::BeamResult> live, snow;  // one a span
};

void gather(Effect& out, double live, bool snow) {
  if (snow)
    (live > 0 ? out.snow_most : out.snow_least) += live;
  else
    (live > 0 ? out.live_most : out.live_least) += live;
}

ForceStation station_at(const Solved& solved, double at_in, double length_in) {
  ForceStation out;
  for (const int side : {-1, 1}) {
    const double x = std::clamp(at_in + side * 1e-7, 0.0, length_in);
    auto& shear = side < 0 ? out.shear_before_lb : out.shear_after_lb;
    const auto dead = solved.dead.at(x);
    shear.dead = dead.shear_lb;
    if (side > 0) out.moment_inlb.dead = dead.moment_inlb;
    for (const bool snow : {false, true})
      for (const auto& span : snow ? solved.snow : solved.live) {
        const auto one = span.at(x);
        gather(shear, one.shear_lb, snow);
        if (side > 0) gather(out.moment_inlb, one.moment_inlb, snow);
      }
  }
  return out;
}

std::vector<double> sample_places(const Frame& frame, const Member& member, const MemberLoads& loads) {
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
  // A moment peaks under a point load.
  for (const auto* set : {&loads.dead, &loads.live, &loads.snow})
    for (const auto& point : set->points)
      if (point.at_in > frame.origin_in && point.at_in < frame.origin_in + at) places.push_back(point.at_in - frame.origin_in);
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end(), [](double a, double b) { return std::fabs(a - b) < 1e-7; }), places.end());
  return places;
}

std::optional<Solved> solve_frame(const Frame& frame, const MemberLoads& loads, bool first) {
  auto beam = frame.beam;
  const double low = frame.origin_in, high = frame.end_in();
  beam.loads = clipped(loads.dead, frame, low, high, first);
  if (!mechanics::check(beam).empty()) return std::nullopt;
  Solved solved;
  solved.dead = mechanics::solve(beam);
  beam.loads = clipped(loads.full, frame, low, high, first);
  if (!mechanics::check(beam).empty()) return std::nullopt;
  solved.full = mechanics::solve(beam);
  for (const bool snow : {false, true}) {
    const auto& all = snow ? loads.snow : loads.live;
    if (all.lines.empty() && all.points.empty()) continue;
    double at = low;
    for (std::size_t s = 0; s < frame.beam.spans_in.size(); ++s) {
      const double end = at + frame.beam.spans_in[s];
      beam.loads = clipped(all, frame, at, end, first && s == 0);
      (snow ? solved.snow : solved.live).push_back(mechanics::solve(beam));
      at = end;
    }
  }
  return solved;
}

void add_spans(const Frame& frame, const Solved& solved, double creep, MemberForces& out) {
  double at = 0;
  for (std::size_t s = 0; s < frame.beam.spans_in.size(); ++s) {
    const double length = frame.beam.spans_in[s];
    ForceSpan span;
    span.from_in = frame.origin_in + at;
    span.to_in = span.from_in + length;
    span.cantilever = (s == 0 && frame.left_free) || (s + 1 == frame.beam.spans_in.size() && frame.right_free);
    for (int k = 0; k <= 2 * kSamplesPerSpan; ++k) {
      const double x = at + length * k / (2 * kSamplesPerSpan);
      double live = 0;
      for (const auto& one : solved.live) live += std::max(0.0, one.at(x).deflection_in);
      span.live_in = std::max(span.live_in, live);
      span.total_in = std::max(span.total_in, creep * solved.dead.at(x).deflection_in + live);
    }
    at += length;
    // A broken member's figure has no meaning past the length of its own span.
    span.live_in = std::min(span.live_in, length);
    span.total_in = std::min(span.total_in, length);
    out.spans.push_back(span);
  }
}

void add_reactions(const Frame& frame, const Solved& solved, MemberForces& out) {
  for (std::size_t r = 0; r < frame.rests.size(); ++r) {
    auto& rest = out.rests[frame.rests[r]];
    if (r < solved.dead.reactions_lb.size()) rest.reaction_lb.dead += solved.dead.reactions_lb[r];
    if (r < solved.full.reactions_lb.size()) rest.full_lb += solved.full.reactions_lb[r];
    for (const bool snow : {false, true})
      for (const auto& one : snow ? solved.snow : solved.live)
        if (r < one.reactions_lb.size()) gather(rest.reaction_lb, one.reactions_lb[r], snow);
  }
}

}  // namespace

std::vector<double> Member::rests_in() const {
  std::vector<double> out;
  for (const auto& rest : rests) out.push_back(rest.along_in);
  return out;
}

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

bool cut_through(const Member& member) {
  if (member.sister) return false;
  return std::any_of(member.decay.begin(), member.decay.end(),
                     [&](const DecayZone& zone) { return !section_at(member, (zone.from_in + zone.to_in) / 2) && zone.to_in > zone.from_in; });
}

bool near_rot(const Member& member, double along_in) {
  for (const auto& zone : member.decay)
    if (zone.rot && along_in >= zone.from_in - kGradedDown_in && along_in <= zone.to_in + kGradedDown_in) return true;
  return false;
}

mechanics::DesignValues graded_down(const Member& member) {
  auto values = member.values;
  const auto low = mechanics::design_values(member.species, Grade::no_3, member.section);
  values.fb_psi = std::min(values.fb_psi, low.fb_psi);
  values.fb_single_psi = std::min(values.fb_single_psi, low.fb_single_psi);
  values.fv_psi = std::min(values.fv_psi, low.fv_psi);
  values.fc_perp_psi = std::min(values.fc_perp_psi, low.fc_perp_psi);
  values.e_psi = std::min(values.e_psi, low.e_psi);
  values.emin_psi = std::min(values.emin_psi, low.emin_psi);
  return values;
}

bool splice_unsaid(const Member& member) {
  for (std::size_t i = 1; i + 1 < member.rests.size(); ++i)
    if (member.rests[i].over == OverRest::unknown) return true;
  return false;
}

MemberForces member_forces(const Member& member, const MemberLoads& loads, double creep, Unsaid unsaid) {
  MemberForces out;
  const auto frames = frames_of(member, unsaid);
  if (frames.empty()) return out;
  for (const auto& rest : member.rests) {
    ForceRest one;
    one.along_in = rest.along_in;
    out.rests.push_back(one);
  }
  for (std::size_t f = 0; f < frames.size(); ++f) {
    const Frame& frame = frames[f];
    const auto solved = solve_frame(frame, loads, f == 0);
    if (!solved) return {};
    const double length = frame.beam.length_in();
    for (const double x : sample_places(frame, member, loads)) {
      auto station = station_at(*solved, x, length);
      station.along_in = frame.origin_in + x;
      out.stations.push_back(station);
    }
    add_spans(frame, *solved, creep, out);
    add_reactions(frame, *solved, out);
  }
  const double low = frames.front().origin_in, high = frames.back().end_in();
  for (const bool start : {true, false}) {
    auto& rest = start ? out.rests.front() : out.rests.back();
    rest.reaction_lb.dead += on_end(loads.dead, low, high, start);
    rest.reaction_lb.live_most += on_end(loads.live, low, high, start);
    rest.reaction_lb.snow_most += on_end(loads.snow, low, high, start);
    rest.full_lb += on_end(loads.full, low, high, start);
  }
  out.solved = true;
  return out;
}

}  // namespace awlmark::floor
