#include "mechanics/bearing.hpp"

#include "base/length.hpp"
#include "base/special.hpp"

namespace awlmark::mechanics {

double bearing_needed_in(double reaction_lb, double b_in, double fc_perp_psi) { return reaction_lb > 0 ? reaction_lb / (b_in * fc_perp_psi) : 0; }

double bearing_capacity_lb(double b_in, double bearing_length_in, double fc_perp_psi, double distance_to_end_in) {
  return b_in * bearing_length_in * fc_perp_psi * bearing_area_factor(bearing_length_in, distance_to_end_in);
}

Check check_bearing(const std::string& id, const std::string& name, double reaction_lb, double b_in, double bearing_length_in, const Adjusted& adjusted,
                    double distance_to_end_in) {
  Reason r = adjusted.reason;
  const double cb = bearing_area_factor(bearing_length_in, distance_to_end_in);
  r.compares = "bearing of " + name + " across the grain against its adjusted design value";
  r.unit = "psi";
  r.rule = "NDS 3.10.2: R/(b lb) <= Fc_perp' Cb; design values: " + adjusted.reason.source + " " + adjusted.reason.rule;
  r.steps.push_back("R " + format_number(reaction_lb, 0) + " lb on " + format_number(b_in, 3) + " x " + format_number(bearing_length_in, 3) + " in.");
  r.steps.push_back(cb > 1 ? "Cb " + format_number(cb, 3) + ": short bearing 3 in. or more from the end (NDS 3.10.4)"
                           : "Cb 1.00: bearing at the end of the member, or 6 in. and longer");
  return make_check(id + ".bearing", name, "bearing", reaction_lb / (b_in * bearing_length_in), adjusted.fc_perp_psi * cb, std::move(r));
}

double least_bearing_in(Seat seat) { return seat == Seat::masonry ? 3.0 : 1.5; }

Reason least_bearing_reason(Seat seat) {
  Reason r;
  r.compares = "length of bearing of a joist, beam or girder";
  r.capacity = least_bearing_in(seat);
  r.unit = "in";
  r.rule = seat == Seat::masonry ? "R502.6: at least 3 in. on masonry or concrete, also over a sill plate" : "R502.6: at least 1 1/2 in. on wood or metal";
  r.source = "IRC";
  r.edition = "2018";
  r.status = SourceStatus::read;
  return r;
}

double nail_withdrawal_lb_per_in(double specific_gravity, double diameter_in) { return 1380 * det_pow(specific_gravity, 2.5) * diameter_in; }

double lag_withdrawal_lb_per_in(double specific_gravity, double diameter_in) { return 1800 * det_pow(specific_gravity, 1.5) * det_pow(diameter_in, 0.75); }

}  // namespace awlmark::mechanics
