// Forces in one member: continuous over its rests or spliced there, stiffness by what is left of it,
// live load and snow on whichever spans make each figure worst.
//
// Live load is solved span by span; by superposition the worst pattern at a station is the sum of the
// spans that add to it. That is the exact envelope over all patterns by span. Dead, live and snow are
// kept apart, for the load combinations (combinations.hpp).
#pragma once

#include <optional>
#include <vector>

#include "floor/model.hpp"
#include "mechanics/beam.hpp"

namespace awlmark::floor {

// Load on a member, positions along it from its `from`.
struct MemberLoads {
  mechanics::Loads dead;
  mechanics::Loads live;
  mechanics::Loads snow;
  // All of it at once, and what rests on it brings when all of the floor is loaded: for the balance.
  mechanics::Loads full;
  double tributary_in = 0;  // widest, square to the member
};

// One force at one place: dead, and the most and least that live load and snow can make of it.
struct Effect {
  double dead = 0;
  double live_most = 0;
  double live_least = 0;
  double snow_most = 0;
  double snow_least = 0;
};

struct ForceStation {
  double along_in = 0;  // from the member's `from`
  Effect moment_inlb;
  Effect shear_before_lb;  // shear jumps at rests and points
  Effect shear_after_lb;
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
  Effect reaction_lb;
  double full_lb = 0;  // with all loads on
};

struct MemberForces {
  bool solved = false;
  std::vector<ForceStation> stations;
  std::vector<ForceSpan> spans;
  std::vector<ForceRest> rests;
};

// Over a rest of which nobody said whether the member is spliced there: as one piece, or as two.
enum class Unsaid { continuous, spliced };
MemberForces member_forces(const Member& member, const MemberLoads& loads, double creep, Unsaid unsaid = Unsaid::continuous);
// Whether such a rest lies between others.
bool splice_unsaid(const Member& member);
inline double creep_of(const Member& member) { return member.wet ? 2.0 : 1.5; }  // Kcr, NDS 3.5.2

// What is left of the member's own section at a place; nothing when it is gone.
std::optional<mechanics::Section> section_at(const Member& member, double along_in);
// The zone at a place, rot first; null when sound.
const DecayZone* zone_at(const Member& member, double along_in);
// Nothing of it is left somewhere between its ends, and no sister bridges it.
bool cut_through(const Member& member);

inline constexpr double kGradedDown_in = 12;  // along the grain from rot (outside DC-01, DC-08)
bool near_rot(const Member& member, double along_in);
// The design values property by property no better than No. 3 of the same species.
mechanics::DesignValues graded_down(const Member& member);

}  // namespace awlmark::floor
