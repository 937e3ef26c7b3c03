// Help text of a topic from its described structs: every key with its kind, unit, range and default.
#pragma once

#include <string>
#include <vector>

#include "base/doc.hpp"

namespace awlmark::reckon {

struct KeyLine {
  int depth = 0;
  std::string name;
  std::string kind;   // "number, lb/in.", "one of pinned, fixed, free", "list of objects"
  std::string notes;  // "required; more than 0", "default 360"
  std::string text;   // what it is
};

// "lb/in." for w_pli; empty where the name carries none.
std::string unit_of_name(std::string_view name);
std::string number_text(double value);  // without a needless ".0"
std::string range_text(const doc::FieldRule& rule);
// The lines as text: keys in one column, kinds beside them, the text below where there is any.
std::string key_table(const std::vector<KeyLine>& lines);

namespace detail {

template <class T>
void add_members(int depth, bool reading, std::vector<KeyLine>& lines);

// `inner` is the described struct inside optionals and lists, whose members follow on deeper lines.
template <class T>
std::string kind_text(const doc::FieldRule& rule) {
  const std::string unit = unit_of_name(rule.name);
  if constexpr (doc::IsOptional<T>::value) {
    return kind_text<typename T::value_type>(rule);
  } else if constexpr (doc::HasCustom<T>) {
    doc::SchemaBuilder builder{.written = true, .defs = doc::Json::object()};
    const doc::Json schema = doc::Custom<T>::schema(builder);
    if (schema.contains("description")) return schema["description"].template get<std::string>();
    for (const auto& [name, def] : builder.defs.items())
      if (def.contains("description")) return def["description"].template get<std::string>();
    return "text";
  } else if constexpr (doc::IsVector<T>::value) {
    return "list of: " + kind_text<typename T::value_type>(rule);
  } else if constexpr (doc::IsMap<T>::value) {
    return "object by id of: " + kind_text<typename T::mapped_type>(rule);
  } else if constexpr (doc::DescribedEnum<T>) {
    return "one of " + doc::a_list(doc::words_of<T>());
  } else if constexpr (std::is_same_v<T, std::string>) {
    return "text";
  } else if constexpr (std::is_same_v<T, bool>) {
    return "true or false";
  } else if constexpr (std::is_arithmetic_v<T>) {
    const std::string kind = std::is_integral_v<T> ? "whole number" : "number";
    return unit.empty() ? kind : kind + ", " + unit;
  } else {
    return "object";
  }
}

template <class T>
std::string default_text(const T& value) {
  if constexpr (doc::DescribedEnum<T>)
    return "default " + doc::word_of(value);
  else if constexpr (std::is_same_v<T, bool>)
    return value ? "default true" : "default false";
  else if constexpr (std::is_arithmetic_v<T>)
    return "default " + doc::Json(value).dump();
  else if constexpr (std::is_same_v<T, std::string>)
    return value.empty() ? "" : "default " + value;
  else
    return "";
}

template <class T>
void add_inner(int depth, bool reading, std::vector<KeyLine>& lines) {
  if constexpr (doc::IsOptional<T>::value || doc::IsVector<T>::value)
    add_inner<typename T::value_type>(depth, reading, lines);
  else if constexpr (doc::IsMap<T>::value)
    add_inner<typename T::mapped_type>(depth, reading, lines);
  else if constexpr (doc::Described<T>)
    add_members<T>(depth, reading, lines);
}

template <class T>
void add_members(int depth, bool reading, std::vector<KeyLine>& lines) {
  constexpr int kDeepest = 4;
  if (depth > kDeepest) return;
  const T fresh{};
  boost::mp11::mp_for_each<doc::MembersOf<T>>([&](auto d) {
    using M = std::remove_cvref_t<decltype(fresh.*d.pointer)>;
    doc::FieldRule rule = doc::rule_of<T>(d.name);
    rule.name = d.name;
    KeyLine line{.depth = depth, .name = d.name, .kind = kind_text<M>(rule), .notes = {}, .text = std::string(rule.text)};
    if (reading) {
      line.notes = rule.required ? "required" : doc::IsOptional<M>::value || doc::IsVector<M>::value ? "may be left out" : default_text(fresh.*d.pointer);
      const std::string range = range_text(rule);
      if (!range.empty()) line.notes += (line.notes.empty() ? "" : "; ") + range;
    }
    lines.push_back(std::move(line));
    add_inner<M>(depth + 1, reading, lines);
  });
}

}  // namespace detail

template <class T>
std::vector<KeyLine> keys_of(bool reading) {
  std::vector<KeyLine> lines;
  detail::add_members<T>(0, reading, lines);
  return lines;
}

}  // namespace awlmark::reckon
