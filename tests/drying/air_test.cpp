#include "drying/air.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/outside.hpp"
#include "support/property.hpp"

namespace awlmark::drying {
namespace {

constexpr double kPa_per_psi = 6894.757293168;
double f_of(double c) { return c * 1.8 + 32; }
double c_of(double f) { return (f - 32) / 1.8; }

double tolerance(const nlohmann::json& one, double expected) {
  if (one.contains("tolerance_abs")) return one.at("tolerance_abs").get<double>() + 1e-12;
  return one.at("tolerance_rel").get<double>() * std::fabs(expected) + 1e-15;
}

// Wood Handbook Table 4-2, and Eq. 4-5 worked out: tests/outside/moisture.json emc_table, emc_equation.
TEST(Emc, TableAndEquation) {
  const auto file = testing::outside_file("moisture.json");
  int tried = 0;
  for (const char* topic : {"emc_table", "emc_equation"})
    for (const auto& one : file.at(topic)) {
      if (!one.at("expected").contains("emc_pct")) continue;
      const auto& in = one.at("inputs");
      // Cases in Celsius are worked with the Celsius coefficients, which differ by at most 0.014.
      const bool celsius = in.contains("temperature_degC");
      const double temp_f = celsius ? f_of(in.at("temperature_degC")) : in.at("temperature_degF").get<double>();
      const double expected = one.at("expected").at("emc_pct");
      EXPECT_NEAR(emc_percent(temp_f, in.at("relative_humidity_pct")), expected, tolerance(one, expected) + (celsius ? 0.014 : 0)) << one.at("id");
      ++tried;
    }
  EXPECT_GE(tried, 60);
}

TEST(Emc, InverseAgreesWithPublishedAndWithItself) {
  const auto file = testing::outside_file("moisture.json");
  for (const auto& one : file.at("emc_inverse")) {
    const double expected = one.at("expected").at("relative_humidity_pct");
    EXPECT_NEAR(rh_for_emc_percent(f_of(one.at("inputs").at("temperature_degC")), one.at("inputs").at("emc_pct")), expected, tolerance(one, expected) + 0.08)
        << one.at("id");
  }
  testing::for_each_seed(100, [](Random& random) {
    const double t = testing::between(random, 30, 130), h = testing::between(random, 1, 99);
    EXPECT_NEAR(rh_for_emc_percent(t, emc_percent(t, h)), h, 1e-6);
  });
}

TEST(Emc, RisesWithHumidity) {
  testing::for_each_seed(100, [](Random& random) {
    const double t = testing::between(random, 30, 130), h = testing::between(random, 0, 98);
    EXPECT_LT(emc_percent(t, h), emc_percent(t, h + 1));
  });
  EXPECT_EQ(emc_percent(70, 0), 0);
}

// PsychroLib 2.5.0 (ASHRAE Fundamentals ch. 1).
TEST(Air, SaturationStatesAndTemperatures) {
  const auto file = testing::outside_file("moisture.json");
  int tried = 0;
  for (const auto& one : file.at("psychro_saturation")) {
    const auto& in = one.at("inputs");
    if (!in.contains("temperature_degC")) continue;
    const double temp_f = f_of(in.at("temperature_degC"));
    const auto& out = one.at("expected");
    if (out.contains("saturation_vapour_pressure_Pa")) {
      EXPECT_NEAR(saturation_pressure_psi(temp_f) * kPa_per_psi, out.at("saturation_vapour_pressure_Pa"),
                  tolerance(one, out.at("saturation_vapour_pressure_Pa")))
          << one.at("id");
    }
    if (out.contains("saturation_humidity_ratio_kg_per_kg")) {
      EXPECT_NEAR(air(temp_f, 100, in.value("pressure_Pa", 101325.0) / kPa_per_psi).humidity_ratio, out.at("saturation_humidity_ratio_kg_per_kg"),
                  tolerance(one, out.at("saturation_humidity_ratio_kg_per_kg")))
          << one.at("id");
    }
    ++tried;
  }
  for (const auto& one : file.at("psychro_state")) {
    const auto& in = one.at("inputs");
    if (!in.contains("dry_bulb_degC")) continue;
    const auto state = air(f_of(in.at("dry_bulb_degC")), in.at("relative_humidity_pct"), in.value("pressure_Pa", 101325.0) / kPa_per_psi);
    const auto& out = one.at("expected");
    EXPECT_NEAR(state.humidity_ratio, out.at("humidity_ratio_kg_per_kg"), tolerance(one, out.at("humidity_ratio_kg_per_kg"))) << one.at("id");
    EXPECT_NEAR(state.vapour_pressure_psi * kPa_per_psi, out.at("vapour_pressure_Pa"), tolerance(one, out.at("vapour_pressure_Pa"))) << one.at("id");
    // Enthalpy counts from 0 F here and from 0 C there: 7.686 Btu/lb of dry air and the water's share.
    ++tried;
  }
  for (const char* topic : {"psychro_temperatures", "psychro_identity"})
    for (const auto& one : file.at(topic)) {
      const auto& in = one.at("inputs");
      if (!in.contains("dry_bulb_degC")) continue;
      const auto state = air(f_of(in.at("dry_bulb_degC")), in.at("relative_humidity_pct"), in.value("pressure_Pa", 101325.0) / kPa_per_psi);
      for (const auto& [key, value] : {std::pair{"dew_point_degC", c_of(state.dew_point_f)}, std::pair{"wet_bulb_degC", c_of(state.wet_bulb_f)}})
        if (one.at("expected").contains(key)) {
          EXPECT_NEAR(value, one.at("expected").at(key), tolerance(one, 1)) << one.at("id");
        }
      ++tried;
    }
  EXPECT_GE(tried, 30);
}

TEST(Air, CasesInFahrenheit) {
  const auto file = testing::outside_file("moisture.json");
  for (const char* topic : {"psychro_state", "psychro_temperatures", "psychro_saturation"})
    for (const auto& one : file.at(topic)) {
      const auto& in = one.at("inputs");
      if (!in.contains("dry_bulb_degF")) continue;
      const auto state = air(in.at("dry_bulb_degF"), in.at("relative_humidity_pct"),
                             in.contains("pressure_psi") ? in.at("pressure_psi").get<double>() : kStandardPressure_psi);
      const auto& out = one.at("expected");
      const auto near = [&](const char* key, double value) {
        if (out.contains(key)) {
          EXPECT_NEAR(value, out.at(key), tolerance(one, out.at(key))) << one.at("id") << " " << key;
        }
      };
      near("humidity_ratio_lb_per_lb", state.humidity_ratio);
      near("enthalpy_Btu_per_lb_dry_air", state.enthalpy_btu_per_lb);
      near("specific_volume_ft3_per_lb_dry_air", state.volume_ft3_per_lb);
      near("vapour_pressure_psi", state.vapour_pressure_psi);
      near("dew_point_degF", state.dew_point_f);
      near("wet_bulb_degF", state.wet_bulb_f);
      near("grains_per_lb_dry_air", state.grains_per_lb);
    }
}

TEST(Air, WetBulbCases) {
  const auto file = testing::outside_file("moisture.json");
  for (const auto& one : file.at("psychro_from_wet_bulb")) {
    const auto& in = one.at("inputs");
    const double temp_f = f_of(in.at("dry_bulb_degC")), wet_f = f_of(in.at("wet_bulb_degC"));
    const double ratio = humidity_ratio_from_wet_bulb(temp_f, wet_f);
    EXPECT_NEAR(ratio, one.at("expected").at("humidity_ratio_kg_per_kg"), tolerance(one, ratio)) << one.at("id");
    const double rh = one.at("expected").at("relative_humidity_pct");
    EXPECT_NEAR(rh_percent_from_humidity_ratio(temp_f, ratio), rh, tolerance(one, rh)) << one.at("id");
  }
}

TEST(Air, OrderOfTemperatures) {
  testing::for_each_seed(200, [](Random& random) {
    const double t = testing::between(random, -20, 120), h = testing::between(random, 1, 100);
    const auto state = air(t, h);
    EXPECT_LE(state.dew_point_f, state.wet_bulb_f + 1e-6);
    EXPECT_LE(state.wet_bulb_f, t + 1e-6);
    EXPECT_NEAR(rh_percent_from_humidity_ratio(t, state.humidity_ratio), h, 1e-8);
    EXPECT_NEAR(saturation_pressure_psi(state.dew_point_f), state.vapour_pressure_psi, 1e-9);
  });
}

}  // namespace
}  // namespace awlmark::drying
