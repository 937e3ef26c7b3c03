#include "shower/pan.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/outside.hpp"
#include "support/property.hpp"

namespace awlmark::shower {
namespace {

PanQuestion point_pan(double length, double width, double x, double y, double fall = 0.25, double thick = 0) {
  PanQuestion q;
  q.outline_in = rectangle(0, 0, length, width);
  q.drain_from_in = q.drain_to_in = {x, y};
  q.least_fall_in_per_ft = fall;
  q.least_thickness_in = thick;
  return q;
}

// tests/outside/shower_and_work.json pan_geometry: inverted pyramids and wedges, checked there by grid integration.
TEST(Pan, PublishedPyramids) {
  const auto file = testing::outside_file("shower_and_work.json");
  int points = 0, lines = 0;
  for (const auto& one : file.at("pan_geometry")) {
    SCOPED_TRACE(one.at("id").get<std::string>());
    const auto &in = one.at("inputs"), &out = one.at("expected");
    const double tolerance = one.value("tolerance_abs", 1e-5);
    if (in.contains("drain_from_left_in") && in.contains("min_thickness_at_drain_in")) {
      const auto pan = pan_fall(point_pan(in.at("length_in"), in.at("width_in"), in.at("drain_from_left_in"), in.at("drain_from_front_in"),
                                          in.at("slope_along_longest_corner_line_in_per_ft"), in.at("min_thickness_at_drain_in")));
      ASSERT_TRUE(pan);
      EXPECT_NEAR(pan.value->longest_run_in, out.at("longest_corner_run_in"), tolerance);
      EXPECT_NEAR(pan.value->edge_height_in, out.at("perimeter_height_above_drain_in"), tolerance);
      EXPECT_NEAR(pan.value->steepest_in_per_ft, out.at("steepest_plane_in_per_ft"), tolerance);
      EXPECT_NEAR(pan.value->bed_volume_ft3, out.at("bed_volume_ft3"), tolerance);
      EXPECT_EQ(pan.value->steepest_in_per_ft <= kSteepestAllowed_in_per_ft, out.at("within_half_inch_per_ft").get<bool>());
      EXPECT_EQ(pan.value->planes.size(), 4u);
      ++points;
    }
    if (in.contains("run_to_linear_drain_in")) {
      PanQuestion q;
      const double run = in.at("run_to_linear_drain_in"), width = in.at("width_in");
      q.outline_in = rectangle(0, 0, width, run);
      q.drain_from_in = {0, 0};
      q.drain_to_in = {width, 0};
      q.least_fall_in_per_ft = in.at("slope_in_per_ft");
      q.least_thickness_in = in.at("min_thickness_at_drain_in");
      const auto pan = pan_fall(q);
      ASSERT_TRUE(pan);
      EXPECT_NEAR(pan.value->edge_height_in, out.at("fall_in"), tolerance);
      EXPECT_NEAR(pan.value->bed_volume_ft3, out.at("bed_volume_ft3"), tolerance);
      EXPECT_NEAR(pan_height_in(*pan.value, {width / 2, run / 2}), out.at("mid_run_height_in"), tolerance);
      EXPECT_EQ(pan.value->planes.size(), 1u);
      ++lines;
    }
  }
  EXPECT_GE(points, 5);
  EXPECT_GE(lines, 3);
}

TEST(Pan, PublishedHeightsAndWater) {
  const auto file = testing::outside_file("shower_and_work.json");
  for (const auto& one : file.at("pan_geometry")) {
    const auto &in = one.at("inputs"), &out = one.at("expected");
    if (one.at("id") == "PAN-010") {
      const auto pan = pan_fall(point_pan(60, 36, 30, 18));
      for (std::size_t i = 0; i < in.at("points_xy_from_drain_in").size(); ++i) {
        const auto& p = in.at("points_xy_from_drain_in")[i];
        EXPECT_NEAR(pan_height_in(*pan.value, {30 + p[0].get<double>(), 18 + p[1].get<double>()}), out.at("height_above_drain_in")[i], 2e-6);
      }
    }
    if (one.at("id") == "PAN-019") {
      EXPECT_NEAR(pan_water_ft3(*pan_fall(point_pan(60, 36, 30, 18)).value, 2) * 1728, out.at("water_volume_in3"), 0.05);
    }
  }
}

// A trench from wall to wall makes two planes: PAN-017 doubled.
TEST(Pan, TrenchAcrossTheMiddle) {
  PanQuestion q;
  q.outline_in = rectangle(0, 0, 48, 60);
  q.drain_from_in = {0, 30};
  q.drain_to_in = {48, 30};
  q.least_thickness_in = 1.25;
  const auto pan = pan_fall(q);
  ASSERT_TRUE(pan);
  EXPECT_EQ(pan.value->planes.size(), 2u);
  EXPECT_NEAR(pan.value->edge_height_in, 0.625, 1e-9);
  EXPECT_NEAR(pan.value->bed_volume_ft3, 2 * 1.302083, 2e-6);
}

// A short trench within the floor: two trapezoids and two triangles, volume by integration.
TEST(Pan, ShortTrench) {
  PanQuestion q;
  q.outline_in = rectangle(0, 0, 60, 36);
  q.drain_from_in = {18, 18};
  q.drain_to_in = {42, 18};
  const auto pan = pan_fall(q);
  ASSERT_TRUE(pan);
  EXPECT_EQ(pan.value->planes.size(), 4u);
  EXPECT_NEAR(pan.value->longest_run_in, std::hypot(18, 18), 1e-9);
  double sum = 0;
  for (int i = 0; i < 600; ++i)
    for (int j = 0; j < 360; ++j) sum += pan_height_in(*pan.value, {(i + 0.5) / 10, (j + 0.5) / 10});
  EXPECT_NEAR(pan.value->bed_volume_ft3 * 1728, sum * 0.01, 0.2);
}

TEST(Pan, AnL_ShapeSeenWholeAndNot) {
  PanQuestion q;
  q.outline_in = {{0, 0}, {60, 0}, {60, 30}, {30, 30}, {30, 60}, {0, 60}};
  q.drain_from_in = q.drain_to_in = {15, 15};
  const auto seen = pan_fall(q);
  ASSERT_TRUE(seen);
  EXPECT_EQ(seen.value->planes.size(), 6u);
  q.drain_from_in = q.drain_to_in = {50, 15};
  const auto hidden = pan_fall(q);
  EXPECT_FALSE(hidden);
  ASSERT_EQ(hidden.problems.size(), 1u);
  EXPECT_NE(hidden.problems[0].mend.find("split"), std::string::npos);
}

TEST(Pan, RefusesWithReasons) {
  EXPECT_FALSE(pan_fall(point_pan(60, 36, 70, 18)));
  EXPECT_FALSE(pan_fall(point_pan(60, 36, 0, 18)));
  EXPECT_FALSE(pan_fall(point_pan(60, 36, 30, 18, 0)));
  PanQuestion crossed;
  crossed.outline_in = {{0, 0}, {10, 10}, {10, 0}, {0, 10}};
  EXPECT_FALSE(pan_fall(crossed));
}

// Random convex floors with a point or a line within: the planes cover the floor, the edge is level,
// water never climbs, no way is flatter than asked, and turning the plan changes nothing.
TEST(Pan, PropertiesOnRandomConvexFloors) {
  testing::for_each_seed(150, [](Random& random) {
    const int corners = 3 + static_cast<int>(random.below(6));
    std::vector<double> angles;
    for (int i = 0; i < corners; ++i) angles.push_back((i + testing::between(random, 0.1, 0.9)) / corners * 6.283185307179586);
    const double rx = testing::between(random, 15, 50), ry = testing::between(random, 15, 50);
    PanQuestion q;
    for (const double a : angles) q.outline_in.push_back({rx * std::cos(a), ry * std::sin(a)});
    const auto inside = [&] {
      const double u = random.uniform();
      const auto i = static_cast<std::size_t>(random.below(static_cast<std::uint64_t>(corners)));
      const Point c = centroid(q.outline_in), p = q.outline_in[i];
      return Point{c.x_in + (p.x_in - c.x_in) * u * 0.8, c.y_in + (p.y_in - c.y_in) * u * 0.8};
    };
    q.drain_from_in = inside();
    q.drain_to_in = random.below(2) == 0 ? q.drain_from_in : inside();
    q.least_thickness_in = 1;
    const auto pan = pan_fall(q);
    ASSERT_TRUE(pan) << describe(pan.problems.front());
    double covered = 0;
    for (const auto& plane : pan.value->planes) covered += area_in2(plane.outline_in);
    EXPECT_NEAR(covered, area_in2(q.outline_in), 1e-6 * covered);
    for (std::size_t i = 0; i < q.outline_in.size(); ++i) {
      const Point a = q.outline_in[i], b = q.outline_in[(i + 1) % q.outline_in.size()];
      EXPECT_NEAR(pan_height_in(*pan.value, {(a.x_in + b.x_in) / 2, (a.y_in + b.y_in) / 2}), pan.value->edge_height_in, 1e-5);
    }
    EXPECT_NEAR(pan_height_in(*pan.value, q.drain_from_in), 0, 1e-5);
    EXPECT_GE(pan.value->flattest_plane_in_per_ft, 0.25 - 1e-9);
    EXPECT_GE(pan.value->steepest_in_per_ft, pan.value->flattest_plane_in_per_ft);
    PanQuestion turned = q;
    for (auto& p : turned.outline_in) p = {-p.y_in, p.x_in};
    turned.drain_from_in = {-q.drain_from_in.y_in, q.drain_from_in.x_in};
    turned.drain_to_in = {-q.drain_to_in.y_in, q.drain_to_in.x_in};
    const auto again = pan_fall(turned);
    ASSERT_TRUE(again);
    EXPECT_NEAR(again.value->bed_volume_ft3, pan.value->bed_volume_ft3, 1e-9);
    EXPECT_NEAR(again.value->steepest_in_per_ft, pan.value->steepest_in_per_ft, 1e-6);
  });
}

}  // namespace
}  // namespace awlmark::shower
