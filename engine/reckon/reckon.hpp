// Single questions without a job: one JSON object in, one out.
//
// Guarantees: (1) every problem of the input is reported at once, each with its place; then there is
// no value. (2) The answer is one JSON object, indented by two, and carries `reason`. (3) Nothing
// throws. An unknown topic is a problem that names the nearest ones.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

namespace awlmark::reckon {

struct TopicInfo {
  std::string id;    // "joist-span"
  std::string asks;  // what it answers, one line
};

// In the order of the list in topics/list.def.
std::vector<TopicInfo> topics();

Outcome<std::string> reckon(std::string_view topic, std::string_view json_text);

// Keys in and out with units, ranges and defaults, then sources and an example; from the same
// descriptions that read the input.
Outcome<std::string> help(std::string_view topic);

}  // namespace awlmark::reckon
