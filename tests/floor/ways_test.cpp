// Ways that can be built, and how they are judged: small jobs stay small, rot never stays, sections checked
// are sections sold, both ends of what nobody knows are run.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "floor/as_found.hpp"
#include "floor/build.hpp"
#include "floor/floor.hpp"
#include "jobs.hpp"

namespace awlmark::floor {
namespace {

TEST(Ways, AHoleUnderAToiletIsPatched) {
  const auto result = floor(joists(Finish::sheet_vinyl), {}, hole(40, 60, 58, 84));  // 3 sq ft
  EXPECT_EQ(result.chosen, "patch");
  const auto* patch = find(result, "patch");
  ASSERT_TRUE(patch);
  EXPECT_EQ(patch->verdict, Verdict::passes);
  EXPECT_FALSE(patch->needs_engineer);
  EXPECT_TRUE(patch->framing.empty());
  for (const auto& good : patch->goods) EXPECT_LT(good.quantity, 5) << good.item;
  EXPECT_FALSE(find(result, "sisters"));
}

TEST(Ways, RotNeverStays) {
  for (const double depth : {2.0, 9.25}) {
    auto job = joists(Finish::sheet_vinyl);
    job.marks = {rot("j4", 10, depth)};
    const auto result = floor(job, {}, {});
    EXPECT_FALSE(result.as_found.ok);
    expect_sold(result);
    for (const auto& option : result.options) {
      if (option.verdict == Verdict::fails) continue;
      bool seen_to = false;
      for (const auto& line : option.framing) seen_to = seen_to || line.id.compare(0, 2, "j4") == 0;
      EXPECT_TRUE(seen_to) << option.id;
    }
    EXPECT_EQ(result.options.front().verdict, Verdict::passes);
  }
}

TEST(Ways, LikeForLikeRestoresDamageAlone) {
  auto job = joists(Finish::sheet_vinyl);
  job.marks = {rot("j4", 10, 9.25)};
  const auto result = floor(job, {}, {});
  const auto* kind = find(result, "like_for_like");
  ASSERT_TRUE(kind);
  ASSERT_EQ(lines(*kind, "new_member").size(), 1u);
  EXPECT_EQ(kind->framing.front().size, "2x10");
}

TEST(Ways, ACutJoistGetsItsHeader) {
  auto job = joists(Finish::sheet_vinyl);
  job.supports[3].to_in.y_in = 90;
  job.supports[3].rests_at_in = {0};
  const auto result = floor(job, {}, {});
  EXPECT_FALSE(result.as_found.ok);
  EXPECT_FALSE(result.as_found.today.work);
  const auto* headers = find(result, "headers");
  ASSERT_TRUE(headers);
  ASSERT_EQ(lines(*headers, "header").size(), 1u);
  EXPECT_NEAR(distance_in(lines(*headers, "header")[0].from_in, lines(*headers, "header")[0].to_in), 32 - 1.5, 1e-6);  // between real faces
  EXPECT_NEAR(headers->balance.applied_lb, headers->balance.carried_lb, 0.01 * headers->balance.applied_lb);
  EXPECT_NE(headers->verdict, Verdict::fails);
  // As found, what hangs free reaches nothing.
  EXPECT_GT(result.as_found.balance.applied_lb, result.as_found.balance.carried_lb * 1.02);
}

TEST(Ways, ADroppedBayHasJoistsOfItsOwn) {
  for (const double edge : {0.0, -6.0}) {  // an edge on a girder's line counts as a clear bay
    auto job = girders(Finish::porcelain_tile);
    ShowerPlan shower;
    shower.outline_in = rectangle(edge, 20, 42, 80);
    shower.entry = Entry::flush;
    job.shower = shower;
    const auto result = floor(job, {}, {});
    expect_sold(result);
    const auto* bay = find(result, "dropped_bay");
    ASSERT_TRUE(bay) << edge;
    const auto joist = lines(*bay, "bay_joist");
    ASSERT_GE(joist.size(), 4u);
    EXPECT_NEAR(distance_in(joist[0].from_in, joist[0].to_in), 48 - 3.5, 1e-6);
    for (std::size_t i = 1; i < joist.size(); ++i) EXPECT_LE(std::fabs(joist[i].from_in.y_in - joist[i - 1].from_in.y_in), 16.01);
    bool point = false;
    for (const auto& check : bay->checks)
      if (check.id == "bay.deck.point_deflection") point = check.ok;
    EXPECT_TRUE(point);
    EXPECT_NEAR(bay->balance.applied_lb, bay->balance.carried_lb, 0.01 * bay->balance.applied_lb);
    EXPECT_TRUE(std::any_of(bay->takes_out.begin(), bay->takes_out.end(), [](const TakeOut& part) { return part.layer == "deck"; }));
    for (const auto& line : bay->framing) EXPECT_FALSE(line.ripped_to_in);
  }
  // A girder through the shower is never ripped.
  auto job = girders(Finish::porcelain_tile);
  ShowerPlan shower;
  shower.outline_in = rectangle(20, 20, 62, 80);
  shower.entry = Entry::flush;
  job.shower = shower;
  const auto result = floor(job, {}, {});
  EXPECT_FALSE(find(result, "dropped_bay"));
  bool said = false;
  for (const auto& caution : result.cautions) said = said || caution.find("girder g2 runs under it") != std::string::npos;
  EXPECT_TRUE(said);
}

// Joists through the shower are cut at its edges, headed off, and hung lower between the headers.
TEST(Ways, JoistsThroughAFlushShowerAreHeadedOff) {
  auto job = joists(Finish::porcelain_tile);
  ShowerPlan shower;
  shower.outline_in = rectangle(25, 48, 71, 96);
  shower.entry = Entry::flush;
  job.shower = shower;
  const auto result = floor(job, {}, {});
  expect_sold(result);
  const auto* bay = find(result, "dropped_bay");
  ASSERT_TRUE(bay);
  EXPECT_EQ(bay->verdict, Verdict::passes);
  EXPECT_EQ(result.chosen, "dropped_bay");
  const auto headers = lines(*bay, "header"), joist = lines(*bay, "bay_joist");
  ASSERT_EQ(headers.size(), 2u);
  // From face to face of the joists that run past it at 24 and 72.
  for (const auto& header : headers) EXPECT_NEAR(distance_in(header.from_in, header.to_in), 48 - 1.5, 1e-6);
  ASSERT_GE(joist.size(), 4u);
  for (const auto& one : joist) {
    EXPECT_NEAR(distance_in(one.from_in, one.to_in), 48, 1e-6);
    EXPECT_GT(one.top_drop_in, 0.5);
    EXPECT_LE(one.top_drop_in + one.d_in, 9.25 + 1e-9);  // it hangs on the header's face
  }
  EXPECT_FALSE(lines(*bay, "trimmer").empty() && lines(*bay, "sister").empty());
  EXPECT_NEAR(bay->balance.applied_lb, bay->balance.carried_lb, 0.01 * bay->balance.applied_lb);
  for (const auto& line : bay->framing) EXPECT_FALSE(line.ripped_to_in);
}

TEST(Ways, PanelsOnAddedJoistsLoadTheOldGirders) {
  const auto result = floor(girders(Finish::sheet_vinyl), {}, {});
  const auto* panels = find(result, "panels_on_added_joists");
  ASSERT_TRUE(panels);
  expect_sold(result);
  EXPECT_NEAR(panels->balance.applied_lb, panels->balance.carried_lb, 0.01 * panels->balance.applied_lb);
  // The deck outside the room and the hung joists both reach the girders: nothing like self-weight alone.
  EXPECT_GT(panels->balance.carried_lb, 0.9 * result.as_found.balance.carried_lb);
}

TEST(Ways, AWallOnPlanksIsSeenAndHeld) {
  auto job = girders(Finish::sheet_vinyl);
  Wall wall;
  wall.id = "w";
  wall.from_in = {0, 50};
  wall.to_in = {132, 50};
  wall.bearing = true;
  wall.dead_plf = 400;
  wall.live_plf = 300;
  job.walls = {wall};
  const auto result = floor(job, {}, {});
  const Check* found = nullptr;
  for (const auto& check : result.as_found.checks)
    if (check.id == "deck.wall.w") found = &check;
  ASSERT_TRUE(found);
  EXPECT_FALSE(found->ok);
  // By hand: two tongued planks share w L2 / 8 of the wall, each its own floor.
  const double wall_pli = (400 + 300 + 64) / 12.0, own_pli = (result.as_found.dead_psf + 40) / 144 * 5.25;
  EXPECT_NEAR(found->demand, (wall_pli / 2 + own_pli) * 48 * 48 / 8, 1);
  const auto* held = find(result, "sisters");
  ASSERT_TRUE(held);
  EXPECT_FALSE(lines(*held, "added_joist").empty());
  EXPECT_NEAR(held->balance.applied_lb, held->balance.carried_lb, 0.01 * held->balance.applied_lb);
  expect_sold(result);
  const auto* kind = find(result, "like_for_like");
  ASSERT_TRUE(kind);
  EXPECT_EQ(kind->verdict, Verdict::fails);
}

TEST(Ways, AnUnknownWallIsAskedAboutAndBuysNothing) {
  auto job = joists(Finish::sheet_vinyl);
  Wall wall;
  wall.id = "w";
  wall.from_in = {0, 60};
  wall.to_in = {128, 60};
  wall.bearing = true;
  job.walls = {wall};
  const auto result = floor(job, {}, {});
  bool low = false, high = false;
  for (const auto& check : result.as_found.checks) {
    low = low || check.case_.value_or("") == "low";
    high = high || check.case_.value_or("") == "high";
  }
  EXPECT_TRUE(low && high);
  const auto& first = result.options.front();
  EXPECT_EQ(first.verdict, Verdict::ask);
  EXPECT_FALSE(first.asks.empty());
  for (const auto& line : first.framing) EXPECT_EQ(line.kind, "blocking") << line.id;
  // What stands directly below takes it away.
  job.walls[0].below = UnderWall::wall;
  const auto held = floor(job, {}, {});
  for (const auto& check : held.as_found.checks) EXPECT_FALSE(check.case_) << check.id;
  EXPECT_EQ(held.options.front().verdict, Verdict::passes);
}

TEST(Ways, OldSoundWoodStands) {
  // 2x8s over 13 ft: past span tables, under 1.5 times the allowed stress.
  auto job = joists(Finish::sheet_vinyl);
  for (auto& support : job.supports) support.size = section_of("2x8"), support.to_in.y_in = 156, support.rests_at_in = {0, 156};
  const auto result = floor(job, {}, {});
  EXPECT_TRUE(result.as_found.ok);
  bool stands = false;
  for (const auto& check : result.as_found.checks) stands = stands || check.state == CheckState::stands;
  EXPECT_TRUE(stands);
  StateSettings today;
  today.existing_building_rule = ExistingBuildingRule::today;
  job.settings = today;
  EXPECT_FALSE(floor(job, {}, {}).as_found.ok);
}

TEST(Ways, TileOnPlanksLiesOnUnderlayment) {
  const auto result = floor(girders(Finish::porcelain_tile), {}, {});
  for (const auto& option : result.options) {
    if (option.id.compare(0, 5, "thick") == 0 || option.id.compare(0, 6, "panels") == 0) continue;
    bool under = false;
    for (const auto& good : option.goods) under = under || (good.kind == goods::Kind::overlay && good.grade == "underlayment");
    EXPECT_TRUE(under) << option.id;
  }
}

TEST(Ways, AnUnreadMemberUnderGoneDeckIsAHold) {
  auto job = joists(Finish::sheet_vinyl);
  Mark gone;
  gone.id = "m1";
  gone.layer = "deck";
  gone.at_in = Point{56, 70};
  gone.tool = Tool::awl;
  gone.reads = Reading::gone;
  job.marks = {gone};
  const auto result = floor(job, {}, hole(48, 60, 64, 84));
  ASSERT_EQ(result.holds.size(), 1u);
  EXPECT_NE(result.holds[0].find("j4"), std::string::npos);
  EXPECT_TRUE(result.options.front().ok);
}

TEST(Ways, ASisterBearsOnlyWhereThePostIsWideEnough) {
  auto job = girders(Finish::sheet_vinyl);
  job.marks = {rot("g2", 84, 9.25)};
  auto narrow = build_model(job, {}, {});
  auto& member = narrow.members[1];
  member.sister = mechanics::rectangle(1.5, 9.25);
  ASSERT_TRUE(member.rests[1].cap_in);
  EXPECT_NEAR(*member.rests[1].cap_in, 3.5, 1e-9);
  const auto bearing = [](const Model& model) {
    for (const auto& check : check_model(model, Case::known).checks.checks)
      if (check.id == "g2.bearing") return check;
    return Check{};
  };
  EXPECT_FALSE(bearing(narrow).ok);
  member.rests[1].cap_in = 6.5;
  EXPECT_TRUE(bearing(narrow).ok);
}

}  // namespace
}  // namespace awlmark::floor
