// Work: tasks with three-point hours in the order of the trade, their holds, and the finish dates.
//
// What is still open (a laboratory's result, an engineer's answer) stands as outcomes with a chance;
// every combination of them is a run of its own, weighted exactly, never drawn. Each run is scheduled
// for every draw with the draws that price it: the floor's quantities, the crew's pace, each task's
// hours and each wait. Chances and spreads are estimates of the trade without a source.
#pragma once

#include <boost/describe.hpp>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/reason.hpp"
#include "drying/drying.hpp"
#include "floor/floor.hpp"
#include "hazards/hazards.hpp"
#include "job/job.hpp"
#include "takeoff/takeoff.hpp"
#include "work/factors.hpp"
#include "work/reveal.hpp"

namespace awlmark::work {

enum class Place { room, below, off };  // one gang in the room and one below it at a time; what happens elsewhere runs beside
BOOST_DESCRIBE_ENUM(Place, room, below, off)

// Hours that one more of it takes.
struct Grown {
  goods::Growth with;
  floor::Hours per_unit;
};
BOOST_DESCRIBE_STRUCT(Grown, (), (with, per_unit))

struct Task {
  std::string id;
  std::string title;
  std::vector<std::string> after;
  std::string who;  // "crew", "plumber", "licensed"
  int hands = 1;    // that it can use at once
  Place place = Place::room;
  floor::Hours hours;       // all hands together
  floor::Hours wait_hours;  // elapsed, day and night: cure, drying
  floor::Hours wait_days;   // working days: laboratory, permit, inspection
  std::string hold;         // what must be true before it may end: empty when none
  std::string not_before;   // date on which it may begin at the earliest; empty when any
  std::string asked_on;     // date from which its working days of wait run; empty: from its start
  std::string closes_p50;   // of drying: date by which it may be closed, even chance and 9 in 10, as the drying stage forecasts
  std::string closes_p90;
  std::vector<std::string> gates;  // ids of the hazard gates that stand before it
  double quantity = 0;             // what the hours were worked out from
  std::string unit;
  std::vector<Grown> grows;  // when opening up reveals more
  std::string only_if;       // the outcome it belongs to: "laboratory.sheet.positive"; empty when it is sure
  double rate_scale = 1;     // of the labour rate: a licensed trade costs more than the crew
  double fee = 0;            // beside the hours, money: laboratory, permit, clearance
  double day_fee = 0;        // money a day on hire, from its start until `until` is done
  std::string until;
  std::string starts;  // dates of one feasible schedule, at the mean hours; empty without a start date
  std::string ends;    // its wait included
  Reason reason;
  std::string luck;  // names its draws; never an id of the job, so that renaming moves no figure
};
BOOST_DESCRIBE_STRUCT(Task, (),
                      (id, title, after, who, hands, place, hours, wait_hours, wait_days, hold, not_before, asked_on, closes_p50, closes_p90, gates, quantity,
                       unit, grows, only_if, rate_scale, fee, day_fee, until, starts, ends, reason))

struct Finish {
  std::string p50;  // dates, 2026-05-20; empty without a start date
  std::string p80;
  std::string p90;
  double p50_days = 0;  // working days from the start
  double p80_days = 0;
  double p90_days = 0;
};
BOOST_DESCRIBE_STRUCT(Finish, (), (p50, p80, p90, p50_days, p80_days, p90_days))

// What sets the date: how often a task lies on the longest chain, and for how long.
struct Driver {
  std::string task;
  std::string title;
  double on_path = 0;  // share of the draws, outcomes weighted
  double days = 0;     // working days on the chain when it lies there
};
BOOST_DESCRIBE_STRUCT(Driver, (), (task, title, on_path, days))

// One way in which something still open can turn out.
struct Outcome {
  std::string id;  // "laboratory.sheet.clear"
  std::string words;
  double chance = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(Outcome, (), (id, words, chance, reason))

struct Work {
  std::vector<Task> tasks;   // with the stricter outcome of whatever is open
  floor::Hours total_hours;  // p10, p50, p90 of the crew's own hours, not the sum of the ends
  double crew_days = 0;      // mean days on which the crew is there
  Finish finish;
  std::vector<Driver> drivers;
  std::vector<std::string> critical;
  std::vector<Outcome> open;
  std::vector<std::string> notes;
};
BOOST_DESCRIBE_STRUCT(Work, (), (tasks, total_hours, crew_days, finish, drivers, critical, open, notes))

// What the drying stage says of wood that stays, in the frame of the job that is worked.
struct DryingWord {
  bool released = false;           // everything with a reading may be closed
  std::optional<std::string> p50;  // dates of the last place that stays to be dry enough
  std::optional<std::string> p90;
  std::string read;   // date of the last reading
  std::string never;  // what this air never dries; empty when it dries all
};
// Of a place that comes out nothing is waited for.
DryingWord drying_word(const Job& job, const cutback::CutBack& cut, const drying::Drying& drying);

struct Options {
  std::uint64_t seed = 1954;
  std::optional<DryingWord> drying;
};

// One combination of outcomes. By draw: where each task's hours lie in their range, the moment of the
// finish, money for what is on hire by the day.
struct Run {
  double weight = 1;
  std::vector<std::size_t> outcomes;  // places in Work::open
  std::vector<Task> tasks;            // those that only a draw brings included, with no hours of their own
  std::vector<std::vector<double>> at;
  std::vector<std::size_t> draws;  // which of the factors' draws it was scheduled with
  std::vector<double> finish_h;
  std::vector<double> hire;
  std::vector<double> set_up_h;  // of the crew, each day's start and end
};

struct Result {
  Work findings;
  Factors factors;
  Reveal reveal;
  std::vector<Run> runs;
};

Result work(const Job& job, const hazards::Hazards& hazards, const cutback::Result& cut_back, const floor::Floor& floor, const takeoff::TakeOff& take_off,
            const Options& options = {});

// The schedule as an iCalendar file (RFC 5545): an event a task, a day each; empty without a start date.
std::string calendar_file(const Job& job, const Work& work);

}  // namespace awlmark::work
