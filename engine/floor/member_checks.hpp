// Checks of members by the NDS (ASD), each with its reason, in every load combination of ASCE 7-16 2.4.1.
//
// A member is checked at every station with what is left of it there. Wood within 12 in. of rot
// along the member counts as No. 3, the lowest grade: decay weakens wood before an awl feels it
// (data: outside/wood_floor.json DC-01, DC-08). Size and stability factors are those of the whole
// section, so that a smaller rest of a section never gains by them. A sister shares by stiffness,
// and takes all where nothing is left of the old member.
// A member that is old, sound and no more loaded than before keeps its former strength: a figure past
// today's code is said (`stands`), and fails only where stress passes 1.5 times the allowed one.
#pragma once

#include <string>
#include <vector>

#include "base/reason.hpp"
#include "floor/member_forces.hpp"
#include "floor/model.hpp"
#include "floor/paths.hpp"

namespace awlmark::floor {

// A rest that a member wants to lift off when only some spans are loaded.
struct Lift {
  std::string member;
  double lb = 0;
};

struct FloorChecks {
  std::vector<Check> checks;
  std::vector<Lift> lifts;
  std::vector<std::string> words;
  std::vector<std::string> asks;  // to be measured or confirmed; no check hangs on it alone
  bool ok = true;
};

inline constexpr double kDangerous = 1.5;  // of the allowed stress (Uniform Code for the Abatement of Dangerous Buildings 302, from memory)

void add(FloorChecks& out, Check check);
// The same for a member, which may stand as it was.
void add_for(FloorChecks& out, const Member& member, Check check);

// Checks of every member that carries load.
FloorChecks check_members(const Model& model, const Paths& paths);
// The same of one member under loads given.
void check_one_member(const Model& model, const Member& member, const MemberLoads& loads, FloorChecks& out);
// Whether a member passes under the loads of the whole model, whatever its standing.
bool member_passes(const Model& model, std::size_t index, Case which);
// "joist j1, 2x8"
std::string member_words(const Member& member);

// Notches and holes (cut_checks.cpp).
void check_cuts(const Member& member, const MemberForces& forces, FloorChecks& out);

}  // namespace awlmark::floor
