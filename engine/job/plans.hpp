// What is planned and what came of it: rebuilding, shower, drying, work, rates, decisions, the closed job.
#pragma once

#include <boost/describe.hpp>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/geometry.hpp"
#include "job/words.hpp"

namespace awlmark {

// Tile as it is bought and where the first one lies; left out, a size is taken and said, and the field is centred.
struct TilePlan {
  double length_in = 12;  // along x
  double width_in = 12;
  std::optional<double> joint_in;
  std::optional<Point> full_tile_at_in;  // a corner of one whole tile: the field is laid from lines through it
};
BOOST_DESCRIBE_STRUCT(TilePlan, (), (length_in, width_in, joint_in, full_tile_at_in))

struct Rebuild {
  Finish finish = Finish::other;
  std::string option = "auto";
  std::optional<double> live_psf;
  std::optional<double> dead_psf;         // of the new floor, instead of the sum of its layers
  std::optional<double> deflection_over;  // stricter than the finish asks, when given
  LevelPlan level = LevelPlan::unknown;
  std::optional<double> out_of_level_in;      // over the room, as found
  std::optional<double> out_of_flat_in;       // under a straightedge of 10 ft
  std::optional<double> finish_thickness_in;  // the new finish with its setting bed
  std::optional<TilePlan> tile;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Rebuild, (),
                      (finish, option, live_psf, dead_psf, deflection_over, level, out_of_level_in, out_of_flat_in, finish_thickness_in, tile, note))

struct Drain {
  DrainKind kind = DrainKind::point;
  std::optional<Point> at_in;
  std::optional<Point> from_in;
  std::optional<Point> to_in;
};
BOOST_DESCRIBE_STRUCT(Drain, (), (kind, at_in, from_in, to_in))

// Where the drain can run to: the vent, the stack, and how far down its inside bottom lies there.
struct DrainRun {
  std::optional<Point> vent_in;
  std::optional<Point> stack_in;
  std::optional<double> pipe_in;          // inside diameter, nominal
  std::optional<double> invert_below_in;  // at the stack, below the top of the deck
};
BOOST_DESCRIBE_STRUCT(DrainRun, (), (vent_in, stack_in, pipe_in, invert_below_in))

struct ShowerPlan {
  Polygon outline_in;
  Entry entry = Entry::curb;
  std::optional<Drain> drain;
  std::optional<DrainRun> drain_run;
  std::optional<double> least_fall_in_per_ft;
  std::optional<bool> accessible;  // it must meet the accessible-design standard
  std::optional<TilePlan> tile;    // of the shower floor
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(ShowerPlan, (), (outline_in, entry, drain, drain_run, least_fall_in_per_ft, accessible, tile, note))

struct DryingReading {
  std::string id;
  std::string time;
  std::optional<std::string> layer;
  std::optional<std::string> support;
  std::optional<Point> at_in;
  std::optional<double> mc_percent;
  std::optional<double> wood_temp_f;
  std::optional<double> air_temp_f;
  std::optional<double> air_rh_percent;
};
BOOST_DESCRIBE_STRUCT(DryingReading, (), (id, time, layer, support, at_in, mc_percent, wood_temp_f, air_temp_f, air_rh_percent))

// What dries the wood, as it stands now.
struct DryingEquipment {
  std::optional<int> air_movers;
  std::optional<int> dehumidifiers;
  std::optional<int> heaters;
  OpenFaces faces_open = OpenFaces::unknown;
  std::optional<double> air_temp_f;  // kept
  std::optional<double> air_rh_percent;
  std::optional<double> outdoor_temp_f;
  std::optional<double> outdoor_rh_percent;
};
BOOST_DESCRIBE_STRUCT(DryingEquipment, (), (air_movers, dehumidifiers, heaters, faces_open, air_temp_f, air_rh_percent, outdoor_temp_f, outdoor_rh_percent))

struct DryingLog {
  std::vector<DryingReading> readings;
  std::optional<DryingEquipment> equipment;
};
BOOST_DESCRIBE_STRUCT(DryingLog, (), (readings, equipment))

struct Permit {
  std::optional<bool> needed;
  std::optional<std::string> applied;  // date
  std::optional<std::string> granted;  // date
  std::optional<std::string> number;
};
BOOST_DESCRIBE_STRUCT(Permit, (), (needed, applied, granted, number))

struct WorkPlan {
  std::optional<std::string> start;      // date, 2026-05-11
  std::optional<std::string> signed_on;  // date of the contract: the days for its cancellation run from here
  std::optional<int> crew;               // hands
  std::optional<int> crews;
  std::optional<double> hours_per_day;
  std::vector<std::string> holidays;        // dates
  std::map<std::string, double> lead_days;  // permit, laboratory, licensed_firm, engineer, glass, ...: days from asking to having
  std::optional<Permit> permit;
};
BOOST_DESCRIBE_STRUCT(WorkPlan, (), (start, signed_on, crew, crews, hours_per_day, holidays, lead_days, permit))

// A price of the contractor's own in place of a row's of data/rates.csv or data/goods.csv.
struct OwnPrice {
  std::string id;  // of the row
  double price = 0;
  std::optional<std::string> unit;  // the row's; a check against a price for another unit
};
BOOST_DESCRIBE_STRUCT(OwnPrice, (), (id, price, unit))

// Hours and money of a task in place of a row's of data/tasks.csv or data/floor_hours.csv, for as much of it
// as the row's. `likely` alone moves the row's low and high in the same proportion.
struct OwnTask {
  std::string id;  // of the row
  std::optional<double> low, likely, high;
  std::optional<double> fee;
  std::optional<double> fee_each;
  std::optional<double> day_fee;
  std::optional<double> rate_scale;  // of the labour rate
};
BOOST_DESCRIBE_STRUCT(OwnTask, (), (id, low, likely, high, fee, fee_each, day_fee, rate_scale))

// The job's own answers to what leaving, tearing out and opening cost, and the contractor's rates
// (docs/rates.md). What is left out follows from the tables.
struct Rates {
  std::optional<double> leave_unsound_per_sf;
  std::optional<double> tear_out_sound_per_sf;
  std::optional<double> opening;
  std::optional<double> labour_per_hour;
  std::optional<double> overhead_percent;
  std::optional<double> profit_percent;
  std::optional<double> margin_percent;  // of the price, instead of overhead and profit on cost
  std::optional<double> material_scale;  // 1 is the table's prices; own prices are not scaled
  TaxOn sales_tax_on = TaxOn::in_prices;
  std::optional<double> sales_tax_percent;
  std::vector<OwnPrice> prices;
  std::vector<OwnTask> tasks;
  std::optional<std::string> date;  // of these rates
};
BOOST_DESCRIBE_STRUCT(Rates, (),
                      (leave_unsound_per_sf, tear_out_sound_per_sf, opening, labour_per_hour, overhead_percent, profit_percent, margin_percent, material_scale,
                       sales_tax_on, sales_tax_percent, prices, tasks, date))

// Rules of the cut-back that a contractor may switch off; each is on when left out.
struct CutRules {
  std::optional<double> margin_in;  // beyond the last unsound reading
  std::optional<bool> ends_on_support;
  std::optional<bool> two_supports;
  std::optional<bool> stagger;
  std::optional<bool> no_slivers;
  std::optional<bool> spare_bearing_walls;
  std::optional<bool> contaminated_goes;
};
BOOST_DESCRIBE_STRUCT(CutRules, (), (margin_in, ends_on_support, two_supports, stagger, no_slivers, spare_bearing_walls, contaminated_goes))

// What an owner said to something that was offered; declined work is signed as declined.
struct Decision {
  std::string id;
  std::string what;
  Answer answer = Answer::accepted;
  std::string by;
  std::string time;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Decision, (), (id, what, answer, by, time, note))

// What a closed job took, so that rates can learn from it.
struct TaskTaken {
  std::string task;  // the id of the plan's task
  double hours = 0;  // of all hands together
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(TaskTaken, (), (task, hours, note))

struct GoodsTaken {
  std::string item;
  double quantity = 0;
  std::string unit;
  std::optional<double> cost;
};
BOOST_DESCRIBE_STRUCT(GoodsTaken, (), (item, quantity, unit, cost))

struct ClosedJob {
  std::optional<std::string> finished;  // date
  std::optional<double> area_sf;        // that was opened and rebuilt
  std::optional<Finish> finish;
  std::optional<double> price;  // as settled
  std::vector<TaskTaken> hours;
  std::vector<GoodsTaken> goods;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(ClosedJob, (), (finished, area_sf, finish, price, hours, goods, note))

}  // namespace awlmark
