#include "price/price.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "base/stats.hpp"
#include "price/costs.hpp"
#include "price/sign.hpp"
#include "price/weighted.hpp"

namespace awlmark::price {
namespace {

constexpr std::size_t kMostPairs = 40000;  // of floors and hours put together, all runs
constexpr std::size_t kMostTurns = 16;     // different hours for one floor
constexpr double kHardlyOpen = 0.02;
constexpr std::size_t kPaceApart = 389, kMarketApart = 211;  // so that every turn meets other luck

struct Draws {
  std::vector<Sample> total;
  std::vector<std::vector<Sample>> group{kGroups};
  std::vector<std::vector<Sample>> outcome;  // by place in the work's open outcomes
  std::vector<Sample> found_nothing, found_more;
  double variance_floor = 0, variance_hours = 0, variance_prices = 0, variance_waits = 0, variance_laboratory = 0, variance_engineer = 0;
};

double variance(const std::vector<double>& sample) {
  if (sample.size() < 2) return 0;
  const double middle = mean(sample);
  double sum = 0;
  for (const double x : sample) sum += (x - middle) * (x - middle);
  return sum / static_cast<double>(sample.size());
}

bool finds_more(const RunCosts& run, const work::Reveal& reveal, std::size_t draw) {
  return std::any_of(run.extents().begin(), run.extents().end(), [&](const goods::Growth& what) { return reveal.more(what, draw) > 1e-9; });
}

// Every floor with the hours of several draws, each pair once: the floor's draws are few, the hours
// are cheap, and so the middle hardly moves with the seed.
void draw_run(const RunCosts& run, const work::Result& work, const work::Run& one, std::size_t runs, Draws& out) {
  const std::size_t pairs = run.pairs(), floors = std::max<std::size_t>(1, work.reveal.draws());
  const std::size_t turns = std::clamp<std::size_t>(kMostPairs / (floors * runs), 1, std::min(kMostTurns, pairs));
  const double weight = run.weight() / static_cast<double>(floors * turns);
  for (std::size_t floor = 0; floor < floors; ++floor) {
    const bool more = finds_more(run, work.reveal, floor);
    for (std::size_t turn = 0; turn < turns; ++turn) {
      const std::size_t hours = (floor + turn * pairs / turns) % pairs;
      const Costs cost = run.of(floor, {hours, (hours + turn * kPaceApart) % pairs, (hours + turn * kMarketApart) % pairs});
      const Sample sample{cost.total(), weight};
      out.total.push_back(sample);
      for (std::size_t g = 0; g < kGroups; ++g) out.group[g].push_back({cost.group[g], weight});
      for (const std::size_t o : one.outcomes) out.outcome[o].push_back(sample);
      (more ? out.found_more : out.found_nothing).push_back(sample);
    }
  }
}

void add_variances(const RunCosts& run, const work::Result& work, Draws& out) {
  std::vector<double> floor, hours, prices, waits;
  for (std::size_t d = 0; d < work.reveal.draws(); ++d) floor.push_back(run.by_floor(d));
  for (std::size_t p = 0; p < run.pairs(); ++p) {
    hours.push_back(run.by_hours(p));
    prices.push_back(run.by_prices(p));
    waits.push_back(run.by_waits(p));
  }
  out.variance_floor += run.weight() * variance(floor);
  out.variance_hours += run.weight() * variance(hours);
  out.variance_prices += run.weight() * variance(prices);
  out.variance_waits += run.weight() * variance(waits);
}

// Between the outcomes: of the laboratory with the engineer's averaged out, and the other way round.
double between(const work::Result& work, const std::vector<double>& run_mean, const std::string& prefix) {
  std::vector<Sample> groups;  // one a combination of this kind's outcomes
  std::vector<std::vector<std::size_t>> keys;
  for (std::size_t r = 0; r < work.runs.size(); ++r) {
    std::vector<std::size_t> key;
    for (const std::size_t o : work.runs[r].outcomes)
      if (work.findings.open[o].id.compare(0, prefix.size(), prefix) == 0) key.push_back(o);
    const auto found = std::find(keys.begin(), keys.end(), key);
    const auto place = static_cast<std::size_t>(found - keys.begin());
    if (found == keys.end()) {
      keys.push_back(key);
      groups.push_back({});
    }
    groups[place].value += work.runs[r].weight * run_mean[r];
    groups[place].weight += work.runs[r].weight;
  }
  double middle = 0, sum = 0;
  for (const auto& group : groups) middle += group.value;
  for (const auto& group : groups) {
    if (!(group.weight > 0)) continue;
    const double off = group.value / group.weight - middle;
    sum += group.weight * off * off;
  }
  return sum;
}

Spread spread_of(const Draws& draws) {
  const double all =
      draws.variance_floor + draws.variance_hours + draws.variance_prices + draws.variance_waits + draws.variance_laboratory + draws.variance_engineer;
  if (!(all > 0)) return {};
  return {draws.variance_floor / all, draws.variance_laboratory / all, draws.variance_engineer / all,
          draws.variance_hours / all, draws.variance_prices / all,     draws.variance_waits / all};
}

Branch branch(const std::string& id, const std::string& words, double chance, std::vector<Sample> sample, Reason reason) {
  sort_samples(sample);
  return {id,
          words,
          chance,
          weighted_quantile(sample, 0.1),
          weighted_quantile(sample, 0.5),
          weighted_quantile(sample, 0.8),
          weighted_quantile(sample, 0.9),
          std::move(reason)};
}

std::vector<Branch> branches_of(const work::Result& work, const Draws& draws) {
  std::vector<Branch> out;
  for (std::size_t o = 0; o < work.findings.open.size(); ++o) {
    const auto& open = work.findings.open[o];
    out.push_back(branch(open.id, open.words, open.chance, draws.outcome[o], open.reason));
  }
  double nothing = 0, more = 0;
  for (const auto& one : draws.found_nothing) nothing += one.weight;
  for (const auto& one : draws.found_more) more += one.weight;
  const double share = more / (nothing + more);
  if (share > kHardlyOpen && share < 1 - kHardlyOpen) {
    Reason reason;
    reason.compares = "share of the survey's draws in which opening up shows more than is planned";
    reason.demand = share;
    reason.source = "this job's survey";
    reason.status = SourceStatus::derived;
    out.push_back(branch("floor.more", "opening up shows more than is planned", share, draws.found_more, reason));
    out.push_back(branch("floor.as_planned", "opening up shows nothing beyond the plan", 1 - share, draws.found_nothing, reason));
  }
  return out;
}

}  // namespace

Price price(const Job& job, const cutback::Result& cut_back, const floor::Floor& floor, const takeoff::TakeOff& take_off, const work::Result& work) {
  const Rates rates = rates_of(job);
  Draws draws;
  draws.outcome.resize(work.findings.open.size());
  std::vector<RunCosts> runs;
  std::vector<double> run_mean;
  for (std::size_t r = 0; r < work.runs.size(); ++r) {
    runs.emplace_back(job, rates, take_off, work, r, floor);
    const std::size_t before = draws.total.size();
    draw_run(runs.back(), work, work.runs[r], work.runs.size(), draws);
    double sum = 0;
    for (std::size_t i = before; i < draws.total.size(); ++i) sum += draws.total[i].value;
    run_mean.push_back(sum / static_cast<double>(draws.total.size() - before));
    add_variances(runs.back(), work, draws);
  }
  draws.variance_laboratory = between(work, run_mean, "laboratory.");
  draws.variance_engineer = between(work, run_mean, "engineer.");
  Price out;
  for (std::size_t r = 0; r < run_mean.size(); ++r) out.mean += work.runs[r].weight * run_mean[r];
  sort_samples(draws.total);
  out.p10 = weighted_quantile(draws.total, 0.1);
  out.p50 = weighted_quantile(draws.total, 0.5);
  out.p80 = weighted_quantile(draws.total, 0.8);
  out.p90 = weighted_quantile(draws.total, 0.9);
  out.allowance = out.p80 - out.p50;
  out.contingency = out.p90 - out.p80;
  out.spread = spread_of(draws);
  out.from_floor_share = out.spread.floor;
  out.branches = branches_of(work, draws);
  for (std::size_t g = 0; g < kGroups; ++g) {
    auto& sample = draws.group[g];
    sort_samples(sample);
    if (sample.back().value > 0)
      out.lines.push_back({kGroupNames[g], weighted_quantile(sample, 0.1), weighted_quantile(sample, 0.5), weighted_quantile(sample, 0.9)});
  }
  // The mildest run: what is signed as the base leaves the open outcomes outside, by name.
  const RunCosts& mild = runs.back();
  sign(job, rates, cut_back, floor, take_off, work, mild, out);
  return out;
}

}  // namespace awlmark::price
