// Forces in one member: continuous over its rests, stiffness by what is left of it, live load on
// whichever spans make each figure worst.
//
// Live load is solved span by span; by superposition the worst pattern at a station is the sum of the
// spans that add to it. That is the exact envelope over all patterns by span.
#pragma once

#include <vector>

#include "floor/layout.hpp"
#include "floor/model.hpp"
#include "mechanics/beam.hpp"

namespace awlmark::floor {

struct ForceStation {
  double along_in = 0;  // from the member's `from`
  double moment_max_inlb = 0;
  double moment_min_inlb = 0;
  double shear_lb = 0;  // largest size
};

struct ForceSpan {
  double from_in = 0;
  double to_in = 0;
  bool cantilever = false;
  double live_in = 0;   // largest downward
  double total_in = 0;  // Kcr dead + live
};

struct ForceRest {
  double along_in = 0;
  double dead_lb = 0;
  double live_lb = 0;    // worst pattern
  double uplift_lb = 0;  // how far the worst pattern would lift it
};

struct MemberForces {
  bool solved = false;
  std::vector<ForceStation> stations;
  std::vector<ForceSpan> spans;
  std::vector<ForceRest> rests;
};

MemberForces member_forces(const Member& member, const MemberLoads& loads, double creep);

// What is left of the member's own section at a place; nothing when it is gone.
std::optional<mechanics::Section> section_at(const Member& member, double along_in);
// The zone at a place, rot first; null when sound.
const DecayZone* zone_at(const Member& member, double along_in);

}  // namespace awlmark::floor
