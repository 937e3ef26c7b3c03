// The published cases of tests/outside/moisture.json through the topics of reckon, as a script would ask
// them, and through the tables that the drying stage reads.
#include <cmath>

#include "drying/wood.hpp"
#include "reckon/trade_cases.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::testing {
namespace {

constexpr double kPsi_Pa = 6894.757293168;
double f_of(double c) { return c * 1.8 + 32; }
double c_of(double f) { return (f - 32) / 1.8; }
double closing(const char* id) { return tables::table("closing_rules.csv").find("id", id)->number("value"); }

double temp_f(const TradeCase& c) {
  for (const char* key : {"dry_bulb_degF", "temperature_degF"})
    if (c.gives(key)) return c.in(key);
  return f_of(c.gives("dry_bulb_degC") ? c.in("dry_bulb_degC") : c.in("temperature_degC"));
}

json air(const TradeCase& c, double rh_percent) {
  json in{{"temp_f", temp_f(c)}, {"rh_percent", rh_percent}};
  if (c.gives("pressure_psi")) in["pressure_psi"] = c.in("pressure_psi");
  if (c.gives("pressure_Pa")) in["pressure_psi"] = c.in("pressure_Pa") / kPsi_Pa;
  return ask("air", in);
}

void emc(TradeCase& c) {
  // Cases in Celsius are worked with the Celsius coefficients, which differ by at most 0.014.
  const auto out = ask("emc", {{"temp_f", temp_f(c)}, {"rh_percent", c.in("relative_humidity_pct")}});
  c.near("emc_pct", out.at("emc_percent"), c.gives("temperature_degC") ? 0.0145 : 1e-9);
}

void emc_inverse(TradeCase& c) {
  const auto out = ask("emc", {{"temp_f", temp_f(c)}, {"rh_percent", c.expected("relative_humidity_pct")}});
  c.near_value("emc_pct", out.at("emc_percent"), c.in("emc_pct"), 0.02);
}

// SI enthalpy counts from 0 C, ours from 0 F: 17.86 kJ of dry air between them.
double si_enthalpy(const json& out, double at_f) {
  const double w = out.at("humidity_ratio");
  const double dry_ip = 0.24 * at_f * 2.326, dry_si = 1.006 * c_of(at_f);
  return out.at("enthalpy_btu_per_lb").get<double>() * 2.326 - dry_ip + dry_si - w * ((1061 + 0.444 * at_f) * 2.326 - (2501 + 1.86 * c_of(at_f)));
}

void psychro(TradeCase& c) {
  const bool saturated = !c.gives("relative_humidity_pct");
  const auto out = air(c, saturated ? 100.0 : c.in("relative_humidity_pct"));
  const double w = out.at("humidity_ratio"), pv = out.at("vapour_pressure_psi"), volume_m3 = out.at("volume_ft3_per_lb").get<double>() * 0.06242796;
  for (const char* key : {"saturation_humidity_ratio_kg_per_kg", "saturation_humidity_ratio_lb_per_lb", "humidity_ratio_kg_per_kg", "humidity_ratio_lb_per_lb"})
    c.near(key, w);
  c.near("saturation_vapour_pressure_Pa", pv * kPsi_Pa);
  c.near("saturation_vapour_pressure_psi", pv);
  c.near("vapour_pressure_Pa", pv * kPsi_Pa);
  c.near("vapour_pressure_psi", pv);
  c.near("vapour_pressure_deficit_Pa", (out.at("saturation_pressure_psi").get<double>() - pv) * kPsi_Pa);
  c.near("grains_per_lb_dry_air", out.at("grains_per_lb"));
  c.near("enthalpy_Btu_per_lb_dry_air", out.at("enthalpy_btu_per_lb"));
  c.near("enthalpy_kJ_per_kg_dry_air", si_enthalpy(out, temp_f(c)));
  c.near("specific_volume_ft3_per_lb_dry_air", out.at("volume_ft3_per_lb"));
  c.near("specific_volume_m3_per_kg_dry_air", volume_m3);
  c.near("moist_air_density_kg_per_m3", (1 + w) / volume_m3);
  c.near("dew_point_degF", out.at("dew_point_f"));
  c.near("wet_bulb_degF", out.at("wet_bulb_f"));
  c.near("dew_point_degC", c_of(out.at("dew_point_f")));
  c.near("wet_bulb_degC", c_of(out.at("wet_bulb_f")));
}

void from_wet_bulb(TradeCase& c) {
  const auto out = air(c, c.expected("relative_humidity_pct"));
  c.near_value("wet_bulb_degC", c_of(out.at("wet_bulb_f")), c.in("wet_bulb_degC"), 0.05);
  c.near("humidity_ratio_kg_per_kg", out.at("humidity_ratio"));
}

void enthalpy(TradeCase& c) {
  const double w = c.in("humidity_ratio_kg_per_kg"), saturated = air(c, 100).at("vapour_pressure_psi");
  const double rh = 100 * 14.6959487755 * w / (0.621945 + w) / saturated;
  c.near("enthalpy_kJ_per_kg_dry_air", si_enthalpy(air(c, rh), temp_f(c)));
}

json slab(double fourier, int faces = 2) {
  return ask("slab-drying", {{"thickness_in", faces == 2 ? 2 : 1}, {"faces_open", faces}, {"diffusivity_in2_per_day", fourier}, {"days", 1}});
}

void slabs(TradeCase& c) {
  double fourier = -1;
  if (c.gives("fourier_number_Dt_over_half_thickness_sq")) fourier = c.in("fourier_number_Dt_over_half_thickness_sq");
  if (c.gives("half_thickness_m")) fourier = c.in("D_m2_per_s") * c.in("time_s") / std::pow(c.in("half_thickness_m"), 2);
  if (fourier >= 0) {
    const auto out = slab(fourier);
    const double mean = out.at("fraction_dried"), centre = out.at("fraction_dried_centre");
    c.near("fractional_change_mean", mean, 6e-8);
    c.near("fractional_change_centre", centre, 6e-8);
    EXPECT_NEAR(slab(fourier, 1).at("fraction_dried"), mean, 1e-12);  // a sealed face is the middle of a slab twice as thick
    if (c.gives("mc_initial_pct")) {
      const double from = c.in("mc_initial_pct"), to = c.in("emc_pct");
      c.near("mean_mc_pct", from - (from - to) * mean);
      c.near("core_mc_pct", from - (from - to) * centre);
    }
  } else if (c.gives("board_thickness_m")) {
    const double in2_day = c.in("D_m2_per_s") * 86400 / 0.00064516;
    const auto out =
        ask("slab-drying",
            {{"thickness_in", c.in("board_thickness_m") / 0.0254}, {"faces_open", c.in("open_faces")}, {"diffusivity_in2_per_day", in2_day}, {"days", 1}});
    const double days = out.at(c.in("fractional_change_mean") == 0.5 ? "days_to_half" : "days_to_ninety_percent");
    c.near("time_days", days);
    c.near("time_s", days * 86400);
  } else {
    // Time to a share: the topic turned round.
    const double half = c.expected("fourier_number_on_half_thickness");
    c.near_value("fractional_change_mean", slab(half).at("fraction_dried"), c.in("fractional_change_mean"), 2e-6);
    c.near("fourier_number_on_full_thickness", half / 4, 1e-6);
  }
}

void laws(TradeCase& c) {
  if (c.has("weight_loss_ratio"))
    c.near("weight_loss_ratio", slab(0.04, 1).at("fraction_dried").get<double>() / slab(0.01, 1).at("fraction_dried").get<double>());
  if (c.has("drying_time_ratio")) {
    const auto thin = ask("slab-drying", {{"thickness_in", 1}, {"faces_open", 1}, {"diffusivity_in2_per_day", 0.1}, {"days", 1}});
    const auto thick = ask("slab-drying", {{"thickness_in", 2}, {"faces_open", 1}, {"diffusivity_in2_per_day", 0.1}, {"days", 1}});
    c.near("drying_time_ratio", thick.at("days_to_half").get<double>() / thin.at("days_to_half").get<double>());
  }
}

void diffusivity(TradeCase& c) {
  const double t = f_of(c.in("temperature_degC")), mc = c.in("mc_pct");
  const double bound = drying::bound_water_diffusivity_cm2_s(t, mc);
  c.near("bound_water_transverse_D_cm2_per_s", bound, bound * 2e-3);
  c.near("bound_water_transverse_D_m2_per_s", bound * 1e-4, bound * 2e-7);
  c.near("ratio_to_20C", bound / drying::bound_water_diffusivity_cm2_s(68, mc), 5e-3);
  if (!c.gives("specific_gravity")) return;
  const double d = drying::transverse_diffusivity_cm2_s(t, mc, c.in("specific_gravity"));
  // Near saturation the sorption curve that was used there differs; the draws spread by a factor of two.
  c.near("D_transverse_cm2_per_s", d, d * (mc > 20 ? 0.35 : mc > 15 ? 0.06 : 0.02));
}

void ventilation(TradeCase& c) {
  // The case names the ratios; air at 75 F that has them differs in volume only.
  const double inside = c.in("inside_humidity_ratio_lb_per_lb"), outside = c.in("outside_humidity_ratio_lb_per_lb");
  const double saturated = ask("air", {{"temp_f", 75}, {"rh_percent", 100}}).at("vapour_pressure_psi");
  const auto rh = [&](double w) { return 100 * 14.6959487755 * w / (0.621945 + w) / saturated; };
  const auto out = ask("outdoor-air", {{"inside_temp_f", 75},
                                       {"inside_rh_percent", rh(inside)},
                                       {"outside_temp_f", 75},
                                       {"outside_rh_percent", rh(outside)},
                                       {"airflow_cfm", c.in("airflow_cfm")}});
  const double volume = ask("air", {{"temp_f", 75}, {"rh_percent", rh(inside)}}).at("volume_ft3_per_lb");
  const double scale = volume / c.in("specific_volume_ft3_per_lb_dry_air");
  EXPECT_EQ(out.at("helps").get<bool>(), outside < inside);
  c.near("water_removed_lb_per_h", out.at("water_removed_lb_per_h").get<double>() * scale);
  c.near("water_removed_US_pints_per_day", out.at("water_removed_pints_per_day").get<double>() * scale);
}

void meter(TradeCase& c) {
  c.near("corrected_mc_pct", c.in("reading_pct") + closing("meter_per_f") * (c.in("calibration_temperature_degF") - c.in("wood_temperature_degF")));
}

const Refused& refused() {
  static const Refused list = {
      {"emc-coef-*", "coefficients of the equation, which is compared by its values"},
      {"emc-table-max-diff-*", "the table against the equation: each cell is compared"},
      {"mcmax-*", "the most water that wood holds: nothing is reckoned from it"},
      {"green_moisture:", "moisture of green wood: floors are not green"},
      {"shrinkage_table:", "no stage reckons how wood moves"},
      {"shrinkage_equation:", "no stage reckons how wood moves"},
      {"dimensional_coefficient:", "no stage reckons how wood moves"},
      {"dimensional_change:", "no stage reckons how wood moves"},
      {"slab-profile-*", "moisture at a depth: the topic answers the mean and the middle"},
      {"diffusion_block:", "drying in three directions at once: boards are taken as slabs, the slower and safer case"},
      {"diffusion_slab_surface_resistance:", "compared in tests/drying/slab_test.cpp, with the function; no topic asks for a Biot number"},
      {"siau-Da-20C", "diffusivity of vapour in air: inside the cell model, which is compared as a whole"},
      {"siau-wood-G35-5MC.D_longitudinal_cm2_per_s", "along the grain: a board dries through its faces"},
      {"siau-wood-G35-5MC.ratio_longitudinal_to_transverse", "along the grain"},
      {"siau-wood-G35-15MC.D_longitudinal_cm2_per_s", "along the grain"},
      {"siau-wood-G35-15MC.ratio_longitudinal_to_transverse", "along the grain"},
      {"siau-wood-G35-20MC.D_longitudinal_cm2_per_s", "along the grain"},
      {"siau-wood-G35-20MC.ratio_longitudinal_to_transverse", "along the grain"},
      {"siau-wood-G35-25MC.D_longitudinal_cm2_per_s", "along the grain"},
      {"siau-wood-G35-25MC.ratio_longitudinal_to_transverse", "along the grain"},
      {"siau-wood-G50-5MC.D_longitudinal_cm2_per_s", "along the grain"},
      {"siau-wood-G50-5MC.ratio_longitudinal_to_transverse", "along the grain"},
      {"siau-wood-G50-10MC.D_longitudinal_cm2_per_s", "along the grain"},
      {"siau-wood-G50-10MC.ratio_longitudinal_to_transverse", "along the grain"},
      {"siau-wood-G50-15MC.D_longitudinal_cm2_per_s", "along the grain"},
      {"siau-wood-G50-15MC.ratio_longitudinal_to_transverse", "along the grain"},
      {"siau-wood-G50-20MC.D_longitudinal_cm2_per_s", "along the grain"},
      {"siau-wood-G50-20MC.ratio_longitudinal_to_transverse", "along the grain"},
      {"siau-wood-G50-25MC.D_longitudinal_cm2_per_s", "along the grain"},
      {"siau-wood-G50-25MC.ratio_longitudinal_to_transverse", "along the grain"},
      {"diffusion_ratio:", "along the grain"},
      {"decay_moisture:", "decay in words: the survey reads wood, it does not grow fungus"},
      {"decay_temperature:", "decay in words"},
      {"decay_strength:", "decay in words; rotten wood counts for nothing in the floor stage"},
      {"decay_resistance:", "classes of heartwood: not asked of old floors, where sapwood cannot be told"},
      {"meter_range:", "range of an instrument, in words; above 30 percent the spread of a reading grows"},
      {"meter_species:", "resistance in megohms: people read percent"},
      {"limit-framing-enclose-CA.min_random_readings", "how many readings a law asks for, in words"},
      {"limit-framing-enclose-CA.reading_offset_from_stamped_end_ft_min", "where to read, in words"},
      {"limit-framing-enclose-CA.reading_offset_from_stamped_end_ft_max", "where to read, in words"},
      {"limit-ps20-dry", "a grade stamp of new lumber"},
      {"limit_flooring:", "wood flooring is not among the finishes; tile and sheet ask 16 percent"},
      {"limit_interior_mc:", "moisture of interior woodwork: nothing is reckoned from it"},
      {"limit_vapour:", "classes of vapour retarders: no stage lays one"},
      {"crawl_ventilation:", "vents of a crawl space belong to the house, not to this job"},
      {"decay_clearance:", "clearance to soil belongs to the house, not to this job"},
      {"local_exhaust:", "fans of a bathroom belong to the house, not to this job"},
      {"air_purge:", "purging of a work area: hazards name it, nothing is reckoned"},
      {"air_change:", "purging of a work area: hazards name it, nothing is reckoned"},
      {"water_mass:", "pounds of water in a floor: the forecast works in percent"},
      {"trade-dry-goal-4pt", "against unaffected wood: the log has its own limit"},
      {"trade-air-mover-area", "how many machines: the log says what runs"},
  };
  return list;
}

TEST(TradeCases, Moisture) {
  const Handlers handlers = {
      {"emc_table", emc},
      {"emc_equation", emc},
      {"emc_inverse", emc_inverse},
      {"psychro_saturation", psychro},
      {"psychro_state", psychro},
      {"psychro_temperatures", psychro},
      {"psychro_identity", psychro},
      {"psychro_from_wet_bulb", from_wet_bulb},
      {"psychro_formula", enthalpy},
      {"fibre_saturation", [](TradeCase& c) { c.near("fibre_saturation_mc_pct", tables::moisture_percent("fibre_saturation")); }},
      {"diffusion_slab", slabs},
      {"diffusion_law", laws},
      {"diffusion_coefficient", diffusivity},
      {"ventilation_drying", ventilation},
      {"meter_temperature", meter},
      {"limit_enclosure", [](TradeCase& c) { c.near("max_framing_mc_pct", closing("member")); }},
      {"trade_rule",
       [](TradeCase& c) {
         c.near("mc_pct", closing("under_tight_finish"));
         c.near("hours", closing("readings_apart"));
         if (c.has("consecutive_days_at_goal")) c.near("consecutive_days_at_goal", 1 + closing("readings_apart") / 24);
       }},
  };
  EXPECT_GE(run_cases("moisture.json", handlers, refused()), 290);
}

}  // namespace
}  // namespace awlmark::testing
