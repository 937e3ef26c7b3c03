// Figures of data/cut_rules.csv and the prices per foot and square foot. Internal to the room.
#pragma once

#include <string>

#include "base/reason.hpp"
#include "job/job.hpp"

namespace awlmark::cutback {

double figure(const std::string& id);
// Source, edition, place and status of that row, and what it is.
Reason figure_reason(const std::string& id);

// Money, from the job's own rates where it gives them and else from data/rates.csv.
struct Prices {
  double leave_per_sf = 0;
  double tear_out_per_sf = 0;
  double rip_per_ft = 0;
  double cross_on_support_per_ft = 0;
  double cross_in_air_per_ft = 0;  // with its blocking
  double blocking_per_ft = 0;
  double patch = 0;  // of one opening in a finish that stays
};
Prices prices_of(const Job& job);

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
