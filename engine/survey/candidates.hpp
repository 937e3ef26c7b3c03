// The job's stakes and the places where one could look: what each look shows, what it goes through and
// what it costs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "survey/openings.hpp"
#include "survey/site.hpp"
#include "survey/survey.hpp"

namespace awlmark::survey {

struct Candidate {
  Look look;
  Point at_in;
  double cost = 0;
  std::optional<std::string> lifts, support, wall;
  bool free = false;  // the floor there goes anyway, or lies bare
  Act act = Act::open;
  Vantage from = Vantage::above;
  std::vector<Point> probes_in;
  std::vector<std::size_t> pierces;  // layers
  std::string how;                   // what is done, where the act alone does not say it
};

// Wood about which one decides, in blocks of about `block_in`; layers that go anyway and materials
// that cannot decay are no stakes. Members and plates count as one square foot a foot.
std::vector<Stake> stakes_of(const Job& job, const SurveyPlan& plan, const money::Stakes& rates, double block_in);

// An opening as a slot across the grain: every layer there that an awl can read, at the middle and 4.5 in.
// to either side where that is free, and a member or plate that it bares. Nothing where no layer lies,
// where a presumed layer is in the way, or where the layers were read already. `as_if_cleared` looks past
// the presumption: for the worth of a sample, never for a proposal.
std::optional<Candidate> floor_candidate(const Site& site, Point at_in, bool as_if_cleared = false);
// The underside of the lowest layer, from a crawl space or basement: nothing is gone through.
std::optional<Candidate> below_candidate(const Site& site, Point at_in);
// A place along a member or a plate: a member from below where one can, a plate from the side with the base
// off where the floor beside it may not be pierced.
std::optional<Candidate> line_candidate(const Site& site, const LineStations& line, double along_in);
// The same spot once more, ten minutes.
Candidate again_candidate(const Site& site, const Place& place, double noise_sd);

// A sweep of the whole floor with a meter that does not pierce, on a grid; toe-kicks of cabinets; a floor
// that goes taken up and the bare deck read; whatever of these there is.
std::vector<Candidate> wide_candidates(const Site& site);
// The sample where the first opening is wanted: one hole serves both.
Candidate sample_candidate(const Site& site, const Candidate& wanted);
// What licensed removal costs before its first square foot, by the work room's rows.
double removal_cost(const money::Stakes& rates);

// Candidates over the room about `step_in` apart, along members and along walls `along_in` apart.
std::vector<Candidate> candidates_of(const Site& site, double step_in, double along_in);

}  // namespace awlmark::survey
