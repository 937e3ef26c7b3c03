// Readings: required keys, ranges and limits.
#include "job/job.hpp"
#include "job/rules.hpp"

namespace awlmark {

using doc::FieldRules;
using namespace job_rules;

FieldRules field_rules(const Mark*) {
  return {kId,
          {.name = "plank", .text = "counted from the wall at the low side, from 1", .min = 1, .max = 2000},
          {.name = "tape_in", .min = 0, .max = kFarthest_in},
          {.name = "along_in", .text = "along the support or wall from its from_in", .min = 0, .max = kFarthest_in},
          {.name = "width_in", .min = 0, .max = 120},
          {.name = "height_in", .min = 0, .max = 240},
          {.name = "tool", .text = "awl, meter or eye", .required = true},
          {.name = "reads", .text = "awl: sound, soft, gone; eye: dry, stained, wet, growth, insects"},
          {.name = "depth_in", .min = 0, .max = 48},
          {.name = "mc_percent", .text = "moisture content on oven-dry mass", .min = 0, .max = 250},
          {.name = "wood_temp_f", .min = -60, .max = 220},
          {.name = "time", .text = "2026-05-04T09:10:00Z", .max_chars = 40}};
}

FieldRules field_rules(const Opening*) {
  return {kId,
          {.name = "at_in", .text = "its middle", .required = true},
          {.name = "probes_in", .text = "the spots that were read in it", .max_items = 50},
          {.name = "time", .text = "2026-05-04T09:10:00Z", .max_chars = kTimeChars},
          {.name = "photos", .text = "ids of photos", .max_items = 100, .max_chars = kMaxIdChars},
          {.name = "readings", .text = "marks, layer by layer; what one leaves out it has from the opening", .max_items = 100}};
}

FieldRules field_rules(const Photo*) {
  return {kId, {.name = "sha256", .text = "64 hexadecimal digits", .max_chars = 64}, {.name = "caption", .max_chars = 1000}};
}

FieldRules field_rules(const LaboratoryResult*) {
  return {{.name = "id", .max_chars = kMaxIdChars},
          {.name = "result", .text = "clear or positive", .required = true},
          {.name = "part", .text = "left out: the sample went through the layer, its backing and its adhesive"},
          {.name = "by", .max_chars = 200},
          {.name = "date", .text = "2026-05-04", .max_chars = kDateChars}};
}

FieldRules field_rules(const HazardFacts*) {
  return {{.name = "paint_tested", .text = "for lead: clear or positive"},
          {.name = "painted_sf", .text = "old paint that will be disturbed in this room", .min = 0, .max = 1e5},
          {.name = "growth_sf", .text = "as measured", .min = 0, .max = 1e5},
          {.name = "hours_wet", .min = 0, .max = 1e6},
          {.name = "laboratory", .max_items = 200}};
}

FieldRules field_rules(const GateMet*) {
  return {{.name = "gate", .text = "the gate's id", .required = true, .max_chars = 200},
          {.name = "by", .text = "who saw to it", .required = true, .max_chars = 200},
          {.name = "time", .text = "when: 2026-05-11T08:00:00Z", .required = true, .max_chars = kTimeChars}};
}

FieldRules field_rules(const JobHazards*) { return {{.name = "met", .max_items = 500}}; }

}  // namespace awlmark
