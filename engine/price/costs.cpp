#include "price/costs.hpp"

#include <algorithm>

#include "base/stats.hpp"

namespace awlmark::price {
namespace {

constexpr double kEngineerMore = 1.5;  // as in the hours of the framing

double at(const awlmark::floor::Hours& range, double share) { return range.low + (range.high - range.low) * share; }

bool is_tear_out(const work::Task& task) {
  static const std::vector<std::string> ids{"protect",    "protect_small", "shut_off", "lift_fixtures",    "contain",   "shore",
                                            "hold_wall",  "cut_edges",     "plates",   "wallboard",        "carry_out", "clean_dirty",
                                            "map_damage", "map_small",     "dry_out",  "clear_containment"};
  return task.id.compare(0, 6, "strip.") == 0 || std::find(ids.begin(), ids.end(), task.id) != ids.end();
}

int group_of(const work::Task& task) {
  if (task.who != "crew" && task.who != "office") return kTrades;
  return task.who == "crew" && is_tear_out(task) ? kTearOut : kPuttingBack;
}

}  // namespace

const char* const kGroupNames[kGroups] = {"Crew: tear-out and protection",
                                          "Crew: putting back",
                                          "Trades, laboratory, permit, fans on hire",
                                          "Materials and disposal",
                                          "Floor that opening up reveals beyond the plan",
                                          "Overhead and profit",
                                          "Sales tax on the invoice"};

double Costs::total() const {
  double sum = 0;
  for (const double one : group) sum += one;
  return sum;
}

Rates rates_of(const Job& job) {
  const auto stakes = money::stakes_of(job);
  return {stakes.labour_per_hour,        money::markup_of(job), money::sales_tax_of(job),
          money::rate(job, "least_job"), stakes.opening,        money::rate(job, "standby_per_day")};
}

RunCosts::RunCosts(const Job& job, const Rates& rates, const takeoff::TakeOff& take_off, const work::Result& work, std::size_t run, const floor::Floor& floor)
    : work_(work), rates_(rates), run_(run), weight_(work.runs[run].weight) {
  const auto& one = work.runs[run];
  const auto extent = [&](const goods::Growth& what) {
    const auto found = std::find(extents_.begin(), extents_.end(), what);
    if (found != extents_.end()) return static_cast<std::size_t>(found - extents_.begin());
    extents_.push_back(what);
    return extents_.size() - 1;
  };
  for (const auto& task : one.tasks)
    for (const auto& grown : task.grows) extent(grown.with);
  for (const auto& more : take_off.one_more) extent(more.with);
  goods_more_.assign(extents_.size(), 0);
  for (const auto& more : take_off.one_more) goods_more_[extent(more.with)] += more.per_unit * more.unit_price * rates.tax.on_goods();
  for (const auto& line : take_off.lines) goods_ += line.quantity * line.unit_price * rates.tax.on_goods();
  // Where the engineer asks for more, the framing's goods grow as its hours do.
  const bool more_framing = std::any_of(one.outcomes.begin(), one.outcomes.end(), [&](std::size_t o) { return work.findings.open[o].id == "engineer.more"; });
  for (const auto& option : floor.options)
    if (more_framing && option.id == floor.chosen)
      for (const auto& good : option.goods)
        if (goods::is_lumber(good.kind) && good.kind != goods::Kind::plank) goods_ += goods::cost(job, good) * (kEngineerMore - 1) * rates.tax.on_goods();
  for (const auto& task : one.tasks) fees_ += task.fee;
  // Every draw of the hours is priced; the days of set-up are those of a scheduled one.
  for (std::size_t draw = 0; draw < work.factors.count(); ++draw) {
    const std::size_t p = draw * one.draws.size() / work.factors.count();
    std::vector<double> labour(kGroups, 0), more(extents_.size(), 0);
    for (std::size_t t = 0; t < one.tasks.size(); ++t) {
      const auto& task = one.tasks[t];
      const double money = rates.labour_per_hour * task.rate_scale;
      labour[static_cast<std::size_t>(group_of(task))] += at(task.hours, one.at[t][draw]) * money;
      for (const auto& grown : task.grows) more[extent(grown.with)] += at(grown.per_unit, one.at[t][draw]) * money;
    }
    labour[kTearOut] += one.set_up_h[p] / work.factors.pace(one.draws[p]) * rates.labour_per_hour;
    labour_.push_back(std::move(labour));
    labour_more_.push_back(std::move(more));
  }
  const auto means = [](const std::vector<std::vector<double>>& rows, std::size_t width) {
    std::vector<double> sum(width, 0);
    for (const auto& row : rows)
      for (std::size_t k = 0; k < width; ++k) sum[k] += row[k] / static_cast<double>(rows.size());
    return sum;
  };
  mean_labour_ = means(labour_, kGroups);
  mean_labour_more_ = means(labour_more_, extents_.size());
  mean_hire_ = mean(one.hire);
  for (std::size_t d = 0; d < work.reveal.draws(); ++d) {
    std::vector<double> more;
    for (const auto& what : extents_) more.push_back(std::max(0.0, work.reveal.more(what, d)));
    more_by_draw_.push_back(std::move(more));
  }
  mean_more_ = means(more_by_draw_, extents_.size());
  mean_member_goods_ = work.reveal.mean_member_goods();
}

Costs RunCosts::put_together(const std::vector<double>& more, double member_goods, const Chosen& at) const {
  const auto& one = work_.runs[run_];
  const auto& labour = at.hours ? labour_[*at.hours] : mean_labour_;
  const auto& labour_more = at.hours ? labour_more_[*at.hours] : mean_labour_more_;
  const double pace = at.pace ? work_.factors.pace(*at.pace) : 1;
  const double market = at.market ? work_.factors.market(*at.market) : 1;
  Costs cost;
  for (int g = 0; g < kFloor; ++g) cost.group[g] = labour[static_cast<std::size_t>(g)] * pace;
  cost.group[kTrades] += fees_ + (at.hire ? one.hire[*at.hire * one.hire.size() / work_.factors.count()] : mean_hire_);
  cost.group[kGoods] += goods_ * market;
  double found = member_goods * rates_.tax.on_goods() * market;
  for (std::size_t k = 0; k < more.size(); ++k) found += more[k] * (labour_more[k] * pace + goods_more_[k] * market);
  cost.group[kFloor] = found;
  double direct = 0;
  for (int g = 0; g < kMarkup; ++g) direct += cost.group[g];
  const double before_tax = std::max(direct * rates_.markup.times, rates_.least);
  cost.group[kMarkup] = before_tax - direct;
  cost.group[kTax] = before_tax * (rates_.tax.on_invoice() - 1);
  return cost;
}

Costs RunCosts::of(std::size_t floor_draw, Luck luck) const {
  const Chosen at{luck.hours, luck.pace, luck.market, luck.hours};
  if (more_by_draw_.empty()) return put_together(std::vector<double>(extents_.size(), 0), 0, at);
  return put_together(more_by_draw_[floor_draw], work_.reveal.member_goods(floor_draw), at);
}
double RunCosts::by_floor(std::size_t floor_draw) const {
  if (more_by_draw_.empty()) return 0;
  return put_together(more_by_draw_[floor_draw], work_.reveal.member_goods(floor_draw), {}).total();
}
double RunCosts::by_hours(std::size_t pair) const { return put_together(mean_more_, mean_member_goods_, {pair, pair, {}, {}}).total(); }
double RunCosts::by_prices(std::size_t pair) const { return put_together(mean_more_, mean_member_goods_, {{}, {}, pair, {}}).total(); }
double RunCosts::by_waits(std::size_t pair) const { return put_together(mean_more_, mean_member_goods_, {{}, {}, {}, pair}).total(); }
double RunCosts::as_planned() const { return put_together(std::vector<double>(extents_.size(), 0), 0, {}).total(); }
double RunCosts::one_more(const goods::Growth& what) const {
  const auto found = std::find(extents_.begin(), extents_.end(), what);
  if (found == extents_.end()) return 0;
  const auto k = static_cast<std::size_t>(found - extents_.begin());
  return (mean_labour_more_[k] + goods_more_[k]) * rates_.scale();
}

}  // namespace awlmark::price
