#include "drying/wood.hpp"

#include <algorithm>
#include <cmath>

#include "base/special.hpp"
#include "drying/air.hpp"
#include "tables/materials.hpp"

namespace awlmark::drying {
namespace {

constexpr double kStep_days = 0.5;
constexpr double kLow_percent = 8, kHigh_percent = 26;
constexpr double kGas_cal = 1.9872;
constexpr double kCm2PerS_to_In2PerDay = 86400 / 6.4516;
constexpr double kFilm_lb_ft2_day = 53;  // for each unit of humidity ratio: 3 W/m2K by Lewis
constexpr double kWetShare = 0.33;
constexpr double kSurface_in_per_day = 1.3;  // resistance of the air film below saturation

double kelvin(double temp_f) { return (temp_f - 32) / 1.8 + 273.15; }

}  // namespace

double bound_water_diffusivity_cm2_s(double temp_f, double mc_percent) { return 0.07 * det_exp(-(9200 - 70 * mc_percent) / (kGas_cal * kelvin(temp_f))); }

namespace {

// Siau: diffusion of vapour in the cell's hollow, in terms of moisture content in the wall.
double vapour_term_cm2_s(double temp_f, double mc_percent) {
  const double kelvin_ = kelvin(temp_f), in_air = 0.220 * det_pow(kelvin_ / 273.15, 1.75);
  const double saturation_pa = saturation_pressure_psi(temp_f) * 6894.757;
  // Slope of the sorption curve, share of humidity for a percent.
  const double low = rh_for_emc_percent(temp_f, std::clamp(mc_percent - 0.25, 0.5, 27.0)),
               high = rh_for_emc_percent(temp_f, std::clamp(mc_percent + 0.25, 1.0, 27.5));
  const double slope = std::max(0.2, (high - low) / 0.5) / 100;
  const double concentration = saturation_pa * 18.02e-6 / (8.314 * kelvin_);  // g/cm3 of saturated vapour
  const double wall_gravity = 1.54 / (1 + 0.0154 * mc_percent);
  return in_air * concentration * slope * 100 / wall_gravity;
}

}  // namespace

double transverse_diffusivity_cm2_s(double temp_f, double mc_percent, double specific_gravity) {
  const double hollow = std::clamp(1 - specific_gravity / 1.54, 0.05, 0.95), a = std::sqrt(hollow);
  const double wall = bound_water_diffusivity_cm2_s(temp_f, mc_percent), vapour = vapour_term_cm2_s(temp_f, mc_percent);
  return wall * vapour / ((1 - hollow) * (wall + (1 - a) * vapour));
}

Climate climate(const AirState& air, double specific_gravity) {
  Climate out;
  out.temp_f = std::clamp(air.temp_f, 20.0, 160.0);
  const double rh_percent = std::clamp(air.rh_percent, 1.0, 98.0), saturated_psi = saturation_pressure_psi(out.temp_f),
               vapour_psi = saturated_psi * rh_percent / 100;
  out.equilibrium_percent = emc_percent(out.temp_f, rh_percent);
  const auto ratio = [](double psi) { return 0.621945 * psi / (kStandardPressure_psi - psi); };
  out.drying_ratio = ratio(saturated_psi) - ratio(vapour_psi);
  out.log_d_low = det_log(transverse_diffusivity_cm2_s(out.temp_f, kLow_percent, specific_gravity));
  out.log_d_high = det_log(transverse_diffusivity_cm2_s(out.temp_f, kHigh_percent, specific_gravity));
  return out;
}

DryingSlab::DryingSlab(const Slab& slab, double mc_percent) : slab_(slab), free_(std::max(0.0, mc_percent - tables::fibre_saturation_percent())) {
  cells_.fill(std::min(mc_percent, tables::fibre_saturation_percent()));
}

double DryingSlab::mean_percent() const {
  double sum = 0;
  for (const double c : cells_) sum += c;
  return sum / kCells + free_;
}

void DryingSlab::advance(double days, const Climate& climate, const Spread& spread, double air_factor) {
  const double equilibrium = std::clamp(climate.equilibrium_percent + spread.equilibrium_points, 1.0, 28.0);
  const double mass_lb_ft2 = slab_.thickness_in / 12 * slab_.specific_gravity * 62.4;
  const double rate = 100 * kFilm_lb_ft2_day * kWetShare * spread.evaporation * air_factor * std::max(0.0, climate.drying_ratio) *
                      std::max(1, slab_.faces_open) / mass_lb_ft2;  // points a day
  if (free_ > 0) {
    const double spent = std::min(days, rate > 1e-9 ? free_ / rate : 1e9);
    free_ = std::max(0.0, free_ - rate * spent);
    days -= spent;
  }
  while (days > 1e-9) {
    const double step = std::min(days, kStep_days);
    diffuse(step, equilibrium, climate, spread, air_factor);
    days -= step;
  }
}

// Implicit finite volumes, sealed at the inner end; diffusivity of the step before. ln D runs nearly
// straight in the moisture content between 8 and 26 percent.
void DryingSlab::diffuse(double days, double surface_percent, const Climate& climate, const Spread& spread, double air_factor) {
  const double path = slab_.faces_open >= 2 ? slab_.thickness_in / 2 : slab_.thickness_in, dx = path / kCells;
  std::array<double, kCells> d{}, lower{}, diagonal{}, upper{}, right = cells_;
  const double slope = (climate.log_d_high - climate.log_d_low) / (kHigh_percent - kLow_percent);
  for (int i = 0; i < kCells; ++i)
    d[i] = spread.diffusivity * kCm2PerS_to_In2PerDay * det_exp(climate.log_d_low + slope * (std::clamp(cells_[i], 4.0, 30.0) - kLow_percent));
  for (int i = 0; i < kCells; ++i) {
    const double right_flow = i + 1 < kCells ? 2 * d[i] * d[i + 1] / (d[i] + d[i + 1]) / dx : 0;
    const double left_flow =
        i > 0 ? 2 * d[i - 1] * d[i] / (d[i - 1] + d[i]) / dx : 1 / (dx / (2 * d[0]) + 1 / (kSurface_in_per_day * spread.evaporation * air_factor));
    diagonal[i] = 1 + days / dx * (left_flow + right_flow);
    upper[i] = -days / dx * right_flow;
    lower[i] = i > 0 ? -days / dx * left_flow : 0;
    if (i == 0) right[i] += days / dx * left_flow * surface_percent;
  }
  for (int i = 1; i < kCells; ++i) {
    const double factor = lower[i] / diagonal[i - 1];
    diagonal[i] -= factor * upper[i - 1];
    right[i] -= factor * right[i - 1];
  }
  for (int i = kCells - 1; i >= 0; --i) cells_[i] = (right[i] - (i + 1 < kCells ? upper[i] * cells_[i + 1] : 0)) / diagonal[i];
}

}  // namespace awlmark::drying
