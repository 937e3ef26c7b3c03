// Critical path of a network of tasks: forward and backward pass.
//
//   ES = max(EF of what it follows + lag), LF = min(LS of what follows it - lag),
//   total float = LS - ES, free float = min(ES of what follows it - lag) - EF
//
// Guarantees: early start at 0 for tasks that follow nothing; critical tasks have no total float.
// A circle, an unknown id, a negative duration or an id used twice is a problem, with its place.
#pragma once

#include <string>
#include <vector>

#include "base/problem.hpp"

namespace awlmark::work {

struct Link {
  std::string id;
  double lag = 0;  // may be negative: an overlap; never before time 0
};

struct NetworkTask {
  std::string id;
  double duration = 0;
  std::vector<Link> after;
};

struct TaskTimes {
  std::string id;
  double early_start = 0;
  double early_finish = 0;
  double late_start = 0;
  double late_finish = 0;
  double total_float = 0;
  double free_float = 0;
};

struct NetworkTimes {
  double duration = 0;
  std::vector<TaskTimes> tasks;       // in the order given
  std::vector<std::string> critical;  // in the order of their early start
};

awlmark::Outcome<NetworkTimes> network(const std::vector<NetworkTask>& tasks);

}  // namespace awlmark::work
