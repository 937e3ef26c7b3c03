// Checks where members rest: bearing, posts, footings, and the top edge that boards sit on.
#pragma once

#include "floor/member_checks.hpp"

namespace awlmark::floor {

void check_rests(const Model& model, const Member& member, const MemberForces& forces, Unsaid how, FloorChecks& out);

// Breadth over which a sister bears at a rest: all of it, or what the post or its cap leaves beside the old member.
double sister_bearing_in(const Member& member, const plan::Rest& rest);

}  // namespace awlmark::floor
