#include "price/price.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/length.hpp"
#include "base/stats.hpp"
#include "tables/materials.hpp"
#include "work/schedule.hpp"
#include "work/three_point.hpp"

namespace awlmark::price {
namespace {

// Goods of one yard move together: one factor for all of them, 8 percent either way, lognormal, mean
// 1. An estimate of the trade without a source, as is the spread of the crew's pace.
constexpr double kMarketSpread = 0.08;
constexpr int kDrawsWithoutSurvey = 1000;

struct Rates {
  double labour_per_hour = 0;
  double overhead = 0;  // share of cost
  double profit = 0;    // share of cost and overhead
  double reveal_per_sf = 0;
};

Rates rates_of(const Job& job) {
  const auto own = job.rates.value_or(awlmark::Rates{});
  return {own.labour_per_hour.value_or(tables::rate("labour_per_hour").value), own.overhead_percent.value_or(tables::rate("overhead_percent").value) / 100,
          own.profit_percent.value_or(tables::rate("profit_percent").value) / 100,
          own.tear_out_sound_per_sf.value_or(tables::rate("tear_out_sound_per_sf").value)};
}

// What a draw takes out, against the plan: by layer and by the other measures.
class Revealed {
 public:
  Revealed(const Job& job, const cutback::Result& cut) : draws_(cut.draws), plan_(cut.findings) {
    using goods::Extent;
    for (const auto& edge : plan_.edges)
      if (edge.kind == cutback::EdgeKind::rip || edge.kind == cutback::EdgeKind::cross_on_support || edge.kind == cutback::EdgeKind::cross_in_air)
        planned_[Extent::saw_ft] += edge.length_in / 12;
    for (const auto& block : plan_.blocking) planned_[Extent::blocking_ft] += block.length_in / 12;
    for (const auto& [wall, ft] : plan_.plate_ft) planned_[Extent::plate_ft] += ft;
    for (const auto& [wall, sf] : plan_.wallboard_sf) planned_[Extent::wallboard_sf] += sf;
    std::map<std::string, int> members;
    for (const auto& member : plan_.members) members[member.support] = 1;
    planned_[Extent::members] = static_cast<double>(members.size());
    for (const auto& layer : job.layers) layers_.push_back(layer.id);
  }

  // Draws there are; 0 without a survey.
  std::size_t count() const {
    std::size_t least = draws_.edge_ft.size();
    for (const auto& [layer, sf] : draws_.area_sf) least = std::max(least, sf.size());
    return least;
  }

  double in_draw(const goods::Growth& what, std::size_t draw) const {
    using goods::Extent;
    const auto at = [&](const std::vector<double>& list) { return draw < list.size() ? list[draw] : planned(what); };
    switch (what.with) {
      case Extent::layer_sf: {
        const auto layer = draws_.area_sf.find(what.layer);
        return layer == draws_.area_sf.end() ? planned(what) : at(layer->second);
      }
      case Extent::saw_ft:
        return at(draws_.edge_ft);
      case Extent::blocking_ft:
        return at(draws_.blocking_ft);
      case Extent::plate_ft:
        return at(draws_.plate_ft);
      case Extent::wallboard_sf:
        return at(draws_.wallboard_sf);
      case Extent::members:
        return draw < draws_.members.size() ? draws_.members[draw] : planned(what);
      case Extent::fixed:
      case Extent::posts:
        break;
    }
    return planned(what);
  }

  double planned(const goods::Growth& what) const {
    if (what.with == goods::Extent::layer_sf) {
      const auto layer = plan_.area_sf.find(what.layer);
      return layer == plan_.area_sf.end() ? 0 : layer->second;
    }
    const auto found = planned_.find(what.with);
    return found == planned_.end() ? 0 : found->second;
  }

  // How much more or less of it there is than planned; 1 where it does not grow or nothing is planned.
  double growth(const goods::Growth& what, std::size_t draw) const {
    const double plan = planned(what);
    return plan > 0 ? in_draw(what, draw) / plan : 1;
  }

  // Square feet that come out in this draw of layers of which the plan takes out nothing.
  double unplanned_sf(std::size_t draw) const {
    double sum = 0;
    for (const auto& layer : layers_) {
      const goods::Growth with{goods::Extent::layer_sf, layer};
      if (planned(with) <= 0) sum += in_draw(with, draw);
    }
    return sum;
  }

 private:
  const cutback::DrawQuantities& draws_;
  const cutback::CutBack& plan_;
  std::map<goods::Extent, double> planned_;
  std::vector<std::string> layers_;
};

constexpr int kGroups = 6;
const char* const kGroupNames[kGroups] = {"Crew: tear-out and protection",
                                          "Crew: putting back",
                                          "Trades, laboratory, permit, fans on hire",
                                          "Materials and disposal",
                                          "Floor that opening up reveals beyond the plan",
                                          "Overhead and profit"};

struct Costs {
  double group[kGroups] = {};
  double total() const {
    double sum = 0;
    for (const double one : group) sum += one;
    return sum;
  }
};

bool is_tear_out(const work::Task& task) {
  static const std::vector<std::string> ids{"protect", "shut_off",  "lift_fixtures", "contain",     "shore",      "cut_edges",
                                            "plates",  "wallboard", "carry_out",     "clean_dirty", "map_damage", "daily"};
  return task.id.rfind("strip.", 0) == 0 || std::find(ids.begin(), ids.end(), task.id) != ids.end();
}

int group_of(const work::Task& task) {
  if (task.who != "crew" && task.who != "office") return 2;
  return task.who == "crew" && is_tear_out(task) ? 0 : 1;
}

// The cost of one draw. `random` null: hours, pace and market at their mean, so that what is left is
// the expected cost given the floor of that draw.
Costs cost_of(const takeoff::TakeOff& take_off, const work::Work& work, const Revealed& revealed, const Rates& rates, std::size_t draw, Random* random) {
  Costs cost;
  const double pace = random ? work::pace_draw(work::kPaceSpread, *random) : 1;
  const double market = random ? work::pace_draw(kMarketSpread, *random) : 1;
  for (const auto& task : work.tasks) {
    const work::ThreePoint range{task.hours.low, task.hours.likely, task.hours.high};
    const double hours = random ? work::pert_draw(range, *random) : work::pert_mean(range);
    cost.group[group_of(task)] += hours * pace * rates.labour_per_hour * task.rate_scale * revealed.growth(task.grows, draw);
  }
  for (const auto& task : work.tasks) cost.group[2] += task.fee * market;
  for (const auto& line : take_off.lines) cost.group[3] += line.quantity * line.unit_price * market * revealed.growth(line.grows, draw);
  cost.group[4] += revealed.unplanned_sf(draw) * rates.reveal_per_sf * pace;
  double direct = 0;
  for (int g = 0; g < 5; ++g) direct += cost.group[g];
  // Profit on cost and overhead: compounded, and said so on the sheet.
  cost.group[5] = direct * ((1 + rates.overhead) * (1 + rates.profit) - 1);
  return cost;
}

double variance(const std::vector<double>& sample) {
  if (sample.size() < 2) return 0;
  const double middle = mean(sample);
  double sum = 0;
  for (const double x : sample) sum += (x - middle) * (x - middle);
  return sum / static_cast<double>(sample.size() - 1);
}

std::string money(double value) {
  std::string digits = format_number(std::round(std::fabs(value)), 0);
  for (int at = static_cast<int>(digits.size()) - 3; at > 0; at -= 3) digits.insert(static_cast<std::size_t>(at), ",");
  return (value < 0 ? "-$" : "$") + digits;
}

void say(const Rates& rates, Price& out) {
  out.words.push_back("Half of jobs like this end below " + money(out.p50) + "; four in five below " + money(out.p80) + "; nine in ten below " +
                      money(out.p90) + ".");
  out.words.push_back("Base " + money(out.base) + ": the middle of the range. Allowance " + money(out.allowance) +
                      ": for floor and hours not yet known, spent only as it is needed and shown. Contingency " + money(out.contingency) +
                      ": kept in reserve between four in five and nine in ten.");
  const int in_ten = static_cast<int>(std::lround(out.from_floor_share * 10));
  out.words.push_back(in_ten == 0
                          ? "Hardly any of the spread comes from floor not yet seen: it comes from hours and prices. More openings would not narrow this price."
                          : "About " + std::to_string(in_ten) + (in_ten == 1 ? " tenth" : " tenths") +
                                " of the spread comes from floor not yet seen, the rest from hours and prices. Openings narrow the first, not the second.");
  out.words.push_back("Overhead " + format_number(rates.overhead * 100, 1) + " percent is added to cost, then profit " + format_number(rates.profit * 100, 1) +
                      " percent to cost and overhead: together " + format_number(((1 + rates.overhead) * (1 + rates.profit) - 1) * 100, 1) + " percent, not " +
                      format_number((rates.overhead + rates.profit) * 100, 1) + ".");
  out.words.push_back("Goods stand at counter prices with sales tax in them; none is added to labour. Local law may ask for another treatment.");
  out.words.push_back("Percentiles do not add: the sum of the highs of the lines is far above the high of the whole.");
}

}  // namespace

Price price(const Job& job, const cutback::Result& cut_back, const floor::Floor& floor, const takeoff::TakeOff& take_off, const work::Work& work,
            const Options& options) {
  (void)floor;  // what the option costs is in its materials and hours, which the take-off and the tasks hold
  const Rates rates = rates_of(job);
  const Revealed revealed(job, cut_back);
  const std::size_t draws = revealed.count() > 0 ? revealed.count() : kDrawsWithoutSurvey;
  std::vector<double> total, given_floor;
  std::vector<std::vector<double>> by_group(kGroups);
  for (std::size_t draw = 0; draw < draws; ++draw) {
    Random random(stream_seed(options.seed, draw));
    const Costs cost = cost_of(take_off, work, revealed, rates, draw, &random);
    total.push_back(cost.total());
    for (int g = 0; g < kGroups; ++g) by_group[static_cast<std::size_t>(g)].push_back(cost.group[g]);
    given_floor.push_back(cost_of(take_off, work, revealed, rates, draw, nullptr).total());
  }
  Price out;
  out.mean = mean(total);
  // The law of total variance: the spread of the expected cost given the floor, of all spread.
  const double all = variance(total);
  out.from_floor_share = all > 0 ? std::clamp(variance(given_floor) / all, 0.0, 1.0) : 0;
  std::sort(total.begin(), total.end());
  out.p10 = quantile_sorted(total, 0.1);
  out.p50 = quantile_sorted(total, 0.5);
  out.p80 = quantile_sorted(total, 0.8);
  out.p90 = quantile_sorted(total, 0.9);
  out.base = out.p50;
  out.allowance = out.p80 - out.p50;
  out.contingency = out.p90 - out.p80;
  for (std::size_t g = 0; g < kGroups; ++g) {
    auto& sample = by_group[g];
    std::sort(sample.begin(), sample.end());
    if (sample.back() > 0) out.lines.push_back({kGroupNames[g], quantile_sorted(sample, 0.1), quantile_sorted(sample, 0.5), quantile_sorted(sample, 0.9)});
  }
  say(rates, out);
  return out;
}

}  // namespace awlmark::price
