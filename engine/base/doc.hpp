// One description, four uses: reading with located errors, writing, JSON Schema, and (from the
// schema) the page's TypeScript types. A struct is described once with BOOST_DESCRIBE_STRUCT; a
// function `field_rules(const T*)` found beside it adds what the types cannot say.
//
// Reading: unknown keys and words are refused with the nearest right ones; every problem is
// collected, none stops the rest. A member is required only where its rule says so; std::optional
// and lists may be left out, other members keep the value of a fresh struct.
// Lengths: a member whose name ends in `_in` also takes text such as 7' 4 1/2" (base/length.hpp).
// Writing: empty optionals and empty lists are left out (lists of findings are kept, see Writer).
#pragma once

#include <algorithm>
#include <boost/describe.hpp>
#include <boost/mp11.hpp>
#include <cmath>
#include <limits>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "base/described.hpp"
#include "base/geometry.hpp"
#include "base/length.hpp"
#include "base/problem.hpp"

namespace awlmark::doc {

// Text to JSON: size, depth, duplicate keys and syntax. Problems say the line and column.
Outcome<Json> parse(std::string_view text, const Limits& limits = {});

template <class T>
concept HasCustom = requires(const Json& json, T& value, Problems& problems) {
  Custom<T>::read(json, std::string{}, value, problems);
};

template <class T>
concept Described = boost::describe::has_describe_members<T>::value && !HasCustom<T>;

template <class T>
concept DescribedEnum = std::is_enum_v<T> && boost::describe::has_describe_enumerators<T>::value;

template <class T>
concept HasRules = requires(const T* t) {
  { field_rules(t) } -> std::convertible_to<FieldRules>;
};

template <class T>
struct IsOptional : std::false_type {};
template <class T>
struct IsOptional<std::optional<T>> : std::true_type {};
template <class T>
struct IsVector : std::false_type {};
template <class T>
struct IsVector<std::vector<T>> : std::true_type {};
template <class T>
struct IsMap : std::false_type {};
template <class T>
struct IsMap<std::map<std::string, T>> : std::true_type {};

template <class T>
const FieldRules& rules_of() {
  static const FieldRules rules = [] {
    if constexpr (HasRules<T>)
      return FieldRules(field_rules(static_cast<const T*>(nullptr)));
    else
      return FieldRules{};
  }();
  return rules;
}

template <class T>
const FieldRule& rule_of(std::string_view member) {
  static const FieldRule none{};
  for (const auto& rule : rules_of<T>())
    if (rule.name == member) return rule;
  return none;
}

template <class T>
using MembersOf = boost::describe::describe_members<T, boost::describe::mod_public | boost::describe::mod_inherited>;

// ---- Shared by the templates below; in doc.cpp.
std::string kind_of(const Json& json);  // "a number", "text", ...
void wrong_kind(const Json& json, const std::string& at, std::string_view wanted, Problems& problems);
void wrong_word(std::string_view word, const std::string& at, const std::vector<std::string>& known, Problems& problems);
void unknown_key(const std::string& key, const std::string& at, const std::vector<std::string>& known, Problems& problems);
void check_number(double value, const std::string& at, const FieldRule& rule, Problems& problems);
bool is_length_name(std::string_view member);
std::string join(const std::string& at, std::string_view key);

// A number, or where `length` is set also text such as 7' 4 1/2".
bool read_number(const Json& json, const std::string& at, bool length, double& value, Problems& problems);

template <class T>
void read(const Json& json, const std::string& at, const FieldRule& rule, T& value, Problems& problems);

template <Described T>
void read_struct(const Json& json, const std::string& at, T& value, Problems& problems) {
  if (!json.is_object()) return wrong_kind(json, at, "an object", problems);
  std::vector<std::string> known;
  boost::mp11::mp_for_each<MembersOf<T>>([&](auto d) {
    const std::string key(key_of(d.name));
    known.push_back(key);
    const FieldRule& rule = rule_of<T>(key);
    const auto found = json.find(key);
    if (found != json.end()) {
      FieldRule named = rule;
      named.name = key_of(d.name);
      read(*found, join(at, key), named, value.*d.pointer, problems);
    } else if (rule.required) {
      problems.push_back({join(at, key), "is missing", rule.text.empty() ? "add it" : "add it: " + std::string(rule.text)});
    }
  });
  for (const auto& [key, unused] : json.items())
    if (std::find(known.begin(), known.end(), key) == known.end()) unknown_key(key, at, known, problems);
}

template <class T>
void read_list(const Json& json, const std::string& at, const FieldRule& rule, std::vector<T>& value, Problems& problems) {
  if (!json.is_array()) return wrong_kind(json, at, "a list", problems);
  if (json.size() > rule.max_items) {
    problems.push_back(
        {at, "has " + std::to_string(json.size()) + " items; the limit is " + std::to_string(rule.max_items), "split the job or leave some out"});
    return;
  }
  if (json.size() < rule.min_items)
    problems.push_back(
        {at, "has " + std::to_string(json.size()) + " items; at least " + std::to_string(rule.min_items) + " are needed", "add what is missing"});
  value.clear();
  value.reserve(json.size());
  for (std::size_t i = 0; i < json.size(); ++i) {
    T item{};
    read(json[i], at + "[" + std::to_string(i) + "]", rule, item, problems);
    value.push_back(std::move(item));
  }
}

template <class T>
void read(const Json& json, const std::string& at, const FieldRule& rule, T& value, Problems& problems) {
  if constexpr (IsOptional<T>::value) {
    typename T::value_type inner{};
    const std::size_t before = problems.size();
    read(json, at, rule, inner, problems);
    if (problems.size() == before) value = std::move(inner);
  } else if constexpr (HasCustom<T>) {
    Custom<T>::read(json, at, value, problems);
  } else if constexpr (IsVector<T>::value) {
    read_list(json, at, rule, value, problems);
  } else if constexpr (IsMap<T>::value) {
    if (!json.is_object()) return wrong_kind(json, at, "an object", problems);
    if (json.size() > rule.max_items) return problems.push_back({at, "has more than " + std::to_string(rule.max_items) + " entries", "leave some out"});
    for (const auto& [key, item] : json.items()) read(item, join(at, key), rule, value[key], problems);
  } else if constexpr (DescribedEnum<T>) {
    if (!json.is_string()) return wrong_kind(json, at, "one of the words " + a_list(words_of<T>()), problems);
    const auto& word = json.template get_ref<const std::string&>();
    if (const auto known = from_word<T>(word))
      value = *known;
    else
      wrong_word(word, at, words_of<T>(), problems);
  } else if constexpr (std::is_same_v<T, std::string>) {
    if (!json.is_string()) return wrong_kind(json, at, "text", problems);
    value = json.template get<std::string>();
    if (value.size() > rule.max_chars) problems.push_back({at, "is longer than " + std::to_string(rule.max_chars) + " characters", "shorten it"});
  } else if constexpr (std::is_same_v<T, bool>) {
    if (!json.is_boolean()) return wrong_kind(json, at, "true or false", problems);
    value = json.template get<bool>();
  } else if constexpr (std::is_arithmetic_v<T>) {
    double number = 0;
    if (!read_number(json, at, is_length_name(rule.name), number, problems)) return;
    if constexpr (std::is_integral_v<T>) {
      if (number != std::floor(number) || std::fabs(number) > 9007199254740992.0)
        return problems.push_back({at, "is " + json.dump() + "; a whole number is needed", "round it"});
      if (number < static_cast<double>(std::numeric_limits<T>::min()) || number > static_cast<double>(std::numeric_limits<T>::max()))
        return problems.push_back({at, "is " + json.dump() + ", out of range", "give a smaller number"});
    }
    const std::size_t before = problems.size();
    check_number(number, at, rule, problems);
    if (problems.size() == before) value = static_cast<T>(number);
  } else {
    static_assert(Described<T>, "describe the struct with BOOST_DESCRIBE_STRUCT");
    read_struct(json, at, value, problems);
  }
}

// Reads a whole described struct from text. The value is there only when no problem was found.
template <class T>
Outcome<T> read_text(std::string_view text, const Limits& limits = {}) {
  Outcome<T> outcome;
  auto parsed = parse(text, limits);
  if (!parsed) {
    outcome.problems = std::move(parsed.problems);
    return outcome;
  }
  T value{};
  read(*parsed.value, "", FieldRule{}, value, outcome.problems);
  if (outcome.problems.empty()) outcome.value = std::move(value);
  return outcome;
}

// ---- Writing. A number that is not finite becomes null.
template <class T>
Json write(const T& value) {
  if constexpr (IsOptional<T>::value) {
    return value ? write(*value) : Json(nullptr);
  } else if constexpr (HasCustom<T>) {
    return Custom<T>::write(value);
  } else if constexpr (IsVector<T>::value) {
    Json list = Json::array();
    for (const auto& item : value) list.push_back(write(static_cast<const typename T::value_type&>(item)));
    return list;
  } else if constexpr (IsMap<T>::value) {
    Json object = Json::object();
    for (const auto& [key, item] : value) object[key] = write(item);
    return object;
  } else if constexpr (DescribedEnum<T>) {
    return word_of(value);
  } else if constexpr (std::is_floating_point_v<T>) {
    return std::isfinite(value) ? Json(static_cast<double>(value)) : Json(nullptr);
  } else if constexpr (std::is_arithmetic_v<T> || std::is_same_v<T, std::string>) {
    return value;
  } else {
    static_assert(Described<T>, "describe the struct with BOOST_DESCRIBE_STRUCT");
    Json object = Json::object();
    boost::mp11::mp_for_each<MembersOf<T>>([&](auto d) {
      using M = std::remove_cvref_t<decltype(value.*d.pointer)>;
      if constexpr (IsOptional<M>::value) {
        if (!(value.*d.pointer)) return;
      }
      object[std::string(key_of(d.name))] = write(value.*d.pointer);
    });
    return object;
  }
}

// ---- JSON Schema 2020-12. `written` gives the form that Awlmark writes (numbers for lengths);
// otherwise the form that it reads (numbers or text).
struct SchemaBuilder {
  bool written = false;
  Json defs = Json::object();

  template <class T>
  Json of(const FieldRule& rule) {
    if constexpr (IsOptional<T>::value) {
      return of<typename T::value_type>(rule);
    } else if constexpr (HasCustom<T>) {
      return Custom<T>::schema(*this);
    } else if constexpr (IsVector<T>::value) {
      Json list = {{"type", "array"}};
      FieldRule item = rule;
      item.text = {};
      list["items"] = of<typename T::value_type>(item);
      if (rule.min_items > 0) list["minItems"] = rule.min_items;
      if (!written) list["maxItems"] = rule.max_items;
      return list;
    } else if constexpr (IsMap<T>::value) {
      return {{"type", "object"}, {"additionalProperties", of<typename T::mapped_type>({})}};
    } else if constexpr (DescribedEnum<T>) {
      return {{"enum", words_of<T>()}};
    } else if constexpr (std::is_same_v<T, std::string>) {
      return {{"type", "string"}};
    } else if constexpr (std::is_same_v<T, bool>) {
      return {{"type", "boolean"}};
    } else if constexpr (std::is_arithmetic_v<T>) {
      return number(rule, std::is_integral_v<T>);
    } else {
      return reference<T>();
    }
  }

  Json number(const FieldRule& rule, bool whole);

  template <class T>
  Json reference() {
    const std::string name(boost::describe::has_describe_members<T>::value ? type_name<T>() : "");
    if (!defs.contains(name)) {
      defs[name] = Json::object();  // held open against recursion
      Json properties = Json::object();
      Json required = Json::array();
      boost::mp11::mp_for_each<MembersOf<T>>([&](auto d) {
        using M = std::remove_cvref_t<decltype(std::declval<T>().*d.pointer)>;
        const std::string key(key_of(d.name));
        FieldRule rule = rule_of<T>(key);
        rule.name = key_of(d.name);
        Json field = of<M>(rule);
        if (!rule.text.empty() && !field.contains("$ref")) field["description"] = std::string(rule.text);
        properties[key] = std::move(field);
        const bool always = written && !IsOptional<M>::value;
        if (rule.required || always) required.push_back(key);
      });
      Json def = {{"type", "object"}, {"properties", properties}, {"additionalProperties", false}};
      if (!required.empty()) def["required"] = required;
      defs[name] = def;
    }
    return {{"$ref", "#/$defs/" + name}};
  }

  // The struct's own name without its namespace.
  template <class T>
  static std::string type_name() {
    std::string_view full = __PRETTY_FUNCTION__;
    const auto start = full.find("T = ") + 4;
    const auto end = full.find_first_of(";]", start);
    full = full.substr(start, end - start);
    const auto colon = full.rfind("::");
    return std::string(colon == std::string_view::npos ? full : full.substr(colon + 2));
  }
};

template <class T>
Json schema(std::string_view id, std::string_view title, bool written) {
  SchemaBuilder builder{.written = written, .defs = Json::object()};
  Json root = builder.template of<T>({});
  Json out = {{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"$id", std::string(id)}, {"title", std::string(title)}};
  out.update(root);
  out["$defs"] = builder.defs;
  return out;
}

// ---- Points are [x, y].
template <>
struct Custom<Point> {
  static void read(const Json& json, const std::string& at, Point& value, Problems& problems);
  static Json write(const Point& value) { return Json::array({value.x_in, value.y_in}); }
  static Json schema(SchemaBuilder& builder);
};

}  // namespace awlmark::doc
