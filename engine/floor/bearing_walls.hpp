// What bearing walls bring down onto the deck and the members under it.
//
// The job may say it (`carries_plf`). Where it does not, a stated load is taken from the house such a
// wall usually stands in (data/floor_loads.csv): the roof and ceiling over half a house. That is an
// assumption, never a finding: the words say it, and what a floor above would add, and an engineer has
// to confirm it. A wall of which nobody said whether it bears is taken to bear.
#pragma once

#include <string>
#include <vector>

#include "base/reason.hpp"
#include "floor/model.hpp"
#include "job/job.hpp"

namespace awlmark::floor {

struct BearingWall {
  const Wall* wall = nullptr;
  double dead_plf = 0;
  double live_plf = 0;
  bool load_given = false;  // by the job
  Reason reason;
  std::string words;  // what it carries and by whose word, a sentence
  double plf() const { return dead_plf + live_plf; }
};

// Walls that bear, or may bear, and stand on the deck.
std::vector<BearingWall> bearing_walls(const Job& job);

// A member that takes such a wall farther from its nearest rest than its own depth (IRC R502.4).
struct WallOffRest {
  std::size_t member = 0;
  double along_in = 0;
  double from_rest_in = 0;
};
std::vector<WallOffRest> off_rests(const Model& model, const Wall& wall);

}  // namespace awlmark::floor
