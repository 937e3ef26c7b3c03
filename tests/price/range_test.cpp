#include "price/range.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/outside.hpp"
#include "support/property.hpp"
#include "work/three_point.hpp"

namespace awlmark::price {
namespace {

RangeItem item(const nlohmann::json& abm, Shape shape) { return {abm[0], abm[1], abm[2], shape}; }

// tests/outside/shower_and_work.json monte_carlo: closed forms of single items.
TEST(Range, SingleItemsAreExact) {
  const auto file = testing::outside_file("shower_and_work.json");
  int tried = 0;
  for (const auto& one : file.at("monte_carlo")) {
    const auto &in = one.at("inputs"), &out = one.at("expected");
    RangeOfSum sum;
    double variance = 0;
    if (in.contains("triangular_a_m_b")) {
      sum = range_of_sum({item(in.at("triangular_a_m_b"), Shape::triangular)}, 1000, 1);
      variance = out.at("variance");
    } else if (in.contains("beta_pert_a_m_b")) {
      sum = range_of_sum({item(in.at("beta_pert_a_m_b"), Shape::pert)}, 1000, 1);
      variance = out.at("variance_exact");
    } else {
      continue;
    }
    SCOPED_TRACE(one.at("id").get<std::string>());
    EXPECT_NEAR(sum.mean, out.at("mean"), 1e-5);
    EXPECT_NEAR(sum.sd * sum.sd, variance, 1e-5);
    EXPECT_NEAR(sum.p10, out.at("P10"), 1e-5);
    EXPECT_NEAR(sum.p50, out.at("P50"), 1e-5);
    EXPECT_NEAR(sum.p80, out.at("P80"), 1e-5);
    EXPECT_NEAR(sum.p90, out.at("P90"), 1e-5);
    ++tried;
  }
  EXPECT_GE(tried, 5);
}

// MC-018: seven cost items of a public cost guide; MC-015: percentiles do not add.
TEST(Range, SumsOfItems) {
  const auto file = testing::outside_file("shower_and_work.json");
  for (const auto& one : file.at("monte_carlo")) {
    const auto &in = one.at("inputs"), &out = one.at("expected");
    if (in.contains("triangular_a_m_b_kusd")) {
      std::vector<RangeItem> items;
      for (const auto& t : in.at("triangular_a_m_b_kusd")) items.push_back(item(t, Shape::triangular));
      const auto sum = range_of_sum(items, 10000, 1954);
      EXPECT_NEAR(sum.p10, out.at("P10"), 0.003 * sum.p10);
      EXPECT_NEAR(sum.p50, out.at("P50"), 0.003 * sum.p50);
      EXPECT_NEAR(sum.p80, out.at("P80"), 0.003 * sum.p80);
      EXPECT_NEAR(sum.p90, out.at("P90"), 0.003 * sum.p90);
      EXPECT_NEAR(sum.chance_of_likely, out.at("probability_of_not_exceeding_sum_of_most_likely"), 0.01);
    }
    if (in.contains("each_triangular")) {
      const std::vector<RangeItem> items(in.at("items").get<std::size_t>(), item(in.at("each_triangular"), Shape::triangular));
      const auto sum = range_of_sum(items, 10000, 1);
      EXPECT_NEAR(sum.mean, out.at("mean"), 1e-9);
      EXPECT_NEAR(sum.sd, out.at("sd"), 1e-5);
      EXPECT_NEAR(sum.p80, out.at("P80_normal_approx"), 3);
      EXPECT_LT(sum.p80, out.at("sum_of_item_P80").get<double>() - 50);
    }
  }
}

TEST(Range, SameSeedSameAnswerOtherSeedAlmost) {
  const std::vector<RangeItem> items{{1, 2, 6, Shape::pert}, {0, 5, 10, Shape::triangular}, {2, 2, 9, Shape::pert}};
  EXPECT_EQ(range_of_sum(items, 5000, 7).p80, range_of_sum(items, 5000, 7).p80);
  EXPECT_NE(range_of_sum(items, 5000, 7).p80, range_of_sum(items, 5000, 8).p80);
  EXPECT_NEAR(range_of_sum(items, 20000, 7).p80, range_of_sum(items, 20000, 8).p80, 0.06);
}

TEST(Range, ScalesAndShifts) {
  testing::for_each_seed(8, [](Random& random) {
    std::vector<RangeItem> items, moved;
    const double factor = testing::between(random, 0.5, 3), shift = testing::between(random, -5, 5);
    for (int i = 0; i < 4; ++i) {
      const double low = testing::between(random, 0, 5), likely = low + testing::between(random, 0, 5), high = likely + testing::between(random, 0, 5);
      const Shape shape = random.below(2) == 0 ? Shape::pert : Shape::triangular;
      items.push_back({low, likely, high, shape});
      moved.push_back({low * factor + shift, likely * factor + shift, high * factor + shift, shape});
    }
    const auto a = range_of_sum(items, 500, 3), b = range_of_sum(moved, 500, 3);
    EXPECT_NEAR(b.mean, a.mean * factor + 4 * shift, 1e-9);
    EXPECT_NEAR(b.sd, a.sd * factor, 1e-9);
    EXPECT_NEAR(b.p80, a.p80 * factor + 4 * shift, 1e-6);
    EXPECT_LE(a.p10, a.p50);
    EXPECT_LE(a.p50, a.p80);
    EXPECT_LE(a.p80, a.p90);
  });
}

TEST(ThreePoint, BetaLawKnownValues) {
  // beta(1, 5): 1 - (1 - x)^5; beta(3, 3): x^3 (10 - 15 x + 6 x^2).
  for (const double x : {0.05, 0.3, 0.77, 0.99}) {
    EXPECT_NEAR(work::beta_cdf(x, 1, 5), 1 - std::pow(1 - x, 5), 1e-13);
    EXPECT_NEAR(work::beta_cdf(x, 5, 1), std::pow(x, 5), 1e-13);
    EXPECT_NEAR(work::beta_cdf(x, 3, 3), x * x * x * (10 - 15 * x + 6 * x * x), 1e-13);
  }
}

TEST(ThreePoint, DrawsFollowTheLaw) {
  const work::ThreePoint p{10, 12, 18};
  Random random(5);
  double sum = 0, squares = 0;
  int below = 0;
  const int n = 40000;
  for (int i = 0; i < n; ++i) {
    const double x = work::pert_draw(p, random);
    ASSERT_GE(x, 10);
    ASSERT_LE(x, 18);
    sum += x;
    squares += x * x;
    below += x <= 13.921539;  // MC-006, P80
  }
  EXPECT_NEAR(sum / n, work::pert_mean(p), 0.03);
  EXPECT_NEAR(squares / n - sum / n * sum / n, work::pert_variance(p), 0.05);
  EXPECT_NEAR(static_cast<double>(below) / n, 0.8, 0.008);
  EXPECT_EQ(work::pert_draw({3, 3, 3}, random), 3);
}

}  // namespace
}  // namespace awlmark::price
