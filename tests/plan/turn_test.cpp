// A floor is the same floor however it is drawn: turned by quarter turns, mirrored, shifted.
#include "plan/turn.hpp"

#include <gtest/gtest.h>

#include "../support/drawings.hpp"
#include "plan/plan.hpp"

namespace awlmark::plan {
namespace {

using testing::Drawing;
using testing::drawn_so;

Job floor_of_boards() {
  Job job;
  job.room.outline_in = {{0, 0}, {131.3, 0}, {131.3, 96.7}, {40, 96.7}, {40, 80}, {0, 80}};
  Layer under, deck;
  under.id = "under";
  under.material = Material::plywood_underlayment;
  under.absent_in = {{{10, 10}, {20, 10}, {20, 25}}};
  deck.id = "deck";
  deck.material = Material::board;
  deck.face_width_in = 5.1;
  job.layers = {under, deck};
  for (int k = 0; k < 7; ++k) {
    Support joist;
    joist.id = "j" + std::to_string(k);
    joist.from_in = {16.0 * k + 8, 0};
    joist.to_in = {16.0 * k + 8.1, 96.7};
    job.supports.push_back(joist);
  }
  Mark mark;
  mark.id = "m1";
  mark.layer = "deck";
  mark.at_in = Point{50.3, 70.1};
  job.marks = {mark};
  return job;
}

void same(const Polygon& a, const Polygon& b) {
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) EXPECT_EQ(a[i], b[i]) << i;
}

TEST(Turn, EveryDrawingOfAFloorHasTheSamePlan) {
  const Job job = floor_of_boards();
  const Plan plan = plan_of(job);
  EXPECT_FALSE(plan.turn.turns()) << "drawn in the usual way";
  for (int k = 0; k < testing::kDrawings; ++k) {
    SCOPED_TRACE(k);
    const Plan other = plan_of(drawn_so(job, Drawing{k, {7.25, -3}}));
    same(plan.job.room.outline_in, other.job.room.outline_in);
    same(plan.job.layers[0].absent_in[0], other.job.layers[0].absent_in[0]);
    for (std::size_t j = 0; j < job.supports.size(); ++j) EXPECT_EQ(plan.job.supports[j].from_in, other.job.supports[j].from_in);
    EXPECT_EQ(*plan.job.marks[0].at_in, *other.job.marks[0].at_in);
    for (std::size_t i = 0; i < plan.layers.size(); ++i) {
      EXPECT_EQ(plan.layers[i].degrees, other.layers[i].degrees);
      ASSERT_EQ(plan.layers[i].rows.size(), other.layers[i].rows.size());
      EXPECT_EQ(plan.layers[i].frame.u({3, 4}), other.layers[i].frame.u({3, 4}));
      EXPECT_EQ(plan.layers[i].frame.v({3, 4}), other.layers[i].frame.v({3, 4}));
    }
  }
}

TEST(Turn, GoesBackToTheDrawing) {
  const Job job = floor_of_boards();
  for (int k = 0; k < testing::kDrawings; ++k) {
    const Job other = drawn_so(job, Drawing{k, {7.25, -3}});
    const Turn turn = own_turn(other);
    for (const Point p : {Point{12, 33}, Point{-4, 90}}) {
      const Point back = turn.drawn(turn.own(p));
      EXPECT_NEAR(back.x_in, p.x_in, 1e-8);
      EXPECT_NEAR(back.y_in, p.y_in, 1e-8);
    }
    for (const double degrees : {0.0, 30.0, 90.0, 135.0}) EXPECT_NEAR(turn.drawn_degrees(turn.own_degrees(degrees)), degrees, 1e-9);
  }
}

TEST(Turn, FloorsWithoutSupportsHaveTheirOwnFrameToo) {
  Job job = floor_of_boards();
  job.supports.clear();
  for (const double degrees : {0.0, 45.0, 90.0, 120.0}) {
    job.layers[1].runs = Runs{degrees};
    const Plan plan = plan_of(job);
    for (int k = 0; k < testing::kDrawings; ++k) {
      SCOPED_TRACE(std::to_string(degrees) + " " + std::to_string(k));
      const Plan other = plan_of(drawn_so(job, Drawing{k, {}}));
      same(plan.job.room.outline_in, other.job.room.outline_in);
      EXPECT_NEAR(plan.layers[1].degrees, other.layers[1].degrees, 1e-9);
    }
  }
}

}  // namespace
}  // namespace awlmark::plan
