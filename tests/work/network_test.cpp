#include "work/network.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "support/outside.hpp"
#include "support/property.hpp"
#include "work/calendar.hpp"

namespace awlmark::work {
namespace {

// tests/outside/shower_and_work.json critical_path: textbook networks, checked there by listing all paths.
TEST(Network, PublishedNetworks) {
  const auto file = testing::outside_file("shower_and_work.json");
  int tried = 0;
  for (const auto& one : file.at("critical_path")) {
    const auto &in = one.at("inputs"), &out = one.at("expected");
    if (!in.contains("activities")) continue;
    SCOPED_TRACE(one.at("id").get<std::string>());
    std::vector<NetworkTask> tasks;
    for (const auto& [id, task] : in.at("activities").items()) {
      NetworkTask made{id, task.at("duration"), {}};
      for (const auto& pred : task.at("preds")) {
        if (pred.is_string())
          made.after.push_back({pred, 0});
        else
          made.after.push_back({pred.at("after"), pred.at("lag")});
      }
      tasks.push_back(made);
    }
    const auto times = network(tasks);
    ASSERT_TRUE(times) << describe(times.problems.front());
    if (out.contains("project_duration")) {
      EXPECT_NEAR(times.value->duration, out.at("project_duration"), 1e-9);
    }
    for (const auto& t : times.value->tasks) {
      const auto near = [&](const char* key, double value) {
        if (out.contains(key) && out.at(key).contains(t.id)) {
          EXPECT_NEAR(value, out.at(key).at(t.id), 1e-9) << key << " of " << t.id;
        }
      };
      near("ES", t.early_start);
      near("EF", t.early_finish);
      near("LS", t.late_start);
      near("LF", t.late_finish);
      near("total_float", t.total_float);
      near("free_float", t.free_float);
    }
    if (out.contains("critical")) {
      auto mine = times.value->critical;
      auto theirs = out.at("critical").get<std::vector<std::string>>();
      std::sort(mine.begin(), mine.end());
      std::sort(theirs.begin(), theirs.end());
      EXPECT_EQ(mine, theirs);
    }
    ++tried;
  }
  EXPECT_GE(tried, 4);
}

TEST(Network, NamesCirclesUnknownAndDoubledTasks) {
  EXPECT_FALSE(network({{"a", 1, {{"b", 0}}}, {"b", 1, {{"a", 0}}}}));
  EXPECT_NE(network({{"a", 1, {{"b", 0}}}, {"b", 1, {{"a", 0}}}}).problems[0].what.find("waits for itself"), std::string::npos);
  EXPECT_FALSE(network({{"demolition", 1, {}}, {"dry", 1, {{"demolitoin", 0}}}}));
  EXPECT_NE(network({{"demolition", 1, {}}, {"dry", 1, {{"demolitoin", 0}}}}).problems[0].mend.find("demolition"), std::string::npos);
  EXPECT_FALSE(network({{"a", 1, {}}, {"a", 2, {}}}));
  EXPECT_FALSE(network({{"a", -1, {}}}));
  EXPECT_TRUE(network({}));
}

// Random networks: the length equals the longest path found by walking all of them; lengthening a
// critical task lengthens the whole; floats are never negative.
TEST(Network, PropertiesOnRandomNetworks) {
  testing::for_each_seed(80, [](Random& random) {
    std::vector<NetworkTask> tasks;
    const auto count = 2 + random.below(8);
    for (std::uint64_t i = 0; i < count; ++i) {
      NetworkTask task{"t" + std::to_string(i), std::floor(testing::between(random, 0, 9)), {}};
      for (std::uint64_t k = 0; k < i; ++k)
        if (random.below(3) == 0) task.after.push_back({"t" + std::to_string(k), static_cast<double>(random.below(3))});
      tasks.push_back(task);
    }
    std::map<std::string, double> longest;
    double whole = 0;
    for (const auto& task : tasks) {
      double start = 0;
      for (const auto& link : task.after) start = std::max(start, longest[link.id] + link.lag);
      longest[task.id] = start + task.duration;
      whole = std::max(whole, longest[task.id]);
    }
    const auto times = network(tasks);
    ASSERT_TRUE(times);
    EXPECT_EQ(times.value->duration, whole);
    ASSERT_FALSE(times.value->critical.empty());
    for (const auto& t : times.value->tasks) {
      EXPECT_GE(t.total_float, 0);
      EXPECT_GE(t.free_float, 0);
      EXPECT_LE(t.free_float, t.total_float + 1e-9);
    }
    std::reverse(tasks.begin(), tasks.end());
    EXPECT_EQ(network(tasks).value->duration, whole);
    for (auto& task : tasks)
      if (task.id == times.value->critical.front()) task.duration += 2;
    EXPECT_EQ(network(tasks).value->duration, whole + 2);
  });
}

// CPM-009: 3.5 days from Thursday morning end on Tuesday at noon. CPM-010: a cure of 24 hours from
// Friday 16:00 lets work start on Monday 8:00, 64 hours later.
TEST(Calendar, WorkRestsAtTheWeekendAndCuresDoNot) {
  const Calendar from_thursday("2026-05-07", 8);
  const double noon = from_thursday.after_work(from_thursday.start(), 28);
  EXPECT_EQ(from_thursday.date(noon), "2026-05-12");
  EXPECT_NEAR(noon - 5 * 24, 12, 1e-9);
  EXPECT_NEAR(from_thursday.working_days(noon), 3.5, 1e-9);
  const Calendar week("2026-05-08", 8);
  EXPECT_NEAR(week.next_working(16 + 24) - 16, 64, 1e-9);
}

TEST(Calendar, StartsOnMondayWhenToldTheWeekend) {
  const Calendar saturday("2026-05-09", 8);
  EXPECT_EQ(saturday.date(saturday.start() + 1), "2026-05-11");
  EXPECT_EQ(saturday.date(saturday.after_work(saturday.start(), 8)), "2026-05-11");
  EXPECT_EQ(Calendar({}, 8).date(10), "");
  testing::for_each_seed(60, [](Random& random) {
    const Calendar calendar("2026-02-26", testing::between(random, 4, 10));
    const double from = testing::between(random, 0, 300), hours = testing::between(random, 0.01, 60);
    EXPECT_NEAR(calendar.working_hours_between(from, calendar.after_work(from, hours)), hours, 1e-6);
  });
}

}  // namespace
}  // namespace awlmark::work
