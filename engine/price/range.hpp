// The sum of independent items, each low, likely and high: exact mean and spread, percentiles.
//
// One item: exact percentiles. Several: each item is drawn once from each of `draws` equal slices of
// its distribution, in seeded random order (McKay, Beckman and Conover 1979, Latin hypercube), and
// the sums are ranked; far steadier than plain draws of the same number, and unbiased.
#pragma once

#include <boost/describe.hpp>
#include <cstdint>
#include <vector>

namespace awlmark::price {

enum class Shape { triangular, pert };
BOOST_DESCRIBE_ENUM(Shape, triangular, pert)

struct RangeItem {
  double low = 0;
  double likely = 0;
  double high = 0;
  Shape shape = Shape::triangular;
};

struct RangeOfSum {
  double mean = 0;  // exact
  double sd = 0;    // exact
  double sum_of_likely = 0;
  double chance_of_likely = 0;  // of ending at or below the sum of the likely figures
  double p10 = 0;
  double p50 = 0;
  double p80 = 0;
  double p90 = 0;
};

// low <= likely <= high for each; draws at least 1.
RangeOfSum range_of_sum(const std::vector<RangeItem>& items, int draws, std::uint64_t seed);

}  // namespace awlmark::price
