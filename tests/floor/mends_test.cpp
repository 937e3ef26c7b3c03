// What each way does about notches, sills, soil, pipes and the open floor.
#include <gtest/gtest.h>

#include "floor/floor.hpp"
#include "jobs.hpp"

namespace awlmark::floor {
namespace {

// Old wood counts for nothing at a notch that the code forbids; the sister takes all of it there.
TEST(Mends, ASisterBypassesANotch) {
  auto job = joists(Finish::sheet_vinyl);
  MemberCut cut;
  cut.along_in = 70;
  cut.notch_depth_in = 4;
  cut.notch_length_in = 4;
  job.supports[3].cuts = {cut};
  const auto result = floor(job, {}, {});
  EXPECT_FALSE(result.as_found.ok);
  const auto* sisters = find(result, "sisters");
  ASSERT_TRUE(sisters);
  EXPECT_EQ(sisters->verdict, Verdict::passes);
  for (const auto& check : sisters->checks) EXPECT_EQ(check.id.find("notch"), std::string::npos) << check.id;
}

TEST(Mends, ARottenMudsillIsMadeNewInEveryWay) {
  auto job = joists(Finish::sheet_vinyl);
  Wall wall;
  wall.id = "back";
  wall.from_in = {0, 144};
  wall.to_in = {128, 144};
  wall.outside = true;
  job.walls = {wall};
  Mark mark;
  mark.id = "m1";
  mark.wall = "back";
  mark.along_in = 60;
  mark.part = WallPart::plate;
  mark.reads = Reading::gone;
  job.marks = {mark};
  // Plate rotten, nobody looked below it: a hold, no failure.
  const auto unread = floor(job, {}, hole(40, 60, 58, 84));
  ASSERT_EQ(unread.holds.size(), 1u);
  EXPECT_NE(unread.holds[0].find("mudsill"), std::string::npos);
  EXPECT_TRUE(unread.options.front().ok);
  mark.id = "m2";
  mark.part = WallPart::mudsill;
  job.marks.push_back(mark);
  const auto result = floor(job, {}, hole(40, 60, 58, 84));
  EXPECT_TRUE(result.holds.empty());
  EXPECT_FALSE(result.as_found.ok);
  ASSERT_GE(result.while_open.shores.size(), 2u);
  for (const auto& option : result.options) {
    const auto made = lines(option, "new_member");
    ASSERT_FALSE(made.empty()) << option.id;
    EXPECT_EQ(made.back().id, "back.mudsill");
    EXPECT_NEAR(distance_in(made.back().from_in, made.back().to_in), 24 + 2 * 6, 1e-6);  // 12 in. either way, and 6 into sound wood
    bool treated = false;
    for (const auto& good : option.goods) treated = treated || (good.item.find("mudsill") != std::string::npos && good.treatment == goods::Treatment::treated);
    EXPECT_TRUE(treated) << option.id;
  }
}

// Cut through at mid-span, or with the header's rot under a tail: shores hold all that lies there.
TEST(Mends, WhileOpenEveryPoundHasAPath) {
  auto job = joists(Finish::sheet_vinyl);
  job.marks = {rot("j4", 72, 9.25), rot("j6", 12, 9.25)};
  const auto result = floor(job, {}, {});
  const auto& balance = result.while_open.balance;
  EXPECT_GT(balance.applied_lb, 1000);
  EXPECT_NEAR(balance.applied_lb, balance.carried_lb, 0.01 * balance.applied_lb);
}

// IRC R317.1: new joists closer than 18 in. to the soil; incised wood carries four fifths (NDS Table 4.3.8).
TEST(Mends, NewWoodNearTheSoilIsTreatedAndWeaker) {
  double ratio[2] = {0, 0};
  for (const int near : {0, 1}) {
    auto job = joists(Finish::sheet_vinyl);
    job.job.headroom_in = near ? 12 : 36;
    job.marks = {rot("j4", 72, 9.25)};
    const auto result = floor(job, {}, {});
    const auto* way = find(result, "like_for_like");
    ASSERT_TRUE(way);
    for (const auto& good : way->goods)
      if (good.kind == goods::Kind::joist) {
        EXPECT_EQ(good.treatment == goods::Treatment::treated, near == 1) << good.item;
      }
    for (const auto& check : way->checks)
      if (check.id == "j4.bending") ratio[near] = check.ratio;
  }
  EXPECT_NEAR(ratio[1], ratio[0] / 0.8, 1e-6);
}

TEST(Mends, ASisterGoesToTheFreeSide) {
  for (const double x : {53.5, 58.5}) {  // a drain beside j4 at 56, left or right of it
    auto job = joists(Finish::sheet_vinyl);
    job.marks = {rot("j4", 72, 9.25)};
    Obstacle drain;
    drain.id = "waste";
    drain.kind = ObstacleKind::drain;
    drain.from_in = {x, 0};
    drain.to_in = {x, 144};
    drain.diameter_in = 3.5;
    drain.can_move = false;
    job.in_bays = {drain};
    const auto result = floor(job, {}, {});
    const auto* way = find(result, "sisters");
    ASSERT_TRUE(way);
    ASSERT_EQ(lines(*way, "sister").size(), 1u);
    EXPECT_NE(lines(*way, "sister")[0].note.find(x < 56 ? "right side" : "left side"), std::string::npos) << lines(*way, "sister")[0].note;
    EXPECT_TRUE(way->ok);
    // Pipes on both sides that stay: this way cannot be built.
    drain.id = "vent";
    drain.from_in.x_in = drain.to_in.x_in = 112 - x;
    job.in_bays.push_back(drain);
    const auto blocked = floor(job, {}, {});
    EXPECT_FALSE(find(blocked, "sisters")->ok);
  }
}

}  // namespace
}  // namespace awlmark::floor
