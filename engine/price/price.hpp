// Price: a range from the draws that the survey and the work share, and what people sign.
//
// Each draw is worked as it would go: the planned cut-back, then what opening up shows, each at the
// price and hours that it would have had in the plan; times the crew's pace, the market, every task's
// hours, and money for what is on hire by the day. What is still open stands as branches, weighted
// exactly. What is signed: a base with its quantities, unit prices for what may turn up, a cap.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cutback/cutback.hpp"
#include "floor/floor.hpp"
#include "job/job.hpp"
#include "takeoff/takeoff.hpp"
#include "work/work.hpp"

namespace awlmark::price {

struct PriceLine {
  std::string item;
  double low = 0;
  double likely = 0;
  double high = 0;
};
BOOST_DESCRIBE_STRUCT(PriceLine, (), (item, low, likely, high))

// One way in which something still open turns out, and the price then; every other open thing weighted.
struct Branch {
  std::string id;  // "laboratory.sheet.clear", "floor.more"
  std::string words;
  double chance = 0;
  double p10 = 0;
  double p50 = 0;
  double p80 = 0;
  double p90 = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(Branch, (), (id, words, chance, p10, p50, p80, p90, reason))

// All-in: labour, goods, disposal, overhead and profit. Added and credited alike.
struct UnitPrice {
  std::string item;
  std::string unit;
  double price = 0;
  goods::Growth with;
};
BOOST_DESCRIBE_STRUCT(UnitPrice, (), (item, unit, price, with))

struct BaseItem {
  std::string item;
  double quantity = 0;
  std::string unit;
};
BOOST_DESCRIBE_STRUCT(BaseItem, (), (item, quantity, unit))

// Shares of the variance; they add to 1 where there is any.
struct Spread {
  double floor = 0;
  double laboratory = 0;
  double engineer = 0;
  double hours = 0;
  double prices = 0;
  double waits = 0;
};
BOOST_DESCRIBE_STRUCT(Spread, (), (floor, laboratory, engineer, hours, prices, waits))

// A term that a state sets: "ask" where the job does not say.
struct Term {
  std::string what;
  std::string value;
  std::string source;
};
BOOST_DESCRIBE_STRUCT(Term, (), (what, value, source))

// Must: rot and what carries. Should: what the law or the trade asks with it. Offer: what the owner may leave.
// Declined: what the owner has left, signed as declined.
struct Scope {
  std::string part;  // "must", "should", "offer", "declined"
  std::vector<std::string> items;
};
BOOST_DESCRIBE_STRUCT(Scope, (), (part, items))

struct Price {
  double p10 = 0;
  double p50 = 0;
  double p80 = 0;
  double p90 = 0;
  double mean = 0;
  double from_floor_share = 0;  // share of the variance that comes from floor not yet seen
  Spread spread;
  std::vector<Branch> branches;  // none when nothing is open
  double opening = 0;            // opening up and making safe: a fixed fee of its own
  double base = 0;               // repair as planned: its quantities, laboratory clear, as the engineer's drawing stands
  std::vector<BaseItem> base_quantities;
  std::vector<UnitPrice> unit_prices;
  double cap = 0;             // where work stops, safe, until the owner signs for more
  double standby = 0;         // a day of waiting then
  double allowance = 0;       // p80 - p50: for floor and hours not yet known
  double contingency = 0;     // p90 - p80
  double markup_percent = 0;  // on cost: overhead and profit compounded, or what the margin comes to
  double margin_percent = 0;  // the same as a share of the price before tax
  TaxOn sales_tax_on = TaxOn::in_prices;
  double sales_tax_percent = 0;
  std::vector<std::string> not_included;
  std::vector<Scope> scope;
  std::vector<Term> terms;
  std::optional<double> deposit_most;  // of opening and base, where the state sets a limit
  std::vector<PriceLine> lines;
  std::vector<std::string> words;
};
BOOST_DESCRIBE_STRUCT(Price, (),
                      (p10, p50, p80, p90, mean, from_floor_share, spread, branches, opening, base, base_quantities, unit_prices, cap, standby, allowance,
                       contingency, markup_percent, margin_percent, sales_tax_on, sales_tax_percent, not_included, scope, terms, deposit_most, lines, words))

Price price(const Job& job, const cutback::Result& cut_back, const floor::Floor& floor, const takeoff::TakeOff& take_off, const work::Result& work);

}  // namespace awlmark::price
