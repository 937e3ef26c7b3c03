// What must be held while the floor is open, and how much of it may be open at once.
#pragma once

#include "cutback/cutback.hpp"
#include "floor/floor.hpp"
#include "floor/member_checks.hpp"
#include "floor/model.hpp"

namespace awlmark::floor {

// `members`: the checks of the members as found; a member with rot that fails one is shored on both sides.
WhileOpen while_open(const Job& job, const Model& model, const cutback::CutBack& cut_back, const FloorChecks& members);

// Loads between two places of a member only.
MemberLoads clip_loads(const MemberLoads& loads, double from_in, double to_in);

}  // namespace awlmark::floor
