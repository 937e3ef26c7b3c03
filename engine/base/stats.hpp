// Percentiles of a sample.
#pragma once

#include <vector>

namespace awlmark {

// The p-quantile (p in [0, 1]) by linear interpolation between order statistics, (n-1)p counted from
// the least (type 7 of Hyndman and Fan 1996). The sample need not be sorted; empty gives 0.
double quantile(std::vector<double> sample, double p);
// The same of a sample already in rising order.
double quantile_sorted(const std::vector<double>& sorted, double p);

double mean(const std::vector<double>& sample);  // 0 when empty

}  // namespace awlmark
