// The lines follow the way that is chosen: what it takes out is not cut around, plank by plank.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "floors.hpp"

namespace awlmark::cutback {
namespace {

using namespace awlmark::cutback::testing;
using awlmark::testing::for_each_seed;

double out_sf(const CutBack& cut, const std::string& layer, bool by_way) {
  double sf = 0;
  for (const auto& piece : cut.pieces)
    if (piece.layer == layer && piece.out && piece.by_way == by_way) sf += piece.area_sf;
  return sf;
}

double sawn_ft(const CutBack& cut, const std::string& layer) {
  double ft = 0;
  for (const auto& edge : cut.edges)
    if (edge.layer == layer && edge.kind != EdgeKind::at_wall && edge.kind != EdgeKind::seam) ft += edge.length_in / 12;
  return ft;
}

TEST(Way, WhereAllOfALayerGoesNobodySaws) {
  for_each_seed(10, [&](Random& random) {
    const Job job = laundry();
    const auto plan = plan::as_drawn(job);
    const auto survey = survey_of(job, random, 30, {{70, 40}, 25, 14, 6, 0.3});
    const Extent extent(plan, survey, {});
    ASSERT_GT(sawn_ft(extent.needed(), "deck"), 0);
    const auto cut = extent.lines({{plan.deck(), true, {}}});
    EXPECT_EQ(sawn_ft(cut, "deck"), 0);
    EXPECT_NEAR(cut.area_sf.at("deck"), 54, 1e-6);
    EXPECT_NEAR(out_sf(cut, "deck", true), 54, 1e-6);
    // What lies on the deck goes with it; the lap leaves no edge of it either.
    EXPECT_NEAR(cut.area_sf.at("sheet"), 54, 1e-6);
    EXPECT_EQ(sawn_ft(cut, "sheet"), 0);
    EXPECT_EQ(cut.blocking.size(), 0u + std::count_if(cut.blocking.begin(), cut.blocking.end(), [](const Blocking& b) { return b.id[0] == 'c'; }));
  });
}

TEST(Way, ABayIsCutAlongItsEdgeAndTheRestAsBefore) {
  for_each_seed(10, [&](Random& random) {
    const Job job = laundry();
    const auto plan = plan::as_drawn(job);
    const auto survey = survey_of(job, random, 30, {{20, 20}, 10, 8, 3, 0.3});
    const Extent extent(plan, survey, {});
    // Between joists at 64 and 96, across planks at 22 and 60.5, far from the rot.
    const Polygon bay = rectangle(64, 22, 96, 60.5);
    const auto cut = extent.lines({{plan.deck(), false, {bay}}});
    EXPECT_NEAR(out_sf(cut, "deck", true), area_in2(bay) / 144, 1e-3);
    EXPECT_NEAR(out_sf(cut, "deck", false), extent.needed().area_sf.at("deck"), 1e-3);
    for (const auto& piece : cut.pieces)
      if (piece.layer == "deck" && piece.out && !piece.by_way) {
        EXPECT_LT(area_in2(intersect(as_region(piece.outline_in), as_region(bay))), 1) << piece.id;
      }
    double around_ft = 0;
    for (const auto& edge : cut.edges) {
      const Point middle{(edge.from_in.x_in + edge.to_in.x_in) / 2, (edge.from_in.y_in + edge.to_in.y_in) / 2};
      if (edge.layer != "deck" || distance_to_in(bay, middle) > 0.05) continue;
      around_ft += edge.length_in / 12;
      const bool across = std::fabs(edge.from_in.x_in - edge.to_in.x_in) < 0.1;
      EXPECT_EQ(edge.kind, across ? EdgeKind::cross_on_support : EdgeKind::seam);
    }
    EXPECT_NEAR(around_ft, 2 * (32 + 38.5) / 12, 0.02);
  });
}

TEST(Way, WhatAWayTakesCostsTheCutBackNothingAndBringsWhatLiesAbove) {
  for_each_seed(5, [&](Random& random) {
    const Job job = laundry();
    const auto plan = plan::as_drawn(job);
    const auto survey = survey_of(job, random, 30, {{20, 20}, 10, 8, 3, 0.3});
    const Extent extent(plan, survey, {});
    const auto all = extent.chosen({{plan::LayerIx{0}, true, {}}});
    EXPECT_NEAR(all.findings.area_sf.at("sheet"), 54, 1e-6);
    EXPECT_NEAR(all.findings.area_sf.at("deck"), extent.needed().area_sf.at("deck"), 1e-6);
    EXPECT_LE(all.findings.cost, extent.needed().cost + 1e-6);
    for (const auto& draw : all.draws) EXPECT_NEAR(draw.layer_sf[0], 54, 1e-6);
  });
}

}  // namespace
}  // namespace awlmark::cutback
