// Percentiles of a weighted sample. Private to the room.
#pragma once

#include <algorithm>
#include <vector>

namespace awlmark::price {

struct Sample {
  double value = 0;
  double weight = 0;
};

inline void sort_samples(std::vector<Sample>& sample) {
  std::sort(sample.begin(), sample.end(), [](const Sample& a, const Sample& b) { return a.value != b.value ? a.value < b.value : a.weight < b.weight; });
}

// Of a sample in rising order: each value stands at the middle of its weight, straight lines between.
inline double weighted_quantile(const std::vector<Sample>& sorted, double p) {
  if (sorted.empty()) return 0;
  double total = 0;
  for (const auto& one : sorted) total += one.weight;
  const double wanted = p * total;
  double before = 0, last_at = 0;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    const double at = before + sorted[i].weight / 2;
    if (at >= wanted) {
      if (i == 0) return sorted[0].value;
      const double t = at > last_at ? (wanted - last_at) / (at - last_at) : 1;
      return sorted[i - 1].value + t * (sorted[i].value - sorted[i - 1].value);
    }
    last_at = at;
    before += sorted[i].weight;
  }
  return sorted.back().value;
}

}  // namespace awlmark::price
