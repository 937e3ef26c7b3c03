// Draws of what the readings felt: y = latent value + the reading's own noise, given what every reading said.
//
// Each draw starts from EP's Gaussian posterior and is carried a few sweeps of Gibbs sampling on y (data
// augmentation, Albert and Chib 1993, from memory), in which each y has its true, cut distribution given the
// others. So draws do not follow one another, and the tail that EP's Gaussian keeps beside a sound reading is
// cut off as the reading cuts it (tests/survey hold it against a long sampler).
#pragma once

#include <Eigen/Core>
#include <vector>

#include "base/random.hpp"
#include "survey/fit.hpp"

namespace awlmark::survey {

class ReadingDraws {
 public:
  ReadingDraws(const Fit& fit, const Member& member);

  // y less the prior mean. `sign` -1 starts from the mirrored draw.
  Eigen::VectorXd draw(Random& random, double sign) const;
  // (K + N)^-1 v, N the readings' noise: what kriging multiplies with.
  Eigen::VectorXd solved(const Eigen::VectorXd& v) const { return inverse_ * v; }
  double noise_sd(Eigen::Index i) const { return likelihoods_[static_cast<std::size_t>(i)].noise_sd; }

 private:
  double felt(Eigen::Index i, double mean, double sd, Random& random) const;

  std::vector<Likelihood> likelihoods_;
  Eigen::VectorXd prior_mean_, start_;  // `start_`: EP's mean less the prior's
  Eigen::MatrixXd root_;                // lower, of EP's covariance
  Eigen::MatrixXd inverse_;             // of K + N
  int sweeps_ = 0;
};

}  // namespace awlmark::survey
