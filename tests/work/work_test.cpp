#include "work/work.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "support/small_site.hpp"

namespace awlmark::work {
namespace {

Work plan_of(const Job& job, const floor::Floor& floor = {}, int planks = 3) {
  const cutback::Result cut{testing::small_cut(planks), {}};
  return work(job, hazards::hazards(job), cut, floor, takeoff::take_off(job, cut.findings, floor)).findings;
}

// Large enough for the whole order of the trade.
Job with_finish(Job job) {
  job.rebuild = Rebuild{};
  job.rebuild->finish = awlmark::Finish::sheet_vinyl;
  return job;
}

std::size_t place(const Work& plan, const std::string& id) {
  for (std::size_t i = 0; i < plan.tasks.size(); ++i)
    if (plan.tasks[i].id == id) return i;
  return plan.tasks.size();
}
bool has(const Work& plan, const std::string& id) { return place(plan, id) < plan.tasks.size(); }

TEST(Work, TasksStandInTheTradesOrder) {
  const auto plan = plan_of(with_finish(testing::small_laundry()));
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
  const auto small = plan_of(testing::small_laundry(), {}, 4), large = plan_of(testing::small_laundry(), {}, 8);
  EXPECT_NEAR(large.tasks[place(large, "strip.deck")].hours.likely, 2 * small.tasks[place(small, "strip.deck")].hours.likely, 1e-9);
  // Practice notes: plank decking 0.5 - 0.9 - 1.8 h for 10 sf.
  EXPECT_NEAR(small.tasks[place(small, "strip.deck")].hours.likely, 4 * 5.5 * 32 / 144 * 0.09, 1e-9);
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
  EXPECT_GE(old.tasks[place(old, "lab_sample")].wait_days.likely, 3);
  EXPECT_EQ(old.tasks[place(old, "asbestos_removal")].only_if, "laboratory.sheet.positive");
  // The licensed remover takes the sheet; the crew is not paid for it as well.
  EXPECT_FALSE(has(old, "strip.sheet"));
  EXPECT_TRUE(has(old, "strip.deck"));
  EXPECT_TRUE(has(old, "asbestos_removal"));
  // Each gate on what it guards: the sample itself is never kept back by it.
  const auto hangs = [&](const std::string& task, const std::string& gate) {
    const auto& gates = old.tasks[place(old, task)].gates;
    return std::count(gates.begin(), gates.end(), gate) > 0;
  };
  EXPECT_TRUE(old.tasks[place(old, "lab_sample")].gates.empty());
  EXPECT_TRUE(hangs("strip.deck", "asbestos_no_piercing"));
  EXPECT_TRUE(hangs("strip.deck", "asbestos_removal"));
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
  ASSERT_FALSE(plan.tasks[place(plan, "rebuild_frame")].grows.empty());
  EXPECT_EQ(plan.tasks[place(plan, "rebuild_frame")].grows.front().with.with, goods::Extent::members);
  EXPECT_EQ(plan.tasks[place(plan, "rebuild_deck")].grows.front().with.layer, "deck");
}

// Three or four square feet with nothing else: a crew day or two, and drying.
TEST(Work, SmallJobsStaySmall) {
  const auto plan = plan_of(testing::small_laundry());
  EXPECT_LE(plan.crew_days, 2);
  EXPECT_LE(plan.total_hours.likely, 24);
  EXPECT_FALSE(has(plan, "permit"));
  EXPECT_TRUE(has(plan, "walk_small"));
}

TEST(Work, OnlyWhatStandsOnTheCutIsLifted) {
  Job job = testing::small_laundry();
  Fixture tub;
  tub.id = "tub";
  tub.kind = FixtureKind::tub;
  tub.outline_in = rectangle(60, 0, 96, 60);  // the cut ends at 48 in.
  job.fixtures = {tub};
  EXPECT_FALSE(has(plan_of(job), "lift_fixtures"));
  job.fixtures[0].outline_in = rectangle(30, 0, 60, 60);
  EXPECT_TRUE(has(plan_of(job), "lift_fixtures"));
  // What stands aside already goes back all the same.
  job.fixtures[0].outline_in = rectangle(60, 0, 96, 60);
  job.fixtures[0].kind = FixtureKind::toilet;
  job.fixtures[0].stands = false;
  EXPECT_FALSE(has(plan_of(job), "lift_fixtures"));
  EXPECT_TRUE(has(plan_of(job), "reset_fixtures"));
  job.fixtures[0].reset = false;
  EXPECT_FALSE(has(plan_of(job), "reset_fixtures"));
}

TEST(Work, TheCalendarFileHasOneEventATaskAndFoldsItsLines) {
  const Job job = testing::small_laundry();
  const auto plan = plan_of(job);
  const auto text = calendar_file(job, plan);
  EXPECT_EQ(text.rfind("BEGIN:VCALENDAR\r\n", 0), 0u);
  std::size_t events = 0, start = 0;
  for (std::size_t at = text.find("BEGIN:VEVENT"); at != std::string::npos; at = text.find("BEGIN:VEVENT", at + 1)) ++events;
  std::size_t dated = 0;
  for (const auto& task : plan.tasks) dated += !task.starts.empty();
  EXPECT_EQ(events, dated);
  for (std::size_t end = text.find("\r\n"); end != std::string::npos; end = text.find("\r\n", start)) {
    EXPECT_LE(end - start, 75u);
    start = end + 2;
  }
  EXPECT_EQ(start, text.size());
  Job undated = job;
  undated.work->start.reset();
  EXPECT_EQ(calendar_file(undated, plan_of(undated)), "");
}

TEST(Work, FinishDatesAreWorkingTimeAndOrdered) {
  const auto plan = plan_of(with_finish(testing::small_laundry()));
  EXPECT_GE(plan.finish.p90_days, plan.finish.p80_days);
  EXPECT_FALSE(plan.drivers.empty());
  EXPECT_GE(plan.finish.p80_days, plan.finish.p50_days);
  EXPECT_GT(plan.finish.p50, "2026-05-11");
  EXPECT_LE(plan.finish.p50, plan.finish.p80);
  EXPECT_LE(plan.total_hours.low, plan.total_hours.likely);
  EXPECT_LE(plan.total_hours.likely, plan.total_hours.high);
  ASSERT_FALSE(plan.critical.empty());
  EXPECT_EQ(plan.critical.back(), "walk_through");
  Job bigger_crew = with_finish(testing::small_laundry());
  bigger_crew.work->crew = 4;
  EXPECT_LE(plan_of(bigger_crew).finish.p50_days, plan.finish.p50_days);
  Job undated = testing::small_laundry();
  undated.work->start.reset();
  EXPECT_EQ(plan_of(undated).finish.p50, "");
  EXPECT_GT(plan_of(undated).finish.p50_days, 1);
}

TEST(Work, SiteWorkWaitsForTheDaysToCancelAndTheAdjuster) {
  Job job = testing::small_laundry();
  job.work = WorkPlan{};
  job.work->start = "2026-05-11";
  const auto usual = plan_of(job);
  ASSERT_TRUE(has(usual, "cancellation"));
  EXPECT_GE(usual.tasks[place(usual, "protect_small")].starts, "2026-05-14") << "Monday, Tuesday and Wednesday pass";
  job.settings = StateSettings{};
  job.settings->cancellation_days = 0;
  const auto none = plan_of(job);
  EXPECT_FALSE(has(none, "cancellation"));
  EXPECT_EQ(none.tasks[place(none, "protect_small")].starts, "2026-05-11");
  job.claim = Claim{};
  job.claim->adjuster_visit = "2026-05-20";
  const auto seen = plan_of(job);
  EXPECT_GE(seen.tasks[place(seen, "strip.deck")].starts, "2026-05-21") << "nothing comes out before the adjuster has looked";
  EXPECT_EQ(seen.tasks[place(seen, "protect_small")].starts, "2026-05-11");
  job.claim->denied = true;
  EXPECT_FALSE(has(plan_of(job), "adjuster"));
}

TEST(Work, APermitAppliedForWaitsFromItsDate) {
  Job job = testing::small_laundry();
  job.settings = StateSettings{};
  job.settings->cancellation_days = 0;
  job.settings->permit_required = true;
  job.work = WorkPlan{};
  job.work->start = "2026-05-11";
  const auto now = plan_of(job);
  job.work->permit = Permit{};
  job.work->permit->applied = "2026-05-01";
  const auto earlier = plan_of(job);
  ASSERT_TRUE(has(now, "permit"));
  EXPECT_LT(earlier.finish.p50_days, now.finish.p50_days - 3);
  EXPECT_EQ(earlier.tasks[place(earlier, "permit")].asked_on, "2026-05-01");
}

TEST(Work, DryingClosesOnTheDatesOfItsForecast) {
  Job job = testing::small_laundry();
  job.settings = StateSettings{};
  job.settings->cancellation_days = 0;
  job.work = WorkPlan{};
  job.work->start = "2026-05-11";
  const auto dated = [&](const char* p50, const char* p90) {
    Options options;
    options.drying = DryingWord{false, std::string(p50), std::string(p90), "2026-05-10", ""};
    const cutback::Result cut{testing::small_cut(3), {}};
    return work(job, hazards::hazards(job), cut, {}, takeoff::take_off(job, cut.findings, {}), options).findings;
  };
  const auto soon = dated("2026-05-20", "2026-05-21"), late = dated("2026-06-10", "2026-06-20");
  ASSERT_TRUE(has(soon, "dry_out"));
  EXPECT_GE(soon.tasks[place(soon, "lay_deck")].starts, "2026-05-20");
  EXPECT_GE(late.tasks[place(late, "lay_deck")].starts, "2026-06-10");
  EXPECT_GT(late.finish.p90_days - late.finish.p50_days, soon.finish.p90_days - soon.finish.p50_days + 3) << "a wide forecast makes a wide date";
  job.work->start.reset();
  const auto undated = dated("2026-06-10", "2026-06-20");
  EXPECT_GT(undated.tasks[place(undated, "dry_out")].wait_hours.high, 100) << "without a first day the table's wait stands";
  Options released;
  released.drying = DryingWord{true, {}, {}, "2026-05-10", ""};
  const cutback::Result cut{testing::small_cut(3), {}};
  EXPECT_FALSE(has(work(job, hazards::hazards(job), cut, {}, takeoff::take_off(job, cut.findings, {}), released).findings, "dry_out"));
}

TEST(Work, OfWoodThatComesOutNoDayOfDryingIsWaitedFor) {
  const Job job = testing::small_laundry();
  const auto cut = testing::small_cut(3);
  ASSERT_TRUE(cut.outlines_in.count("deck"));
  const auto ring = cut.outlines_in.at("deck").front();
  const Box box = bounds(ring);
  drying::Drying dry;
  drying::DryingLayer out, stays;
  out.layer = stays.layer = "deck";
  out.at_in = Point{(box.x0_in + box.x1_in) / 2, (box.y0_in + box.y1_in) / 2};
  stays.at_in = Point{box.x1_in + 12, box.y1_in + 12};
  out.close_p50 = out.close_p90 = "2026-09-01";
  stays.close_p50 = "2026-05-20";
  dry.layers = {out, stays};
  const auto word = drying_word(job, cut, dry);
  EXPECT_EQ(word.p50, "2026-05-20");
  EXPECT_FALSE(word.p90) << "the place that stays has no 9 in 10";
  EXPECT_FALSE(word.released);
}

}  // namespace
}  // namespace awlmark::work
