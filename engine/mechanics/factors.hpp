// Adjustment factors of the NDS (ASD) and the adjusted design values that follow from them.
//
// Fb' = Fb CD CM Ct CL CF Cfu Ci Cr ; Ft' = Ft CD CM Ct CF Ci ; Fv' = Fv CD CM Ct Ci ;
// Fc_perp' = Fc_perp CM Ct Ci Cb ; Fc* = Fc CD CM Ct CF Ci (CP comes in post.hpp) ;
// E' = E CM Ct Ci ; Emin' = Emin CM Ct Ci.   [NDS Table 4.3.1; incising Table 4.3.8]
//
// Guarantees: (1) every factor is in `steps`, also where it is 1, with why. (2) CM for Fb is 1 where
// Fb CF <= 1150 psi, for Fc where Fc CF <= 750 psi. (3) Cr only for dimension lumber (decking has its
// own column). (4) CD never touches E, Emin or Fc_perp. (5) Cb only where the bearing is 3 in. or more
// from the member's end and shorter than 6 in.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mechanics/design_values.hpp"
#include "mechanics/section.hpp"

namespace awlmark::mechanics {

enum class Duration { permanent, ten_years, two_months, seven_days, ten_minutes, impact };
double cd_of(Duration duration);  // 0.9, 1.0, 1.15, 1.25, 1.6, 2.0 (NDS Table 2.3.2)

// How a member is used. What is left out is the ordinary case: dry, 100 F and less, not incised.
struct Conditions {
  double cd = 1.0;
  bool wet = false;    // over 19 percent moisture in service (decking and timbers alike)
  double temp_f = 70;  // sustained temperature
  bool incised = false;
  bool repetitive = false;                                     // three or more, 24 in. on centre or closer, joined by a deck
  bool flat = false;                                           // loaded on the wide face; give the section turned (b > d)
  std::optional<double> effective_unbraced_in = std::nullopt;  // le of NDS Table 3.3.3; nothing: compression edge held
};

struct Wet {
  double fb = 1, ft = 1, fv = 1, fc_perp = 1, fc = 1, e = 1;
};
Wet wet_factors(const DesignValues& values, double fb_cf_psi, double fc_cf_psi);

struct Size {
  double fb = 1, ft = 1, fc = 1;
};
// Dimension lumber by nominal width and thickness (4-in. pieces 8 in. and wider are larger), 1 for
// southern pine up to 12 in.; timbers (12/d)^(1/9) over 12 in.; decking 1.10 at 2 in., 1.04 at 3 in.
Size size_factors(const DesignValues& values, const Section& section);
// For a piece laid flat; 1 for decking. `section` is turned: b is the wide face.
double flat_use_factor(const DesignValues& values, const Section& section);

double beam_stability_factor(double emin_psi, double fb_star_psi, double effective_length_in, const Section& section);  // CL
double slenderness_rb(double effective_length_in, const Section& section);                                              // RB; over 50 is not allowed
// le of NDS Table 3.3.3 for a span held only at its ends, from the unbraced length and the depth.
double effective_unbraced_uniform_in(double unbraced_in, double d_in);
double column_stability_factor(double fc_star_psi, double fce_psi, double c = 0.8);  // CP
double bearing_area_factor(double bearing_length_in, double distance_to_end_in);     // Cb

struct Adjusted {
  double fb_psi = 0, ft_psi = 0, fv_psi = 0;
  double fc_perp_psi = 0;  // without Cb
  double fc_star_psi = 0;  // without CP
  double e_psi = 0, emin_psi = 0;
  double cl = 1, cf = 1, cr = 1, cm_fb = 1, cfu = 1;
  std::vector<std::string> steps;        // the factors, one property a line
  std::vector<std::string> not_allowed;  // RB over 50: what makes the piece unusable as described
  Reason reason;                         // source of the design values, with `steps`
};
// Ci on E of wood that was incised to take preservative; 1 for the rest.
double incised_e(const DesignValues& values);
Adjusted adjust(const DesignValues& values, const Section& section, const Conditions& conditions);

}  // namespace awlmark::mechanics
