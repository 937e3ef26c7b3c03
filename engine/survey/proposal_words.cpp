#include "survey/proposal_words.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"

namespace awlmark::survey {
namespace {

using hazards::Before;

// What the act is guarded by: the steps whose gates must be true before it.
std::vector<Before> steps_of(const Candidate& candidate) {
  std::vector<Before> steps{Before::touching};
  if (candidate.from == Vantage::below) steps.push_back(Before::entering);
  if (candidate.act == Act::open || candidate.act == Act::strip) steps.push_back(Before::opening);
  if (candidate.lifts) steps.push_back(Before::lifting);
  if (candidate.act == Act::strip) {
    steps.push_back(Before::lifting);
    steps.push_back(Before::cutting);
  }
  return steps;
}

// The layer, member or plate at the spot about which least is known.
std::string open_question(const Site& site, const LossModel& model, const Candidate& candidate) {
  double nearest = 2, chance = 0;
  std::string what;
  for (const auto& reading : candidate.look.readings) {
    Place place = reading.place;
    place.attribute = kRot;
    const double p = model.chance(place);
    if (std::fabs(p - 0.5) >= nearest - 1e-9) continue;
    nearest = std::fabs(p - 0.5);
    chance = p;
    what = node_in_words(site.job(), place.node);
  }
  return what + " is " + chance_in_words(chance) + (candidate.probes_in.size() > 3 ? " at the most doubtful of them" : " here");
}

std::string where_in_words(const Site& site, const Candidate& candidate) {
  std::string text =
      candidate.wall ? "At the foot of wall " + *candidate.wall + ", " : (candidate.support ? "On member " + *candidate.support + ", " : std::string());
  text += site.say(candidate.at_in);
  if (candidate.from == Vantage::below) text += ", from below";
  if (candidate.act == Act::probe_again) text = "Probe again here: " + text;
  return text;
}

}  // namespace

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

std::string node_in_words(const Job& job, int node) {
  const std::size_t n = static_cast<std::size_t>(node), layers = job.layers.size(), supports = job.supports.size();
  if (n < layers) return "the " + job.layers[n].id;
  if (n < layers + supports) return "member " + job.supports[n - layers].id;
  return "the plate of wall " + job.walls[n - layers - supports].id;
}

NextOpening worded(const Site& site, const LossModel& model, const Ranked& ranked, const std::string& extra) {
  const Candidate& candidate = ranked.candidate;
  NextOpening next;
  next.at_in = candidate.at_in;
  next.worth = ranked.worth;
  next.cost = candidate.cost;
  next.net = ranked.net();
  next.lifts = candidate.lifts;
  next.support = candidate.support;
  next.wall = candidate.wall;
  next.act = candidate.act;
  next.from = candidate.from;
  next.probes_in = candidate.probes_in;
  next.pierces = site.ids(candidate.pierces);
  next.gates = site.gates_before(steps_of(candidate));
  std::string why = where_in_words(site, candidate);
  if (!candidate.how.empty()) why += ": " + candidate.how;
  why += (candidate.how.empty() ? ": " : "; ") + open_question(site, model, candidate);
  const double room_sf = area_in2(site.job().room.outline_in) / 144;
  if (ranked.decides_sf > 0.05) why += ", and what it shows may turn the decision on " + area_in_words(std::min(ranked.decides_sf, room_sf));
  if (candidate.act == Act::open && candidate.probes_in.size() > 1)
    why += "; one slot across the boards, probed at " + std::to_string(candidate.probes_in.size()) + " spots";
  if (candidate.lifts) why += "; the " + *candidate.lifts + " has to be lifted for it";
  if (candidate.free && candidate.act != Act::strip) why += "; it costs only the time, since the floor there goes or is already open";
  next.why = why + extra + ".";
  return next;
}

}  // namespace awlmark::survey
