// Schedules worked by hand: waits, hands, one gang in one place, holds over a weekend, holidays.
#include "work/schedule.hpp"

#include <gtest/gtest.h>

namespace awlmark::work {
namespace {

Task task(const std::string& id, const std::vector<std::string>& after, const std::string& who, int hands = 2, Place place = Place::room) {
  Task one;
  one.id = id;
  one.after = after;
  one.who = who;
  one.hands = hands;
  one.place = place;
  return one;
}

Times times(const std::vector<double>& hours, const std::vector<double>& wait_h, const std::vector<double>& wait_days) {
  Times all(hours.size());
  all.hours = hours, all.wait_h = wait_h, all.wait_days = wait_days;
  return all;
}

// Monday 2026-05-11, 8:00 to 15:00: seven hours a day. Moments are hours since that midnight.
const Calendar kWeek("2026-05-11", 7);
constexpr double kOpens = 8;

TEST(Schedule, HandsShortenATaskOnlyAsFarAsItTakesThem) {
  const std::vector<Task> tasks{task("a", {}, "crew", 2)};
  EXPECT_DOUBLE_EQ(schedule(net_of(tasks, 1), times({6}, {0}, {0}), kWeek).finish, kOpens + 6);
  EXPECT_DOUBLE_EQ(schedule(net_of(tasks, 2), times({6}, {0}, {0}), kWeek).finish, kOpens + 3);
  EXPECT_DOUBLE_EQ(schedule(net_of(tasks, 4), times({6}, {0}, {0}), kWeek).finish, kOpens + 3);
}

TEST(Schedule, OneGangInTheRoomAtATimeAndOthersElsewhereBesideIt) {
  // The plumber and the crew both want the room; the office works beside them.
  const std::vector<Task> tasks{task("crew", {}, "crew", 1), task("plumber", {}, "plumber"), task("office", {}, "office", 1, Place::off)};
  const auto plan = schedule(net_of(tasks, 1), times({3, 2, 4}, {0, 0, 0}, {0, 0, 0}), kWeek);
  EXPECT_DOUBLE_EQ(plan.ends[0], kOpens + 3);
  EXPECT_DOUBLE_EQ(plan.starts[1], kOpens + 3);
  EXPECT_DOUBLE_EQ(plan.ends[1], kOpens + 5);
  EXPECT_DOUBLE_EQ(plan.ends[2], kOpens + 4);
}

TEST(Schedule, ACrewIsInOnePlaceThoughNothingTiesItsTasks) {
  const std::vector<Task> tasks{task("a", {}, "crew", 1), task("b", {}, "crew", 1, Place::off)};
  const auto plan = schedule(net_of(tasks, 2), times({3, 3}, {0, 0}, {0, 0}), kWeek);
  EXPECT_DOUBLE_EQ(plan.starts[1], plan.ends[0]);
}

TEST(Schedule, WaitsRunDayAndNightAndWorkGoesOnElsewhere) {
  // Four hours of work, 24 hours of cure, two hours after it: noon on Monday to noon on Tuesday.
  const std::vector<Task> tasks{task("bed", {}, "setter", 1), task("tile", {"bed"}, "setter", 1), task("base", {}, "crew", 1)};
  const auto plan = schedule(net_of(tasks, 1), times({4, 2, 3}, {24, 0, 0}, {0, 0, 0}), kWeek);
  EXPECT_DOUBLE_EQ(plan.ends[0], kOpens + 4 + 24);
  EXPECT_DOUBLE_EQ(plan.ends[1], 24 + 12 + 2);
  EXPECT_DOUBLE_EQ(plan.ends[2], kOpens + 7);  // the room is free while the bed cures
}

TEST(Schedule, AHoldOverAWeekendLetsCureRunAndOfficesRest) {
  // Friday 2026-05-15 at 8:00, four hours of work; then a cure of 48 h, or an inspection two working days later.
  const Calendar friday("2026-05-15", 7);
  const std::vector<Task> tasks{task("work", {}, "crew", 1), task("next", {"work"}, "crew", 1)};
  const auto cure = schedule(net_of(tasks, 1), times({4, 1}, {48, 0}, {0, 0}), friday);
  EXPECT_DOUBLE_EQ(cure.ends[0], 12 + 48);            // Sunday noon
  EXPECT_DOUBLE_EQ(cure.starts[1], 3 * 24 + kOpens);  // Monday at eight
  const auto inspected = schedule(net_of(tasks, 1), times({4, 1}, {0, 0}, {2, 0}), friday);
  EXPECT_DOUBLE_EQ(inspected.ends[0], 4 * 24 + 12);  // Tuesday noon
  EXPECT_DOUBLE_EQ(inspected.ends[1], 4 * 24 + 13);
  EXPECT_EQ(friday.date(inspected.finish), "2026-05-19");
}

TEST(Schedule, NobodyWorksOnAHoliday) {
  // Monday 2026-05-25 is given as a holiday: nine hours from Friday end on Tuesday.
  const Calendar calendar("2026-05-22", 7, {"2026-05-25", "no date"});
  const std::vector<Task> tasks{task("a", {}, "crew", 1)};
  const auto plan = schedule(net_of(tasks, 1), times({9}, {0}, {0}), calendar);
  EXPECT_EQ(calendar.date(plan.finish), "2026-05-26");
  EXPECT_DOUBLE_EQ(plan.finish, 4 * 24 + kOpens + 2);
  EXPECT_DOUBLE_EQ(calendar.after_days(kOpens, 1), 4 * 24 + kOpens);
}

TEST(Schedule, TheLongestChainIsNamedThroughRoomAndGang) {
  const std::vector<Task> tasks{task("a", {}, "crew", 1), task("b", {}, "plumber"), task("c", {"b"}, "crew", 1)};
  const auto plan = schedule(net_of(tasks, 1), times({5, 1, 1}, {0, 0, 0}, {0, 0, 0}), kWeek);
  // b waits for the room until a is done.
  EXPECT_EQ(plan.critical, (std::vector<std::size_t>{0, 1, 2}));
  EXPECT_DOUBLE_EQ(plan.finish, kOpens + 7);
}

TEST(Schedule, ASecondCrewHelpsOnlyWhereThereIsRoomForIt) {
  // Two tasks in the room and one below it, three hours each. One crew: nine hours. Two: the one below beside
  // the first in the room, the two in the room one after the other. A third crew finds nothing to do.
  const std::vector<Task> tasks{task("above", {}, "crew", 1), task("shore", {}, "crew", 1, Place::below), task("more", {}, "crew", 1)};
  const auto all = times({3, 3, 3}, {0, 0, 0}, {0, 0, 0});
  const Calendar long_day("2026-05-11", 12);
  EXPECT_DOUBLE_EQ(schedule(net_of(tasks, 1, 1), all, long_day).finish, kOpens + 9);
  const auto two = schedule(net_of(tasks, 1, 2), all, long_day);
  EXPECT_DOUBLE_EQ(two.finish, kOpens + 6);
  EXPECT_DOUBLE_EQ(two.starts[1], kOpens);
  EXPECT_DOUBLE_EQ(two.starts[2], kOpens + 3);
  EXPECT_DOUBLE_EQ(schedule(net_of(tasks, 1, 3), all, long_day).finish, kOpens + 6);
}

TEST(Schedule, DatesHoldATaskBackAndKeepItOpen) {
  // Nothing before Wednesday; what has worked an hour stays open until Friday's midnight.
  const std::vector<Task> tasks{task("a", {}, "crew", 1), task("dry", {"a"}, "crew", 1), task("close", {"dry"}, "crew", 1)};
  auto all = times({2, 1, 1}, {0, 0, 0}, {0, 0, 0});
  all.not_before[0] = kWeek.moment_of("2026-05-13");
  all.not_done_before[1] = kWeek.moment_of("2026-05-15");
  const auto plan = schedule(net_of(tasks, 1), all, kWeek);
  EXPECT_DOUBLE_EQ(plan.starts[0], 2 * 24 + kOpens);
  EXPECT_DOUBLE_EQ(plan.worked[1], 2 * 24 + kOpens + 3);
  EXPECT_DOUBLE_EQ(plan.ends[1], 4 * 24);
  EXPECT_EQ(kWeek.date(plan.starts[2] + 1e-6), "2026-05-15");
  EXPECT_EQ(plan.critical, (std::vector<std::size_t>{0, 1, 2}));
}

TEST(Schedule, DaysToCancelRunFromTheDateSigned) {
  // Signed on Thursday the 7th: Friday, Monday and Tuesday pass; Wednesday morning it is over.
  EXPECT_DOUBLE_EQ(kWeek.after_working_days("2026-05-07", 3), 2 * 24);
  EXPECT_DOUBLE_EQ(kWeek.after_working_days("2026-04-01", 3), 0) << "long over when the job begins";
}

}  // namespace
}  // namespace awlmark::work
