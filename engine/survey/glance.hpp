// The layer looked at, at once: its chances of unsound and gone wood and nothing else of the survey (no wet, lines,
// draws or proposals), the same figures that survey() gives. For a screen that shows one layer while the rest is
// still worked out.
#pragma once

#include <string>

#include "survey/survey.hpp"

namespace awlmark::survey {

// `layer`: its id; an unknown one gives no field.
Survey glance(const Job& job, const std::string& layer, double cell_in = 3);

}  // namespace awlmark::survey
