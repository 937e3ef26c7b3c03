// det_* and the normal distribution against published values.
#include "base/special.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/property.hpp"

namespace awlmark {
namespace {

void expect_close(double got, double want, double relative) { EXPECT_LE(std::fabs(got - want), relative * std::fabs(want)) << got << " against " << want; }

TEST(Special, ExpAndLogAgreeWithTheLibraryTo2Ulp) {
  for (double x = -700; x < 700; x += 0.731) expect_close(det_exp(x), std::exp(x), 5e-16);
  for (double x = 1e-300; x < 1e300; x *= 3.7) expect_close(det_log(x), std::log(x), 5e-16);
  for (double x = 0.5; x < 2; x += 0.00317) expect_close(det_log(x), std::log(x), 1e-15);
}

TEST(Special, EndsOfExpAndLog) {
  EXPECT_EQ(det_exp(0), 1.0);
  EXPECT_EQ(det_exp(-1000), 0.0);
  EXPECT_TRUE(std::isinf(det_exp(1000)));
  EXPECT_TRUE(std::isinf(det_log(0)) && det_log(0) < 0);
  EXPECT_TRUE(std::isnan(det_log(-1)));
  EXPECT_EQ(det_log(1), 0.0);
}

TEST(Special, SineAndCosine) {
  for (double x = -50; x < 50; x += 0.0917) {
    EXPECT_NEAR(det_sin(x), std::sin(x), 3e-16);
    EXPECT_NEAR(det_cos(x), std::cos(x), 3e-16);
  }
}

// Abramowitz and Stegun, Handbook of Mathematical Functions (1964), Tables 26.1 and 26.2:
// Q(1) .15865 52539, Q(2) .02275 01319, Q(3) .00134 98980, Q(5) 2.8665e-7; -log10 Q(10) = 23.11805.
TEST(Special, NormalTailsOfTable26) {
  expect_close(normal_cdf(-1), 0.1586552539, 1e-9);
  expect_close(normal_cdf(-2), 0.02275013195, 1e-9);
  expect_close(normal_cdf(-3), 0.001349898032, 1e-9);
  EXPECT_NEAR(-log_normal_cdf(-10) / std::log(10.0), 23.11805, 1e-5);
  expect_close(normal_cdf(1) + normal_cdf(-1), 1, 1e-15);
}

TEST(Special, NormalCdfAgreesWithErfc) {
  for (double z = -8; z < 8; z += 0.0173) expect_close(normal_cdf(z), 0.5 * std::erfc(-z / std::sqrt(2.0)), 2e-14);
}

TEST(Special, LogCdfIsFiniteAndSmoothFarOut) {
  EXPECT_TRUE(std::isfinite(log_normal_cdf(-1e8)));
  // Mills' ratio bound: log cdf lies between the first two terms of the asymptotic series.
  for (double z = -60; z < -6; z += 1.3) {
    const double lead = -0.5 * z * z - std::log(-z) - 0.91893853320467274178;
    EXPECT_LT(log_normal_cdf(z), lead);
    EXPECT_GT(log_normal_cdf(z), lead - 1 / (z * z) - 1e-9);
  }
}

TEST(Special, QuantileInvertsTheCdf) {
  testing::for_each_seed(2000, [](Random& random) {
    const double p = random.uniform() * 0.999998 + 1e-6;
    expect_close(normal_cdf(normal_quantile(p)), p, 1e-12);
  });
  EXPECT_NEAR(normal_quantile(0.975), 1.959963984540054, 1e-13);
  EXPECT_NEAR(normal_quantile(1e-300), -37.0471, 1e-4);
}

}  // namespace
}  // namespace awlmark
