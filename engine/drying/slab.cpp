#include "drying/slab.hpp"

#include <algorithm>
#include <cmath>

#include "base/special.hpp"

namespace awlmark::drying {
namespace {

constexpr double kSqrtPi = 1.77245385090551602730;
constexpr double kSwitch = 0.1;

double erfc(double x) { return 2 * normal_cdf(-x * std::sqrt(2.0)); }
// The integral of erfc from x to infinity.
double ierfc(double x) { return det_exp(-x * x) / kSqrtPi - x * erfc(x); }

double mean_early(double fourier) {
  const double root = std::sqrt(fourier);
  double sum = 1 / kSqrtPi;
  for (int n = 1; n <= 8; ++n) sum += 2 * (n % 2 == 0 ? 1 : -1) * ierfc(n / root);
  return 2 * root * sum;
}

double centre_early(double fourier) {
  const double root = 2 * std::sqrt(fourier);
  double sum = 0;
  for (int n = 0; n < 8; ++n) sum += (n % 2 == 0 ? 2 : -2) * erfc((2 * n + 1) / root);
  return sum;
}

double mean_late(double fourier) {
  double left = 0;
  for (int n = 0; n < 30; ++n) {
    const double m = 2 * n + 1;
    left += det_exp(-m * m * kPi * kPi * fourier / 4) / (m * m);
  }
  return 1 - 8 / (kPi * kPi) * left;
}

double centre_late(double fourier) {
  double left = 0;
  for (int n = 0; n < 30; ++n) {
    const double m = 2 * n + 1;
    left += (n % 2 == 0 ? 1 : -1) * det_exp(-m * m * kPi * kPi * fourier / 4) / m;
  }
  return 1 - 4 / kPi * left;
}

double path_in(double thickness_in, int faces_open) { return faces_open == 1 ? thickness_in : thickness_in / 2; }

}  // namespace

SlabDrying slab_by_fourier(double fourier) {
  SlabDrying out;
  out.fourier = std::max(0.0, fourier);
  if (out.fourier <= 0) return out;
  const bool early = out.fourier < kSwitch;
  out.fraction_mean = std::clamp(early ? mean_early(out.fourier) : mean_late(out.fourier), 0.0, 1.0);
  out.fraction_centre = std::clamp(early ? centre_early(out.fourier) : centre_late(out.fourier), 0.0, 1.0);
  return out;
}

SlabDrying slab_drying(double thickness_in, int faces_open, double diffusivity_in2_per_day, double days) {
  const double path = path_in(thickness_in, faces_open);
  return slab_by_fourier(diffusivity_in2_per_day * days / (path * path));
}

double slab_days(double thickness_in, int faces_open, double diffusivity_in2_per_day, double fraction) {
  double low = 0, high = 1;
  while (slab_by_fourier(high).fraction_mean < fraction && high < 1e3) high *= 2;
  for (int step = 0; step < 60; ++step) {
    const double middle = (low + high) / 2;
    if (slab_by_fourier(middle).fraction_mean < fraction)
      low = middle;
    else
      high = middle;
  }
  const double path = path_in(thickness_in, faces_open);
  return (low + high) / 2 * path * path / diffusivity_in2_per_day;
}

double slab_mean_with_surface(double biot, double fourier) {
  if (biot <= 0 || fourier <= 0) return 0;
  double left = 0;
  for (int n = 0; n < 60; ++n) {
    // The root of beta tan(beta) = B between n pi and (n + 1/2) pi.
    double low = n * kPi, high = (n + 0.5) * kPi;
    const double turn = n % 2 == 0 ? 1 : -1;  // sine and cosine share their sign on this stretch
    for (int step = 0; step < 60; ++step) {
      const double middle = (low + high) / 2;
      if (turn * (middle * det_sin(middle) - biot * det_cos(middle)) < 0)
        low = middle;
      else
        high = middle;
    }
    const double beta = (low + high) / 2, b2 = beta * beta;
    left += 2 * biot * biot * det_exp(-b2 * fourier) / (b2 * (b2 + biot * biot + biot));
  }
  return std::clamp(1 - left, 0.0, 1.0);
}

}  // namespace awlmark::drying
