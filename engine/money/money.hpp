// What a mistake, an opening and a foot of cut cost: the money by which survey and cut-back decide.
// The job's own answers (`rates`) where it gives them, else data/rates.csv. US dollars.
#pragma once

#include "job/job.hpp"

namespace awlmark::money {

struct Stakes {
  double leave_unsound_per_sf = 0;   // what it costs later to have left unsound wood under a new floor
  double tear_out_sound_per_sf = 0;  // tearing out and putting back wood that was sound
  double opening = 0;                // one opening made and closed
  double patch_per_opening = 0;      // of a finish that stays, about a square foot
  double only_toilet_per_day = 0;    // a household without its only toilet
  double labour_per_hour = 0;
  double rip_per_ft = 0;  // cuts, by kind
  double cross_on_support_per_ft = 0;
  double cross_in_air_per_ft = 0;  // with its blocking
  double blocking_per_ft = 0;
};

Stakes stakes_of(const Job& job);

}  // namespace awlmark::money
