#include "takeoff/cut_plan.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "base/random.hpp"
#include "support/outside.hpp"
#include "support/property.hpp"

namespace awlmark::takeoff {
namespace {

// Every promise of a plan, checked without the code that made it.
void expect_sound(const CutQuestion& question, const CutPlan& plan) {
  std::map<long long, int> made;
  std::map<double, int> used;
  double cost = 0;
  for (const auto& stick : plan.sticks) {
    double sum = 0;
    for (const double cut : stick.cuts) {
      sum += cut;
      made[std::llround(cut * 1e6)] += stick.times;
    }
    sum += question.kerf_in * (static_cast<double>(stick.cuts.size()) - 1);
    EXPECT_LE(sum, stick.stock_in + 1e-6);
    EXPECT_FALSE(stick.cuts.empty());
    used[stick.stock_in] += stick.times;
    double price = 1e300;
    for (const auto& stock : question.stock)
      if (stock.length_in == stick.stock_in) price = std::min(price, stock.price);
    cost += price * stick.times;
  }
  std::map<long long, int> wanted;
  for (const auto& piece : question.pieces)
    if (piece.count > 0) wanted[std::llround(piece.length_in * 1e6)] += piece.count;
  EXPECT_EQ(made, wanted);
  EXPECT_NEAR(cost, plan.cost, 1e-9 * std::max(1.0, cost));
  EXPECT_LE(plan.lower_bound, plan.cost + 1e-9 * std::max(1.0, cost));
  for (const auto& stock : question.stock)
    if (stock.available) {
      EXPECT_LE(used[stock.length_in], *stock.available);
    }
}

// tests/outside/shower_and_work.json, cutting_stock: optima proved by exhaustive packing or an exact solver.
TEST(CutPlan, PublishedOptima) {
  const auto file = testing::outside_file("shower_and_work.json");
  int tried = 0;
  for (const auto& one : file.at("cutting_stock")) {
    SCOPED_TRACE(one.at("id").get<std::string>());
    const auto& in = one.at("inputs");
    const std::string unit = in.contains("kerf_mm") ? "mm" : "in";
    if (!in.contains("stock") || !in.contains("pieces")) continue;
    CutQuestion question;
    question.kerf_in = in.at("kerf_" + unit);
    for (const auto& s : in.at("stock")) {
      Stock stock;
      stock.length_in = s.at("length_" + unit);
      stock.price = s.at("price_usd");
      if (s.contains("available")) stock.available = s.at("available").get<int>();
      question.stock.push_back(stock);
    }
    for (const auto& p : in.at("pieces")) question.pieces.push_back({p.at("length_" + unit), p.at("qty")});
    const auto plan = cut_plan(question);
    ASSERT_TRUE(plan) << (plan.problems.empty() ? "" : describe(plan.problems[0]));
    expect_sound(question, *plan.value);
    EXPECT_TRUE(plan.value->proven);
    const auto& expected = one.at("expected");
    if (expected.contains("min_cost_usd")) {
      EXPECT_NEAR(plan.value->cost, expected.at("min_cost_usd"), 1e-9);
    }
    if (expected.contains("min_sticks")) {
      EXPECT_NEAR(plan.value->cost, expected.at("min_sticks"), 1e-9);
    }
    ++tried;
  }
  EXPECT_GE(tried, 9);
}

// The least cost by trying everything: pieces one by one into open sticks or a new one.
double by_hand(const CutQuestion& question) {
  std::vector<double> pieces;
  for (const auto& piece : question.pieces)
    for (int n = 0; n < piece.count; ++n) pieces.push_back(piece.length_in);
  std::sort(pieces.rbegin(), pieces.rend());
  struct Open {
    double left;
  };
  std::vector<Open> open;
  std::vector<int> left_of_stock;
  for (const auto& stock : question.stock) left_of_stock.push_back(stock.available.value_or(1000));
  double best = 1e300;
  std::function<void(std::size_t, double)> go = [&](std::size_t at, double cost) {
    if (cost >= best - 1e-9) return;
    if (at == pieces.size()) {
      best = cost;
      return;
    }
    for (std::size_t o = 0; o < open.size(); ++o) {
      const double need = pieces[at] + question.kerf_in;
      if (need > open[o].left + 1e-9) continue;
      open[o].left -= need;
      go(at + 1, cost);
      open[o].left += need;
    }
    for (std::size_t j = 0; j < question.stock.size(); ++j) {
      if (left_of_stock[j] == 0 || pieces[at] > question.stock[j].length_in + 1e-9) continue;
      --left_of_stock[j];
      open.push_back({question.stock[j].length_in - pieces[at]});
      go(at + 1, cost + question.stock[j].price);
      open.pop_back();
      ++left_of_stock[j];
    }
  };
  go(0, 0);
  return best;
}

TEST(CutPlan, EqualsTryingEverythingOnSmallJobs) {
  testing::for_each_seed(60, [](Random& random) {
    CutQuestion question;
    question.kerf_in = random.below(2) == 0 ? 0.125 : 0;
    const auto stocks = 1 + random.below(3);
    for (std::uint64_t j = 0; j < stocks; ++j) {
      Stock stock;
      stock.length_in = 96 + 24.0 * static_cast<double>(j);
      stock.price = 5 + std::floor(testing::between(random, 0, 1000)) / 100 + 1.5 * static_cast<double>(j);
      if (random.below(3) == 0 && j > 0) stock.available = static_cast<int>(random.below(3));
      question.stock.push_back(stock);
    }
    const auto kinds = 1 + random.below(4);
    for (std::uint64_t i = 0; i < kinds; ++i) {
      const double length = 10 + std::floor(testing::between(random, 0, 80 * 8)) / 8;
      question.pieces.push_back({length, 1 + static_cast<int>(random.below(2))});
    }
    const auto plan = cut_plan(question);
    ASSERT_TRUE(plan);
    expect_sound(question, *plan.value);
    EXPECT_TRUE(plan.value->proven);
    EXPECT_NEAR(plan.value->cost, by_hand(question), 1e-9);
  });
}

TEST(CutPlan, MiddlingJobsAreProven) {
  testing::for_each_seed(12, [](Random& random) {
    CutQuestion question;
    question.stock = {{96, 7.48, {}}, {120, 9.22, {}}, {144, 11.98, {}}, {192, 17.96, {}}};
    for (int i = 0; i < 8; ++i) {
      const double length = 12 + std::floor(testing::between(random, 0, 80 * 4)) / 4;
      question.pieces.push_back({length, 1 + static_cast<int>(random.below(6))});
    }
    const auto plan = cut_plan(question);
    ASSERT_TRUE(plan);
    expect_sound(question, *plan.value);
    EXPECT_TRUE(plan.value->proven) << plan.value->nodes;
  });
}

// The kerf between two pieces is all that decides: 72 1/4 + 71 5/8 + 1/8 is 144 exactly.
TEST(CutPlan, FitsToTheLastKerf) {
  CutQuestion question;
  question.stock = {{144, 1, {}}};
  question.pieces = {{72.25, 1}, {71.625, 1}};
  EXPECT_EQ(cut_plan(question).value->cost, 1);
  question.pieces[0].length_in = 72.25 + 1.0 / 64;
  EXPECT_EQ(cut_plan(question).value->cost, 2);
}

TEST(CutPlan, AMoreLimitedStockIsNeverCheaper) {
  testing::for_each_seed(20, [](Random& random) {
    CutQuestion question;
    question.stock = {{96, 6.98, {}}, {144, 11.25, {}}};
    for (int i = 0; i < 4; ++i) question.pieces.push_back({std::floor(testing::between(random, 20, 95)), 1 + static_cast<int>(random.below(3))});
    const double free = cut_plan(question).value->cost;
    question.stock[0].available = static_cast<int>(random.below(4));
    const auto limited = cut_plan(question);
    ASSERT_TRUE(limited);
    expect_sound(question, *limited.value);
    EXPECT_GE(limited.value->cost, free - 1e-9);
  });
}

TEST(CutPlan, NamesEveryProblem) {
  CutQuestion question;
  question.stock = {{96, -1, {}}};
  question.pieces = {{100, 2}, {0, 1}, {10, -1}};
  question.kerf_in = -1;
  const auto plan = cut_plan(question);
  EXPECT_FALSE(plan);
  EXPECT_EQ(plan.problems.size(), 5u);
  CutQuestion short_of;
  short_of.stock = {{96, 1, 1}};
  short_of.pieces = {{60, 2}};
  const auto none = cut_plan(short_of);
  EXPECT_FALSE(none);
  ASSERT_EQ(none.problems.size(), 1u);
  EXPECT_EQ(none.problems[0].at, "stock");
}

// 20 lengths, 80 pieces, prices that are not in step with the lengths: proven or within half a percent.
TEST(CutPlan, ManyLengthsAtMixedPricesEndCloseToTheLeast) {
  for (const std::uint64_t seed : {3, 17, 40}) {
    Random random(seed);
    CutQuestion question;
    question.stock = {{96, 7.48, {}, {}}, {120, 9.97, {}, {}}, {144, 11.15, {}, {}}, {168, 13.86, {}, {}}, {192, 15.09, {}, {}}};
    int left = 80;
    for (int type = 0; type < 20; ++type) {
      const double length = 10 + 84 * random.uniform();
      const int count = type == 19 ? left : std::min<int>(left - (19 - type), 1 + static_cast<int>(random.below(7)));
      question.pieces.push_back({std::round(length * 16) / 16, count});
      left -= count;
    }
    question.max_steps = 1e7;  // a tenth of what it may take: close already
    const auto plan = cut_plan(question);
    ASSERT_TRUE(plan) << seed;
    expect_sound(question, *plan.value);
    EXPECT_LE(plan.value->gap, 0.005) << seed;
    EXPECT_NEAR(plan.value->gap, plan.value->proven ? 0 : (plan.value->cost - plan.value->lower_bound) / plan.value->cost, 1e-12);
  }
}

TEST(CutPlan, OffcutsOnHandAreUsedFirstAroundTheirDefects) {
  CutQuestion question;
  question.kerf_in = 0.125;
  question.stock = {{96, 10, {}, {}}, {60, 0, 1, {{28, 32}}}};
  question.pieces = {{28, 2}, {90, 1}};
  const auto plan = cut_plan(question);
  ASSERT_TRUE(plan);
  // Both 28 in. pieces come from the offcut, one each side of the knot at 28 to 32 in.
  EXPECT_DOUBLE_EQ(plan.value->cost, 10);
  EXPECT_TRUE(plan.value->proven);
  question.stock[1].defects = {{20, 40}};
  EXPECT_DOUBLE_EQ(cut_plan(question).value->cost, 20);
  question.stock[1].available.reset();
  ASSERT_FALSE(cut_plan(question));
  EXPECT_EQ(cut_plan(question).problems.front().at, "stock[1].available");
}

}  // namespace
}  // namespace awlmark::takeoff
