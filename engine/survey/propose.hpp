// The best few openings, or stop, in the words of the trade.
#pragma once

#include "survey/candidates.hpp"
#include "survey/survey.hpp"

namespace awlmark::survey {

struct Proposal {
  std::vector<NextOpening> openings;
  bool stop = false;
  std::string stop_why;
};
Proposal propose(const Job& job, const SurveyPlan& plan, const Fit& fit, int count);

// "3' 2" from the left wall, 4' 1" from the front": a place as one tapes it off.
std::string place_in_words(const Job& job, Point at_in);

}  // namespace awlmark::survey
