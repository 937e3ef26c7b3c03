// Conditions of the rules, over facts that may be known, known within bounds, or not known at all.
//
// Kleene's three values: true, false, unknown. A number known only within bounds compares true or
// false where the bounds decide, else unknown. Guarantee: the answer never changes from true to
// false or back as a fact becomes better known (tests/hazards/conditions_test.cpp).
#pragma once

#include <limits>
#include <map>
#include <string>
#include <vector>

#include "base/doc.hpp"

namespace awlmark::hazards {

enum class Truth { no, unknown, yes };

struct Fact {
  enum class Kind { unknown, number, word, flag };
  Kind kind = Kind::unknown;
  double low = -std::numeric_limits<double>::infinity();  // of a number
  double high = std::numeric_limits<double>::infinity();
  std::string word;
  bool flag = false;
  std::string says;  // the fact in words: "sheet vinyl (sheet) put in 1971"; empty when it goes without saying

  bool known_number() const { return kind == Kind::number && low == high; }
};

Fact number_fact(double value, std::string says);
Fact between_fact(double low, double high, std::string says);
Fact word_fact(std::string word, std::string says);
Fact flag_fact(bool flag, std::string says);
Fact unknown_fact(std::string says);

using Facts = std::map<std::string, Fact>;

// What decided: the facts behind a `yes` or `unknown`, in the order they were looked at, and the
// first comparison with a number.
struct Answer {
  Truth truth = Truth::no;
  std::vector<std::string> because;
  std::vector<std::string> unknown;  // of those, the ones that left the answer open
  std::optional<double> demand;      // the fact, where it is known
  std::optional<double> capacity;    // what it was compared with
};

// Forms: {"all":[..]}, {"any":[..]}, {"not":..}, {"mention":"fact"} (always true, adds its words),
// {"fact":"name", and one of "is", "in", "at_most", "at_least", "below", "above"}.
// A condition is the program's own text: a wrong form or an unheard-of fact throws std::logic_error.
Answer evaluate(const doc::Json& condition, const Facts& facts);

}  // namespace awlmark::hazards
