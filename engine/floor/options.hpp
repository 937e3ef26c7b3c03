// The rebuild options that this floor allows, each checked like the floor itself, ranked.
//
// Order: those that pass every check first; of these the ones that give the shower entry asked for;
// then those that need no engineer; then by cost, a tenth dearer for each inch that the floor rises.
#pragma once

#include <vector>

#include "floor/option_plan.hpp"

namespace awlmark::floor {

std::vector<Option> rebuild_options(const Site& site, std::vector<std::string>& cautions);

}  // namespace awlmark::floor
