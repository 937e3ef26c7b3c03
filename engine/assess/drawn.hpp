// Findings from the floor's own frame (plan/turn.hpp) back to the drawing of the person who asks.
#pragma once

#include "findings/findings.hpp"
#include "plan/turn.hpp"

namespace awlmark {

void turn_back(Findings& findings, const plan::Turn& turn);

}  // namespace awlmark
