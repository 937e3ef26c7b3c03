// Decking laid flat over supports: capacity by layup pattern (IBC 2306.1.4), and what a lumber
// subfloor must measure (IRC Table R503.1).
//
// w_bending = k1 Fb' S / l^2, w_deflection = k2 Delta E' I / l^4, for one foot of width.
#pragma once

#include <optional>
#include <string>

#include "base/reason.hpp"
#include "mechanics/design_values.hpp"

namespace awlmark::mechanics {

enum class Layup { simple, two_span, mixed, cantilevered, random };
BOOST_DESCRIBE_ENUM(Layup, simple, two_span, mixed, cantilevered, random)

struct LayupRow {
  double k_bending = 0;
  double k_deflection = 0;
  Reason reason;
};
// `random` depends on the thickness: 2-in. (under 2 in. actual) against 3- and 4-in. decking.
LayupRow layup_row(Layup layup, double thickness_in);

struct DeckingCapacity {
  double bending_psf = 0;
  double deflection_psf = 0;
  double capacity_psf = 0;
  std::string governs;  // "bending" or "deflection"
  Reason reason;
};
// fb_psi and e_psi are adjusted values.
DeckingCapacity decking_capacity(Layup layup, double fb_psi, double e_psi, double thickness_in, double span_in, double deflection_over = 360);

// Least net thickness of board subfloors (IRC Table R503.1).
struct BoardSubfloor {
  double support_spacing_in = 0;                // of the row used: the next wider one
  double thickness_in = 0;                      // boards square to the supports
  std::optional<double> diagonal_thickness_in;  // nothing: diagonal boards are not allowed
  bool tongue_and_groove = false;
  std::optional<double> fb_psi;  // least design values, where the row asks for them
  std::optional<double> e_psi;
  Reason reason;
};
std::optional<BoardSubfloor> board_subfloor(double support_spacing_in);  // nothing past 60 in.

}  // namespace awlmark::mechanics
