// The beam formula cases: from the words of a case to the topic's input, and its figures to the answer's.
#pragma once

namespace awlmark::testing {

class Case;
void beam_formula(Case& c);

}  // namespace awlmark::testing
