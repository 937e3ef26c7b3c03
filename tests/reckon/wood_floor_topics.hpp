// The kinds of published cases that have a file of their own; each compares what it can of one case.
#pragma once

#include "reckon/ask.hpp"

namespace awlmark::testing {

// wood_floor_beams.cpp
void beam_formula(Case& c);
// wood_floor_lumber.cpp
void reference_values(Case& c);
void factors(Case& c);
void sections(Case& c);
void wood(Case& c);

}  // namespace awlmark::testing
