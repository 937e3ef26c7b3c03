// Moist air and the moisture that wood comes to in it.
//
// Equilibrium moisture: Wood Handbook (FPL-GTR-282, 2021) Eq. 4-5 with the Fahrenheit coefficients.
// Moist air: ASHRAE Handbook Fundamentals ch. 1: saturation over ice below and over water above the
// triple point (Eq. 5, 6), humidity ratio, enthalpy and wet bulb; without the enhancement factor, so
// saturated air holds about 0.45 percent less than the printed tables say. Checked against PsychroLib.
// Not promised: the second equilibrium equation of that chapter (Eq. 4-6), which runs up to three
// points higher in humid air.
#pragma once

namespace awlmark::drying {

// Percent of the ovendry mass. temp_f 30 to 130, rh_percent 0 to 100: outside it still computes.
double emc_percent(double temp_f, double rh_percent);
// The relative humidity at which wood comes to that moisture; 0 to 100, by halving to 1e-10.
double rh_for_emc_percent(double temp_f, double emc_percent);

inline constexpr double kStandardPressure_psi = 14.6959487755;  // 101,325 Pa

struct Air {
  double vapour_pressure_psi = 0;
  double saturation_pressure_psi = 0;
  double humidity_ratio = 0;  // lb of water for a pound of dry air
  double dew_point_f = 0;     // of perfectly dry air: -148, where the equations end
  double wet_bulb_f = 0;
  double enthalpy_btu_per_lb = 0;  // for a pound of dry air, 0 at 0 F
  double volume_ft3_per_lb = 0;    // for a pound of dry air
  double grains_per_lb = 0;
};

// temp_f -148 to 392. The pressure must exceed the vapour pressure; otherwise the humidity ratio is 0.
Air air(double temp_f, double rh_percent, double pressure_psi = kStandardPressure_psi);

double saturation_pressure_psi(double temp_f);
// The humidity ratio of air with that wet bulb.
double humidity_ratio_from_wet_bulb(double temp_f, double wet_bulb_f, double pressure_psi = kStandardPressure_psi);
// Relative humidity, 0 to 100, of air with that humidity ratio.
double rh_percent_from_humidity_ratio(double temp_f, double humidity_ratio, double pressure_psi = kStandardPressure_psi);

}  // namespace awlmark::drying
