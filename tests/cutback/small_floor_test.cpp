// The whole way from a job to the cut, against every subset of its pieces: small floors of one and
// two layers, priced by the room's own prices and by a second reckoning written here.
#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

#include "cutback/plan.hpp"
#include "floors.hpp"

namespace awlmark::cutback {
namespace {

using namespace awlmark::cutback::testing;
using awlmark::testing::between;
using awlmark::testing::for_each_seed;

Job small_floor(Random& random) {
  Job job;
  const double width = 20 + static_cast<double>(random.below(3)) * 14, depth = 11 + 5.5 * static_cast<double>(random.below(2));
  job.room.outline_in = rectangle(0, 0, width, depth);
  if (random.below(2)) job.layers.push_back(layer("over", Material::osb));
  job.layers.push_back(layer("deck", random.below(2) ? Material::board : Material::plank_tg));
  job.layers.back().runs = Runs{0};
  job.layers.back().face_width_in = 5.5;
  for (int k = 0; 16.0 * k < width; ++k) job.supports.push_back(joist("j" + std::to_string(k), {16.0 * k, 0}, {16.0 * k, depth}));
  job.cut_rules = no_rules();
  const double x = between(random, 0, width);
  if (random.below(2)) job.marks = {awl("m1", "deck", {x, between(random, 0, depth)}, Reading::soft)};
  return job;
}

TEST(SmallFloor, ThePlanBeatsEverySubset) {
  int checked = 0;
  for_each_seed(40, [&](Random& random) {
    const Job job = small_floor(random);
    const double x = between(random, 0, 40);
    const auto survey = survey_of(job, random, 25, {{x, 8}, between(random, 4, 20), 6, 5, 0.4});
    const auto cut = cut_back(plan::as_drawn(job), survey, {}).findings;
    Model model;
    const auto floor = plan::as_drawn(job);
    divide_layers(floor, {}, model);
    join_blocks(job, model);
    read_chances(job, survey, model);
    read_known(job, model);
    const int count = static_cast<int>(model.blocks.size());
    ASSERT_EQ(static_cast<std::size_t>(count), cut.pieces.size());
    if (count > 14) return;
    ++checked;
    const CutProblem problem = price_model(model, money::stakes_of(job), false);
    // Nesting by the outlines themselves, not by the model's arcs.
    std::vector<std::pair<int, int>> over;
    for (int a = 0; a < count; ++a)
      for (int b = 0; b < count; ++b)
        if (model.sheets[model.blocks[a].sheet].order > model.sheets[model.blocks[b].sheet].order &&
            area_in2(intersect(as_region(model.blocks[a].outline_in), as_region(model.blocks[b].outline_in))) > 1)
          over.emplace_back(a, b);
    auto least = std::numeric_limits<std::int64_t>::max();
    std::vector<char> out(count);
    for (unsigned set = 0; set < (1u << count); ++set) {
      for (int i = 0; i < count; ++i) out[i] = static_cast<char>(set >> i & 1);
      bool keeps = std::none_of(over.begin(), over.end(), [&](const std::pair<int, int>& arc) { return out[arc.first] && !out[arc.second]; });
      for (int a = 0; a < count; ++a) keeps = keeps && (out[a] || !model.blocks[a].known);
      if (keeps) least = std::min(least, price_of(problem, out));
    }
    EXPECT_NEAR(cut.least_cost, static_cast<double>(least) / 100, 1e-9);
    EXPECT_NEAR(cut.cost + cut.expected_loss_left, cut.least_cost, 1e-9) << "without rules the plan is the minimum";
  });
  EXPECT_GT(checked, 25);
}

TEST(SmallFloor, PricesAreTheRatesTimesAreasAndLengths) {
  // Two boards, one bay, half of the draws rot the whole of board 1.
  Job job;
  job.room.outline_in = rectangle(0, 0, 16, 11);
  job.layers = {layer("deck", Material::plank_tg)};
  job.layers[0].runs = Runs{0};
  job.layers[0].face_width_in = 5.5;
  job.supports = {joist("a", {0, 0}, {0, 11}), joist("b", {16, 0}, {16, 11})};
  survey::Result survey;
  survey.draws.count = 2;
  survey.draws.grid = survey.findings.grid = {5.5, 3, 2, {0, 0}};
  survey.draws.layers = {{"deck", {1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0}}};
  Model model;
  const auto floor = plan::as_drawn(job);
  divide_layers(floor, {}, model);
  join_blocks(job, model);
  read_chances(job, survey, model);
  ASSERT_EQ(model.blocks.size(), 2u);
  money::Stakes prices;
  prices.leave_unsound_per_sf = 90;
  prices.tear_out_sound_per_sf = 30;
  prices.rip_per_ft = 3.6;
  prices.cross_on_support_per_ft = 6;
  const auto problem = price_model(model, prices, true);
  const double area_sf = 16 * 5.5 / 144;
  // Ends at both walls lie on the joists there; the long side along the wall is ripped.
  const double rims = 2 * 5.5 / 12 * 6 + 16.0 / 12 * 3.6;
  EXPECT_NEAR(static_cast<double>(problem.out_cents[0]), 100 * (30 * area_sf / 2 + rims), 0.51);
  EXPECT_NEAR(static_cast<double>(problem.stay_cents[0]), 100 * 90 * area_sf / 2, 0.51);
  EXPECT_EQ(problem.stay_cents[1], 0);
  ASSERT_EQ(problem.pairs.size(), 1u);
  EXPECT_NEAR(static_cast<double>(problem.pairs[0].cents), 100 * 16.0 / 12 * 3.6, 0.51) << "the tongue between two planks is ripped";
}

}  // namespace
}  // namespace awlmark::cutback
