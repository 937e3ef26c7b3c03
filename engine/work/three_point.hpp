// Low, likely, high: the triangular and the PERT distribution.
//
// PERT is the beta law on [low, high] with a = 1 + 4 (likely - low) / (high - low) and
// b = 1 + 4 (high - likely) / (high - low), so a + b = 6; its exact variance is
// (mean - low)(high - mean) / 7, not the classic ((high - low) / 6)^2 (Vose, Risk Analysis).
// Drawn by rejection with this project's own logarithm: the same draws on every target.
// low <= likely <= high is taken for granted; a range without width is a constant.
#pragma once

#include "base/random.hpp"

namespace awlmark::work {

struct ThreePoint {
  double low = 0;
  double likely = 0;
  double high = 0;
};

double pert_mean(const ThreePoint& p);
double pert_variance(const ThreePoint& p);
double pert_draw(const ThreePoint& p, Random& random);
double pert_quantile(const ThreePoint& p, double probability);  // to 1e-12 of the range

double triangular_mean(const ThreePoint& p);
double triangular_variance(const ThreePoint& p);
double triangular_quantile(const ThreePoint& p, double probability);

// Chance that a beta(a, b) variable is at most x; a, b in [1, 1000].
double beta_cdf(double x, double a, double b);

}  // namespace awlmark::work
