// The drying stage: bands against simulated logs, the closing rule, what helps; and the wood's diffusivity as published.
#include "drying/drying.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "drying/air.hpp"
#include "drying/forecast.hpp"
#include "drying/wood.hpp"
#include "job/dates.hpp"
#include "support/outside.hpp"
#include "support/property.hpp"

namespace awlmark::drying {
namespace {

Job wet_deck() {
  Job job;
  job.job.below = Below::crawl_space;
  job.job.indoor_temp_f = 68;
  job.job.indoor_rh_percent = 45;
  job.room.outline_in = rectangle(0, 0, 96, 84);
  Layer deck;
  deck.id = "deck";
  deck.material = Material::board;
  deck.thickness_in = 0.75;
  deck.species = Species::douglas_fir_larch;
  job.layers = {deck};
  Rebuild rebuild;
  rebuild.finish = Finish::porcelain_tile;
  job.rebuild = rebuild;
  job.drying = DryingLog{};
  return job;
}

void read(Job& job, const std::string& time, double percent, double temp = 70, double rh = 42) {
  DryingReading r;
  r.id = "r" + std::to_string(job.drying->readings.size() + 1);
  r.time = time;
  r.layer = "deck";
  r.at_in = Point{60, 60};
  r.mc_percent = percent;
  r.air_temp_f = temp;
  r.air_rh_percent = rh;
  job.drying->readings.push_back(r);
}

std::string day(int d) { return "2026-05-" + std::string(d < 10 ? "0" : "") + std::to_string(d) + "T08:00:00Z"; }

double width(const DryingLayer& layer) { return *layer.days_p90 - *layer.days_p50; }

TEST(Drying, DiffusivityAsPublished) {
  const auto file = testing::outside_file("moisture.json");
  int seen = 0;
  for (const auto& one : file.at("diffusion_coefficient")) {
    SCOPED_TRACE(one.at("id").get<std::string>());
    const auto &in = one.at("inputs"), &out = one.at("expected");
    if (!in.contains("mc_pct")) continue;
    const double temp_f = in.at("temperature_degC").get<double>() * 1.8 + 32, mc = in.at("mc_pct");
    if (out.contains("bound_water_transverse_D_cm2_per_s")) {
      EXPECT_NEAR(bound_water_diffusivity_cm2_s(temp_f, mc) / out.at("bound_water_transverse_D_cm2_per_s").get<double>(), 1, 2e-3);
      ++seen;
    }
    if (out.contains("ratio_to_20C")) {
      EXPECT_NEAR(bound_water_diffusivity_cm2_s(temp_f, mc) / bound_water_diffusivity_cm2_s(68, mc), out.at("ratio_to_20C"), 5e-3);
      ++seen;
    }
    if (out.contains("D_transverse_cm2_per_s") && mc <= 20) {
      // To 15 percent within the file's 2; near saturation the sorption curve that was used there differs.
      EXPECT_NEAR(transverse_diffusivity_cm2_s(temp_f, mc, in.at("specific_gravity")) / out.at("D_transverse_cm2_per_s").get<double>(), 1,
                  mc <= 15 ? 0.02 : 0.06);
      ++seen;
    }
  }
  EXPECT_GE(seen, 10);
}

// An independent library's moist air, stored.
TEST(Drying, AirAsPsychrolib) {
  const auto file = testing::outside_file("psychrolib.json");
  ASSERT_GE(file.at("air").size(), 12u);
  for (const auto& one : file.at("air")) {
    const double temp_f = one.at("temp_f"), rh = one.at("rh_percent");
    SCOPED_TRACE(std::to_string(temp_f) + " F, " + std::to_string(rh) + " %");
    const Air found = air(temp_f, rh, one.at("pressure_psi"));
    EXPECT_NEAR(found.humidity_ratio / one.at("humidity_ratio").get<double>(), 1, 1e-4);
    EXPECT_NEAR(found.vapour_pressure_psi / one.at("vapour_pressure_psi").get<double>(), 1, 1e-5);
    EXPECT_NEAR(found.dew_point_f, one.at("dew_point_f"), 0.02);
    EXPECT_NEAR(found.wet_bulb_f, one.at("wet_bulb_f"), 0.05);
    EXPECT_NEAR(found.enthalpy_btu_per_lb, one.at("enthalpy_btu_per_lb"), 0.02);
    EXPECT_NEAR(found.volume_ft3_per_lb / one.at("volume_ft3_per_lb").get<double>(), 1, 1e-4);
  }
}

TEST(Drying, SlabFollowsCrankWhenDiffusivityIsConstant) {
  // Between 12 and 11.9 percent D hardly changes: the finite volumes must follow the series.
  Slab slab{0.75, 2, 0.5};
  DryingSlab wood(slab, 12);
  const AirState air{70, 60};
  Spread spread;
  spread.evaporation = 1000;  // no film
  spread.equilibrium_points = 11.5 - emc_percent(70, 60);
  wood.advance(2, climate(air, 0.5), spread, 1);
  const double d = transverse_diffusivity_cm2_s(70, 11.8, 0.5) * 86400 / 6.4516, fourier = d * 2 / (0.375 * 0.375);
  double left = 0;
  for (int n = 0; n < 40; ++n) left += std::exp(-(2 * n + 1) * (2 * n + 1) * 9.8696044 * fourier / 4) / ((2 * n + 1) * (2 * n + 1));
  const double expected = 12 - 0.5 * (1 - 8 / 9.8696044 * left);
  EXPECT_NEAR(wood.mean_percent(), expected, 0.02);
}

TEST(Drying, LimitsAndDates) {
  Job job = wet_deck();
  read(job, day(6), 24);
  const auto found = drying(job);
  ASSERT_EQ(found.layers.size(), 1u);
  const auto& layer = found.layers[0];
  EXPECT_EQ(layer.layer, "deck");
  EXPECT_EQ(layer.limit_percent, 16);
  EXPECT_NEAR(layer.now_percent, 24, 0.7);
  ASSERT_TRUE(layer.close_p50 && layer.close_p90);
  EXPECT_LT(*layer.close_p50, *layer.close_p90);
  EXPECT_GT(*layer.close_p50, "2026-05-06");
  EXPECT_FALSE(layer.released);
  for (std::size_t i = 1; i < layer.band.size(); ++i) EXPECT_LE(layer.band[i].p10_percent, layer.band[i].p90_percent);
  EXPECT_FALSE(layer.reason.source.empty());
}

TEST(Drying, ReadingsNarrowTheBand) {
  Job job = wet_deck();
  job.drying->equipment = DryingEquipment{};
  job.drying->equipment->faces_open = OpenFaces::above;
  read(job, day(6), 24);
  const double first = width(drying(job).layers[0]);
  // A board that dries as the middle of the band does.
  DryingSlab board({0.75, 1, 0.5}, 24);
  Spread usual;
  usual.shut_share = 0.1;
  for (int i = 0; i < 4; ++i) {
    board.advance(1, climate({70, 42}, 0.5), usual, 1);
    read(job, day(7 + i), board.mean_percent() + (i % 2 == 0 ? 0.3 : -0.3));
  }
  const auto found = drying(job).layers[0];
  EXPECT_LE(width(found), 0.5 * first);
  Job slow = wet_deck();
  slow.drying->equipment = job.drying->equipment;
  for (int i = 0; i < 5; ++i) read(slow, day(6 + i), 24 - 0.1 * i);
  EXPECT_GT(*drying(slow).layers[0].close_p50, *found.close_p50) << "a slower log closes later";
}

TEST(Drying, OnlyTwoReadingsADayApartRelease) {
  Job job = wet_deck();
  read(job, day(6), 18);
  read(job, day(8), 15.5);
  EXPECT_FALSE(drying(job).layers[0].released);
  read(job, "2026-05-08T16:00:00Z", 15.2);
  EXPECT_FALSE(drying(job).layers[0].released) << "eight hours apart";
  read(job, day(9), 15.1);
  const auto found = drying(job);
  EXPECT_TRUE(found.layers[0].released);
  EXPECT_EQ(*found.layers[0].close_p50, "2026-05-09");
  read(job, day(10), 17);
  EXPECT_FALSE(drying(job).layers[0].released) << "wet again";
}

// What is not said of the lower face widens the band; saying it, either way, narrows it, and both dry sooner.
TEST(Drying, FacesAreAskedFor) {
  Job job = wet_deck();
  read(job, day(6), 24);
  const auto unknown = drying(job);
  EXPECT_FALSE(unknown.asks.empty());
  EXPECT_NE(unknown.asks[0].find("faces_open"), std::string::npos);
  job.drying->equipment = DryingEquipment{};
  job.drying->equipment->faces_open = OpenFaces::above;
  const auto above = drying(job);
  job.drying->equipment->faces_open = OpenFaces::both;
  const auto both = drying(job);
  EXPECT_LT(*both.layers[0].days_p50, 0.75 * *above.layers[0].days_p50);
  EXPECT_LT(*unknown.layers[0].days_p50, *above.layers[0].days_p50);
  EXPECT_GT(*unknown.layers[0].days_p50, *both.layers[0].days_p50);
  for (const auto& ask : both.asks) EXPECT_EQ(ask.find("faces_open"), std::string::npos);
}

// Free water leaves a wet face as fast as its film lets it, whatever the diffusivity within; later it does not.
TEST(Drying, FreeWaterIsLimitedByTheSurface) {
  const auto lost = [](double start, double diffusivity, double evaporation, double days) {
    DryingSlab board({0.75, 1, 0.5}, start);
    Spread spread;
    spread.diffusivity = diffusivity;
    spread.evaporation = evaporation;
    board.advance(days, climate({68, 45}, 0.5), spread, 1);
    return start - board.mean_percent();
  };
  EXPECT_NEAR(lost(60, 20, 0.1, 1) / lost(60, 10, 0.1, 1), 1, 0.02);  // the film rules
  EXPECT_NEAR(lost(60, 20, 0.2, 1) / lost(60, 20, 0.1, 1), 2, 0.05);
  EXPECT_NEAR(lost(60, 20, 0.1, 2) / lost(60, 20, 0.1, 1), 2, 0.02);  // at a constant rate
  EXPECT_GT(lost(20, 2, 1, 4) / lost(20, 1, 1, 4), 1.2);              // below saturation the wood does
}

TEST(Drying, DampAirNeverDries) {
  Job job = wet_deck();
  read(job, day(6), 24, 62, 92);
  const auto found = drying(job);
  EXPECT_FALSE(found.layers[0].close_p90);
  EXPECT_GT(found.layers[0].equilibrium_percent, 16);
}

TEST(Drying, WhatHelpsAndOutdoorAir) {
  Job job = wet_deck();
  job.drying->equipment = DryingEquipment{};
  job.drying->equipment->outdoor_temp_f = 85;
  job.drying->equipment->outdoor_rh_percent = 75;
  read(job, day(6), 26);
  const auto found = drying(job);
  EXPECT_FALSE(*found.outdoor_helps);
  for (const auto& w : found.layers[0].what_if) EXPECT_GE(w.days_sooner.value_or(0), -0.01) << w.what;
  job.drying->equipment->outdoor_temp_f = 45;
  EXPECT_TRUE(*drying(job).outdoor_helps);
}

TEST(Drying, ColdWoodReadsLow) {
  Job job = wet_deck();
  read(job, day(6), 18);
  job.drying->readings[0].wood_temp_f = 40;
  EXPECT_NEAR(drying(job).layers[0].readings[0].corrected_percent, 19.5, 0.05);  // moisture.json meter-temp-18-40F-cal70F
}

TEST(Drying, SameBandTwice) {
  Job job = wet_deck();
  read(job, day(6), 24);
  EXPECT_EQ(drying(job).layers[0].days_p90, drying(job).layers[0].days_p90);
}

}  // namespace
}  // namespace awlmark::drying
