#include "drying/wood.hpp"

#include <algorithm>
#include <cmath>

#include "base/special.hpp"
#include "drying/air.hpp"
#include "tables/materials.hpp"

namespace awlmark::drying {
namespace {

constexpr double kStep_days = 0.5, kWetStep_days = 0.25;
constexpr double kLow_percent = 8, kHigh_percent = 26;
constexpr double kGas_cal = 1.9872;
constexpr double kCm2PerS_to_In2PerDay = 86400 / 6.4516;
constexpr double kFilm_in_per_day = 1.3;  // at 68 F, still air: wood.hpp

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
  out.equilibrium_percent = emc_percent(out.temp_f, std::clamp(air.rh_percent, 1.0, 98.0));
  out.film_share = saturation_pressure_psi(out.temp_f) / saturation_pressure_psi(68);
  out.log_d_low = det_log(transverse_diffusivity_cm2_s(out.temp_f, kLow_percent, specific_gravity));
  out.log_d_high = det_log(transverse_diffusivity_cm2_s(out.temp_f, kHigh_percent, specific_gravity));
  return out;
}

DryingSlab::DryingSlab(const Slab& slab, double mc_percent) : slab_(slab) { cells_.fill(mc_percent); }

double DryingSlab::mean_percent() const {
  double sum = 0;
  for (const double c : cells_) sum += c;
  return sum / kCells;
}

double DryingSlab::free_percent() const {
  double sum = 0;
  const double saturation = tables::fibre_saturation_percent();
  for (const double c : cells_) sum += std::max(0.0, c - saturation);
  return sum / kCells;
}

void DryingSlab::advance(double days, const Climate& climate, const Spread& spread, double air_factor) {
  const double end = std::clamp(climate.equilibrium_percent + spread.equilibrium_points, 1.0, 28.0);
  while (days > 1e-9) {
    const double step = std::min(days, free_percent() > 0 ? kWetStep_days : kStep_days);
    diffuse(step, end, climate, spread, air_factor);
    days -= step;
  }
}

// Implicit finite volumes with the diffusivity of the step before; ln D runs nearly straight in the
// moisture content between 8 and 26 percent.
void DryingSlab::diffuse(double days, double end_percent, const Climate& climate, const Spread& spread, double air_factor) {
  const double path = slab_.faces_open >= 2 ? slab_.thickness_in / 2 : slab_.thickness_in, dx = path / kCells;
  std::array<double, kCells> d{}, lower{}, diagonal{}, upper{}, right = cells_;
  const double saturation = tables::fibre_saturation_percent();
  const double slope = (climate.log_d_high - climate.log_d_low) / (kHigh_percent - kLow_percent);
  for (int i = 0; i < kCells; ++i) {
    d[i] = spread.diffusivity * kCm2PerS_to_In2PerDay * det_exp(climate.log_d_low + slope * (std::clamp(cells_[i], 4.0, saturation) - kLow_percent));
    if (cells_[i] > saturation) d[i] *= spread.capillary;
  }
  // A wet face gives off what one at fibre saturation does.
  const auto through_face = [&](int i, double factor) {
    if (factor <= 0) return 0.0;
    const double film = kFilm_in_per_day * climate.film_share * spread.evaporation * factor;
    if (cells_[i] > saturation) return film * (saturation - end_percent) / (cells_[i] - end_percent);
    return 1 / (dx / (2 * d[i]) + 1 / film);
  };
  const double open = through_face(0, air_factor);
  const double shut = slab_.faces_open >= 2 ? 0 : through_face(kCells - 1, spread.shut_share);  // fans do not reach it
  for (int i = 0; i < kCells; ++i) {
    const double inward = i + 1 < kCells ? 2 * d[i] * d[i + 1] / (d[i] + d[i + 1]) / dx : shut;
    const double outward = i > 0 ? 2 * d[i - 1] * d[i] / (d[i - 1] + d[i]) / dx : open;
    diagonal[i] = 1 + days / dx * (outward + inward);
    upper[i] = i + 1 < kCells ? -days / dx * inward : 0;
    lower[i] = i > 0 ? -days / dx * outward : 0;
    if (i == 0) right[i] += days / dx * open * end_percent;
    if (i + 1 == kCells) right[i] += days / dx * shut * end_percent;
  }
  for (int i = 1; i < kCells; ++i) {
    const double factor = lower[i] / diagonal[i - 1];
    diagonal[i] -= factor * upper[i - 1];
    right[i] -= factor * right[i - 1];
  }
  for (int i = kCells - 1; i >= 0; --i) cells_[i] = (right[i] - (i + 1 < kCells ? upper[i] * cells_[i + 1] : 0)) / diagonal[i];
}

}  // namespace awlmark::drying
