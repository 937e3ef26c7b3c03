#include "work/three_point.hpp"

#include <algorithm>
#include <cmath>

#include "base/special.hpp"

namespace awlmark::work {
namespace {

constexpr int kMostTries = 10000;  // of the rejection; each accepts with chance 1/5 or better
constexpr double kTiny = 1e-300;

double shape_low(const ThreePoint& p) { return 1 + 4 * (p.likely - p.low) / (p.high - p.low); }

// Stirling's series, moved up to where six terms give 1e-15 (Abramowitz and Stegun 6.1.41).
double log_gamma(double x) {
  double shift = 1;
  while (x < 12) {
    shift *= x;
    x += 1;
  }
  const double z = 1 / (x * x);
  const double series = (1.0 / 12 - z * (1.0 / 360 - z * (1.0 / 1260 - z * (1.0 / 1680 - z * (1.0 / 1188 - z * 691.0 / 360360))))) / x;
  return (x - 0.5) * det_log(x) - x + 0.91893853320467274178 + series - det_log(shift);
}

// The continued fraction of the incomplete beta function, by Lentz's method (DLMF 8.17.22).
double beta_fraction(double x, double a, double b) {
  double c = 1, d = 1 - (a + b) * x / (a + 1);
  if (std::fabs(d) < kTiny) d = kTiny;
  d = 1 / d;
  double value = d;
  for (int m = 1; m < 500; ++m) {
    const double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 + even * d;
    if (std::fabs(d) < kTiny) d = kTiny;
    c = 1 + even / c;
    if (std::fabs(c) < kTiny) c = kTiny;
    d = 1 / d;
    value *= d * c;
    const double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 + odd * d;
    if (std::fabs(d) < kTiny) d = kTiny;
    c = 1 + odd / c;
    if (std::fabs(c) < kTiny) c = kTiny;
    d = 1 / d;
    const double step = d * c;
    value *= step;
    if (std::fabs(step - 1) < 1e-15) break;
  }
  return value;
}

}  // namespace

double beta_cdf(double x, double a, double b) {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const double front = det_exp(log_gamma(a + b) - log_gamma(a) - log_gamma(b) + a * det_log(x) + b * det_log(1 - x));
  if (x < (a + 1) / (a + b + 2)) return front * beta_fraction(x, a, b) / a;
  return 1 - front * beta_fraction(1 - x, b, a) / b;
}

double pert_mean(const ThreePoint& p) { return (p.low + 4 * p.likely + p.high) / 6; }

double pert_variance(const ThreePoint& p) {
  const double mean = pert_mean(p);
  return (mean - p.low) * (p.high - mean) / 7;
}

double pert_draw(const ThreePoint& p, Random& random) {
  if (p.high <= p.low) return p.low;
  const double a = shape_low(p) - 1, b = 4 - a;  // exponents of x and 1 - x
  const double mode = a / 4;
  const double top = (a > 0 ? a * det_log(mode) : 0) + (b > 0 ? b * det_log(1 - mode) : 0);
  for (int attempt = 0; attempt < kMostTries; ++attempt) {
    const double x = random.uniform();
    const double u = random.uniform();
    if (x <= 0 || u <= 0) continue;
    const double height = (a > 0 ? a * det_log(x) : 0) + (b > 0 ? b * det_log(1 - x) : 0);
    if (det_log(u) <= height - top) return p.low + (p.high - p.low) * x;
  }
  return pert_mean(p);
}

double pert_quantile(const ThreePoint& p, double probability) {
  if (p.high <= p.low || probability <= 0) return p.low;
  if (probability >= 1) return p.high;
  const double a = shape_low(p), b = 6 - a;
  const double front = log_gamma(6) - log_gamma(a) - log_gamma(b);
  double low = 0, high = 1, x = a / 6;
  // Newton's step where it stays between the bounds found so far, else halving.
  for (int step = 0; step < 80 && high - low > 1e-15; ++step) {
    const double above = beta_cdf(x, a, b) - probability;
    if (above < 0)
      low = x;
    else
      high = x;
    const double density = det_exp(front + (a - 1) * det_log(x) + (b - 1) * det_log(1 - x));
    double next = density > 0 ? x - above / density : low;
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (std::fabs(next - x) <= 1e-14 * x) return p.low + (p.high - p.low) * next;
    x = next;
  }
  return p.low + (p.high - p.low) * (low + high) / 2;
}

double triangular_mean(const ThreePoint& p) { return (p.low + p.likely + p.high) / 3; }

double triangular_variance(const ThreePoint& p) {
  // As squares of the two sides, so that a narrow range far from zero keeps its digits.
  const double left = p.likely - p.low, right = p.high - p.likely;
  return (left * left + left * right + right * right) / 18;
}

double triangular_quantile(const ThreePoint& p, double probability) {
  const double width = p.high - p.low;
  if (width <= 0) return p.low;
  probability = std::clamp(probability, 0.0, 1.0);
  const double at_mode = (p.likely - p.low) / width;
  if (probability < at_mode) return p.low + std::sqrt(probability * width * (p.likely - p.low));
  return p.high - std::sqrt((1 - probability) * width * (p.high - p.likely));
}

}  // namespace awlmark::work
