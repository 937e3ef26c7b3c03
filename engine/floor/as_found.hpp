// The floor as it stands: loads, checks of members and deck, and what was taken for granted.
#pragma once

#include "floor/floor.hpp"
#include "floor/member_checks.hpp"
#include "floor/model.hpp"

namespace awlmark::floor {

// Members and deck by the same functions that judge the rebuild options.
FloorChecks check_model(const Model& model);

AsFound as_found(const Job& job, const Model& model, const FloorChecks& checks);
std::vector<FramingLine> framing_of(const Job& job, const Model& model);

}  // namespace awlmark::floor
