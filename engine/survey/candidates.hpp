// The job's stakes and the places where one could look: what each look shows and what it costs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "survey/openings.hpp"
#include "survey/plan.hpp"

namespace awlmark::survey {

struct SurveyRates {
  double leave_unsound_per_sf = 0;
  double tear_out_sound_per_sf = 0;
  double opening = 0;
  double labour_per_hour = 0;
  double patch_per_opening = 0;
  double only_toilet_per_day = 0;
};
// The job's own, else data/rates.csv.
SurveyRates rates_of(const Job& job);

struct Candidate {
  Look look;
  Point at_in;
  double cost = 0;
  std::optional<std::string> lifts, support, wall;
  bool free = false;  // the floor there goes anyway
  bool from_below = false;
};

// Wood about which one decides, in blocks of about `block_in`; layers that go anyway and materials
// that cannot decay are no stakes. Members and plates count as one square foot a foot.
std::vector<Stake> stakes_of(const Job& job, const SurveyPlan& plan, const SurveyRates& rates, double block_in);

// The look at a point of the floor: every layer there that an awl can read, and a member or plate
// that the opening bares. Nothing when no layer lies there.
std::optional<Candidate> floor_candidate(const Job& job, const SurveyPlan& plan, const SurveyRates& rates, Point at_in);
std::optional<Candidate> line_candidate(const Job& job, const SurveyPlan& plan, const SurveyRates& rates, const LineStations& line, double along_in);

// Candidates over the room about `step_in` apart, along members and along walls.
std::vector<Candidate> candidates_of(const Job& job, const SurveyPlan& plan, const SurveyRates& rates, double step_in);

}  // namespace awlmark::survey
