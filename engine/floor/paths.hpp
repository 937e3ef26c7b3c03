// Every pound's way down: members solved in order, each bringing its reactions to what carries it.
//
// A member with fewer than two rests is a mechanism unless a ledger or wall holds it all along; so is a
// ring of members that carry each other, and a member on two rests that is rotted through between them.
// A mechanism carries nothing, and what it should have carried is missing from the sum.
#pragma once

#include <vector>

#include "floor/floor.hpp"
#include "floor/loads.hpp"

namespace awlmark::floor {

struct Paths {
  std::vector<MemberLoads> loads;  // with what the members above bring
  std::vector<MemberForces> forces;
  std::vector<bool> mechanism;
  std::vector<bool> in_ring;
  Balance balance;
};
Paths load_paths(const Model& model, Case which);

// Total of one member's own and brought loads, all on; what "loaded more" is measured by.
double total_lb(const mechanics::Loads& loads);

}  // namespace awlmark::floor
