// Jobs for the tests of the whole: the demos, small floors of many kinds, and the same with other names.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "job/job.hpp"

namespace awlmark::testing {

std::vector<std::string> demo_names();
Job demo(const std::string& name);
// Joists, girders, diagonal boards, plywood, partial layers, degree runs, drying readings, nothing rotten.
std::vector<std::pair<std::string, Job>> small_jobs();
// Every part named anew, with words of the engine's own among the names; `names` gets old to new.
Job renamed(Job job, std::map<std::string, std::string>& names);

}  // namespace awlmark::testing
