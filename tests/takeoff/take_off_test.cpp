#include <gtest/gtest.h>

#include <algorithm>

#include "support/small_site.hpp"
#include "takeoff/takeoff.hpp"

namespace awlmark::takeoff {
namespace {

const Line* find_line(const TakeOff& found, const std::string& id) {
  const auto at = std::find_if(found.lines.begin(), found.lines.end(), [&](const Line& l) { return l.id == id; });
  return at == found.lines.end() ? nullptr : &*at;
}

TEST(TakeOff, MeasuresThePieces) {
  const auto found = take_off(testing::small_laundry(), testing::small_cut(), {});
  ASSERT_TRUE(find_line(found, "out.deck"));
  EXPECT_NEAR(find_line(found, "out.deck")->quantity, 3 * 5.5 * 32 / 144, 1e-9);
  EXPECT_EQ(find_line(found, "out.deck")->group, "take_out");
  EXPECT_NEAR(find_line(found, "out.edges")->quantity, (16.5 + 32) / 12, 1e-9);
  // Debris by hand: boards 3 psf an inch, vinyl 11 psf an inch.
  EXPECT_NEAR(found.debris_lb, 3 * 5.5 * 32 / 144 * (0.75 * 3 + 0.09 * 11), 1e-6);
  EXPECT_GT(found.debris_yd3, 0);
  EXPECT_EQ(found.bags, 1);
}

TEST(TakeOff, PlanksComeBackAsACutListOfWholeRuns) {
  const auto found = take_off(testing::small_laundry(), testing::small_cut(), {});
  const auto list = std::find_if(found.cut_lists.begin(), found.cut_lists.end(), [](const CutList& c) { return c.item == "1x6 square-edged board"; });
  ASSERT_NE(list, found.cut_lists.end());
  EXPECT_TRUE(list->proven);
  int pieces = 0;
  for (const auto& stick : list->sticks)
    for (const double cut : stick.cuts) {
      EXPECT_EQ(cut, 32);  // two bays joined
      pieces += stick.times;
    }
  EXPECT_EQ(pieces, 3);
  EXPECT_NEAR(find_line(found, "back.deck.screws")->quantity, 3 * 3 * 2, 1e-9);
}

TEST(TakeOff, TheOptionSaysWhatGoesBack) {
  floor::Floor floor;
  floor::Option option;
  option.id = "panels";
  option.title = "Panels on added joists";
  option.goods = {
      goods::lumber(goods::Kind::added_joist, "2x8 joist", {2, 8, 1}, 58, 3), goods::lumber(goods::Kind::added_joist, "2x8 joist", {2, 8, 1}, 30, 2),
      goods::panels(goods::Kind::deck_panel, "tongue-and-groove plywood 23/32 in., rated 24", 23.0 / 32, "24 oc", 44), goods::connectors(6), goods::shores(2)};
  floor.options = {option};
  floor.chosen = "panels";
  const auto found = take_off(testing::small_laundry(), testing::small_cut(), floor);
  EXPECT_FALSE(find_line(found, "back.deck"));  // panels come instead of planks
  const auto list = std::find_if(found.cut_lists.begin(), found.cut_lists.end(), [](const CutList& c) { return c.item == "2x8 joist"; });
  ASSERT_NE(list, found.cut_lists.end());
  int pieces = 0;
  for (const auto& stick : list->sticks) pieces += stick.times * static_cast<int>(stick.cuts.size());
  EXPECT_EQ(pieces, 5);
  const auto* panels = find_line(found, "back.option.3");
  ASSERT_TRUE(panels);
  EXPECT_EQ(panels->unit, "sheet");
  EXPECT_EQ(panels->quantity, 2);  // the 8 x 5 ft room laid out
  EXPECT_GT(panels->unit_price, 20);
  EXPECT_GT(find_line(found, "back.option.4")->unit_price, 0);
  const auto* shores = find_line(found, "back.option.5");
  ASSERT_TRUE(shores);
  EXPECT_EQ(shores->quantity, 2);
  EXPECT_EQ(shores->unit_price, 22);
}

TEST(TakeOff, FinishFollowsTheRebuild) {
  Job job = testing::small_laundry();
  job.rebuild = Rebuild{};
  job.rebuild->finish = Finish::porcelain_tile;
  const auto tile = take_off(job, testing::small_cut(), {});
  EXPECT_NEAR(find_line(tile, "finish.tile")->quantity, 40 * 1.1, 1e-6);
  EXPECT_GE(find_line(tile, "finish.backer")->quantity, 3);
  job.rebuild->finish = Finish::sheet_vinyl;
  EXPECT_TRUE(find_line(take_off(job, testing::small_cut(), {}), "finish.sheet"));
  job.rebuild.reset();
  EXPECT_TRUE(find_line(take_off(job, testing::small_cut(), {}), "finish.sheet"));  // the layer called sheet is patched
}

TEST(TakeOff, AShowerBringsItsBed) {
  Job job = testing::small_laundry();
  job.shower = ShowerPlan{};
  job.shower->outline_in = rectangle(0, 0, 60, 36);
  job.shower->entry = Entry::flush;
  Drain drain;
  drain.at_in = Point{30, 18};
  job.shower->drain = drain;
  const auto found = take_off(job, testing::small_cut(), {}, {1.545, {}, 16, {}});
  // PAN-001's pyramid of 0.728869 in. on a bed of 3/4 in.: 1.545 ft3, 10 percent waste, half a cubic foot a bag.
  ASSERT_TRUE(find_line(found, "shower.bed"));
  EXPECT_EQ(find_line(found, "shower.bed")->quantity, 4);
  EXPECT_TRUE(find_line(found, "shower.membrane"));
  EXPECT_NEAR(find_line(found, "shower.tile")->quantity, 16 * 1.05, 1e-9);  // the layout's tiles, and some for breakage
}

TEST(TakeOff, MoreFloorIsNeverLess) {
  double before_lb = 0;
  for (int planks = 1; planks <= 8; ++planks) {
    const auto found = take_off(testing::small_laundry(), testing::small_cut(planks), {});
    EXPECT_GT(found.debris_lb, before_lb);
    before_lb = found.debris_lb;
  }
}

TEST(TakeOff, NothingOutStillAnswers) {
  const auto found = take_off(testing::small_laundry(), {}, {});
  EXPECT_EQ(found.debris_lb, 0);
  EXPECT_FALSE(find_line(found, "out.deck"));
}

}  // namespace
}  // namespace awlmark::takeoff
