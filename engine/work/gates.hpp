// Which task carries which gate.
#pragma once

#include <string>
#include <vector>

#include "hazards/hazards.hpp"
#include "work/work.hpp"

namespace awlmark::work {

// Each gate on the first task that does what it guards; where no task of that kind is in the job, on the
// first one of the next kind that is, so that no gate is lost. `row_ids`: the table's row of each task.
void hang_gates(const hazards::Hazards& found, const std::vector<std::string>& row_ids, std::vector<Task>& tasks);

}  // namespace awlmark::work
