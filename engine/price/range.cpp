#include "price/range.hpp"

#include <algorithm>
#include <cmath>

#include "base/random.hpp"
#include "base/stats.hpp"
#include "work/three_point.hpp"

namespace awlmark::price {
namespace {

work::ThreePoint as_points(const RangeItem& item) { return {item.low, item.likely, item.high}; }
double mean_of(const RangeItem& item) { return item.shape == Shape::pert ? work::pert_mean(as_points(item)) : work::triangular_mean(as_points(item)); }
double variance_of(const RangeItem& item) {
  return item.shape == Shape::pert ? work::pert_variance(as_points(item)) : work::triangular_variance(as_points(item));
}
double quantile_of(const RangeItem& item, double p) {
  return item.shape == Shape::pert ? work::pert_quantile(as_points(item), p) : work::triangular_quantile(as_points(item), p);
}

// A beta quantile is dear, so each item's are worked out once on a grid and read off by a cubic
// through four neighbours; the ends, where the curve may rise steeply, are worked out themselves.
class QuantileTable {
 public:
  explicit QuantileTable(const RangeItem& item) : item_(item) {
    if (item.shape == Shape::triangular || item.high <= item.low) return;
    for (int i = 0; i <= kSteps; ++i) value_.push_back(quantile_of(item, static_cast<double>(i) / kSteps));
  }
  double at(double p) const {
    const double place = p * kSteps;
    const int i = static_cast<int>(place);
    if (value_.empty() || i < kEnd || i >= kSteps - kEnd) return quantile_of(item_, p);
    const double t = place - i;
    const double a = value_[static_cast<std::size_t>(i - 1)], b = value_[static_cast<std::size_t>(i)], c = value_[static_cast<std::size_t>(i + 1)],
                 d = value_[static_cast<std::size_t>(i + 2)];
    // Lagrange's cubic through -1, 0, 1, 2.
    return -a * t * (t - 1) * (t - 2) / 6 + b * (t + 1) * (t - 1) * (t - 2) / 2 - c * (t + 1) * t * (t - 2) / 2 + d * (t + 1) * t * (t - 1) / 6;
  }

 private:
  static constexpr int kSteps = 1024;
  static constexpr int kEnd = 8;
  const RangeItem& item_;
  std::vector<double> value_;
};

std::vector<double> sums(const std::vector<RangeItem>& items, int draws, std::uint64_t seed) {
  const auto count = static_cast<std::size_t>(std::max(1, draws));
  std::vector<double> sum(count, 0), slice(count);
  for (std::size_t k = 0; k < items.size(); ++k) {
    Random random(stream_seed(seed, k));
    const QuantileTable table(items[k]);
    for (std::size_t i = 0; i < count; ++i) {
      const double within = random.uniform();
      slice[i] = table.at((static_cast<double>(i) + within) / static_cast<double>(count));
    }
    for (std::size_t i = count; i-- > 1;) std::swap(slice[i], slice[static_cast<std::size_t>(random.below(i + 1))]);
    for (std::size_t i = 0; i < count; ++i) sum[i] += slice[i];
  }
  std::sort(sum.begin(), sum.end());
  return sum;
}

}  // namespace

RangeOfSum range_of_sum(const std::vector<RangeItem>& items, int draws, std::uint64_t seed) {
  RangeOfSum out;
  double variance = 0;
  for (const auto& item : items) {
    out.mean += mean_of(item);
    variance += variance_of(item);
    out.sum_of_likely += item.likely;
  }
  out.sd = std::sqrt(variance);
  const auto sum = sums(items, draws, seed);
  const double crumb = 1e-12 * std::max(1.0, std::fabs(out.sum_of_likely));
  out.chance_of_likely =
      static_cast<double>(std::upper_bound(sum.begin(), sum.end(), out.sum_of_likely + crumb) - sum.begin()) / static_cast<double>(sum.size());
  const auto percentile = [&](double p) { return items.size() == 1 ? quantile_of(items[0], p) : quantile_sorted(sum, p); };
  out.p10 = percentile(0.1);
  out.p50 = percentile(0.5);
  out.p80 = percentile(0.8);
  out.p90 = percentile(0.9);
  return out;
}

}  // namespace awlmark::price
