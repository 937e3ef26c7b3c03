#include "base/stats.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/random.hpp"

namespace awlmark {
namespace {

// Hyndman and Fan, The American Statistician 50 (1996) 361-365, type 7, worked by hand.
TEST(Stats, QuantileType7) {
  EXPECT_DOUBLE_EQ(quantile({4, 1, 3, 2}, 0.5), 2.5);
  EXPECT_DOUBLE_EQ(quantile({1, 2, 3, 4, 5}, 0.1), 1.4);
  EXPECT_DOUBLE_EQ(quantile({7}, 0.9), 7);
  EXPECT_DOUBLE_EQ(quantile({}, 0.9), 0);
}

TEST(Random, StreamsAreReproducibleAndDiffer) {
  Random a(stream_seed(7, 0)), b(stream_seed(7, 0)), c(stream_seed(7, 1));
  double sum = 0, square = 0;
  for (int i = 0; i < 20000; ++i) {
    const double x = a.normal();
    EXPECT_EQ(x, b.normal());
    if (i < 3) EXPECT_NE(x, c.normal());
    sum += x;
    square += x * x;
  }
  EXPECT_NEAR(sum / 20000, 0, 4 / std::sqrt(20000.0));
  EXPECT_NEAR(square / 20000, 1, 4 * std::sqrt(2.0 / 20000));
}

}  // namespace
}  // namespace awlmark
