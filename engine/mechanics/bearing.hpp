// Bearing across the grain, framing connections as required capacity, nails and lags in withdrawal.
#pragma once

#include <string>

#include "base/reason.hpp"
#include "mechanics/factors.hpp"

namespace awlmark::mechanics {

// R / (b Fc_perp' Cb), solved for the length; Cb as in factors.hpp.
double bearing_needed_in(double reaction_lb, double b_in, double fc_perp_psi);
double bearing_capacity_lb(double b_in, double bearing_length_in, double fc_perp_psi, double distance_to_end_in);
Check check_bearing(const std::string& id, const std::string& name, double reaction_lb, double b_in, double bearing_length_in, const Adjusted& adjusted,
                    double distance_to_end_in = 0);

enum class Seat { wood_or_metal, masonry };
// Least length of bearing of a joist: 1.5 in. on wood or metal, 3 in. on masonry (IRC R502.6).
double least_bearing_in(Seat seat);
Reason least_bearing_reason(Seat seat);

// Pounds an inch of thread or point penetration (NDS 12.2; W for nails 1380 G^2.5 D, lags 1800 G^1.5 D^0.75).
double nail_withdrawal_lb_per_in(double specific_gravity, double diameter_in);
double lag_withdrawal_lb_per_in(double specific_gravity, double diameter_in);

}  // namespace awlmark::mechanics
