#include "drying/air.hpp"

#include <algorithm>
#include <cmath>

#include "base/special.hpp"

namespace awlmark::drying {
namespace {

constexpr double kWaterOverAir = 0.621945;  // molar masses
constexpr double kGasConstant = 53.350;     // dry air, ft lbf / (lb R)
constexpr double kZero_r = 459.67;
constexpr double kTriple_f = 32.018;
constexpr double kColdest_f = -148;  // where the saturation equations end

// ln of the saturation pressure in psi. Fundamentals (2017) ch. 1, Eq. 5 over ice, Eq. 6 over water.
double log_saturation(double temp_f) {
  const double t = temp_f + kZero_r;
  if (temp_f <= kTriple_f)
    return -1.0214165e4 / t - 4.8932428 + t * (-5.3765794e-3 + t * (1.9202377e-7 + t * (3.5575832e-10 + t * -9.0344688e-14))) + 4.1635019 * det_log(t);
  return -1.0440397e4 / t - 1.1294650e1 + t * (-2.7022355e-2 + t * (1.2890360e-5 + t * -2.4780681e-9)) + 6.5459673 * det_log(t);
}

double ratio_of(double vapour_psi, double pressure_psi) { return pressure_psi > vapour_psi ? kWaterOverAir * vapour_psi / (pressure_psi - vapour_psi) : 0; }

double dew_point(double vapour_psi, double temp_f) {
  if (vapour_psi <= saturation_pressure_psi(kColdest_f)) return kColdest_f;
  double low = kColdest_f, high = temp_f;
  for (int step = 0; step < 64; ++step) {
    const double middle = (low + high) / 2;
    if (saturation_pressure_psi(middle) < vapour_psi)
      low = middle;
    else
      high = middle;
  }
  return (low + high) / 2;
}

double wet_bulb(double temp_f, double dew_f, double ratio, double pressure_psi) {
  double low = dew_f, high = temp_f;
  for (int step = 0; step < 64; ++step) {
    const double middle = (low + high) / 2;
    if (humidity_ratio_from_wet_bulb(temp_f, middle, pressure_psi) > ratio)
      high = middle;
    else
      low = middle;
  }
  return (low + high) / 2;
}

}  // namespace

double emc_percent(double temp_f, double rh_percent) {
  const double t = temp_f, h = std::clamp(rh_percent, 0.0, 100.0) / 100;
  const double w = 330 + t * (0.452 + t * 0.00415);
  const double k = 0.791 + t * (4.63e-4 - t * 8.44e-7);
  const double k1 = 6.34 + t * (7.75e-4 - t * 9.35e-5);
  const double k2 = 1.09 + t * (2.84e-2 - t * 9.04e-5);
  const double kh = k * h, a = k1 * kh, b = k1 * k2 * kh * kh;
  return 1800 / w * (kh / (1 - kh) + (a + 2 * b) / (1 + a + b));
}

double rh_for_emc_percent(double temp_f, double wanted_percent) {
  double low = 0, high = 100;
  if (emc_percent(temp_f, high) <= wanted_percent) return high;
  for (int step = 0; step < 60; ++step) {
    const double middle = (low + high) / 2;
    if (emc_percent(temp_f, middle) < wanted_percent)
      low = middle;
    else
      high = middle;
  }
  return (low + high) / 2;
}

double saturation_pressure_psi(double temp_f) { return det_exp(log_saturation(temp_f)); }

// Fundamentals (2017) ch. 1, Eq. 33 above freezing, Eq. 35 below, in the SI edition's coefficients: the
// rounder ones of the inch-pound edition are up to 0.4 percent off in dry air.
double humidity_ratio_from_wet_bulb(double temp_f, double wet_bulb_f, double pressure_psi) {
  const double t = (temp_f - 32) / 1.8, wet = (wet_bulb_f - 32) / 1.8;
  const double saturated = ratio_of(saturation_pressure_psi(wet_bulb_f), pressure_psi);
  const double ratio = wet >= 0 ? ((2501 - 2.326 * wet) * saturated - 1.006 * (t - wet)) / (2501 + 1.86 * t - 4.186 * wet)
                                : ((2830 - 0.24 * wet) * saturated - 1.006 * (t - wet)) / (2830 + 1.86 * t - 2.1 * wet);
  return std::max(0.0, ratio);
}

double rh_percent_from_humidity_ratio(double temp_f, double humidity_ratio, double pressure_psi) {
  const double vapour_psi = pressure_psi * humidity_ratio / (kWaterOverAir + humidity_ratio);
  return std::clamp(100 * vapour_psi / saturation_pressure_psi(temp_f), 0.0, 100.0);
}

Air air(double temp_f, double rh_percent, double pressure_psi) {
  Air out;
  out.saturation_pressure_psi = saturation_pressure_psi(temp_f);
  out.vapour_pressure_psi = out.saturation_pressure_psi * std::clamp(rh_percent, 0.0, 100.0) / 100;
  out.humidity_ratio = ratio_of(out.vapour_pressure_psi, pressure_psi);
  out.grains_per_lb = 7000 * out.humidity_ratio;
  out.dew_point_f = dew_point(out.vapour_pressure_psi, temp_f);
  out.wet_bulb_f = wet_bulb(temp_f, out.dew_point_f, out.humidity_ratio, pressure_psi);
  out.enthalpy_btu_per_lb = 0.240 * temp_f + out.humidity_ratio * (1061 + 0.444 * temp_f);
  out.volume_ft3_per_lb = kGasConstant * (temp_f + kZero_r) * (1 + out.humidity_ratio / kWaterOverAir) / (144 * pressure_psi);
  return out;
}

}  // namespace awlmark::drying
