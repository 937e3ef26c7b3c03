#include "papers/drawing/section_cut.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "papers/keys.hpp"
#include "papers/words.hpp"
#include "survey/place_words.hpp"
#include "survey/survey.hpp"
#include "tables/usual.hpp"

namespace awlmark::papers {
namespace {

constexpr double kPast_in = 3.5;  // shown beyond the outer members

double across_of(const Framing& framing, Point p) { return framing.run_along_y ? p.x_in : p.y_in; }
double along_of(const Framing& framing, Point p) { return framing.run_along_y ? p.y_in : p.x_in; }

double middle_of(const Framing& framing, const std::vector<Polygon>& rings, bool across) {
  double low = 0, high = 0;
  bool any = false;
  for (const auto& ring : rings)
    for (const auto& corner : ring) {
      const double at = across ? across_of(framing, corner) : along_of(framing, corner);
      low = any ? std::min(low, at) : at, high = any ? std::max(high, at) : at;
      any = true;
    }
  return (low + high) / 2;
}

}  // namespace

std::vector<CutMember> members_at(const Framing& framing, double station_in) {
  std::vector<CutMember> cut;
  for (std::size_t i = 0; i < framing.members.size(); ++i) {
    const auto& line = framing.members[i].line;
    const double a = along_of(framing, line.from_in), b = along_of(framing, line.to_in);
    if (a == b || (station_in - a) * (station_in - b) > 0) continue;
    const double share = (station_in - a) / (b - a);
    const auto p = point_along(line.from_in, line.to_in, share * distance_in(line.from_in, line.to_in));
    cut.push_back({&framing.members[i], i, across_of(framing, p), share * distance_in(line.from_in, line.to_in), line.b_in > 0 ? line.b_in : kUsualBreadth_in,
                   line.d_in > 0 ? line.d_in : tables::usual().member_depth_in});
  }
  std::stable_sort(cut.begin(), cut.end(), [](const CutMember& a, const CutMember& b) { return a.across_in < b.across_in - 1e-9; });
  return cut;
}

std::vector<std::pair<double, double>> spans_inside(const Framing& framing, const Polygon& ring, double station_in) {
  std::vector<double> crossings;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto& a = ring[i];
    const auto& b = ring[(i + 1) % ring.size()];
    const double u = along_of(framing, a) - station_in, v = along_of(framing, b) - station_in;
    if ((u > 0) == (v > 0)) continue;
    crossings.push_back(across_of(framing, a) + (across_of(framing, b) - across_of(framing, a)) * u / (u - v));
  }
  std::sort(crossings.begin(), crossings.end());
  std::vector<std::pair<double, double>> spans;
  for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) spans.emplace_back(crossings[i], crossings[i + 1]);
  return spans;
}

std::optional<SectionCut> section_cut(const Job& job, const Findings& findings, const Framing& framing) {
  auto rings = deck_cut(job, findings);
  if (rings.empty() && job.room.outline_in.size() >= 3) rings = {job.room.outline_in};
  if (rings.empty() || framing.members.empty()) return std::nullopt;
  double station = middle_of(framing, rings, false), centre = middle_of(framing, rings, true);
  for (const auto& decay : framing.decay) {
    const auto& line = framing.members[decay.member].line;
    const auto p = point_along(line.from_in, line.to_in, (decay.from_in + decay.to_in) / 2);
    const bool along_main = std::fabs(along_of(framing, line.to_in) - along_of(framing, line.from_in)) >
                            std::fabs(across_of(framing, line.to_in) - across_of(framing, line.from_in));
    if (!decay.known || !along_main) continue;
    station = along_of(framing, p), centre = across_of(framing, p);
    break;
  }
  const auto members = members_at(framing, station);
  if (members.empty()) return std::nullopt;
  // The member nearest to the middle and its nearest neighbour found there.
  std::size_t best = 0;
  for (std::size_t i = 1; i < members.size(); ++i)
    if (std::fabs(members[i].across_in - centre) < std::fabs(members[best].across_in - centre) - 1e-9) best = i;
  double low = members[best].across_in, high = low;
  const auto far_enough = [&](double at) { return std::fabs(at - members[best].across_in) > 6; };
  double nearest = 1e9;
  for (const auto& other : members)
    if (!other.member->added && far_enough(other.across_in) && std::fabs(other.across_in - members[best].across_in) < std::fabs(nearest) - 1e-9)
      nearest = other.across_in - members[best].across_in;
  if (std::fabs(nearest) < 120) low = std::min(low, low + nearest), high = std::max(high, high + nearest);
  return SectionCut{station, low - kPast_in, high + kPast_in};
}

std::string section_words(const Job& job, const Framing& framing, const SectionCut& cut) {
  const auto from = survey::measured_from(job, std::nullopt);
  const Point at = framing.run_along_y ? Point{0, cut.station_in} : Point{cut.station_in, 0};
  const auto cells = place_cells(job, at);
  return "cut " + (framing.run_along_y ? cells.from_front + " from " + from.front : cells.from_left + " from " + from.left);
}

}  // namespace awlmark::papers
