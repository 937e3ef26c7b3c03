// Figures of data/cut_rules.csv. Internal to the room; what cuts and mistakes cost is in money/money.hpp.
#pragma once

#include <string>

#include "base/reason.hpp"
#include "job/job.hpp"

namespace awlmark::cutback {

double figure(const std::string& id);
// Source, edition, place and status of that row, and what it is.
Reason figure_reason(const std::string& id);

// Rules of the trade as this job has them.
struct Rules {
  double margin_in = 0;
  bool margin = true;
  bool ends_on_support = true;
  bool two_supports = true;
  bool stagger = true;
  bool no_slivers = true;
  bool spare_bearing_walls = true;
  bool contaminated_goes = true;
};
Rules rules_of(const Job& job);

}  // namespace awlmark::cutback
