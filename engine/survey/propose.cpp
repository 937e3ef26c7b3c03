#include "survey/propose.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "survey/evidence.hpp"

namespace awlmark::survey {
namespace {

constexpr double kCoarse_in = 12;
constexpr double kFine_in = 6;
constexpr std::size_t kExact = 8;   // candidates worked out in full
constexpr std::size_t kPaired = 6;  // candidates tried in pairs before saying stop
constexpr double kLeastApart_in = 18;
constexpr std::size_t kLeastSpots = 4;  // probed before "stop" is said where nothing unsound was found: common practice, no source
constexpr double kSameSpot_in = 1.0;
constexpr double kUrged_sf = 5;  // but not where one look costs more than so much unsound wood left in place
constexpr double kAlike = 1e-6;  // money below which two nets are the same, and the order decides

struct Ranked {
  Candidate candidate;
  double worth = 0;
  double decides_sf = 0;
  double net() const { return worth - candidate.cost; }
};

void rank(std::vector<Ranked>& all) {
  std::stable_sort(all.begin(), all.end(), [](const Ranked& a, const Ranked& b) { return a.net() > b.net() + kAlike; });
}

std::vector<Look> looks_of(const std::vector<Ranked>& ranked) {
  std::vector<Look> looks;
  for (const Ranked& r : ranked) looks.push_back(r.candidate.look);
  return looks;
}

void screen(const LossModel& model, std::vector<Ranked>& ranked) {
  const std::vector<double> worth = model.screen(looks_of(ranked));
  for (std::size_t i = 0; i < ranked.size(); ++i) ranked[i].worth = worth[i];
  rank(ranked);
}

// Neighbours of the best floor candidates, half a step away.
void refine(const Job& job, const SurveyPlan& plan, const SurveyRates& rates, std::vector<Ranked>& best) {
  const std::size_t count = std::min<std::size_t>(best.size(), 4);
  for (std::size_t k = 0; k < count; ++k) {
    if (best[k].candidate.support || best[k].candidate.wall) continue;
    const Point p = best[k].candidate.at_in;
    for (int dy = -1; dy <= 1; ++dy)
      for (int dx = -1; dx <= 1; ++dx) {
        if (dx == 0 && dy == 0) continue;
        if (auto c = floor_candidate(job, plan, rates, {p.x_in + dx * kFine_in, p.y_in + dy * kFine_in})) best.push_back({std::move(*c), 0, 0});
      }
  }
}

std::string money(double dollars) { return "$" + format_number(std::floor(dollars + 0.5), 0); }

std::string chance_in_words(double p) {
  if (p < 0.05) return "almost surely sound";
  if (p < 0.25) return "probably sound";
  if (p < 0.4) return "more likely sound than not";
  if (p <= 0.6) return "an even call";
  if (p <= 0.75) return "more likely unsound than not";
  if (p <= 0.95) return "probably unsound";
  return "almost surely unsound";
}

std::string area_in_words(double sf) { return format_number(sf, sf < 10 ? 1 : 0) + " sq ft"; }

// The layer, member or plate at the spot about which least is known.
std::string open_question(const Job& job, const LossModel& model, const Candidate& candidate) {
  double nearest = 2, chance = 0;
  std::string what;
  const std::size_t layers = job.layers.size(), supports = job.supports.size();
  for (const auto& reading : candidate.look.readings) {
    const double p = model.chance(reading.place);
    if (std::fabs(p - 0.5) >= nearest - 1e-9) continue;
    nearest = std::fabs(p - 0.5);
    chance = p;
    const std::size_t node = static_cast<std::size_t>(reading.place.node);
    if (node < layers)
      what = "the " + job.layers[node].id;
    else if (node < layers + supports)
      what = "member " + job.supports[node - layers].id;
    else
      what = "the plate of wall " + job.walls[node - layers - supports].id;
  }
  return what + " is " + chance_in_words(chance) + " here";
}

std::string where_in_words(const Job& job, const Candidate& candidate) {
  std::string text =
      candidate.wall ? "At the foot of wall " + *candidate.wall + ", " : (candidate.support ? "On member " + *candidate.support + ", " : std::string());
  text += place_in_words(job, candidate.at_in);
  if (candidate.from_below) text += ", from below";
  return text;
}

NextOpening worded(const Job& job, const LossModel& model, const Ranked& ranked, const std::string& extra) {
  NextOpening next;
  next.at_in = ranked.candidate.at_in;
  next.worth = ranked.worth;
  next.cost = ranked.candidate.cost;
  next.net = ranked.net();
  next.lifts = ranked.candidate.lifts;
  next.support = ranked.candidate.support;
  next.wall = ranked.candidate.wall;
  std::string why = where_in_words(job, ranked.candidate) + ": " + open_question(job, model, ranked.candidate);
  if (ranked.decides_sf > 0.05) why += ", and what it shows may turn the decision on " + area_in_words(ranked.decides_sf);
  if (ranked.candidate.lifts) why += "; the " + *ranked.candidate.lifts + " has to be lifted for it";
  if (ranked.candidate.free) why += "; it costs nothing, since the floor there goes or is already open";
  next.why = why + extra + ".";
  return next;
}

bool crowded(const std::vector<NextOpening>& chosen, Point p) {
  return std::any_of(chosen.begin(), chosen.end(), [&](const NextOpening& n) { return distance_in(n.at_in, p) < kLeastApart_in; });
}

// Two looks that pay together though neither pays alone.
bool pair_pays(const Job& job, const LossModel& model, const std::vector<Ranked>& best, Proposal& proposal) {
  double most = kAlike;
  std::size_t first = 0, second = 0;
  const std::size_t count = std::min(kPaired, best.size());
  double both = 0;
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t j = i + 1; j < count; ++j) {
      if (distance_in(best[i].candidate.at_in, best[j].candidate.at_in) < kLeastApart_in) continue;
      const double worth = model.screen_pair(best[i].candidate.look, best[j].candidate.look);
      const double net = worth - best[i].candidate.cost - best[j].candidate.cost;
      if (net <= most + kAlike) continue;
      most = net;
      first = i;
      second = j;
      both = worth;
    }
  if (second == 0) return false;
  for (const auto& [one, other] : {std::pair{first, second}, std::pair{second, first}}) {
    Ranked half = best[one];
    half.worth = both / 2;
    proposal.openings.push_back(worded(job, model, half, "; it pays only together with the opening " + place_in_words(job, best[other].candidate.at_in)));
  }
  return true;
}

// Someone had a reason to look, and the chances do not know it: while every probe was sound, a few
// places are looked into before "stop", whether or not each pays by itself.
bool too_early_to_stop(const Job& job) {
  std::vector<Point> spots;
  for (const Mark& mark : job.marks) {
    const auto at = place_of(job, mark);
    if (mark.tool != Tool::awl || !mark.reads || !at) continue;
    if (*mark.reads != Reading::sound) return false;
    if (std::none_of(spots.begin(), spots.end(), [&](Point p) { return distance_in(p, *at) <= kSameSpot_in; })) spots.push_back(*at);
  }
  return spots.size() < kLeastSpots;
}

std::string why_stop(const Job& job, const LossModel& model, const std::vector<Ranked>& best) {
  const std::string left = "deciding now is expected to cost " + money(model.loss_now()) + " in wood wrongly left or taken";
  if (best.empty()) return "Stop opening: there is no place left to look into; " + left + ".";
  return "Stop opening: no opening, nor any two together, is expected to save what it costs; the best, " + place_in_words(job, best[0].candidate.at_in) +
         ", would save " + money(best[0].worth) + " and cost " + money(best[0].candidate.cost) + "; " + left + ".";
}

}  // namespace

std::string place_in_words(const Job& job, Point at) {
  const Box box = bounds(job.room.outline_in);
  const auto inches = [](double d) { return format_length(std::floor(d * 2 + 0.5) / 2); };
  return inches(at.x_in - box.x0_in) + " from the left wall and " + inches(at.y_in - box.y0_in) + " from the front";
}

Proposal propose(const Job& job, const SurveyPlan& plan, const Fit& fit, int count) {
  Proposal proposal;
  const SurveyRates rates = rates_of(job);
  const Box box = bounds(job.room.outline_in);
  // Larger rooms get larger blocks, so that the search costs about the same.
  const double wider = std::max(1.0, std::sqrt(box.width_in() * box.height_in() / (144.0 * 144.0)));
  const std::vector<Stake> coarse = stakes_of(job, plan, rates, kCoarse_in * wider);
  if (coarse.empty()) {
    proposal.stop = true;
    proposal.stop_why = "Stop opening: no wood is left here about which there is anything to decide.";
    return proposal;
  }
  std::vector<Ranked> ranked;
  for (Candidate& c : candidates_of(job, plan, rates, kCoarse_in * wider)) ranked.push_back({std::move(c), 0, 0});
  screen(LossModel(fit, coarse, 4, 0.9), ranked);
  if (ranked.size() > 2 * kExact) ranked.resize(2 * kExact);
  refine(job, plan, rates, ranked);
  const LossModel fine(fit, stakes_of(job, plan, rates, kFine_in * wider), 6, 0.95);
  screen(fine, ranked);
  if (ranked.size() > kExact) ranked.resize(kExact);
  for (Ranked& r : ranked) {
    const LookValue value = fine.value(r.candidate.look);
    r.worth = value.worth;
    r.decides_sf = value.decides_sf;
  }
  rank(ranked);
  for (const Ranked& r : ranked)
    if (static_cast<int>(proposal.openings.size()) < count && r.net() > kAlike && !crowded(proposal.openings, r.candidate.at_in))
      proposal.openings.push_back(worded(job, fine, r, ""));
  if (proposal.openings.empty() && !pair_pays(job, fine, ranked, proposal)) {
    if (!ranked.empty() && ranked[0].candidate.cost <= kUrged_sf * rates.leave_unsound_per_sf && too_early_to_stop(job)) {
      proposal.openings.push_back(worded(job, fine, ranked[0],
                                         "; nothing unsound has been found yet, so " + std::to_string(kLeastSpots) +
                                             " places are probed before stopping, whether or not each pays by itself"));
      return proposal;
    }
    proposal.stop = true;
    proposal.stop_why = why_stop(job, fine, ranked);
  }
  return proposal;
}

}  // namespace awlmark::survey
