#include "base/geometry.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/property.hpp"

namespace awlmark {
namespace {

const Polygon kEll = {{0, 0}, {5, 0}, {5, 2}, {3, 2}, {3, 4}, {0, 4}};

// The same figures as shapely 1.8.5 (GEOS 3.11.1) gives: area 16, union 17, difference 13.
TEST(Geometry, BooleansOfAnEllAndASquare) {
  const auto ell = as_region(kEll);
  const auto square = as_region(rectangle(2, 1, 4, 3));
  EXPECT_NEAR(area_in2(ell), 16, 1e-9);
  EXPECT_NEAR(area_in2(unite({kEll, rectangle(2, 1, 4, 3)})), 17, 1e-9);
  EXPECT_NEAR(area_in2(subtract(ell, square)), 13, 1e-9);
  EXPECT_NEAR(area_in2(intersect(ell, square)), 3, 1e-9);
}

TEST(Geometry, HolesComeBack) {
  const auto ring = subtract(as_region(rectangle(0, 0, 10, 10)), as_region(rectangle(4, 4, 6, 6)));
  ASSERT_EQ(ring.size(), 1u);
  ASSERT_EQ(ring[0].holes.size(), 1u);
  EXPECT_NEAR(area_in2(ring), 96, 1e-9);
  EXPECT_GT(signed_area_in2(ring[0].outline), 0);
  EXPECT_LT(signed_area_in2(ring[0].holes[0]), 0);
  EXPECT_NEAR(area_in2(intersect(ring, as_region(rectangle(4, 4, 6, 6)))), 0, 1e-9);
}

TEST(Geometry, InsideEdgeAndOutside) {
  EXPECT_TRUE(contains(kEll, {1, 3}));
  EXPECT_TRUE(contains(kEll, {3, 3}));  // on the edge
  EXPECT_FALSE(contains(kEll, {4, 3}));
  EXPECT_NEAR(distance_to_in(kEll, {4, 3}), 1, 1e-12);
  EXPECT_EQ(distance_to_in(kEll, {1, 1}), 0);
}

TEST(Geometry, SimpleRings) {
  EXPECT_TRUE(is_simple(kEll));
  EXPECT_FALSE(is_simple({{0, 0}, {4, 4}, {4, 0}, {0, 4}}));  // a bow tie
  EXPECT_FALSE(is_simple({{0, 0}, {4, 0}, {4, 0}, {0, 4}}));  // a corner twice
  EXPECT_FALSE(is_simple({{0, 0}, {4, 0}}));
  EXPECT_FALSE(is_simple({{0, 0}, {4, 0}, {8, 0}}));  // flat
}

TEST(Geometry, ClippingKeepsTheLeftSide) {
  const auto half = clip_left_of(rectangle(0, 0, 10, 10), {4, 0}, {4, 10});
  EXPECT_NEAR(area_in2(half), 40, 1e-9);
  EXPECT_TRUE(contains(half, {1, 5}));
}

TEST(Geometry, UnionAndIntersectionAddUpToTheParts) {
  testing::for_each_seed(200, [](Random& random) {
    const auto box = [&] {
      const double x = std::floor(testing::between(random, 0, 40)), y = std::floor(testing::between(random, 0, 40));
      const double w = 1 + std::floor(testing::between(random, 0, 30)), h = 1 + std::floor(testing::between(random, 0, 30));
      return rectangle(x, y, x + w, y + h);
    };
    const auto a = box(), b = box();
    const double sum = area_in2(unite({a, b})) + area_in2(intersect(as_region(a), as_region(b)));
    EXPECT_NEAR(sum, area_in2(a) + area_in2(b), 1e-6);
    EXPECT_NEAR(area_in2(subtract(as_region(a), as_region(b))) + area_in2(intersect(as_region(a), as_region(b))), area_in2(a), 1e-6);
  });
}

}  // namespace
}  // namespace awlmark
