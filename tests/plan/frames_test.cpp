#include "plan/frames.hpp"

#include <gtest/gtest.h>

#include "../support/drawings.hpp"
#include "plan/plan.hpp"

namespace awlmark::plan {
namespace {

Job boards_on_joists(double width_in = 108, double height_in = 72) {
  Job job;
  job.room.outline_in = rectangle(0, 0, width_in, height_in);
  Layer deck;
  deck.id = "deck";
  deck.material = Material::plank_tg;
  deck.face_width_in = 5.25;
  job.layers = {deck};
  for (int k = 1; k <= 4; ++k) {
    Support joist;
    joist.id = "j" + std::to_string(k);
    joist.from_in = {24.0 * k, 0};
    joist.to_in = {24.0 * k, height_in};
    job.supports.push_back(joist);
  }
  return job;
}

Mark counted(int plank, double tape_in) {
  Mark mark;
  mark.id = "m1";
  mark.layer = "deck";
  mark.plank = plank;
  mark.tape_in = tape_in;
  return mark;
}

TEST(Frames, BoardsCrossTheSupportsTheyLieOn) {
  Job job = boards_on_joists();
  std::vector<Assumption> assumed;
  EXPECT_EQ(layer_frames(job, {}, assumed)[0].degrees, 0);
  ASSERT_EQ(assumed.size(), 1u);
  EXPECT_EQ(assumed[0].about, "deck");
  // A girder under the joists and a ledger along a wall do not change it.
  Support girder;
  girder.id = "g";
  girder.role = SupportRole::girder;
  girder.from_in = {-200, 36};
  girder.to_in = {400, 36};
  job.supports.insert(job.supports.begin(), girder);
  girder.role = SupportRole::ledger;
  job.supports.insert(job.supports.begin(), girder);
  EXPECT_EQ(layer_frames(job, {}, assumed)[0].degrees, 0);
  // Most of the length decides, not the longest member.
  for (int k = 0; k < 3; ++k) {
    Support cross = job.supports[2];
    cross.from_in = {0, 20.0 * k};
    cross.to_in = {80, 20.0 * k};
    job.supports.push_back(cross);
  }
  EXPECT_EQ(layer_frames(job, {}, assumed)[0].degrees, 0) << "288 in. run up, 240 in. along";
  job.layers[0].runs = Runs{225};
  EXPECT_EQ(layer_frames(job, {}, assumed)[0].degrees, 45) << "a line has no sense of direction";
  job.layers[0].runs.reset();
  job.supports.clear();
  assumed.clear();
  EXPECT_FALSE(layer_frames(job, {}, assumed)[0].known);
  ASSERT_EQ(assumed.size(), 1u);
  EXPECT_NE(assumed[0].words.find("no support"), std::string::npos);
}

TEST(Frames, RowsAreFullBoardsFromTheWallAndARest) {
  std::vector<Assumption> assumed;
  const auto frame = layer_frames(boards_on_joists(108, 72), {}, assumed)[0];
  ASSERT_EQ(frame.rows.size(), 14u);
  EXPECT_EQ(frame.rows[12].high_in, 68.25);
  EXPECT_EQ(frame.rows[13].high_in, 72);
  EXPECT_EQ(frame.rows[4].number.number, 5);
  EXPECT_EQ(frame.row_at(26.24).at, 4);
  EXPECT_EQ(frame.row_at(26.25).at, 5);
  EXPECT_EQ(frame.row_at(-3).at, 0);
  EXPECT_EQ(frame.row_at(90).at, 13);
  // Half an inch is no board of its own.
  const auto close = layer_frames(boards_on_joists(108, 68.75), {}, assumed)[0];
  ASSERT_EQ(close.rows.size(), 13u);
  EXPECT_EQ(close.rows[12].high_in, 68.75);
}

TEST(Frames, CountLikePlaceOf) {
  for (const double degrees : {0.0, 90.0, 45.0, 135.0, 20.0}) {
    Job job = boards_on_joists();
    job.layers[0].runs = Runs{degrees};
    const Plan plan = as_drawn(job);
    const LayerFrame& frame = plan.layers[0];
    for (int plank = 1; plank < static_cast<int>(frame.rows.size()); ++plank) {
      const Point spot = *place_of(job, counted(plank, 30));
      EXPECT_EQ(frame.number_of(frame.row_at(frame.frame.v(spot))).number, plank) << degrees;
      EXPECT_NEAR(frame.tape_in(frame.frame.u(spot)), 30, 1e-9) << degrees;
    }
  }
}

TEST(Frames, NumbersAreThoseOfTheDrawing) {
  const Job job = boards_on_joists();
  for (int k = 0; k < testing::kDrawings; ++k) {
    SCOPED_TRACE(k);
    Job other = testing::drawn_so(job, testing::Drawing{k, {3, 5}});
    const Plan plan = plan_of(other);
    const LayerFrame& frame = plan.layers[0];
    for (const auto& row : frame.rows) {
      EXPECT_EQ(frame.number_of(row.row), row.number);
      EXPECT_EQ(frame.row_of(row.number), row.row);
    }
    // The same layout, counted from the low side of this drawing: the plank nearest to it is number 1.
    const auto across = [&](const BoardRow& row) {
      const Point p = plan.drawn(frame.frame.at(20, (row.low_in + row.high_in) / 2));
      return k == 1 || k == 3 || k >= 6 ? p.x_in : p.y_in;
    };
    for (const auto& row : frame.rows)
      for (const auto& next : frame.rows)
        if (row.number.number < next.number.number) EXPECT_LT(across(row), across(next));
    // The tape starts at the low end.
    const auto reads = [&](double u) {
      const Point p = plan.drawn(frame.frame.at(u, 20));
      return k == 1 || k == 3 || k >= 6 ? p.y_in - bounds(other.room.outline_in).y0_in : p.x_in - bounds(other.room.outline_in).x0_in;
    };
    EXPECT_NEAR(frame.tape_in(30), reads(30), 1e-8);
    // Who counts planks says where they begin: then every mark by plank lies in the plank of its number.
    for (const int plank : {1, 5, 13}) {
      other.marks = {counted(plank, 30)};
      const Plan told = plan_of(other);
      const LayerFrame& of = told.layers[0];
      EXPECT_EQ(of.number_of(of.row_at(of.frame.v(*told.job.marks[0].at_in))).number, plank);
      EXPECT_NEAR(of.tape_in(of.frame.u(*told.job.marks[0].at_in)), 30, 1e-8);
    }
  }
}

}  // namespace
}  // namespace awlmark::plan
