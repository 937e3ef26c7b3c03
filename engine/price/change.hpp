// A change order from two states of a job: what was found, what is added and taken away, money, days.
//
// In: the job and its price, work and cut-back before and after. Out: values for the paper and the
// phone; nothing is signed here. Money is the difference of the two bases, of which `added` and
// `taken_away` tell the measured part at the unit prices agreed before.
#pragma once

#include <boost/describe.hpp>
#include <string>
#include <vector>

#include "price/price.hpp"

namespace awlmark::price {

struct ChangedItem {
  std::string item;
  double quantity = 0;  // by which it changed, above 0
  std::string unit;
  double unit_price = 0;  // agreed before; 0 where there was none
  double money = 0;       // quantity times that price; below 0 when taken away
};
BOOST_DESCRIBE_STRUCT(ChangedItem, (), (item, quantity, unit, unit_price, money))

struct ChangeOrder {
  std::vector<std::string> found;  // what was learnt in between, with its marks and reports
  std::vector<ChangedItem> added;
  std::vector<ChangedItem> taken_away;
  std::string way_before;
  std::string way_after;
  double money = 0;           // base after less base before
  double at_unit_prices = 0;  // of that, measured items
  double total_before = 0;
  double total_after = 0;
  double days = 0;  // working days that the likely finish moves
  std::string finish_before;
  std::string finish_after;
  std::vector<std::string> words;
};
BOOST_DESCRIBE_STRUCT(ChangeOrder, (),
                      (found, added, taken_away, way_before, way_after, money, at_unit_prices, total_before, total_after, days, finish_before, finish_after,
                       words))

struct JobState {
  const Job& job;
  const floor::Floor& floor;
  const work::Work& work;
  const Price& price;
};
ChangeOrder change_order(const JobState& before, const JobState& after);

}  // namespace awlmark::price
