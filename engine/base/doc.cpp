#include "base/doc.hpp"

#include <algorithm>

namespace awlmark::doc {
namespace {

// The deepest nesting of brackets outside of strings; a cheap look before the real parser recurses.
int depth_of(std::string_view text) {
  int depth = 0, deepest = 0;
  bool in_string = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (in_string) {
      if (c == '\\')
        ++i;
      else if (c == '"')
        in_string = false;
    } else if (c == '"') {
      in_string = true;
    } else if (c == '{' || c == '[') {
      deepest = std::max(deepest, ++depth);
    } else if (c == '}' || c == ']') {
      --depth;
    }
  }
  return deepest;
}

std::string line_and_column(std::string_view text, std::size_t byte) {
  const auto before = text.substr(0, std::min(byte, text.size()));
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  const auto start = before.rfind('\n');
  const auto column = before.size() - (start == std::string_view::npos ? 0 : start + 1);
  return "line " + std::to_string(line) + ", column " + std::to_string(std::max<std::size_t>(1, column));
}

// What the parser library says, without its own prefix.
std::string syntax_message(const std::string& what) {
  const auto start = what.find(": ");
  return start == std::string::npos ? what : what.substr(start + 2);
}

}  // namespace

Outcome<Json> parse(std::string_view text, const Limits& limits) {
  Outcome<Json> outcome;
  if (text.size() > limits.max_bytes) {
    outcome.problems.push_back({"", "is " + std::to_string(text.size()) + " bytes; the limit is " + std::to_string(limits.max_bytes), "split the job"});
    return outcome;
  }
  if (depth_of(text) > limits.max_depth) {
    outcome.problems.push_back({"", "is nested more than " + std::to_string(limits.max_depth) + " deep", "check its brackets"});
    return outcome;
  }
  std::vector<std::vector<std::string>> keys;
  const auto watch = [&](int, Json::parse_event_t event, Json& parsed) {
    if (event == Json::parse_event_t::object_start) keys.emplace_back();
    if (event == Json::parse_event_t::object_end) keys.pop_back();
    if (event == Json::parse_event_t::key) {
      const auto& key = parsed.get_ref<const std::string&>();
      auto& seen = keys.back();
      if (std::find(seen.begin(), seen.end(), key) != seen.end())
        outcome.problems.push_back({key, "stands twice in one object", "keep one of them"});
      else
        seen.push_back(key);
    }
    return true;
  };
  try {
    Json json = Json::parse(text.begin(), text.end(), watch);
    if (outcome.problems.empty()) outcome.value = std::move(json);
  } catch (const Json::parse_error& error) {
    outcome.problems.push_back({"", "is not JSON at " + line_and_column(text, error.byte) + ": " + syntax_message(error.what()), "mend the text there"});
  } catch (const Json::exception& error) {
    outcome.problems.push_back({"", "is not JSON that can be used: " + syntax_message(error.what()), "mend the text there"});
  }
  return outcome;
}

std::string kind_of(const Json& json) {
  if (json.is_null()) return "null";
  if (json.is_boolean()) return json.get<bool>() ? "true" : "false";
  if (json.is_number()) return "the number " + json.dump();
  if (json.is_string()) return "the text " + in_quotes(json.get_ref<const std::string&>());
  return json.is_array() ? "a list" : "an object";
}

std::string in_quotes(std::string_view word) {
  constexpr std::size_t kShown = 40;
  std::string shown(word.substr(0, kShown));
  for (char& c : shown)
    if (static_cast<unsigned char>(c) < 0x20) c = ' ';
  return "'" + shown + (word.size() > kShown ? "...'" : "'");
}

std::string a_list(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) text += (i == 0 ? "" : ", ") + words[i];
  return text;
}

void wrong_kind(const Json& json, const std::string& at, std::string_view wanted, Problems& problems) {
  problems.push_back(
      {at, "is " + kind_of(json) + "; " + std::string(wanted) + " is needed", json.is_null() ? "leave the key out when it is not known" : "correct it"});
}

void wrong_word(std::string_view word, const std::string& at, const std::vector<std::string>& known, Problems& problems) {
  const auto near = nearest_words(word, known);
  problems.push_back(
      {at, "is " + in_quotes(word) + ", which is not one of its words", near.empty() ? "use one of " + a_list(known) : "did you mean " + a_list(near) + "?"});
}

void unknown_key(const std::string& key, const std::string& at, const std::vector<std::string>& known, Problems& problems) {
  const auto near = nearest_words(key, known);
  problems.push_back({join(at, key), "is not a known key", near.empty() ? "take it out; known here: " + a_list(known) : "did you mean " + a_list(near) + "?"});
}

void check_number(double value, const std::string& at, const FieldRule& rule, Problems& problems) {
  const bool low = value < rule.min || (rule.above_min && value <= rule.min);
  if (!low && !(value > rule.max)) return;
  const auto text = [](double v) { return Json(v).dump(); };
  std::string range = std::isfinite(rule.min) ? (rule.above_min ? "more than " : "at least ") + text(rule.min) : "";
  if (std::isfinite(rule.max)) range += (range.empty() ? "at most " : " and at most ") + text(rule.max);
  problems.push_back({at, "is " + text(value) + "; it must be " + range, "correct the number or its unit"});
}

bool is_length_name(std::string_view member) { return member.size() > 3 && member.substr(member.size() - 3) == "_in"; }

std::string join(const std::string& at, std::string_view key) { return at.empty() ? std::string(key) : at + "." + std::string(key); }

bool read_number(const Json& json, const std::string& at, bool length, double& value, Problems& problems) {
  if (json.is_number()) {
    value = json.get<double>();
    return true;
  }
  if (length && json.is_string()) {
    if (const auto parsed = parse_length_in(json.get_ref<const std::string&>())) {
      value = *parsed;
      return true;
    }
    problems.push_back({at, "is " + kind_of(json) + ", which is not a length", "write inches as a number, or text such as 7' 4 1/2\" or 2.25 m"});
    return false;
  }
  wrong_kind(json, at, length ? "a length in inches" : "a number", problems);
  return false;
}

Json SchemaBuilder::number(const FieldRule& rule, bool whole) {
  Json out = {{"type", whole ? "integer" : "number"}};
  if (rule.gaps) out["type"] = Json::array({"number", "null"});
  if (std::isfinite(rule.min)) out[rule.above_min ? "exclusiveMinimum" : "minimum"] = rule.min;
  if (std::isfinite(rule.max)) out["maximum"] = rule.max;
  if (!is_length_name(rule.name) || written) return out;
  return {{"anyOf", Json::array({out, Json{{"type", "string"}, {"description", "a length as text: 7' 4 1/2\", 7-4 1/2, 2.25 m"}}})}};
}

void Custom<Point>::read(const Json& json, const std::string& at, Point& value, Problems& problems) {
  if (!json.is_array() || json.size() != 2) return wrong_kind(json, at, "a point [x, y] in inches", problems);
  read_number(json[0], at + "[0]", true, value.x_in, problems);
  read_number(json[1], at + "[1]", true, value.y_in, problems);
  const FieldRule plan{.name = "plan_in", .min = -1e5, .max = 1e5};
  check_number(value.x_in, at + "[0]", plan, problems);
  check_number(value.y_in, at + "[1]", plan, problems);
}

Json Custom<Point>::schema(SchemaBuilder& builder) {
  if (!builder.defs.contains("Point")) {
    const FieldRule plan{.name = "plan_in", .min = -1e5, .max = 1e5};
    builder.defs["Point"] = {{"description", "[x, y] in inches on the job's plan: x to the right, y up"},
                             {"type", "array"},
                             {"items", builder.number(plan, false)},
                             {"minItems", 2},
                             {"maxItems", 2}};
  }
  return {{"$ref", "#/$defs/Point"}};
}

}  // namespace awlmark::doc
