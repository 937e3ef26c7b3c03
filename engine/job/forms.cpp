// Types of the job document with a form of their own in JSON: directions, sizes, yes-no-unknown.
#include <cmath>

#include "base/doc.hpp"
#include "job/job.hpp"

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
