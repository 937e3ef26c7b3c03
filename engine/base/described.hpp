// The light half of base/doc.hpp: what a header of described structs needs, without the JSON library
// (which costs every file that includes it four seconds). Reading, writing and schemas are in doc.hpp.
#pragma once

#include <boost/describe.hpp>
#include <boost/mp11.hpp>
#include <cstddef>
#include <limits>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

namespace awlmark::doc {

// Keeps keys in the order they are described, so that a written document reads well.
using Json = nlohmann::ordered_json;

struct SchemaBuilder;

inline constexpr double kUnbounded = std::numeric_limits<double>::infinity();

struct FieldRule {
  std::string_view name;
  std::string_view text = {};  // what it is, for the schema and for help
  bool required = false;
  double min = -kUnbounded;
  double max = kUnbounded;
  bool above_min = false;  // the minimum itself is not allowed
  std::size_t min_items = 0;
  std::size_t max_items = 500;
  std::size_t max_chars = 4000;
  bool gaps = false;  // a list of numbers with null where there is none
};
using FieldRules = std::vector<FieldRule>;

// ---- Limits of a document, enforced before anything else is looked at.
struct Limits {
  std::size_t max_bytes = 8u << 20;
  int max_depth = 24;
};

// ---- Types with their own form in JSON specialise this.
template <class T>
struct Custom;  // static void read(const Json&, const std::string& at, T&, Problems&); write; schema

// The key of a struct's member: its name, less a last underscore (a key may be a word of C++, such as `case`).
constexpr std::string_view key_of(const char* name) {
  const std::string_view key(name);
  return key.empty() || key.back() != '_' ? key : key.substr(0, key.size() - 1);
}

template <class E>
std::vector<std::string> words_of() {
  std::vector<std::string> words;
  boost::mp11::mp_for_each<boost::describe::describe_enumerators<E>>([&](auto d) { words.emplace_back(d.name); });
  return words;
}

template <class E>
std::string word_of(E value) {
  std::string word = "?";
  boost::mp11::mp_for_each<boost::describe::describe_enumerators<E>>([&](auto d) {
    if (d.value == value) word = d.name;
  });
  return word;
}

// A described id as words: douglas_fir_larch -> "douglas fir larch".
template <class E>
std::string spoken(E value) {
  std::string word = word_of(value);
  for (char& c : word)
    if (c == '_') c = ' ';
  return word;
}

template <class E>
std::optional<E> from_word(std::string_view word) {
  std::optional<E> value;
  boost::mp11::mp_for_each<boost::describe::describe_enumerators<E>>([&](auto d) {
    if (word == d.name) value = d.value;
  });
  return value;
}

std::string in_quotes(std::string_view word);
std::string a_list(const std::vector<std::string>& words);

}  // namespace awlmark::doc
