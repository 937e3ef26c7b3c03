// What the types of job.hpp cannot say: required keys, ranges, limits, and the forms of their own.
#include <algorithm>
#include <cmath>

#include "base/doc.hpp"
#include "job/job.hpp"

namespace awlmark {

using doc::FieldRules;

namespace {
constexpr std::size_t kMaxMarks = 5000;
constexpr std::size_t kMaxIdChars = 64;
constexpr std::size_t kMaxCorners = 200;
constexpr double kFarthest_in = 1e5;
const doc::FieldRule kId{.name = "id", .text = "a short text, unique in its list", .required = true, .max_chars = kMaxIdChars};
}  // namespace

FieldRules field_rules(const JobFacts*) {
  return {{.name = "name", .text = "what the job is called on papers", .max_chars = 200},
          {.name = "year_built", .min = 1600, .max = 2100},
          {.name = "indoor_temp_f", .min = -40, .max = 130},
          {.name = "indoor_rh_percent", .min = 0, .max = 100}};
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
  return {kId, {.name = "from_in", .required = true}, {.name = "to_in", .required = true}, {.name = "carries_plf", .min = 0, .max = 20000}};
}

FieldRules field_rules(const MemberCut*) {
  return {{.name = "along_in", .text = "from the support's from_in", .required = true, .min = 0, .max = kFarthest_in},
          {.name = "notch_depth_in", .min = 0, .max = 48},
          {.name = "notch_length_in", .min = 0, .max = 480},
          {.name = "hole_diameter_in", .min = 0, .max = 48},
          {.name = "hole_from_top_in", .min = 0, .max = 48}};
}

FieldRules field_rules(const Support*) {
  return {kId,
          {.name = "from_in", .text = "one end, a point on the plan", .required = true},
          {.name = "to_in", .text = "the other end", .required = true},
          {.name = "rests_at_in", .text = "where it rests, along it from from_in", .min = -kFarthest_in, .max = kFarthest_in, .max_items = 100},
          {.name = "post_length_in", .min = 0, .max = 480, .above_min = true},
          {.name = "cuts", .max_items = 100}};
}

FieldRules field_rules(const Fixture*) {
  return {kId,
          {.name = "kind", .required = true},
          {.name = "outline_in", .required = true, .min_items = 3, .max_items = kMaxCorners},
          {.name = "lift_hours", .min = 0, .max = 200},
          {.name = "weight_lb", .min = 0, .max = 20000}};
}

FieldRules field_rules(const Source*) { return {kId, {.name = "water_category", .text = "1 clean, 2 grey, 3 black", .min = 1, .max = 3}}; }

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

FieldRules field_rules(const Photo*) {
  return {kId, {.name = "sha256", .text = "64 hexadecimal digits", .max_chars = 64}, {.name = "caption", .max_chars = 1000}};
}

FieldRules field_rules(const Rebuild*) {
  return {{.name = "live_psf", .min = 0, .max = 500, .above_min = true},
          {.name = "dead_psf", .min = 0, .max = 500},
          {.name = "deflection_over", .min = 120, .max = 2000}};
}

FieldRules field_rules(const ShowerPlan*) {
  return {{.name = "outline_in", .required = true, .min_items = 3, .max_items = kMaxCorners},
          {.name = "least_fall_in_per_ft", .min = 0, .max = 2, .above_min = true}};
}

FieldRules field_rules(const DryingReading*) {
  return {kId,
          {.name = "time", .required = true, .max_chars = 40},
          {.name = "mc_percent", .min = 0, .max = 250},
          {.name = "wood_temp_f", .min = -60, .max = 220},
          {.name = "air_temp_f", .min = -60, .max = 160},
          {.name = "air_rh_percent", .min = 0, .max = 100}};
}

FieldRules field_rules(const DryingLog*) { return {{.name = "readings", .max_items = kMaxMarks}}; }

FieldRules field_rules(const WorkPlan*) {
  return {
      {.name = "start", .text = "a date: 2026-05-11", .max_chars = 10}, {.name = "crew", .min = 1, .max = 50}, {.name = "hours_per_day", .min = 1, .max = 24}};
}

FieldRules field_rules(const Rates*) {
  FieldRules rules;
  for (const char* money : {"leave_unsound_per_sf", "tear_out_sound_per_sf", "opening", "labour_per_hour"})
    rules.push_back({.name = money, .min = 0, .max = 1e6});
  for (const char* percent : {"overhead_percent", "profit_percent"}) rules.push_back({.name = percent, .min = 0, .max = 300});
  rules.push_back({.name = "material_scale", .min = 0, .max = 100, .above_min = true});
  return rules;
}

FieldRules field_rules(const CutRules*) { return {{.name = "margin_in", .min = 0, .max = 60}}; }

FieldRules field_rules(const Job*) {
  return {{.name = "format", .text = "the words awlmark-job", .required = true, .max_chars = 40},
          {.name = "version", .text = "1", .required = true, .min = 1, .max = 1000000},
          {.name = "room", .text = "the room's outline", .required = true},
          {.name = "layers", .text = "from the top down", .required = true, .min_items = 1, .max_items = 24},
          {.name = "walls", .max_items = 200},
          {.name = "supports", .max_items = 300},
          {.name = "fixtures", .max_items = 100},
          {.name = "sources", .max_items = 20},
          {.name = "marks", .max_items = kMaxMarks},
          {.name = "photos", .max_items = kMaxMarks}};
}

}  // namespace awlmark

namespace awlmark::doc {

void Custom<Runs>::read(const Json& json, const std::string& at, Runs& value, Problems& problems) {
  if (json.is_string() && json == "x")
    value.degrees = 0;
  else if (json.is_string() && json == "y")
    value.degrees = 90;
  else if (json.is_number() && std::fabs(json.get<double>()) <= 360)
    value.degrees = json.get<double>();
  else
    problems.push_back({at, "is " + kind_of(json) + "; a direction is needed", "write \"x\", \"y\" or degrees counter-clockwise from x, between -360 and 360"});
}

Json Custom<Runs>::write(const Runs& value) {
  if (value.degrees == 0) return "x";
  if (value.degrees == 90) return "y";
  return value.degrees;
}

Json Custom<Runs>::schema(SchemaBuilder& builder) {
  builder.defs["Runs"] = {{"description", "direction of boards: x, y, or degrees counter-clockwise from x"},
                          {"anyOf", Json::array({Json{{"enum", {"x", "y"}}}, Json{{"type", "number"}, {"minimum", -360}, {"maximum", 360}}})}};
  return {{"$ref", "#/$defs/Runs"}};
}

void Custom<SectionSize>::read(const Json& json, const std::string& at, SectionSize& value, Problems& problems) {
  if (json.is_string()) {
    const auto& text = json.get_ref<const std::string&>();
    if (const auto section = section_of(text))
      value = *section;
    else
      problems.push_back({at, "is " + in_quotes(text) + ", which is not a lumber size",
                          "write a nominal size such as \"2x8\", \"4x10\" or \"2-2x10\", or {\"b_in\": 1.625, \"d_in\": 7.5} as measured"});
    return;
  }
  if (!json.is_object()) return wrong_kind(json, at, "a size such as \"2x8\" or {\"b_in\", \"d_in\"}", problems);
  const FieldRule side{.name = "b_in", .min = 0, .max = 60, .above_min = true};
  for (const char* key : {"b_in", "d_in"}) {
    const auto found = json.find(key);
    if (found == json.end())
      problems.push_back({join(at, key), "is missing", "add it: the measured side in inches"});
    else
      doc::read(*found, join(at, key), side, key[0] == 'b' ? value.b_in : value.d_in, problems);
  }
  for (const auto& [key, unused] : json.items())
    if (key != "b_in" && key != "d_in") unknown_key(key, at, {"b_in", "d_in"}, problems);
}

Json Custom<SectionSize>::write(const SectionSize& value) {
  if (!value.nominal.empty()) return value.nominal;
  return {{"b_in", value.b_in}, {"d_in", value.d_in}};
}

Json Custom<SectionSize>::schema(SchemaBuilder& builder) {
  const FieldRule side{.name = "b_in", .min = 0, .max = 60, .above_min = true};
  builder.defs["SectionSize"] = {{"description", "nominal (2x8, 4x10, 2-2x10) or as measured"},
                                 {"anyOf", Json::array({Json{{"type", "string"}, {"pattern", "^([1-9]-)?[0-9]{1,2}x[0-9]{1,2}$"}},
                                                        Json{{"type", "object"},
                                                             {"properties", {{"b_in", builder.number(side, false)}, {"d_in", builder.number(side, false)}}},
                                                             {"required", {"b_in", "d_in"}},
                                                             {"additionalProperties", false}}})}};
  return {{"$ref", "#/$defs/SectionSize"}};
}

void Custom<Activity>::read(const Json& json, const std::string& at, Activity& value, Problems& problems) {
  if (json.is_boolean())
    value = json.get<bool>() ? Activity::yes : Activity::no;
  else if (json.is_string() && json == "unknown")
    value = Activity::unknown;
  else
    wrong_kind(json, at, "true, false or \"unknown\"", problems);
}

Json Custom<Activity>::write(const Activity& value) {
  if (value == Activity::unknown) return "unknown";
  return value == Activity::yes;
}

Json Custom<Activity>::schema(SchemaBuilder&) { return {{"anyOf", Json::array({Json{{"type", "boolean"}}, Json{{"enum", {"unknown"}}}})}}; }

}  // namespace awlmark::doc
