// The cost of one draw as sums that are quick to put together: what is planned, and for each extent
// what one more of it takes. Private to the room.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "money/money.hpp"
#include "price/price.hpp"

namespace awlmark::price {

struct Rates {
  double labour_per_hour = 0;
  money::Markup markup;
  money::SalesTax tax;
  double least = 0;    // no job is done for less, its tax apart
  double opening = 0;  // cost of one opening made and closed
  double standby = 0;  // a day
  double scale() const { return markup.times * tax.on_invoice(); }
};
Rates rates_of(const Job& job);

enum Group { kTearOut, kPuttingBack, kTrades, kGoods, kFloor, kMarkup, kTax, kGroups };
extern const char* const kGroupNames[kGroups];

struct Costs {
  double group[kGroups] = {};
  double total() const;
};

// One run of the work, priced.
class RunCosts {
 public:
  RunCosts(const Job& job, const Rates& rates, const takeoff::TakeOff& take_off, const work::Result& work, std::size_t run, const floor::Floor& floor);
  double weight() const { return weight_; }
  // The floor of one draw with the hours and hire of another, the crew's pace and the market of others
  // again: places in the factors' draws. Four causes that know nothing of each other, so any may meet.
  struct Luck {
    std::size_t hours = 0, pace = 0, market = 0;
  };
  Costs of(std::size_t floor_draw, Luck luck) const;
  // With one cause varying and the others at their mean.
  double by_floor(std::size_t floor_draw) const;
  double by_hours(std::size_t pair) const;
  double by_prices(std::size_t pair) const;
  double by_waits(std::size_t pair) const;
  double as_planned() const;                         // the plan's quantities, everything at its mean
  double one_more(const goods::Growth& what) const;  // cost, marked up
  std::size_t pairs() const { return work_.factors.count(); }
  const std::vector<goods::Growth>& extents() const { return extents_; }

 private:
  // What is left out stands at its mean.
  struct Chosen {
    std::optional<std::size_t> hours, pace, market, hire;
  };
  Costs put_together(const std::vector<double>& more, double member_goods, const Chosen& at) const;
  const work::Result& work_;
  const Rates& rates_;
  std::size_t run_;
  double weight_;
  std::vector<goods::Growth> extents_;
  std::vector<double> goods_more_;                 // by extent
  std::vector<std::vector<double>> more_by_draw_;  // [floor draw][extent]
  std::vector<std::vector<double>> labour_;        // [pair][group], at mean pace
  std::vector<std::vector<double>> labour_more_;   // [pair][extent]
  std::vector<double> mean_labour_, mean_labour_more_, mean_more_;
  double goods_ = 0, fees_ = 0, mean_hire_ = 0, mean_member_goods_ = 0;
};

}  // namespace awlmark::price
