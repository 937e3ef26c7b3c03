// The exact cut: against all subsets on small problems, against GLPK on medium ones (stored, and live
// where glpsol is on the PATH), and its monotony in the prices.
#include "cutback/mincut.hpp"

#include <cstdio>
#include <cstdlib>
#include <limits>

#include "../support/outside.hpp"
#include "../support/property.hpp"

namespace awlmark::cutback {
namespace {

using awlmark::testing::for_each_seed;

CutProblem random_problem(Random& random, int count) {
  CutProblem problem;
  for (int i = 0; i < count; ++i) {
    problem.out_cents.push_back(static_cast<std::int64_t>(random.below(2000)));
    problem.stay_cents.push_back(static_cast<std::int64_t>(random.below(2000)));
    problem.must_go.push_back(random.below(10) == 0);
    problem.must_stay.push_back(random.below(10) == 0);
  }
  for (int i = 0; i < count; ++i)
    for (int j = i + 1; j < count; ++j) {
      if (random.below(3) == 0) problem.pairs.push_back({i, j, static_cast<std::int64_t>(random.below(800))});
      if (random.below(8) == 0) problem.implies.push_back({j, i});
    }
  return problem;
}

TEST(MinCut, BeatsEverySubsetOfSmallFloors) {
  for_each_seed(150, [](Random& random) {
    const int count = 1 + static_cast<int>(random.below(14));
    const CutProblem problem = random_problem(random, count);
    const CutSolution solution = least_cut(problem);
    ASSERT_TRUE(allowed(problem, solution.out));
    EXPECT_EQ(solution.flow_cents, solution.price_cents);
    auto least = std::numeric_limits<std::int64_t>::max();
    int fewest = 0;
    std::vector<char> out(count);
    for (unsigned set = 0; set < (1u << count); ++set) {
      int pieces = 0;
      for (int i = 0; i < count; ++i) pieces += out[i] = static_cast<char>(set >> i & 1);
      if (!allowed(problem, out)) continue;
      const auto price = price_of(problem, out);
      if (price < least || (price == least && pieces < fewest)) {
        least = price;
        fewest = pieces;
      }
    }
    EXPECT_EQ(solution.price_cents, least);
    int taken = 0;
    for (const char one : solution.out) taken += one;
    EXPECT_EQ(taken, fewest) << "of several optima the one with the fewest pieces is promised";
  });
}

TEST(MinCut, KnownDecayGoesWhateverItCosts) {
  CutProblem problem;
  problem.out_cents = {100'000'000'000'000, 100'000'000'000'000, 5};
  problem.stay_cents = {0, 0, 0};
  problem.must_go = {1, 0, 0};
  problem.must_stay = {1, 0, 0};
  problem.pairs = {{0, 1, 90'000'000'000'000}, {0, 2, 1}};
  problem.implies = {{0, 1}};
  const auto solution = least_cut(problem);
  EXPECT_EQ(solution.out, (std::vector<char>{1, 1, 0}));
}

TEST(MinCut, DearerLeavingNeverTakesOutLess) {
  for_each_seed(120, [](Random& random) {
    CutProblem problem = random_problem(random, 5 + static_cast<int>(random.below(40)));
    std::vector<char> before = least_cut(problem).out;
    for (int step = 0; step < 6; ++step) {
      for (auto& cents : problem.stay_cents) cents = cents * 14 / 10;
      const auto after = least_cut(problem).out;
      for (std::size_t i = 0; i < after.size(); ++i) EXPECT_GE(after[i], before[i]);
      before = after;
    }
    for (int step = 0; step < 6; ++step) {
      for (auto& cents : problem.out_cents) cents = cents * 16 / 10;
      const auto after = least_cut(problem).out;
      for (std::size_t i = 0; i < after.size(); ++i) EXPECT_LE(after[i], before[i]);
      before = after;
    }
  });
}

TEST(MinCut, NothingToCutIsAnswered) {
  EXPECT_EQ(least_cut({}).price_cents, 0);
  CutProblem one;
  one.out_cents = {7};
  one.stay_cents = {0};
  one.must_go = one.must_stay = {0};
  EXPECT_EQ(least_cut(one).out[0], 0);
}

CutProblem problem_from(const nlohmann::json& item) {
  CutProblem problem;
  problem.out_cents = item.at("out_cents").get<std::vector<std::int64_t>>();
  problem.stay_cents = item.at("stay_cents").get<std::vector<std::int64_t>>();
  problem.must_go.assign(problem.out_cents.size(), 0);
  problem.must_stay.assign(problem.out_cents.size(), 0);
  for (const int i : item.at("must_go")) problem.must_go[i] = 1;
  for (const int i : item.at("must_stay")) problem.must_stay[i] = 1;
  for (const auto& pair : item.at("pairs")) problem.pairs.push_back({pair[0].get<int>(), pair[1].get<int>(), pair[2].get<std::int64_t>()});
  for (const auto& arc : item.at("implies")) problem.implies.push_back({arc[0].get<int>(), arc[1].get<int>()});
  return problem;
}

// Floors of several layers written and solved by tests/outside/make/cutback_glpk.py (GLPK 5.0).
TEST(MinCut, AgreesWithGlpkOnMediumFloors) {
  const auto cases = awlmark::testing::outside_file("cutback_glpk.json");
  ASSERT_GE(cases.at("cases").size(), 12u);
  for (const auto& item : cases.at("cases")) {
    SCOPED_TRACE(item.at("id").get<std::string>());
    const auto solution = least_cut(problem_from(item));
    EXPECT_EQ(solution.price_cents, item.at("optimum_cents").get<std::int64_t>());
  }
}

#ifndef __EMSCRIPTEN__
std::string lp_text(const CutProblem& problem) {
  std::string text = "Minimize\n obj: base";
  std::int64_t base = 0;
  const auto term = [](std::int64_t cents, const std::string& name) {
    return (cents < 0 ? " - " : " + ") + std::to_string(cents < 0 ? -cents : cents) + " " + name;
  };
  for (int i = 0; i < problem.size(); ++i) {
    base += problem.stay_cents[i];
    text += term(problem.out_cents[i] - problem.stay_cents[i], "x" + std::to_string(i)) + "\n";
  }
  for (std::size_t k = 0; k < problem.pairs.size(); ++k) text += term(problem.pairs[k].cents, "d" + std::to_string(k)) + "\n";
  text += "Subject To\n";
  for (std::size_t k = 0; k < problem.pairs.size(); ++k) {
    const std::string a = "x" + std::to_string(problem.pairs[k].a), b = "x" + std::to_string(problem.pairs[k].b), d = "d" + std::to_string(k);
    text += " " + d + " - " + a + " + " + b + " >= 0\n " + d + " - " + b + " + " + a + " >= 0\n";
  }
  for (const auto& arc : problem.implies) text += " x" + std::to_string(arc.upper) + " - x" + std::to_string(arc.lower) + " >= 0\n";
  text += "Bounds\n base = " + std::to_string(base) + "\n";
  for (int i = 0; i < problem.size(); ++i)
    text += problem.must_go[i]     ? " x" + std::to_string(i) + " = 1\n"
            : problem.must_stay[i] ? " x" + std::to_string(i) + " = 0\n"
                                   : " 0 <= x" + std::to_string(i) + " <= 1\n";
  return text + "General\n x0\nEnd\n";
}

TEST(MinCut, AgreesWithGlpkLiveWhereItIsInstalled) {
  if (std::system("command -v glpsol > /dev/null 2>&1") != 0) GTEST_SKIP() << "glpsol is not on the PATH; the stored cases cover it";
  Random random(stream_seed(4, 4));
  CutProblem problem = random_problem(random, 60);
  problem.must_stay.assign(60, 0);  // a problem both sides state alike: must_stay gives way here, not in the program for glpsol
  const std::string stem = ::testing::TempDir() + "awlmark_cutback";
  std::FILE* file = std::fopen((stem + ".lp").c_str(), "w");
  ASSERT_NE(file, nullptr);
  std::fputs(lp_text(problem).c_str(), file);
  std::fclose(file);
  ASSERT_EQ(std::system(("glpsol --lp " + stem + ".lp -o " + stem + ".txt > /dev/null").c_str()), 0);
  std::ifstream answer(stem + ".txt");
  std::string line;
  double optimum = -1;
  while (std::getline(answer, line))
    if (line.rfind("Objective:", 0) == 0) optimum = std::atof(line.c_str() + line.find('=') + 1);
  EXPECT_NEAR(optimum, static_cast<double>(least_cut(problem).price_cents), 0.5);
}
#endif

}  // namespace
}  // namespace awlmark::cutback
