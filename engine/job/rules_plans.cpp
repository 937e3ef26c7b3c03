// Plans and the whole document: required keys, ranges and limits.
#include "job/job.hpp"
#include "job/rules.hpp"

namespace awlmark {

using doc::FieldRules;
using namespace job_rules;

FieldRules field_rules(const Rebuild*) {
  return {{.name = "live_psf", .min = 0, .max = 500, .above_min = true},
          {.name = "dead_psf", .min = 0, .max = 500},
          {.name = "deflection_over", .min = 120, .max = 2000},
          {.name = "out_of_level_in", .text = "over the room, as found", .min = 0, .max = 24},
          {.name = "out_of_flat_in", .text = "under a straightedge of 10 ft", .min = 0, .max = 12},
          {.name = "finish_thickness_in", .text = "the new finish with its setting bed", .min = 0, .max = 6, .above_min = true}};
}

FieldRules field_rules(const TilePlan*) {
  return {{.name = "length_in", .text = "along x", .required = true, .min = 0.5, .max = 72},
          {.name = "width_in", .text = "along y", .required = true, .min = 0.5, .max = 72},
          {.name = "joint_in", .min = 0, .max = 1},
          {.name = "full_tile_at_in", .text = "a corner of one whole tile; the field is laid from lines through it"}};
}

FieldRules field_rules(const DrainRun*) {
  return {{.name = "pipe_in", .text = "nominal size of the drain", .min = 1.25, .max = 6},
          {.name = "invert_below_in", .text = "at the stack: from the top of the deck down to the pipe's inside bottom", .min = 0, .max = 240}};
}

FieldRules field_rules(const ShowerPlan*) {
  return {{.name = "outline_in", .required = true, .min_items = 3, .max_items = kMaxCorners},
          {.name = "least_fall_in_per_ft",
           .text = "1/4 in. a foot is usual; a floor steeper than 1/2 in. a foot is no place to stand",
           .min = 0,
           .max = 1,
           .above_min = true}};
}

FieldRules field_rules(const DryingReading*) {
  return {kId,
          {.name = "time", .required = true, .max_chars = 40},
          {.name = "mc_percent", .min = 0, .max = 250},
          {.name = "wood_temp_f", .min = -60, .max = 220},
          {.name = "air_temp_f", .min = -60, .max = 160},
          {.name = "air_rh_percent", .min = 0, .max = 100}};
}

FieldRules field_rules(const DryingEquipment*) {
  FieldRules rules;
  for (const char* machines : {"air_movers", "dehumidifiers", "heaters"}) rules.push_back({.name = machines, .min = 0, .max = 100});
  for (const char* air : {"air_temp_f", "outdoor_temp_f"}) rules.push_back({.name = air, .min = -60, .max = 160});
  for (const char* humid : {"air_rh_percent", "outdoor_rh_percent"}) rules.push_back({.name = humid, .min = 0, .max = 100});
  return rules;
}

FieldRules field_rules(const DryingLog*) { return {{.name = "readings", .max_items = kMaxMarks}}; }

FieldRules field_rules(const Permit*) {
  return {{.name = "applied", .text = "a date", .max_chars = kDateChars},
          {.name = "granted", .text = "a date", .max_chars = kDateChars},
          {.name = "number", .max_chars = 100}};
}

FieldRules field_rules(const WorkPlan*) {
  return {{.name = "start", .text = "a date: 2026-05-11", .max_chars = kDateChars},
          {.name = "signed_on", .text = "date of the contract; its cancellation days run from here", .max_chars = kDateChars},
          {.name = "crew", .text = "hands on the job; a bath or laundry has room for few", .min = 1, .max = 12},
          {.name = "crews", .min = 1, .max = 6},
          {.name = "hours_per_day", .min = 1, .max = 16},
          {.name = "holidays", .text = "dates without work", .max_items = 200, .max_chars = kDateChars},
          {.name = "lead_days",
           .text = "calendar days from asking to having: permit, laboratory, licensed_firm, engineer, glass",
           .min = 0,
           .max = 400,
           .max_items = 50}};
}

FieldRules field_rules(const OwnPrice*) {
  return {{.name = "id", .text = "of a row of the price tables: awlmark rates write lists them", .required = true, .max_chars = kMaxIdChars},
          {.name = "price", .text = "dollars for the row's unit", .required = true, .min = 0, .max = 1e6},
          {.name = "unit", .text = "the row's unit", .max_chars = 40}};
}

FieldRules field_rules(const OwnTask*) {
  FieldRules rules{{.name = "id", .text = "of a row of the task tables: awlmark rates write lists them", .required = true, .max_chars = kMaxIdChars}};
  for (const char* hours : {"low", "likely", "high"})
    rules.push_back({.name = hours, .text = "hours of all hands for the row's measure", .min = 0, .max = 1000});
  for (const char* money : {"fee", "fee_each", "day_fee"}) rules.push_back({.name = money, .min = 0, .max = 1e6});
  rules.push_back({.name = "rate_scale", .text = "of the labour rate", .min = 0, .max = 20});
  return rules;
}

FieldRules field_rules(const Rates*) {
  FieldRules rules;
  for (const char* money : {"leave_unsound_per_sf", "tear_out_sound_per_sf", "opening", "labour_per_hour"})
    rules.push_back({.name = money, .min = 0, .max = 1e6});
  for (const char* percent : {"overhead_percent", "profit_percent"}) rules.push_back({.name = percent, .min = 0, .max = 300});
  rules.push_back({.name = "margin_percent", .text = "share of the price, instead of overhead and profit on cost", .min = 0, .max = 90});
  rules.push_back({.name = "material_scale", .text = "of the tables' prices; own prices are not scaled", .min = 0, .max = 100, .above_min = true});
  rules.push_back({.name = "sales_tax_percent", .min = 0, .max = 30});
  rules.push_back({.name = "date", .text = "of these rates", .max_chars = kDateChars});
  return rules;
}

FieldRules field_rules(const CutRules*) { return {{.name = "margin_in", .min = 0, .max = 60}}; }

FieldRules field_rules(const Decision*) {
  return {kId,
          {.name = "what", .text = "what was offered", .required = true},
          {.name = "answer", .text = "accepted or declined", .required = true},
          {.name = "by", .required = true, .max_chars = 200},
          {.name = "time", .required = true, .max_chars = kTimeChars}};
}

FieldRules field_rules(const TaskTaken*) {
  return {{.name = "task", .text = "the task's id", .required = true, .max_chars = 200},
          {.name = "hours", .text = "of all hands together", .required = true, .min = 0, .max = 5000}};
}

FieldRules field_rules(const GoodsTaken*) {
  return {{.name = "item", .required = true, .max_chars = 200},
          {.name = "quantity", .required = true, .min = 0, .max = 1e6},
          {.name = "unit", .required = true, .max_chars = 40},
          {.name = "cost", .min = 0, .max = 1e7}};
}

FieldRules field_rules(const ClosedJob*) {
  return {{.name = "finished", .text = "a date", .max_chars = kDateChars}, {.name = "area_sf", .min = 0, .max = 1e5}, {.name = "price", .min = 0, .max = 1e8}};
}

FieldRules field_rules(const Job*) {
  return {{.name = "format", .text = "the words awlmark-job", .required = true, .max_chars = 40},
          {.name = "version", .text = "1", .required = true, .min = 1, .max = 1000000},
          {.name = "room", .text = "the room's outline", .required = true},
          {.name = "layers", .text = "from the top down", .required = true, .min_items = 1, .max_items = 24},
          {.name = "visits", .text = "who looked, and when"},
          {.name = "walls", .max_items = 200},
          {.name = "supports", .max_items = kMaxSupports},
          {.name = "rows", .text = "members written once: 2x8 at 16 from here, eight of them", .max_items = 50},
          {.name = "in_bays", .text = "pipes, wires and ducts between the members", .max_items = 200},
          {.name = "fixtures", .max_items = 100},
          {.name = "sources", .max_items = 20},
          {.name = "marks", .max_items = kMaxMarks},
          {.name = "openings", .max_items = 1000},
          {.name = "photos", .max_items = kMaxMarks}};
}

}  // namespace awlmark
