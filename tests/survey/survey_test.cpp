// The survey as the other rooms see it.
#include "survey/survey.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "survey/example_job.hpp"

namespace awlmark {
namespace {

using testing::awl_mark;
using testing::laundry;

double at(const survey::LayerField& field, const survey::GridFindings& grid, double x, double y) {
  const int i = static_cast<int>((x - grid.origin_in.x_in) / grid.cell_in), j = static_cast<int>((y - grid.origin_in.y_in) / grid.cell_in);
  return field.p_unsound[static_cast<std::size_t>(j * grid.nx + i)];
}

TEST(Survey, AnswersWithoutMarks) {
  const auto result = survey::survey(laundry());
  const auto& s = result.findings;
  EXPECT_EQ(s.grid.nx, 36);
  EXPECT_EQ(s.grid.ny, 24);
  ASSERT_EQ(s.layers.size(), 3u);
  EXPECT_TRUE(s.inference.converged);
  EXPECT_GT(at(s.layers[2], s.grid, 84, 66), 0.6);
  EXPECT_LT(at(s.layers[2], s.grid, 4, 4), 0.3);
  EXPECT_FALSE(s.next_openings.empty());
}

TEST(Survey, MarksDecideNearThem) {
  const std::string marks = "[" + awl_mark("a", 66, 60, "deck", "gone") + "," + awl_mark("b", 40, 30, "deck", "sound") + "]";
  const auto s = survey::survey(laundry(marks)).findings;
  EXPECT_GT(at(s.layers[2], s.grid, 66, 60), 0.9);
  EXPECT_LT(at(s.layers[2], s.grid, 40, 30), 0.1);
}

}  // namespace
}  // namespace awlmark
