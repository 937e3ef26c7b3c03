// Work: tasks with three-point hours in the order of the trade, their holds, and the finish dates.
#pragma once

#include <boost/describe.hpp>
#include <string>
#include <vector>

#include "base/reason.hpp"
#include "floor/floor.hpp"
#include "hazards/hazards.hpp"
#include "job/job.hpp"
#include "takeoff/takeoff.hpp"

namespace awlmark::work {

struct Task {
  std::string id;
  std::string title;
  std::vector<std::string> after;
  std::string who;                 // "crew", "plumber", "licensed"
  floor::Hours hours;              // crew hours, all hands together
  floor::Hours wait_hours;         // elapsed, day and night: cure, drying, laboratory
  std::string hold;                // what must be true before it may end: empty when none
  std::vector<std::string> gates;  // ids of the hazard gates that stand before it
  double quantity = 0;             // what the hours were worked out from
  std::string unit;
  goods::Growth grows;    // when opening up reveals more
  double rate_scale = 1;  // of the labour rate: a licensed trade costs more than the crew
  double fee = 0;         // beside the hours, money: laboratory, permit, clearance, fans on hire
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(Task, (), (id, title, after, who, hours, wait_hours, hold, gates, quantity, unit, grows, rate_scale, fee, reason))

struct Finish {
  std::string p50;  // dates, 2026-05-20; empty without a start date
  std::string p80;
  double p50_days = 0;  // working days from the start
  double p80_days = 0;
};
BOOST_DESCRIBE_STRUCT(Finish, (), (p50, p80, p50_days, p80_days))

struct Work {
  std::vector<Task> tasks;
  floor::Hours total_hours;  // p10, p50, p90 of the sum of crew hours, not the sum of the ends
  Finish finish;
  std::vector<std::string> critical;
  std::vector<std::string> notes;
};
BOOST_DESCRIBE_STRUCT(Work, (), (tasks, total_hours, finish, critical, notes))

Work work(const Job& job, const hazards::Hazards& hazards, const cutback::CutBack& cut_back, const floor::Floor& floor, const takeoff::TakeOff& take_off);

}  // namespace awlmark::work
