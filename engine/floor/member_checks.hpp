// Checks of members, posts and rests, by the NDS (ASD), each with its reason.
//
// A member is checked at every station with what is left of it there. Wood within 12 in. of rot
// along the member counts as No. 3, the lowest grade: decay weakens wood before an awl feels it
// (data: outside/wood_floor.json DC-01, DC-08). Size and stability factors are those of the whole
// section, so that a smaller rest of a section never gains by them. A sister shares by stiffness,
// and takes all where nothing is left of the old member.
#pragma once

#include <string>
#include <vector>

#include "base/reason.hpp"
#include "floor/layout.hpp"
#include "floor/member_forces.hpp"
#include "floor/model.hpp"

namespace awlmark::floor {

inline constexpr double kGradedDown_in = 12;

struct FloorChecks {
  std::vector<Check> checks;
  std::vector<std::string> words;
  bool ok = true;
};

void add(FloorChecks& out, Check check);

// Checks of every member that carries load; `dry` once the work is done, else wet members count wet.
FloorChecks check_members(const Model& model);
// The same of one member under loads given.
void check_one_member(const Model& model, const Member& member, const MemberLoads& loads, FloorChecks& out);
// "joist j1, 2x8"
std::string member_words(const Member& member);

}  // namespace awlmark::floor
