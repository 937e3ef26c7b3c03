// What the places of survey.hpp's place_in_words are measured from.
#pragma once

#include <optional>
#include <string>

#include "job/job.hpp"
#include "plan/turn.hpp"

namespace awlmark::survey {

// "wall w4" and "wall w1", or "the left wall" and "the front wall".
struct MeasuredFrom {
  std::string left;
  std::string front;
};
MeasuredFrom measured_from(const Job& job, const std::optional<plan::Turn>& turn);

}  // namespace awlmark::survey
