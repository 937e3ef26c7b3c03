// The posterior as a small mixture: one expectation propagation for each setting of the scales,
// weighted by its evidence. Settings whose weight is negligible are dropped.
#pragma once

#include <memory>
#include <vector>

#include "survey/covariance.hpp"
#include "survey/ep.hpp"
#include "survey/evidence.hpp"

namespace awlmark::survey {

// One setting kept. `gaps` holds the cuts between soft and gone that share these latent moments,
// with weights that sum to `weight`; the weights of all members sum to 1.
struct Member {
  struct Gap {
    double gap = 1;
    double weight = 0;
  };
  Covariance covariance;
  EpResult ep;
  std::vector<Gap> gaps;
  double weight = 0;
  // I - half' half K: a point's prior covariances with the readings times this are its posterior ones.
  Eigen::MatrixXd untold;
};

struct Fit {
  std::shared_ptr<const Model> model;  // the members' covariances point into it
  std::vector<Observation> observations;
  std::vector<Place> places;    // of the observations
  std::vector<Member> members;  // heaviest first
  bool converged = true;
  int sweeps = 0;  // most of any setting
  double largest_step = 0;
  double log_evidence = 0;  // of the mixture
};

struct FitOptions {
  double negligible = 0.03;  // weight against the heaviest below which a setting is dropped
  EpOptions ep{60, 1e-6, 1.0};
};

// The grid of settings that fits this model: stretch only where there is a grain, reach only where
// there is a source.
std::vector<Setting> settings_for(const Model& model);

Fit fit(const Model& model, std::vector<Observation> observations, const FitOptions& options = {});
// With the settings given (benches, outside checks).
Fit fit(const Model& model, std::vector<Observation> observations, const std::vector<Setting>& settings, const FitOptions& options = {});

}  // namespace awlmark::survey
