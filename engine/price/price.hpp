// Price: a cost range from the same posterior draws as the damage map.
//
// Each draw is worked as it would happen: the planned cut-back, then what opening up reveals; times
// the spread of hours and prices. Crew pace and market prices are factors shared by all lines of a
// draw, not independent per task. Every percentile is in `draws` order reproducible by seed.
#pragma once

#include <boost/describe.hpp>
#include <cstdint>
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

struct Price {
  double p10 = 0;
  double p50 = 0;
  double p80 = 0;
  double p90 = 0;
  double mean = 0;
  double from_floor_share = 0;  // share of the variance that comes from floor not yet seen
  double base = 0;              // the stated percentile that the price sheet starts from (p50)
  double allowance = 0;         // p80 - p50: for floor and hours not yet known
  double contingency = 0;       // p90 - p80
  std::vector<PriceLine> lines;
  std::vector<std::string> words;
};
BOOST_DESCRIBE_STRUCT(Price, (), (p10, p50, p80, p90, mean, from_floor_share, base, allowance, contingency, lines, words))

struct Options {
  std::uint64_t seed = 1954;
};

Price price(const Job& job, const cutback::Result& cut_back, const floor::Floor& floor, const takeoff::TakeOff& take_off, const work::Work& work,
            const Options& options = {});

}  // namespace awlmark::price
