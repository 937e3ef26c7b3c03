// The floor: required keys, ranges and limits.
#include "job/job.hpp"
#include "job/rules.hpp"

namespace awlmark {

using doc::FieldRules;
using namespace job_rules;

FieldRules field_rules(const Layer*) {
  return {kId,
          {.name = "material", .text = "what it is made of", .required = true},
          {.name = "thickness_in", .min = 0, .max = 24, .above_min = true},
          {.name = "installed_year", .min = 1600, .max = 2100},
          {.name = "face_width_in", .min = 0, .max = 120, .above_min = true},
          {.name = "outline_in", .min_items = 3, .max_items = kMaxCorners},
          {.name = "absent_in", .max_items = 100}};
}

FieldRules field_rules(const Wall*) {
  FieldRules rules = {kId, {.name = "from_in", .required = true}, {.name = "to_in", .required = true}};
  for (const char* load : {"carries_plf", "dead_plf", "live_plf", "snow_plf"})
    rules.push_back({.name = load, .text = "pounds a foot that come down on it, without its own weight", .min = 0, .max = 20000});
  rules.push_back({.name = "next_bearing_in",
                   .text = "to the next bearing left and right of it, seen from from_in to to_in; one figure alone holds for both",
                   .min = 0,
                   .max = 1200,
                   .max_items = 2});
  rules.push_back({.name = "floors_above", .text = "floors that it carries", .min = 0, .max = 4});
  rules.push_back({.name = "thickness_in", .min = 0, .max = 48, .above_min = true});
  for (const char* year : {"wallboard_year", "texture_year"}) rules.push_back({.name = year, .min = 1600, .max = 2100});
  return rules;
}

FieldRules field_rules(const MemberCut*) {
  return {{.name = "along_in", .text = "from the support's from_in", .required = true, .min = 0, .max = kFarthest_in},
          {.name = "notch_depth_in", .min = 0, .max = 48},
          {.name = "notch_length_in", .min = 0, .max = 480},
          {.name = "hole_diameter_in", .min = 0, .max = 48},
          {.name = "hole_from_top_in", .min = 0, .max = 48}};
}

namespace {
// Members written singly and in rows share these.
void member_rules(FieldRules& rules) {
  rules.push_back(kId);
  rules.push_back({.name = "from_in", .text = "one end, a point on the plan", .required = true});
  rules.push_back({.name = "to_in", .text = "the other end", .required = true});
  rules.push_back({.name = "rests_at_in", .text = "where it rests, along it from from_in", .min = -kFarthest_in, .max = kFarthest_in, .max_items = 100});
  rules.push_back({.name = "rests", .text = "what each rest is", .max_items = 100});
  rules.push_back({.name = "post_length_in", .min = 0, .max = 480, .above_min = true});
}
}  // namespace

FieldRules field_rules(const SupportRest*) {
  return {{.name = "id", .text = "unique among the member's rests", .max_chars = kMaxIdChars},
          {.name = "at_in", .text = "along the member from its from_in", .min = -kFarthest_in, .max = kFarthest_in},
          {.name = "end", .text = "instead of at_in: the member's end at from_in or at to_in"},
          {.name = "on", .text = "what it sits on there"},
          {.name = "support", .text = "id of the member that it rests on or hangs from", .max_chars = 2 * kMaxIdChars},
          {.name = "bearing_in", .text = "length of bearing along the member", .min = 0, .max = 60},
          {.name = "cap_in", .text = "width of the post's cap across the member", .min = 0, .max = 60, .above_min = true},
          {.name = "post_length_in", .min = 0, .max = 480, .above_min = true},
          {.name = "pad_in", .text = "side of a square footing", .min = 0, .max = 240, .above_min = true}};
}

FieldRules field_rules(const Support*) {
  FieldRules rules;
  member_rules(rules);
  rules.push_back({.name = "cuts", .max_items = 100});
  return rules;
}

FieldRules field_rules(const SupportRow*) {
  FieldRules rules;
  member_rules(rules);
  rules.push_back({.name = "spacing_in", .text = "centre to centre", .required = true, .min = 3, .max = 240});
  rules.push_back({.name = "count", .text = "how many members", .required = true, .min = 1, .max = 100});
  rules.push_back({.name = "step", .text = "the direction from one to the next"});
  rules.push_back({.name = "missing", .text = "numbers that are not there, from 1", .min = 1, .max = 100, .max_items = 100});
  return rules;
}

FieldRules field_rules(const Obstacle*) {
  return {kId,
          {.name = "kind", .text = "what runs there", .required = true},
          {.name = "from_in", .required = true},
          {.name = "to_in", .required = true},
          {.name = "diameter_in", .min = 0, .max = 48, .above_min = true},
          {.name = "below_deck_in", .text = "from the underside of the deck down to its top", .min = 0, .max = 240}};
}

}  // namespace awlmark
