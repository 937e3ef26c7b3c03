#include "survey/propose.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/length.hpp"
#include "base/special.hpp"
#include "survey/evidence.hpp"
#include "survey/holds.hpp"
#include "survey/proposal_words.hpp"

namespace awlmark::survey {
namespace {

constexpr double kCoarse_in = 12;  // stakes of the first ranking, and what lies along lines
constexpr double kFine_in = 6;     // spots that are ranked, and stakes of the last
constexpr double kMostWork = 8e7;  // of the first ranking; more readings rank a wider lattice, up to kCoarse_in
constexpr double kApart_in = 8;    // of two spots that both go on to the last ranking
constexpr std::size_t kGoOn = 16;
constexpr std::size_t kExact = 8;   // candidates worked out in full
constexpr std::size_t kPaired = 6;  // candidates tried in pairs before saying stop
constexpr double kLeastApart_in = 18;
constexpr std::size_t kLeastSpots = 4;  // probed before "stop" is said where nothing unsound was found: common practice, no source
constexpr double kSameSpot_in = 1.0;
constexpr double kUrged_sf = 5;       // but not where one look costs more than so much unsound wood left in place
constexpr double kAlike = 1e-6;       // money below which two nets are the same, and the order decides
constexpr double kClearChance = 0.5;  // that a suspect layer turns out free of asbestos: nobody knows, no source
constexpr double kSurely = 0.95;
constexpr std::size_t kMostSettings = 24;
constexpr double kShare = 0.99;  // of the settings' weight that chooses

void rank(std::vector<Ranked>& all) {
  std::stable_sort(all.begin(), all.end(), [](const Ranked& a, const Ranked& b) { return a.net() > b.net() + kAlike; });
}

// What a first ranking needs of a look: its lowest wood and the lines that it bares, at the slot's middle.
Look middle_of(const Candidate& candidate, std::size_t layers) {
  if (candidate.probes_in.size() > 3) return candidate.look;
  Look look;
  bool floor = false;
  for (auto reading = candidate.look.readings.rbegin(); reading != candidate.look.readings.rend(); ++reading) {
    const bool aside = std::any_of(candidate.probes_in.begin() + 1, candidate.probes_in.end(), [&](Point p) { return p == reading->place.at_in; });
    const bool layer = reading->place.node < static_cast<int>(layers);
    if (aside || (layer && floor)) continue;
    floor = floor || layer;
    look.readings.push_back(*reading);
  }
  return look;
}

void screen(const LossModel& model, std::vector<Ranked>& ranked, std::optional<std::size_t> middles_of_layers = std::nullopt) {
  std::vector<Look> looks;
  for (const Ranked& r : ranked) looks.push_back(middles_of_layers ? middle_of(r.candidate, *middles_of_layers) : r.candidate.look);
  const std::vector<double> worth = model.screen(looks);
  for (std::size_t i = 0; i < ranked.size(); ++i) ranked[i].worth = worth[i];
  rank(ranked);
}

// The best that do not lie beside a better one of their kind.
void keep_apart(std::vector<Ranked>& ranked) {
  std::vector<Ranked> kept;
  for (Ranked& r : ranked) {
    if (kept.size() == kGoOn) break;
    const bool beside = std::any_of(kept.begin(), kept.end(), [&](const Ranked& k) {
      return k.candidate.act == r.candidate.act && k.candidate.from == r.candidate.from && distance_in(k.candidate.at_in, r.candidate.at_in) < kApart_in;
    });
    if (!beside) kept.push_back(std::move(r));
  }
  ranked = std::move(kept);
}

bool crowded(const std::vector<NextOpening>& chosen, Point p) {
  return std::any_of(chosen.begin(), chosen.end(), [&](const NextOpening& n) { return distance_in(n.at_in, p) < kLeastApart_in; });
}

// A sweep or a grid may be begun anywhere on it: where no other proposal lies, when there is such a spot.
void begin_apart(const std::vector<NextOpening>& chosen, Candidate& candidate) {
  if (!crowded(chosen, candidate.at_in)) return;
  for (const Point p : candidate.probes_in)
    if (!crowded(chosen, p)) {
      candidate.at_in = p;
      return;
    }
}

class Proposer {
 public:
  Proposer(const Site& site, const Fit& fit, int count)
      : site_(site),
        fit_(fit),
        count_(count),
        // Larger rooms get larger blocks, so that the search costs about the same.
        wider_(std::max(1.0, std::sqrt(bounds(site.job().room.outline_in).width_in() * bounds(site.job().room.outline_in).height_in() / (144.0 * 144.0)))) {}

  Proposal run() {
    hold();
    const std::vector<Stake> coarse = stakes_of(site_.job(), site_.plan(), site_.rates(), kCoarse_in * wider_);
    if (coarse.empty()) {
      proposal_.stop = true;
      proposal_.stop_why = "Stop opening: no wood is left here about which there is anything to decide.";
      return std::move(proposal_);
    }
    for (Candidate& c : candidates_of(site_, lattice_step(coarse.size()), kCoarse_in * wider_)) ranked_.push_back({std::move(c), 0, 0});
    for (Candidate& c : wide_candidates(site_)) ranked_.push_back({std::move(c), 0, 0});
    for (const Doubt& d : doubted(fit_)) {
      const Observation& o = fit_.observations[d.observation];
      ranked_.push_back({again_candidate(site_, o.place, o.noise_sd), 0, 0});
    }
    screen(LossModel(fit_, coarse, kMostSettings, kShare), ranked_, site_.job().layers.size());
    keep_apart(ranked_);
    const LossModel fine(fit_, stakes_of(site_.job(), site_.plan(), site_.rates(), kFine_in * wider_), kMostSettings, kShare);
    screen(fine, ranked_);
    if (ranked_.size() > kExact) ranked_.resize(kExact);
    for (Ranked& r : ranked_) value(fine, r);
    sample(fine);
    rank(ranked_);
    choose(fine);
    if (proposal_.openings.empty() && !pair_pays(fine)) end(fine);
    return std::move(proposal_);
  }

 private:
  // As fine as the work allows.
  double lattice_step(std::size_t stakes) const {
    const Box box = bounds(site_.job().room.outline_in);
    const double fine = kFine_in * wider_, spots = box.width_in() * box.height_in() / (fine * fine);
    const double work = spots * static_cast<double>(stakes * std::min(fit_.members.size(), kMostSettings)) * (6 + static_cast<double>(fit_.places.size()));
    return fine * std::clamp(std::sqrt(work / kMostWork), 1.0, kCoarse_in / kFine_in);
  }

  static void value(const LossModel& model, Ranked& r) {
    const LookValue value = model.value(r.candidate.look);
    r.worth = value.worth;
    r.decides_sf = value.decides_sf;
  }

  void hold() {
    unread_ = unread_below(site_);
    for (const Unread& u : unread_) proposal_.holds.push_back(hold_in_words(site_, u));
    std::string layers;
    for (const std::string& id : site_.hazards().presumed_layers) layers += (layers.empty() ? "" : ", ") + id;
    if (!layers.empty()) proposal_.holds.push_back("Laboratory result for " + layers + " with backing and glue, before anything is cut through it.");
  }

  // What a clear answer of the laboratory saves, at even chances of one: the best opening that the presumption
  // keeps shut, and, as far as wood below is likely to come out anyway, the licensed removal.
  void sample(const LossModel& model) {
    if (!site_.any_presumed()) return;
    std::vector<Ranked> shut;
    const Box box = bounds(site_.job().room.outline_in);
    const double step = kCoarse_in * wider_;
    for (double y = box.y0_in + step / 2; y < box.y1_in; y += step)
      for (double x = box.x0_in + step / 2; x < box.x1_in; x += step)
        if (site_.blocked(site_.stack_at({x, y})))
          if (auto c = floor_candidate(site_, {x, y}, true)) shut.push_back({std::move(*c), 0, 0});
    if (shut.empty()) return;
    screen(model, shut);
    if (shut[0].net() <= kAlike) return;  // no opening would pay there, cleared or not
    double comes_out = 0;
    for (const Ranked& r : shut)
      for (const auto& reading : r.candidate.look.readings) {
        if (comes_out > kSurely) break;
        comes_out = std::max(comes_out, model.chance(reading.place));
      }
    const double worth = kClearChance * (shut[0].worth + comes_out * removal_cost(site_.rates()));
    ranked_.push_back({sample_candidate(site_, shut[0].candidate), worth, 0});
  }

  void choose(const LossModel& model) {
    for (Ranked& r : ranked_) {
      if (static_cast<int>(proposal_.openings.size()) >= count_) return;
      if (r.candidate.act == Act::sweep || r.candidate.act == Act::strip) begin_apart(proposal_.openings, r.candidate);
      if (r.net() > kAlike && !crowded(proposal_.openings, r.candidate.at_in)) proposal_.openings.push_back(worded(site_, model, r, ""));
    }
  }

  // Two looks that pay together though neither pays alone.
  bool pair_pays(const LossModel& model) {
    double most = kAlike, both = 0;
    std::size_t first = 0, second = 0;
    const std::size_t count = std::min(kPaired, ranked_.size());
    for (std::size_t i = 0; i < count; ++i)
      for (std::size_t j = i + 1; j < count; ++j) {
        if (ranked_[i].candidate.act == Act::sample || ranked_[j].candidate.act == Act::sample) continue;
        if (distance_in(ranked_[i].candidate.at_in, ranked_[j].candidate.at_in) < kLeastApart_in) continue;
        const double worth = model.screen_pair(ranked_[i].candidate.look, ranked_[j].candidate.look);
        const double net = worth - ranked_[i].candidate.cost - ranked_[j].candidate.cost;
        if (net <= most + kAlike) continue;
        most = net;
        first = i;
        second = j;
        both = worth;
      }
    if (second == 0) return false;
    for (const auto& [one, other] : {std::pair{first, second}, std::pair{second, first}}) {
      Ranked half = ranked_[one];
      half.worth = both / 2;
      proposal_.openings.push_back(worded(site_, model, half, "; it pays only together with the look " + site_.say(ranked_[other].candidate.at_in)));
    }
    return true;
  }

  // Nothing pays any more: what must be read in any case, else stop.
  void end(const LossModel& model) {
    for (const Unread& u : unread_) {
      if (static_cast<int>(proposal_.openings.size()) >= std::max(1, count_)) break;
      auto c = line_candidate(site_, *u.line, u.along_in);
      if (!c || crowded(proposal_.openings, c->at_in)) continue;
      Ranked r{std::move(*c), 0, 0};
      value(model, r);
      proposal_.openings.push_back(worded(site_, model, r, "; the wood over it is unsound, so it is read before work starts, whether or not that pays"));
    }
    if (!proposal_.openings.empty()) return;
    if (!ranked_.empty() && ranked_[0].candidate.cost <= kUrged_sf * site_.rates().leave_unsound_per_sf && too_early_to_stop()) {
      proposal_.openings.push_back(worded(site_, model, ranked_[0],
                                          "; nothing unsound has been found yet, so " + std::to_string(kLeastSpots) +
                                              " places are probed before stopping, whether or not each pays by itself"));
      return;
    }
    proposal_.stop = true;
    proposal_.stop_why = why_stop(model);
  }

  // Someone had a reason to look, and the chances do not know it: while every probe was sound, a few
  // places are looked into before "stop", whether or not each pays by itself.
  bool too_early_to_stop() const {
    std::vector<Point> spots;
    for (const Mark& mark : site_.job().marks) {
      const auto at = place_of(site_.job(), mark);
      if (mark.tool != Tool::awl || !mark.reads || !at) continue;
      if (*mark.reads != Reading::sound) return false;
      if (std::none_of(spots.begin(), spots.end(), [&](Point p) { return distance_in(p, *at) <= kSameSpot_in; })) spots.push_back(*at);
    }
    return spots.size() < kLeastSpots;
  }

  std::string why_stop(const LossModel& model) const {
    std::string why = "Stop opening: ";
    if (ranked_.empty())
      why += "there is no place left to look into; ";
    else
      why += "no opening, nor any two together, is expected to save what it costs; the best, " + site_.say(ranked_[0].candidate.at_in) + ", would save " +
             money(ranked_[0].worth) + " and cost " + money(ranked_[0].candidate.cost) + "; ";
    why += "deciding now is expected to cost " + money(model.loss_now()) + " in wood wrongly left or taken.";
    return why + far_side(model);
  }

  // The part of the floor that lies farthest from every reading, and what is believed of it.
  std::string far_side(const LossModel& model) const {
    std::vector<Point> marks;
    for (const Place& p : fit_.places) marks.push_back(p.at_in);
    const Layer* deck = structural_deck(site_.job());
    if (marks.empty() || deck == nullptr) return "";
    const std::size_t index = static_cast<std::size_t>(deck - site_.job().layers.data());
    double farthest = 0;
    Point there;
    for (const LayerCells& layer : site_.plan().layers) {
      if (layer.node != layer_node(index)) continue;
      for (const Point c : layer.centres) {
        double nearest = 1e300;
        for (const Point m : marks) nearest = std::min(nearest, distance_in(c, m));
        if (nearest > farthest + 1e-9) {
          farthest = nearest;
          there = c;
        }
      }
    }
    if (farthest < kLeastApart_in) return "";
    return " Nobody looked at the far side, " + site_.say(there) + ": it is " + chance_in_words(model.chance({layer_node(index), kRot, there})) +
           ", by what such leaks usually do. Water that ran along a wall or a seam comes out where nobody expects it.";
  }

  const Site& site_;
  const Fit& fit_;
  int count_;
  double wider_;
  Proposal proposal_;
  std::vector<Ranked> ranked_;
  std::vector<Unread> unread_;
};

}  // namespace

std::vector<Doubt> doubted(const Fit& fit) {
  std::vector<Doubt> all;
  for (std::size_t i = 0; i < fit.observations.size(); ++i) {
    const Observation& o = fit.observations[i];
    if (o.says != Observation::Says::soft && o.says != Observation::Says::gone) continue;
    double chance = 0;
    for (const Member& member : fit.members) {
      const auto k = static_cast<Eigen::Index>(i);
      chance += member.weight * normal_cdf(member.ep.mean[k] / std::sqrt(std::max(1e-12, member.ep.variance[k])));
    }
    if (chance < 0.5) all.push_back({i, chance});
  }
  return all;
}

Proposal propose(const Site& site, const Fit& fit, int count) { return Proposer(site, fit, count).run(); }

}  // namespace awlmark::survey
