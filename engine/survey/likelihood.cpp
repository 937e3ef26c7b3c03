#include "survey/likelihood.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/special.hpp"

namespace awlmark::survey {
namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
constexpr double kHalfLog2Pi = 0.91893853320467274178;

double log_pdf(double z) { return -0.5 * z * z - kHalfLog2Pi; }

// log(Phi(b) - Phi(a)), a < b, without loss in either tail.
double log_interval(double a, double b) {
  if (a > 0) {
    const double t = a;
    a = -b;
    b = -t;
  }
  if (a == -kInf) return b == kInf ? 0 : log_normal_cdf(b);
  if (b == kInf) return log_normal_cdf(-a);
  const double top = log_normal_cdf(b), less = log_normal_cdf(a);
  const double ratio = det_exp(less - top);
  return top + (ratio < 0.5 ? -det_log(1 / (1 - ratio)) : det_log(1 - ratio));
}

constexpr std::array<double, 3> kInside{0, 1, 0};

constexpr double kPlain = 20;  // within so many sds a normal integral is an ordinary number

// log(w0 Phi(a) + w1 (Phi(b) - Phi(a)) + w2 (1 - Phi(b))): plainly near the reading, in logarithms
// however far out it lies.
double log_graded(double a, double b, const std::array<double, 3>& w) {
  if (std::fabs(a) < kPlain && std::fabs(b) < kPlain) {
    const double below = normal_cdf(a), above = normal_cdf(-b);
    const double between = a > 0 ? normal_cdf(-a) - above : normal_cdf(b) - below;
    return det_log(w[0] * below + w[1] * between + w[2] * above);
  }
  const std::array<double, 3> log_part{log_normal_cdf(a), log_interval(a, b), log_normal_cdf(-b)};
  double most = -kInf;
  for (std::size_t k = 0; k < 3; ++k)
    if (w[k] > 0) most = std::max(most, log_part[k]);
  double sum = 0;
  for (std::size_t k = 0; k < 3; ++k)
    if (w[k] > 0) sum += w[k] * det_exp(log_part[k] - most);
  return most + det_log(sum);
}

}  // namespace

Likelihood Likelihood::below(double cut, double noise_sd) { return {Kind::interval, -kInf, cut, 0, noise_sd, {}}; }
Likelihood Likelihood::between(double low, double high, double noise_sd) { return {Kind::interval, low, high, 0, noise_sd}; }
Likelihood Likelihood::above(double cut, double noise_sd) { return {Kind::interval, cut, kInf, 0, noise_sd}; }
Likelihood Likelihood::measured(double value, double noise_sd) { return {Kind::gaussian, 0, 0, value, noise_sd}; }

Likelihood Likelihood::awl(int grade, double gap, double noise_sd, double stray) {
  // From the end grades one can stray one way only, from soft either way.
  const std::array<std::array<double, 3>, 3> given{{{1 - stray, stray / 2, 0}, {stray, 1 - stray, stray}, {0, stray / 2, 1 - stray}}};
  return {Kind::graded, 0, gap, 0, noise_sd, given[static_cast<std::size_t>(grade)]};
}

Tilted tilt(const Likelihood& likelihood, double mean, double variance) {
  const double spread2 = variance + likelihood.noise_sd * likelihood.noise_sd;
  const double spread = std::sqrt(spread2);
  if (likelihood.kind == Likelihood::Kind::gaussian) {
    const double z = (likelihood.value - mean) / spread;
    const double gain = variance / spread2;
    return {log_pdf(z) - 0.5 * det_log(spread2), mean + gain * (likelihood.value - mean), variance * (1 - gain)};
  }
  const double a = (likelihood.low - mean) / spread, b = (likelihood.high - mean) / spread;
  const std::array<double, 3>& w = likelihood.kind == Likelihood::Kind::graded ? likelihood.given : kInside;
  const double log_mass = likelihood.kind == Likelihood::Kind::graded ? log_graded(a, b, w) : log_interval(a, b);
  // Density at each end over the mass, by the step of the weights there; an infinite end has none.
  const double at_a = std::isinf(a) ? 0 : (w[1] - w[0]) * det_exp(log_pdf(a) - log_mass);
  const double at_b = std::isinf(b) ? 0 : (w[2] - w[1]) * det_exp(log_pdf(b) - log_mass);
  const double first = at_a + at_b;
  const double second = first * first - (std::isinf(a) ? 0 : a * at_a) - (std::isinf(b) ? 0 : b * at_b);
  return {log_mass, mean + variance / spread * first, variance - variance * variance / spread2 * second};
}

}  // namespace awlmark::survey
