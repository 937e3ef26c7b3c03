// What a beam's description must satisfy, the load patterns, and envelopes.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "mechanics/beam.hpp"
#include "mechanics/beam_pieces.hpp"

namespace awlmark::mechanics {
namespace {

constexpr std::size_t kMostSpans = 60;

std::string item(const char* list, std::size_t i, const char* key) { return std::string(list) + "[" + std::to_string(i) + "]" + key; }

void check_ends(const Beam& beam, Problems& problems) {
  const std::size_t supports = support_places(beam).size();
  const bool fixed = beam.left == End::fixed || beam.right == End::fixed;
  if (supports >= 2 || (supports == 1 && fixed)) return;
  problems.push_back(
      {"ends", "leave the beam free to fall or turn: " + std::to_string(supports) + " support" + (supports == 1 ? "" : "s") + " and no fixed end hold it",
       "give two supports, or fix the end of a cantilever"});
}

void check_place(double x, double length, const std::string& at, Problems& problems) {
  if (std::isfinite(x) && x >= -kSame_in && x <= length + kSame_in) return;
  problems.push_back({at, "lies off the beam, which is " + format_number(length, 3) + " in. long", "measure from the left end"});
}

void check_loads(const Beam& beam, Problems& problems) {
  const double length = beam.length_in();
  for (std::size_t i = 0; i < beam.loads.lines.size(); ++i) {
    const auto& l = beam.loads.lines[i];
    if (!std::isfinite(l.w_from_pli) || !std::isfinite(l.w_to_pli))
      problems.push_back({item("loads.lines", i, ".w_pli"), "is not a number", "give pounds an inch"});
    check_place(l.from_in, length, item("loads.lines", i, ".from_in"), problems);
    check_place(l.to_in, length, item("loads.lines", i, ".to_in"), problems);
    if (!(l.to_in - l.from_in > kSame_in))
      problems.push_back({item("loads.lines", i, ".to_in"), "is not to the right of from_in", "exchange the two, or give a point load"});
  }
  for (std::size_t i = 0; i < beam.loads.points.size(); ++i) {
    const auto& p = beam.loads.points[i];
    if (!std::isfinite(p.p_lb)) problems.push_back({item("loads.points", i, ".p_lb"), "is not a number", "give pounds"});
    check_place(p.at_in, length, item("loads.points", i, ".at_in"), problems);
  }
}

}  // namespace

Problems check(const Beam& beam) {
  Problems problems;
  if (beam.spans_in.empty()) problems.push_back({"spans_in", "is empty", "give at least one span"});
  if (beam.spans_in.size() > kMostSpans) problems.push_back({"spans_in", "has more than 60 spans", "split the beam where it is jointed"});
  for (std::size_t i = 0; i < beam.spans_in.size(); ++i)
    if (!std::isfinite(beam.spans_in[i]) || beam.spans_in[i] < 1e-3)
      problems.push_back({item("spans_in", i, ""), "is not a length of span", "give inches, more than 0"});
  if (beam.stiffness.empty()) problems.push_back({"stiffness", "is empty", "give E I"});
  for (std::size_t i = 0; i < beam.stiffness.size(); ++i)
    if (!std::isfinite(beam.stiffness[i].ei_lbin2) || beam.stiffness[i].ei_lbin2 <= 0)
      problems.push_back({item("stiffness", i, ".ei_lbin2"), "is not more than 0", "give E I in lb sq in."});
  for (std::size_t i = 0; i + 1 < beam.stiffness.size(); ++i)
    if (!(beam.stiffness[i].to_in < beam.stiffness[i + 1].to_in))
      problems.push_back({item("stiffness", i + 1, ".to_in"), "does not lie to the right of the one before", "list segments from left to right"});
  if (!problems.empty()) return problems;
  check_ends(beam, problems);
  check_loads(beam, problems);
  return problems;
}

std::vector<Loads> pattern_loads(const Beam& beam, double w_live_pli) {
  const std::size_t n = beam.spans_in.size();
  std::vector<std::vector<bool>> patterns;
  const auto add = [&](const std::vector<bool>& on) {
    if (std::find(patterns.begin(), patterns.end(), on) == patterns.end() && std::find(on.begin(), on.end(), true) != on.end()) patterns.push_back(on);
  };
  add(std::vector<bool>(n, true));
  for (const std::size_t parity : {std::size_t{0}, std::size_t{1}}) {
    std::vector<bool> on(n, false);
    for (std::size_t i = parity; i < n; i += 2) on[i] = true;
    add(on);
  }
  // Both spans beside an inner support, then every second one outwards: the worst for that support.
  for (std::size_t j = 1; j < n; ++j) {
    std::vector<bool> on(n, false);
    for (std::size_t i = 0; i < n; ++i) on[i] = i < j ? (j - 1 - i) % 2 == 0 : (i - j) % 2 == 0;
    add(on);
  }
  std::vector<Loads> cases;
  for (const auto& on : patterns) {
    Loads loads;
    double at = 0;
    for (std::size_t i = 0; i < n; ++i) {
      if (on[i]) loads.lines.push_back(uniform(w_live_pli, at, at + beam.spans_in[i]));
      at += beam.spans_in[i];
    }
    cases.push_back(std::move(loads));
  }
  return cases;
}

Envelope envelope(const std::vector<BeamResult>& cases) {
  Envelope e;
  for (std::size_t c = 0; c < cases.size(); ++c) {
    const auto& r = cases[c];
    if (c == 0) {
      e.reactions_max_lb = e.reactions_min_lb = r.reactions_lb;
      e.span_deflection_max_in.assign(r.spans.size(), 0.0);
    }
    for (std::size_t i = 0; i < r.reactions_lb.size(); ++i) {
      e.reactions_max_lb[i] = std::max(e.reactions_max_lb[i], r.reactions_lb[i]);
      e.reactions_min_lb[i] = std::min(e.reactions_min_lb[i], r.reactions_lb[i]);
    }
    for (std::size_t i = 0; i < r.spans.size(); ++i) e.span_deflection_max_in[i] = std::max(e.span_deflection_max_in[i], r.spans[i].deflection_max_in);
    e.shear_max_lb = std::max(e.shear_max_lb, r.shear_max_lb);
    e.moment_max_inlb = std::max(e.moment_max_inlb, r.moment_max_inlb);
    e.moment_min_inlb = std::min(e.moment_min_inlb, r.moment_min_inlb);
    e.deflection_max_in = std::max(e.deflection_max_in, r.deflection_max_in);
  }
  return e;
}

}  // namespace awlmark::mechanics
