// Solid and square posts: column stability (NDS 3.7) and what shores and girders may set on them.
#pragma once

#include <string>

#include "base/reason.hpp"
#include "mechanics/factors.hpp"

namespace awlmark::mechanics {

struct PostInput {
  double b_in = 0;
  double d_in = 0;
  double length_in = 0;    // unbraced, buckling about the axis that bends over d
  double length_b_in = 0;  // unbraced, buckling over b; 0 where sheathing or blocking holds it
  double ke = 1.0;         // effective length factor
  double fc_star_psi = 0;  // Fc with every factor but CP
  double emin_psi = 0;     // Emin'
};
struct PostResult {
  double slenderness = 0;  // the greater le / d
  double fce_psi = 0;
  double cp = 0;
  double fc_psi = 0;  // Fc' = Fc* CP
  double capacity_lb = 0;
  bool slender_ok = true;  // le / d at most 50 in service (75 while building)
  Reason reason;
};
PostResult post_capacity(const PostInput& input);
PostResult post_capacity(const Section& section, const DesignValues& values, const Conditions& conditions, double length_in, double length_b_in,
                         double ke = 1.0);

}  // namespace awlmark::mechanics
