// What walls bring down onto the deck and the members under it, in lb/ft, dead, live and snow apart.
//
// The job may say it in lb/ft, or in a builder's words: what lands on the wall, how far to the next
// bearing, floors above. What nobody said runs as a low and a high value from the houses that such walls
// usually stand in (data/floor_loads.csv): an assumption, never a finding. A wall of which nobody said
// whether it bears has a low value of nothing. Only a wall, girder or foundation directly below takes a
// wall off the framing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/reason.hpp"
#include "floor/model.hpp"
#include "job/job.hpp"
#include "plan/framing.hpp"

namespace awlmark::floor {

struct WallPlf {
  double dead = 0;
  double live = 0;
  double snow = 0;
  double sum() const { return dead + live + snow; }
};

struct BearingWall {
  const Wall* wall = nullptr;
  int onto = -1;       // the drawn girder directly under it, which takes all of it
  bool known = false;  // low and high are the same, by the job's word
  bool along = false;  // runs along the framing
  WallPlf low, high;   // its own weight left out
  Reason reason;
  std::string words;            // what it carries and by whose word, a sentence; empty when it carries nothing
  std::string carries() const;  // "700 lb/ft" or "280 to 700 lb/ft"
};

// Every wall that stands on this floor, whether it bears or not; those held from directly below are left out.
std::vector<BearingWall> bearing_walls(const Job& job, const plan::Framing& framing);

// A member that takes such a wall farther from its nearest rest than its own depth (IRC R502.4).
struct WallOffRest {
  std::size_t member = 0;
  double along_in = 0;
  double from_rest_in = 0;
};
std::vector<WallOffRest> off_rests(const Model& model, const Wall& wall);

}  // namespace awlmark::floor
