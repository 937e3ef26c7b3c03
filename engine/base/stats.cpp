#include "base/stats.hpp"

#include <algorithm>
#include <cmath>

namespace awlmark {

double quantile_sorted(const std::vector<double>& sorted, double p) {
  if (sorted.empty()) return 0;
  const double place = std::clamp(p, 0.0, 1.0) * static_cast<double>(sorted.size() - 1);
  const auto low = static_cast<std::size_t>(std::floor(place));
  const std::size_t high = std::min(low + 1, sorted.size() - 1);
  return sorted[low] + (place - static_cast<double>(low)) * (sorted[high] - sorted[low]);
}

double quantile(std::vector<double> sample, double p) {
  std::sort(sample.begin(), sample.end());
  return quantile_sorted(sample, p);
}

double mean(const std::vector<double>& sample) {
  double sum = 0;
  for (const double value : sample) sum += value;
  return sample.empty() ? 0 : sum / static_cast<double>(sample.size());
}

}  // namespace awlmark
