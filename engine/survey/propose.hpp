// The best few openings, or stop, in the words of the trade.
#pragma once

#include "survey/candidates.hpp"
#include "survey/survey.hpp"

namespace awlmark::survey {

struct Proposal {
  std::vector<NextOpening> openings;
  bool stop = false;
  std::string stop_why;
  std::vector<std::string> holds;  // what must be read, or come back from the laboratory, before work starts
};
Proposal propose(const Site& site, const Fit& fit, int count);

// Readings of a lone unsound mark amid sound ones: the fit's chance there is below one in two.
struct Doubt {
  std::size_t observation = 0;
  double chance = 0;
};
std::vector<Doubt> doubted(const Fit& fit);

}  // namespace awlmark::survey
