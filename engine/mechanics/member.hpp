// Checks of one bending member: bending, shear, bearing, deflection, each as a Check whose reason
// shows the rule and every factor.
//
// fb = M / S (NDS 3.3.2), fv = 3 V / (2 b d) (3.4.2), bearing R / (b lb) (3.10.2), deflection by
// statics; long term Kcr dead + live (3.5.2). Shear may leave out loads within d of a support that
// carries by bearing (3.4.3.1) when `shear_at_d` is set.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/reason.hpp"
#include "mechanics/beam.hpp"
#include "mechanics/factors.hpp"

namespace awlmark::mechanics {

struct Limits {
  double live_over = 360;            // span / live_over for live load; 0: not checked
  double total_over = 240;           // for Kcr dead + live; 0: not checked
  Reason live_reason, total_reason;  // whose limits these are
  double creep = 1.5;                // Kcr: 1.5 seasoned and dry, 2.0 unseasoned or wet
};
// Code limits of a floor, L/360 live and L/240 total (data/deflection.csv); Kcr 2.0 where wet.
Limits floor_limits(bool wet = false);

struct MemberInput {
  std::string id;    // "j1"
  std::string name;  // "joist j1, 2x8"
  Section section;
  DesignValues values;
  Conditions conditions;
  std::vector<double> spans_in;
  End left = End::pinned;
  End right = End::pinned;
  double dead_pli = 0;
  double live_pli = 0;               // laid in patterns over continuous spans
  Loads dead;                        // further loads
  Loads live;                        // further live loads, always on
  std::vector<Stiffness> stiffness;  // where the section varies; left out: E' I of the section
  double bearing_length_in = 1.5;    // at every support; 0: bearing is not checked
  bool shear_at_d = false;
  Limits limits;
};

struct MemberResult {
  Adjusted adjusted;
  Envelope dead, live, total;  // of the patterns
  double fb_psi = 0, fv_psi = 0;
  double live_deflection_in = 0, dead_deflection_in = 0, long_term_deflection_in = 0;
  double bearing_needed_in = 0;
  std::vector<Check> checks;
  bool ok = true;
};
MemberResult check_member(const MemberInput& input);

// The single checks, for who has the demand already.
Check check_bending(const std::string& id, const std::string& name, double moment_inlb, const Section& section, const Adjusted& adjusted);
Check check_shear(const std::string& id, const std::string& name, double shear_lb, const Section& section, const Adjusted& adjusted);
Check check_deflection(const std::string& id, const std::string& name, const std::string& kind, double deflection_in, double span_in, double over, Reason rule);

// Longest simple span of evenly loaded joists: the lesser of bending under all load and deflection
// under live load alone (span tables of the IRC, R502.3.1).
struct JoistSpan {
  double span_in = 0;
  double bending_in = 0;
  double deflection_in = 0;
  std::string governs;  // "bending" or "deflection"
  Adjusted adjusted;
  Reason reason;
};
JoistSpan joist_span(const DesignValues& values, const Section& section, double spacing_in, double live_psf, double dead_psf, double deflection_over = 360,
                     const Conditions& conditions = {.repetitive = true});

}  // namespace awlmark::mechanics
