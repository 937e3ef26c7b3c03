// What lies on each member: the deck's even load by strips, fixtures and walls by the lever rule.
//
// The deck carries along its boards to the supports on either side: an even load by the share that the
// lever rule gives, and past the last support that was drawn the floor goes on for half a bay on that
// support alone. The deck outside the room keeps the direction and weight that it was found with, so
// that an option which turns the boards inside it still loads the old members outside. A dropped bay
// is a deck of its own on its own joists.
#pragma once

#include <vector>

#include "floor/member_forces.hpp"
#include "floor/model.hpp"

namespace awlmark::floor {

// Own weight, deck, fixtures and walls; not yet what members bring to each other (paths.hpp).
std::vector<MemberLoads> own_loads(const Model& model, Case which);

// The same load measured over the plan instead of along the members: dead, live, fixtures and walls over
// the framing drawn and half a bay beyond it, and the members' own weight.
double applied_lb(const Model& model, Case which);

// Equal neighbours become one, spots of one short strip become one: a thousand points would slow the beam solver.
void gather(mechanics::Loads& loads, double length_in);

}  // namespace awlmark::floor
