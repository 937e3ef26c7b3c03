#include "price/price.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/random.hpp"
#include "support/small_site.hpp"

namespace awlmark::price {
namespace {

struct Whole {
  Job job = testing::small_laundry();
  cutback::Result cut;
  floor::Floor floor;
  takeoff::TakeOff take_off;
  work::Work work;
};

// Draws of the deck's area: `spread` shares of the plan either way; 0 is a floor that is known.
Whole whole(double spread, int draws = 2000) {
  Whole w;
  w.cut.findings = testing::small_cut();
  Random random(11);
  const double deck = w.cut.findings.area_sf["deck"], sheet = w.cut.findings.area_sf["sheet"];
  for (int i = 0; i < draws; ++i) {
    const double more = 1 + spread * random.uniform();
    w.cut.draws.area_sf["deck"].push_back(deck * more);
    w.cut.draws.area_sf["sheet"].push_back(sheet * more);
    w.cut.draws.edge_ft.push_back(48.5 / 12 * std::sqrt(more));
    w.cut.draws.blocking_ft.push_back(14.5 / 12);
    w.cut.draws.members.push_back(0);
  }
  w.take_off = takeoff::take_off(w.job, w.cut.findings, w.floor);
  w.work = work::work(w.job, hazards::hazards(w.job), w.cut.findings, w.floor, w.take_off);
  return w;
}

Price price_of(const Whole& w, std::uint64_t seed = 1954) { return price(w.job, w.cut, w.floor, w.take_off, w.work, {seed}); }

TEST(Price, PercentilesAndTheirDifferences) {
  const auto p = price_of(whole(0.5));
  EXPECT_LT(p.p10, p.p50);
  EXPECT_LT(p.p50, p.p80);
  EXPECT_LT(p.p80, p.p90);
  EXPECT_EQ(p.base, p.p50);
  EXPECT_NEAR(p.base + p.allowance, p.p80, 1e-9);
  EXPECT_NEAR(p.base + p.allowance + p.contingency, p.p90, 1e-9);
  EXPECT_FALSE(p.words.empty());
  EXPECT_FALSE(p.lines.empty());
}

TEST(Price, ShareOfTheFloorRisesWithWhatIsNotKnown) {
  const auto known = price_of(whole(0)), some = price_of(whole(2)), much = price_of(whole(20));
  EXPECT_NEAR(known.from_floor_share, 0, 1e-12);
  EXPECT_GT(some.from_floor_share, 0);
  EXPECT_GT(much.from_floor_share, some.from_floor_share);
  EXPECT_GT(much.from_floor_share, 0.5);
  EXPECT_LE(much.from_floor_share, 1);
  EXPECT_GT(much.p90 - much.p10, known.p90 - known.p10);
}

TEST(Price, SameSeedSameFigures) {
  const auto w = whole(0.5);
  EXPECT_EQ(price_of(w).p80, price_of(w).p80);
  EXPECT_NE(price_of(w, 1).p80, price_of(w, 2).p80);
  EXPECT_NEAR(price_of(w, 1).p80, price_of(w, 2).p80, 0.02 * price_of(w).p80);
}

// COST-005: 10 and 10 compounded is 21 percent.
TEST(Price, OverheadAndProfitAreCompounded) {
  auto w = whole(0.2);
  w.job.rates = awlmark::Rates{};
  w.job.rates->overhead_percent = 0;
  w.job.rates->profit_percent = 0;
  const double bare = price_of(w).mean;
  w.job.rates->overhead_percent = 10;
  w.job.rates->profit_percent = 10;
  EXPECT_NEAR(price_of(w).mean, bare * 1.21, 1e-6 * bare);
}

TEST(Price, LabourRateScalesLabourOnly) {
  auto w = whole(0.2);
  w.job.rates = awlmark::Rates{};
  w.job.rates->labour_per_hour = 50;
  const double fifty = price_of(w).mean;
  w.job.rates->labour_per_hour = 100;
  const double hundred = price_of(w).mean;
  EXPECT_GT(hundred, fifty);
  EXPECT_LT(hundred, 2 * fifty);
}

// Layers of which the plan takes nothing still cost in the draws that open them.
TEST(Price, WhatOpeningUpRevealsIsPaid) {
  auto w = whole(0.2);
  const double before = price_of(w).mean;
  Layer under;
  under.id = "under";
  under.material = Material::particleboard;
  w.job.layers.insert(w.job.layers.begin() + 1, under);
  w.cut.findings.area_sf["under"] = 0;
  w.cut.draws.area_sf["under"].assign(2000, 10);
  EXPECT_GT(price_of(w).mean, before + 10 * 30 * 0.9);
}

TEST(Price, WithoutDrawsThereIsStillARange) {
  auto w = whole(0, 0);
  w.cut.draws = {};
  const auto p = price_of(w);
  EXPECT_GT(p.p90, p.p10);
  EXPECT_NEAR(p.from_floor_share, 0, 1e-12);
}

}  // namespace
}  // namespace awlmark::price
