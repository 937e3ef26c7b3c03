#include "mechanics/post.hpp"

#include <algorithm>

#include "base/length.hpp"

namespace awlmark::mechanics {

PostResult post_capacity(const PostInput& in) {
  PostResult out;
  const double about_d = in.ke * in.length_in / in.d_in, about_b = in.ke * in.length_b_in / in.b_in;
  out.slenderness = std::max(about_d, about_b);
  constexpr double kMostInService = 50;  // NDS 3.7.1.4; 75 while building
  out.slender_ok = out.slenderness <= kMostInService + 1e-9;
  out.fce_psi = out.slenderness > 0 ? 0.822 * in.emin_psi / (out.slenderness * out.slenderness) : 0;
  out.cp = out.slenderness > 0 ? column_stability_factor(in.fc_star_psi, out.fce_psi) : 1;
  out.fc_psi = in.fc_star_psi * out.cp;
  out.capacity_lb = out.fc_psi * in.b_in * in.d_in;
  Reason& r = out.reason;
  r.compares = "load on a post against its capacity in compression";
  r.capacity = out.capacity_lb;
  r.unit = "lb";
  r.rule = "NDS 3.7.1: Fc' = Fc* CP, FcE = 0.822 Emin'/(le/d)^2, c = 0.8";
  r.source = "NDS";
  r.edition = "2018";
  r.status = SourceStatus::memory;
  r.steps.push_back("le/d " + format_number(about_d, 3) + " over " + format_number(in.d_in, 2) + " in., " + format_number(about_b, 3) + " over " +
                    format_number(in.b_in, 2) + " in.; the greater governs");
  r.steps.push_back("Fc* " + format_number(in.fc_star_psi, 1) + " psi, FcE " + format_number(out.fce_psi, 1) + " psi, CP " + format_number(out.cp, 4));
  r.steps.push_back("Fc' " + format_number(out.fc_psi, 1) + " psi x " + format_number(in.b_in * in.d_in, 3) + " sq in. = " + format_number(out.capacity_lb, 0) +
                    " lb");
  if (!out.slender_ok) r.steps.push_back("le/d is over 50: not allowed in service (75 while building)");
  return out;
}

PostResult post_capacity(const Section& section, const DesignValues& values, const Conditions& conditions, double length_in, double length_b_in, double ke) {
  const Adjusted adjusted = adjust(values, section, conditions);
  PostResult out = post_capacity({section.b_in, section.d_in, length_in, length_b_in, ke, adjusted.fc_star_psi, adjusted.emin_psi});
  out.reason.rule += "; design values: " + values.reason.source + " " + values.reason.rule;
  out.reason.steps.insert(out.reason.steps.begin(), adjusted.steps.begin(), adjusted.steps.end());
  return out;
}

}  // namespace awlmark::mechanics
