// How far a floor may bend: the code's limits and the finish's, from data/deflection.csv.
#pragma once

#include <optional>

#include "base/reason.hpp"
#include "job/words.hpp"

namespace awlmark::floor {

struct Limit {
  double over = 360;  // span / over
  Reason reason;
};

// Live load, along supports and between them: the stricter of code, finish and the job's own figure.
Limit live_limit(Finish finish, std::optional<double> job_over);
Limit total_limit();
// 300 lb on one spot, along and between.
Limit point_limit(Finish finish, std::optional<double> job_over);

}  // namespace awlmark::floor
