// What is still to be learnt before the floor is open, and every way it can turn out. Private to the room.
#pragma once

#include <set>
#include <vector>

#include "work/work.hpp"

namespace awlmark::work {

struct Combination {
  double weight = 1;
  std::vector<std::size_t> outcomes;  // places in `outcomes`
  std::set<std::size_t> positive;     // layers that hold asbestos
  bool engineer_more = false;
  Job job;  // with those results in it
};

struct Open {
  std::vector<Outcome> outcomes;
  std::vector<Combination> runs;  // the strictest first; the weights add to 1
  std::size_t suspects = 0;
  std::vector<std::string> notes;
};

// The hazards' rules themselves say which layers are suspect: a layer is, when everything else were
// shown free and the removal would still have to be licensed.
Open open_of(const Job& job, const floor::Option* option);

}  // namespace awlmark::work
