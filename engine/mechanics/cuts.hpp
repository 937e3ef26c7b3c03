// Notches and holes in sawn joists: the prescriptive limits (IRC R502.8.1) and shear at a notched
// end (NDS 3.4.3).
#pragma once

#include <optional>
#include <string>

#include "base/reason.hpp"
#include "mechanics/factors.hpp"

namespace awlmark::mechanics {

struct CutLimits {
  double hole_max_in = 0;          // d/3, and not so large that less than 2 in. is left above or below
  double hole_third_in = 0;        // d/3 alone
  double hole_edge_in = 2;         // from the top, the bottom and other holes or notches
  double notch_max_in = 0;         // d/6
  double notch_length_max_in = 0;  // d/3
  double end_notch_max_in = 0;     // d/4
  Reason reason;
};
CutLimits cut_limits(double d_in);

struct Verdict {
  bool ok = true;
  std::string why;
  std::vector<Check> checks;
};
// from_top_in: top of the joist to the near edge of the hole.
Verdict check_hole(double b_in, double d_in, double diameter_in, double from_top_in);
// at_in: place of the notch's middle along the span, from a support; nothing known counts as the middle third.
// `bottom`: cut into the tension face; not allowed in 4-in. and thicker joists except at the ends.
Verdict check_notch(double b_in, double d_in, double depth_in, std::optional<double> length_in, std::optional<double> at_in, std::optional<double> span_in,
                    bool bottom = false);

// V' = (2/3) Fv' b dn (dn/d)^2: notch in the tension face at a support (NDS 3.4.3.2(a)).
double notched_shear_lb(double b_in, double d_in, double dn_in, double fv_psi);
// V' = (2/3) Fv' b (d - ((d - dn)/dn) e): notch in the compression face at a support that reaches e past
// its inner edge; where e is more than dn, dn stands for the depth (NDS 3.4.3.2(e)).
double top_notched_shear_lb(double b_in, double d_in, double dn_in, double e_in, double fv_psi);

}  // namespace awlmark::mechanics
