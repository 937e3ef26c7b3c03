// What must be held while the floor is open, and how much of it may be open at once.
#pragma once

#include "cutback/cutback.hpp"
#include "floor/floor.hpp"
#include "floor/member_checks.hpp"
#include "floor/model.hpp"

namespace awlmark::floor {

// `members`: the checks of the members as found; a member with rot that fails one is shored on both sides.
WhileOpen while_open(const Job& job, const Model& model, const cutback::CutBack& cut_back, const FloorChecks& members);

// Loads between two places of a member only, counted from the first.
MemberLoads shift_loads(const MemberLoads& loads, double from_in, double to_in);
// A shore on a pad, its load stated.
Shore shore_of(const Model& model, std::size_t number, const std::string& under, Point at, double load_lb, const std::string& what);
inline constexpr double kWallHeld_ft = 4;  // of a wall that one pair of shores holds

}  // namespace awlmark::floor
