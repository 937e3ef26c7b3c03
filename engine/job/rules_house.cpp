// The house: required keys, ranges and limits.
#include "job/job.hpp"
#include "job/rules.hpp"

namespace awlmark {

using doc::FieldRules;
using namespace job_rules;

FieldRules field_rules(const JobFacts*) {
  return {{.name = "name", .text = "what the job is called on papers", .max_chars = 200},
          {.name = "year_built", .min = 1600, .max = 2100},
          {.name = "indoor_temp_f", .min = -40, .max = 130},
          {.name = "indoor_rh_percent", .min = 0, .max = 100},
          {.name = "floors_above", .text = "storeys of the house above this floor's own", .min = 0, .max = 4},
          {.name = "house_width_in", .text = "across the ridge, outside to outside", .min = 72, .max = 2400},
          {.name = "ground_snow_psf", .min = 0, .max = 400},
          {.name = "headroom_in", .text = "below the framing", .min = 0, .max = 600},
          {.name = "state", .text = "whose settings hold", .max_chars = 60}};
}

FieldRules field_rules(const Claim*) {
  return {{.name = "date_of_loss", .text = "a date: 2026-05-01", .max_chars = kDateChars},
          {.name = "number", .max_chars = 100},
          {.name = "sudden", .text = "as the owner reports it: at once (true) or over a long time"},
          {.name = "insurer", .max_chars = 200},
          {.name = "adjuster_visit", .text = "a date", .max_chars = kDateChars}};
}

FieldRules field_rules(const Visit*) {
  return {kId,
          {.name = "who", .text = "who looked", .required = true, .max_chars = 200},
          {.name = "time", .text = "2026-05-04T09:10:00Z, or the date alone", .required = true, .max_chars = kTimeChars}};
}

FieldRules field_rules(const StateSettings*) {
  return {{.name = "asbestos_removal_licensed_over_sf", .min = 0, .max = 1e6},
          {.name = "growth_licensed_over_sf", .min = 0, .max = 1e6},
          {.name = "asbestos_notice_days", .min = 0, .max = 365},
          {.name = "deposit_max_percent", .min = 0, .max = 100},
          {.name = "cancellation_days", .min = 0, .max = 60},
          {.name = "licence_number", .max_chars = 100},
          {.name = "date", .text = "of the source", .max_chars = kDateChars}};
}

FieldRules field_rules(const Door*) {
  return {kId,
          {.name = "from_in", .text = "one jamb, a point on the outline", .required = true},
          {.name = "to_in", .required = true},
          {.name = "meets_height_in", .min = -24, .max = 24}};
}

FieldRules field_rules(const Room*) {
  return {{.name = "outline_in", .text = "corners of the room, in order, not repeated", .required = true, .min_items = 3, .max_items = kMaxCorners},
          {.name = "doors", .max_items = 50}};
}

FieldRules field_rules(const Fixture*) {
  return {kId,
          {.name = "kind", .required = true},
          {.name = "outline_in", .required = true, .min_items = 3, .max_items = kMaxCorners},
          {.name = "lift_hours", .min = 0, .max = 200},
          {.name = "weight_lb", .min = 0, .max = 20000}};
}

FieldRules field_rules(const Source*) { return {kId, {.name = "water_category", .text = "1 clean, 2 grey, 3 black", .min = 1, .max = 3}}; }

}  // namespace awlmark
