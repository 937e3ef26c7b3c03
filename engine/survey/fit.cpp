#include "survey/fit.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>

#include "base/special.hpp"

namespace awlmark::survey {
namespace {

struct Level {
  double value;
  double prior;
};

// Scales before evidence: about the best log score on simulated leaks that no published figure uses
// (docs/survey.md), kept wider than that optimum. The weights are those of the settings alone.
const std::vector<Level> kLengths_in{{12, 0.3}, {22, 0.45}, {40, 0.25}};
const std::vector<Level> kStretches{{1.1, 0.5}, {2.2, 0.5}};
const std::vector<Level> kAmplitudes{{0.95, 0.5}, {1.7, 0.5}};
const std::vector<Level> kReaches_in{{22, 0.5}, {45, 0.5}};
// The cut between soft and gone: readings are fitted at the middle one, its weights come from the
// heaviest setting alone. Narrower than the wood's own grades would have it: past the wet front rot
// falls off faster than it rises behind it, which a Gaussian field cannot do, and with wide cuts it
// then draws the edge too far out (some 6 percent of the area after 12 openings).
const std::vector<Level> kGaps{{0.65, 0.3}, {1.05, 0.4}, {1.5, 0.3}};
constexpr std::size_t kMiddleGap = 1;
// More readings are first looked at through a share of them; and what a setting costs rises with their cube, so
// the weight from which one is kept rises with their square, up to the half of the heaviest.
constexpr std::size_t kManyReadings = 150;
constexpr double kMostNegligible = 0.5;
constexpr double kGlance = 0.03;      // tolerance of the first look; the evidence is stationary in the sites, so it errs by the square
constexpr double kGlanceSlack = 0.3;  // so a setting is dropped on it only when well below the limit

bool asks_for_gap(const std::vector<Observation>& observations) {
  return std::any_of(observations.begin(), observations.end(),
                     [](const Observation& o) { return o.says == Observation::Says::soft || o.says == Observation::Says::gone; });
}

std::vector<Likelihood> likelihoods_at(const std::vector<Observation>& observations, double gap) {
  std::vector<Likelihood> all;
  all.reserve(observations.size());
  for (const Observation& o : observations) all.push_back(o.likelihood(gap));
  return all;
}

struct Tried {
  Member member;
  double log_weight = 0;
};

class Fitter {
 public:
  Fitter(Fit& result, const FitOptions& options) : result_(result), options_(options) {}

  // Very many readings pin the latent values down by themselves: a hundredth of a percent is enough.
  EpOptions ep_options() const {
    EpOptions ep = options_.ep;
    if (result_.places.size() > kManyReadings) ep.tolerance = std::max(ep.tolerance, 1e-4);
    return ep;
  }

  // A first look at a setting: near enough to see whether its weight is negligible.
  Tried glance(const Setting& setting, const Sites* start) {
    EpOptions ep = ep_options();
    ep.tolerance = std::max(ep.tolerance, kGlance);
    ep.predicts = false;
    return worked_out(setting, ep, start);
  }

  Tried run(const Setting& setting, const Sites* start) {
    Tried tried = worked_out(setting, ep_options(), start);
    result_.converged = result_.converged && tried.member.ep.converged;
    result_.sweeps = std::max(result_.sweeps, tried.member.ep.sweeps);
    result_.largest_step = std::max(result_.largest_step, tried.member.ep.largest_step);
    return tried;
  }

 private:
  Tried worked_out(const Setting& setting, const EpOptions& ep, const Sites* start) {
    Tried tried{Member{Covariance(*result_.model, setting), {}, {}, 0}, 0};
    const Eigen::Index n = static_cast<Eigen::Index>(result_.places.size());
    Eigen::VectorXd mean(n);
    for (Eigen::Index i = 0; i < n; ++i) mean[i] = tried.member.covariance.mean(result_.places[static_cast<std::size_t>(i)]);
    const Eigen::MatrixXd prior = tried.member.covariance.matrix(result_.places);
    tried.member.ep = expectation_propagation(prior, mean, likelihoods_at(result_.observations, setting.gap), ep, start);
    tried.log_weight = det_log(setting.prior) + tried.member.ep.log_evidence;
    return tried;
  }

  Fit& result_;
  const FitOptions& options_;
};

double heaviest(const std::vector<Tried>& tried) {
  double most = -1e300;
  for (const Tried& t : tried) most = std::max(most, t.log_weight);
  return most;
}

void drop_negligible(std::vector<Tried>& tried, double negligible) {
  const double least = heaviest(tried) + det_log(negligible);
  tried.erase(std::remove_if(tried.begin(), tried.end(), [&](const Tried& t) { return t.log_weight < least; }), tried.end());
}

// Weights of the cuts, by their evidence at the heaviest setting when any reading tells them apart.
std::vector<Member::Gap> weigh_gaps(Fitter& fitter, const std::vector<Tried>& tried, bool readings_tell) {
  std::size_t top = 0;
  for (std::size_t i = 1; i < tried.size(); ++i)
    if (tried[i].log_weight > tried[top].log_weight + 1e-9) top = i;
  const double middle = tried[top].member.ep.log_evidence;
  std::vector<Member::Gap> gaps;
  double sum = 0;
  for (std::size_t g = 0; g < kGaps.size(); ++g) {
    double weight = kGaps[g].prior;
    if (readings_tell && g != kMiddleGap) {
      Setting setting = tried[top].member.covariance.setting();
      setting.gap = kGaps[g].value;
      weight *= det_exp(std::min(50.0, fitter.run(setting, &tried[top].member.ep.sites).member.ep.log_evidence - middle));
    }
    gaps.push_back({kGaps[g].value, weight});
    sum += weight;
  }
  for (Member::Gap& gap : gaps) gap.weight /= sum;
  return gaps;
}

void keep_untold(const Fit& result, Member& member) {
  const Eigen::MatrixXd prior = member.covariance.matrix(result.places);
  if (prior.rows() == 0) return;  // nobody has read anything: nothing is told
  const Eigen::MatrixXd pulled = member.ep.half.triangularView<Eigen::Lower>() * prior;
  member.untold = Eigen::MatrixXd::Identity(prior.rows(), prior.cols());
  member.untold.noalias() -= member.ep.half.transpose().triangularView<Eigen::Upper>() * pulled;
}

void weigh(Fit& result, std::vector<Tried> tried) {
  const double most = heaviest(tried);
  double sum = 0;
  for (const Tried& t : tried) sum += det_exp(t.log_weight - most);
  for (Tried& t : tried) {
    t.member.weight = det_exp(t.log_weight - most) / sum;
    result.members.push_back(std::move(t.member));
  }
  std::stable_sort(result.members.begin(), result.members.end(), [](const Member& a, const Member& b) { return a.weight > b.weight + 1e-12; });
  for (Member& m : result.members) {
    keep_untold(result, m);
    if (m.gaps.empty()) m.gaps = {{m.covariance.setting().gap, 1}};
    for (auto& gap : m.gaps) gap.weight *= m.weight;
  }
  result.log_evidence = most + det_log(sum);
}

Fit begin(const Model& model, std::vector<Observation> observations) {
  Fit result;
  result.model = std::make_shared<const Model>(model);
  result.observations = std::move(observations);
  for (const Observation& o : result.observations) result.places.push_back(o.place);
  return result;
}

// A fair share of very many readings, spread over nodes and floor, whatever order they are listed in.
std::vector<Observation> thinned(const std::vector<Observation>& all, std::size_t count) {
  std::vector<std::size_t> order(all.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto key = [&](std::size_t i) {
    const Place& p = all[i].place;
    return std::tuple(p.node, static_cast<int>(p.attribute), p.at_in.x_in, p.at_in.y_in, i);
  };
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
  std::vector<Observation> few;
  for (std::size_t k = 0; k < count; ++k) few.push_back(all[order[k * all.size() / count]]);
  return few;
}

double negligible_at(std::size_t readings, double negligible) {
  const double many = static_cast<double>(readings) / static_cast<double>(kManyReadings);
  return std::max(negligible, std::min(kMostNegligible, negligible * many * many));
}

// A first look at every setting; those whose weight is negligible are left out. Very many readings are looked
// at through a share of them, whose evidence is scaled up to all.
std::vector<Tried> glance_at(const Fit& result, Fitter& fitter, const FitOptions& options) {
  const std::size_t n = result.observations.size();
  const double negligible = kGlanceSlack * negligible_at(n, options.negligible);
  std::vector<Tried> tried;
  const auto last = [&] { return tried.empty() ? nullptr : &tried.back().member.ep.sites; };
  if (n <= kManyReadings) {
    for (const Setting& setting : settings_for(*result.model)) tried.push_back(fitter.glance(setting, last()));
    drop_negligible(tried, negligible);
    return tried;
  }
  Fit few = begin(*result.model, thinned(result.observations, kManyReadings));
  Fitter looker(few, options);
  const double scale = static_cast<double>(n) / static_cast<double>(kManyReadings);
  for (const Setting& setting : settings_for(*result.model)) {
    Tried one = looker.glance(setting, last());
    one.log_weight = det_log(setting.prior) + scale * one.member.ep.log_evidence;
    tried.push_back(std::move(one));
  }
  drop_negligible(tried, negligible);
  // Their covariances point into the share's model and their sites belong to the share's readings.
  for (Tried& t : tried) t.member = Member{Covariance(*result.model, t.member.covariance.setting()), {}, {}, 0};
  return tried;
}

}  // namespace

std::vector<Setting> settings_for(const Model& model) {
  const bool grain = model.shared_grained || std::any_of(model.nodes.begin(), model.nodes.end(), [](const Node& n) { return n.grained; });
  const std::vector<Level> none_stretch{{1, 1}}, none_reach{{30, 1}};
  const auto& stretches = grain ? kStretches : none_stretch;
  const auto& reaches = model.sources.empty() ? none_reach : kReaches_in;
  std::vector<Setting> all;
  for (const Level& length : kLengths_in)
    for (const Level& stretch : stretches)
      for (const Level& amplitude : kAmplitudes)
        for (const Level& reach : reaches)
          all.push_back({length.value, stretch.value, amplitude.value, reach.value, kGaps[kMiddleGap].value,
                         length.prior * stretch.prior * amplitude.prior * reach.prior});
  return all;
}

Fit fit(const Model& model, std::vector<Observation> observations, const std::vector<Setting>& settings, const FitOptions& options) {
  Fit result = begin(model, std::move(observations));
  Fitter fitter(result, options);
  std::vector<Tried> tried;
  for (const Setting& setting : settings) tried.push_back(fitter.run(setting, tried.empty() ? nullptr : &tried.back().member.ep.sites));
  drop_negligible(tried, options.negligible);
  weigh(result, std::move(tried));
  return result;
}

Fit fit(const Model& model, std::vector<Observation> observations, const FitOptions& options) {
  Fit result = begin(model, std::move(observations));
  Fitter fitter(result, options);
  std::vector<Tried> tried = glance_at(result, fitter, options);
  for (Tried& t : tried) {
    const Sites near = t.member.ep.sites;
    t = fitter.run(t.member.covariance.setting(), &near);
  }
  drop_negligible(tried, negligible_at(result.observations.size(), options.negligible));
  const std::vector<Member::Gap> gaps = weigh_gaps(fitter, tried, asks_for_gap(result.observations));
  for (Tried& t : tried) t.member.gaps = gaps;
  weigh(result, std::move(tried));
  return result;
}

}  // namespace awlmark::survey
