// The chance of unsound wood where it is small, with the readings' own likelihoods in place of EP's Gaussian
// sites.
//
// Beside a sound reading EP's Gaussian marginal keeps a tail that the reading itself cuts off. The marginal of
// a cell is therefore taken as EP's times, for each reading near it, the expectation of the true likelihood
// over its site given the cell's value (the factorized correction of Cseke and Heskes, Journal of Machine
// Learning Research 12, 2011, from memory): exact for one reading, and close for several (tests/survey hold it
// against a long sampler).
#pragma once

#include <Eigen/Core>
#include <vector>

#include "survey/fit.hpp"

namespace awlmark::survey {

// Corrected between these chances; below there is nothing left to correct, above EP is as good.
inline constexpr double kTailLeast = 2e-4;
inline constexpr double kTailMost = 0.25;

class Tails {
 public:
  // `link`: covariance of each reading with a point of the node, as coefficients of the point's features.
  Tails(const Fit& fit, const Member& member, const Eigen::MatrixXd& link);

  // Whether a chance of this mean and variance under EP is corrected at all.
  bool wanted(double mean, double variance) const;
  // Takes the features of `width` points at once, row r of them at features[r * stride].
  void share(const std::vector<double>& features, std::size_t stride, std::size_t width);
  // The chance that the latent rot lies above 0 at point `c` of those, of this mean and variance under EP.
  double chance(std::size_t c, double mean, double variance) const;

 private:
  const Member& member_;
  Eigen::MatrixXd with_readings_;  // features x readings: their posterior covariance with a point
  std::vector<Likelihood> likelihoods_;
  std::vector<double> prior_mean_;
  std::vector<double> shared_;  // readings x points: posterior covariance
  std::size_t stride_ = 0;
};

}  // namespace awlmark::survey
