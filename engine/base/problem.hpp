// What is wrong with an input, where it is, and how to mend it. Failure is a value here: rooms
// return problems, they do not throw across their own boundary.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace awlmark {

struct Problem {
  std::string at;    // "marks[3].at_in", or "" for the whole input
  std::string what;  // "is 41.0 in. outside the room; a mark may lie up to 24 in. from it"
  std::string mend;  // "give a point on the room's plan, or correct the outline"
};
BOOST_DESCRIBE_STRUCT(Problem, (), (at, what, mend))

using Problems = std::vector<Problem>;

// A value, or the reasons why there is none. `warnings` never stop an answer.
template <class T>
struct Outcome {
  std::optional<T> value;
  Problems problems;
  Problems warnings;
  explicit operator bool() const { return value.has_value(); }
};

// One line a problem: "marks[3].at_in: is 41.0 in. outside ...; give a point ...".
std::string describe(const Problem& problem);

// The words of `known` nearest to `word` by edit distance, best first, at most `count`, none that
// shares too little to be meant.
std::vector<std::string> nearest_words(std::string_view word, const std::vector<std::string>& known, std::size_t count = 3);

}  // namespace awlmark
