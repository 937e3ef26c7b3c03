// Expectation propagation for a Gaussian prior and readings that each see one latent value (Minka
// 2001; Rasmussen and Williams 2006, algorithm 3.5 and eq. 3.65, from memory). Dense in the number
// of readings, never in cells.
//
// Guarantees: (1) with gaussian readings only, the answer is the exact posterior and the exact
// evidence; (2) nothing singular is ever inverted: only I + S K S is factored, so any number of
// readings may lie on one spot; (3) it stops, after `max_sweeps` at the latest, and says how it went.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "survey/likelihood.hpp"

namespace awlmark::survey {

struct EpOptions {
  int max_sweeps = 60;
  double tolerance = 1e-8;  // largest change of a marginal's mean or sd, in sds
  double damping = 1.0;     // share of each step taken; lowered by itself when a sweep makes it worse
  bool predicts = true;     // false leaves weights and half out: the evidence is all that is asked
};

// Sites as natural parameters: precision and precision times mean (of f less its prior mean).
struct Sites {
  Eigen::VectorXd precision;
  Eigen::VectorXd shift;
};

struct EpResult {
  Sites sites;
  Eigen::VectorXd mean;  // of the latent values at the readings, with the prior mean
  Eigen::VectorXd variance;
  // Prediction: mean(p) = m(p) + k(p)' weights; var(p) = k(p,p) - |half k(p)|^2, half lower triangular
  // times diag(sqrt(precision)): half = L^-1 S.
  Eigen::VectorXd weights;
  Eigen::MatrixXd half;
  double log_evidence = 0;
  bool converged = true;
  int sweeps = 0;
  double largest_step = 0;
};

// `start`: sites to start from (those of a similar setting), or null.
EpResult expectation_propagation(const Eigen::MatrixXd& prior, const Eigen::VectorXd& prior_mean, const std::vector<Likelihood>& likelihoods,
                                 const EpOptions& options = {}, const Sites* start = nullptr);

}  // namespace awlmark::survey
