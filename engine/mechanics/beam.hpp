// Continuous beams, exactly: any spans, stiffness by segments, ends pinned, fixed or free, uniform,
// linearly varying and point loads anywhere.
//
// Method: three-moment equations with the segments' own flexibilities, then statics span by span;
// moments, slopes and deflections are polynomials between the breaks, and extremes are found at the
// roots of their derivatives, not by sampling.
// Signs: loads and deflections positive downwards, reactions positive upwards, sagging moment
// positive, shear positive where the part to the left pushes up.
// Guarantees: (1) reactions and loads are in equilibrium to 1e-9 of the load. (2) Superposition:
// solve(a + b) = solve(a) + solve(b). (3) Moments are continuous over supports.
// Not promised: shear deformation, settlements, supports that let go (see `uplift`).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"

namespace awlmark::mechanics {

enum class End { pinned, fixed, free };
BOOST_DESCRIBE_ENUM(End, pinned, fixed, free)

// From from_in to to_in the load goes in a straight line from w_from to w_to.
struct LineLoad {
  double w_from_pli = 0;
  double w_to_pli = 0;
  double from_in = 0;
  double to_in = 0;
};
struct PointLoad {
  double p_lb = 0;
  double at_in = 0;
};
struct Loads {
  std::vector<LineLoad> lines;
  std::vector<PointLoad> points;
};
LineLoad uniform(double w_pli, double from_in, double to_in);

// Stiffness E I from the end of the segment before (or 0) up to `to_in`.
struct Stiffness {
  double to_in = 0;
  double ei_lbin2 = 0;
};

struct Beam {
  std::vector<double> spans_in;  // left to right; a free end makes the first or last one a cantilever
  End left = End::pinned;
  End right = End::pinned;
  std::vector<Stiffness> stiffness;  // at least one; the last one reaches the end whatever its to_in
  Loads loads;
  double length_in() const;
};
Beam prismatic(std::vector<double> spans_in, double e_psi, double i_in4, Loads loads = {}, End left = End::pinned, End right = End::pinned);

struct Station {
  double at_in = 0;
  double shear_lb = 0;  // to the right of the station
  double moment_inlb = 0;
  double slope = 0;  // radians, downwards to the right positive
  double deflection_in = 0;
};

struct SpanResult {
  double from_in = 0, to_in = 0;
  double shear_max_lb = 0;  // largest size
  double moment_max_inlb = 0, moment_max_at_in = 0;
  double moment_min_inlb = 0, moment_min_at_in = 0;
  double deflection_max_in = 0, deflection_max_at_in = 0;  // largest downward, at least 0 for a span between supports
  double deflection_min_in = 0, deflection_min_at_in = 0;  // largest upward (negative)
};

struct BeamResult {
  std::vector<double> supports_in;
  std::vector<double> reactions_lb;  // one a support, upwards
  double fixing_left_inlb = 0;       // moment of the beam at a fixed end, sagging positive
  double fixing_right_inlb = 0;
  double shear_max_lb = 0;
  double moment_max_inlb = 0, moment_max_at_in = 0;
  double moment_min_inlb = 0, moment_min_at_in = 0;
  double deflection_max_in = 0, deflection_max_at_in = 0;
  double deflection_min_in = 0, deflection_min_at_in = 0;
  double deflection_left_in = 0, deflection_right_in = 0;  // at the very ends
  bool uplift = false;                                     // a support would have to hold the beam down
  std::vector<SpanResult> spans;

  // The polynomials between the breaks, for values anywhere.
  struct Piece {
    double from_in = 0, to_in = 0;
    double ei_lbin2 = 0;
    double shear_lb = 0, moment_inlb = 0, slope = 0, deflection_in = 0;  // at from_in
    double w_pli = 0, w_rise = 0;                                        // load at from_in and its change an inch
  };
  std::vector<Piece> pieces;
  Station at(double x_in) const;
};

// What is wrong with the description: lengths, places off the beam, a beam that can fall or spin.
Problems check(const Beam& beam);
// `beam` must pass check(); a beam that does not throws std::invalid_argument.
BeamResult solve(const Beam& beam);

// Live load in the patterns that are worst for continuous beams: on all spans, on every second one,
// and on the two spans beside each inner support with every second one beyond. One Loads a pattern.
std::vector<Loads> pattern_loads(const Beam& beam, double w_live_pli);

// The worst of several load cases, figure by figure.
struct Envelope {
  std::vector<double> reactions_max_lb;
  std::vector<double> reactions_min_lb;
  double shear_max_lb = 0;
  double moment_max_inlb = 0;
  double moment_min_inlb = 0;
  std::vector<double> span_deflection_max_in;
  double deflection_max_in = 0;
};
Envelope envelope(const std::vector<BeamResult>& cases);

}  // namespace awlmark::mechanics
