#include "work/work.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "support/small_site.hpp"

namespace awlmark::work {
namespace {

Work plan_of(const Job& job, const floor::Floor& floor = {}, int planks = 3) {
  const auto cut = testing::small_cut(planks);
  return work(job, hazards::hazards(job), cut, floor, takeoff::take_off(job, cut, floor));
}

std::size_t place(const Work& plan, const std::string& id) {
  for (std::size_t i = 0; i < plan.tasks.size(); ++i)
    if (plan.tasks[i].id == id) return i;
  return plan.tasks.size();
}
bool has(const Work& plan, const std::string& id) { return place(plan, id) < plan.tasks.size(); }

TEST(Work, TasksStandInTheTradesOrder) {
  const auto plan = plan_of(testing::small_laundry());
  std::set<std::string> seen;
  for (const auto& task : plan.tasks) {
    for (const auto& id : task.after) EXPECT_TRUE(seen.count(id)) << task.id << " after " << id;
    EXPECT_TRUE(seen.insert(task.id).second) << task.id;
    EXPECT_LE(task.hours.low, task.hours.likely);
    EXPECT_LE(task.hours.likely, task.hours.high);
    EXPECT_FALSE(task.reason.source.empty());
  }
  EXPECT_LT(place(plan, "shut_off"), place(plan, "strip.sheet"));
  EXPECT_LT(place(plan, "strip.sheet"), place(plan, "strip.deck"));
  EXPECT_LT(place(plan, "strip.deck"), place(plan, "map_damage"));
  EXPECT_LT(place(plan, "map_damage"), place(plan, "lay_deck"));
  const auto& deck = plan.tasks[place(plan, "strip.deck")];
  EXPECT_TRUE(std::count(deck.after.begin(), deck.after.end(), "strip.sheet"));
}

TEST(Work, HoursFollowTheQuantities) {
  const auto small = plan_of(testing::small_laundry(), {}, 2), large = plan_of(testing::small_laundry(), {}, 8);
  EXPECT_NEAR(large.tasks[place(large, "strip.deck")].hours.likely, 4 * small.tasks[place(small, "strip.deck")].hours.likely, 1e-9);
  // Practice notes: plank decking 0.5 - 0.9 - 1.8 h for 10 sf.
  EXPECT_NEAR(small.tasks[place(small, "strip.deck")].hours.likely, 2 * 5.5 * 32 / 144 * 0.09, 1e-9);
  EXPECT_GT(large.total_hours.likely, small.total_hours.likely);
}

TEST(Work, GatesBecomeTasksAndHolds) {
  Job job = testing::small_laundry();
  EXPECT_FALSE(has(plan_of(job), "lab_sample"));
  job.layers[0].installed_year = 1971;
  job.job.year_built = 1954;
  const auto old = plan_of(job);
  ASSERT_TRUE(has(old, "lab_sample"));
  EXPECT_FALSE(old.tasks[place(old, "lab_sample")].hold.empty());
  EXPECT_GT(old.tasks[place(old, "lab_sample")].wait_hours.likely, 24);
  EXPECT_TRUE(has(old, "asbestos_removal"));
  const auto& touching = old.tasks.front().gates;
  EXPECT_TRUE(std::count(touching.begin(), touching.end(), "asbestos_no_piercing"));
  EXPECT_GT(old.finish.p50_days, plan_of(testing::small_laundry()).finish.p50_days);
}

TEST(Work, DryFloorsNeedNoFans) {
  Job job = testing::small_laundry();
  EXPECT_TRUE(has(plan_of(job), "dry_out"));
  job.marks[0].mc_percent = 12;
  EXPECT_FALSE(has(plan_of(job), "dry_out"));
  job.marks.clear();
  EXPECT_TRUE(has(plan_of(job), "dry_out"));  // not known to be dry
}

TEST(Work, AShowerBringsItsTradesTestAndInspections) {
  Job job = testing::small_laundry();
  job.shower = ShowerPlan{};
  job.shower->outline_in = rectangle(0, 0, 36, 60);
  const auto plan = plan_of(job);
  for (const char* id : {"rough_plumbing", "rough_inspection", "pan", "membrane", "flood_test", "final_inspection"}) EXPECT_TRUE(has(plan, id)) << id;
  EXPECT_LT(place(plan, "rough_inspection"), place(plan, "lay_deck"));
  EXPECT_LT(place(plan, "flood_test"), place(plan, "shower_tile"));
}

TEST(Work, OptionHoursReplaceThePieces) {
  floor::Floor floor;
  floor::Option option;
  option.id = "like_for_like";
  option.title = "Like for like";
  option.hours = {6, 10, 18};
  option.labour = {{"take_up_plank", floor::Part::take_up, 20, "sf", {1, 2, 4}, {}},
                   {"sister", floor::Part::framing, 2, "each", {2, 4, 7}, {goods::Extent::members, {}}},
                   {"lay_plank", floor::Part::deck, 20, "sf", {3, 4, 7}, {goods::Extent::layer_sf, "deck"}}};
  floor.options = {option};
  floor.chosen = option.id;
  const auto plan = plan_of(testing::small_laundry(), floor);
  EXPECT_FALSE(has(plan, "lay_deck"));
  ASSERT_TRUE(has(plan, "rebuild_frame") && has(plan, "rebuild_deck"));
  // Framing and deck each by their own hours; taking up is a task of its own.
  EXPECT_NEAR(plan.tasks[place(plan, "rebuild_frame")].hours.likely, 4, 1e-9);
  EXPECT_NEAR(plan.tasks[place(plan, "rebuild_deck")].hours.likely, 4, 1e-9);
  EXPECT_EQ(plan.tasks[place(plan, "rebuild_frame")].grows.with, goods::Extent::members);
  EXPECT_EQ(plan.tasks[place(plan, "rebuild_deck")].grows.layer, "deck");
}

TEST(Work, FinishDatesAreWorkingTimeAndOrdered) {
  const auto plan = plan_of(testing::small_laundry());
  EXPECT_GE(plan.finish.p80_days, plan.finish.p50_days);
  EXPECT_GT(plan.finish.p50, "2026-05-11");
  EXPECT_LE(plan.finish.p50, plan.finish.p80);
  EXPECT_LE(plan.total_hours.low, plan.total_hours.likely);
  EXPECT_LE(plan.total_hours.likely, plan.total_hours.high);
  ASSERT_FALSE(plan.critical.empty());
  EXPECT_EQ(plan.critical.back(), "walk_through");
  Job bigger_crew = testing::small_laundry();
  bigger_crew.work->crew = 4;
  EXPECT_LE(plan_of(bigger_crew).finish.p50_days, plan.finish.p50_days);
  Job undated = testing::small_laundry();
  undated.work->start.reset();
  EXPECT_EQ(plan_of(undated).finish.p50, "");
  EXPECT_GT(plan_of(undated).finish.p50_days, 1);
}

}  // namespace
}  // namespace awlmark::work
