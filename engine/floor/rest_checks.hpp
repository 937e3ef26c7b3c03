// Where a member rests: bearing across the grain, uplift, the post and the pad under it, and what rot
// on top of a girder leaves for boards and nails.
#pragma once

#include "floor/member_checks.hpp"

namespace awlmark::floor {

void check_rests(const Member& member, const MemberForces& forces, FloorChecks& out);

}  // namespace awlmark::floor
