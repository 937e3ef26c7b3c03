// What the outside checks of the survey's kernels share: an isotropic Matern matrix written anew,
// prediction from an EP result, and a long-sampling reference for marginals that no package gives.
#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <cmath>
#include <nlohmann/json.hpp>
#include <vector>

#include "base/random.hpp"
#include "base/special.hpp"
#include "survey/ep.hpp"
#include "survey/model.hpp"

namespace awlmark::testing {

inline Eigen::MatrixXd matern_matrix(const std::vector<double>& a, const std::vector<double>& b, double variance, double length) {
  Eigen::MatrixXd k(a.size(), b.size());
  for (Eigen::Index i = 0; i < k.rows(); ++i)
    for (Eigen::Index j = 0; j < k.cols(); ++j) {
      const double d = std::sqrt(3.0) * std::fabs(a[static_cast<std::size_t>(i)] - b[static_cast<std::size_t>(j)]) / length;
      k(i, j) = variance * (1 + d) * det_exp(-d);
    }
  return k;
}

struct Predicted {
  Eigen::VectorXd mean;
  Eigen::VectorXd variance;
};

// `with`: prior covariance of the readings (rows) with the new places (columns).
inline Predicted predict(const survey::EpResult& ep, const Eigen::MatrixXd& with, double own_variance, double prior_mean = 0) {
  const Eigen::MatrixXd pulled = ep.half * with;
  Predicted p{with.transpose() * ep.weights, Eigen::VectorXd::Constant(with.cols(), own_variance)};
  p.mean.array() += prior_mean;
  p.variance -= pulled.colwise().squaredNorm().transpose();
  return p;
}

// Log of P(low < f + noise <= high), written without the engine's tilt(): by the plain difference.
inline double interval_log_likelihood(const survey::Likelihood& l, double f) {
  const double high = std::isinf(l.high) ? 1 : normal_cdf((l.high - f) / l.noise_sd);
  const double low = std::isinf(l.low) ? 0 : normal_cdf((l.low - f) / l.noise_sd);
  const double upper = std::isinf(l.high) ? normal_cdf((f - l.low) / l.noise_sd) : high - low;
  return upper > 0 ? det_log(upper) : -1e300;
}

// Moments by elliptical slice sampling (Murray, Adams and MacKay 2010): exact in the long run for a
// Gaussian prior and any likelihood. `batch_mean` holds the means of 50 batches, for standard errors.
struct Sampled {
  Eigen::VectorXd mean, sd, above_zero, mean_error, above_zero_error;
};

inline Sampled slice_sample(const Eigen::MatrixXd& prior, const std::vector<survey::Likelihood>& likelihoods, int draws, Random& random) {
  constexpr int kBatches = 50;
  constexpr double kTurn = 6.283185307179586;
  const Eigen::Index n = prior.rows();
  const Eigen::MatrixXd lower = (prior + 1e-10 * Eigen::MatrixXd::Identity(n, n)).llt().matrixL();
  const auto normals = [&] {
    Eigen::VectorXd z(n);
    for (Eigen::Index i = 0; i < n; ++i) z[i] = random.normal();
    return Eigen::VectorXd(lower.triangularView<Eigen::Lower>() * z);
  };
  const auto log_likelihood = [&](const Eigen::VectorXd& f) {
    double sum = 0;
    for (std::size_t i = 0; i < likelihoods.size(); ++i) sum += interval_log_likelihood(likelihoods[i], f[static_cast<Eigen::Index>(i)]);
    return sum;
  };
  Eigen::VectorXd f = Eigen::VectorXd::Zero(n);
  double now = log_likelihood(f);
  Eigen::MatrixXd mean = Eigen::MatrixXd::Zero(n, kBatches), above = mean;
  Eigen::VectorXd square = Eigen::VectorXd::Zero(n);
  const int per_batch = draws / kBatches;
  for (int step = -draws / 20; step < per_batch * kBatches; ++step) {
    const Eigen::VectorXd other = normals();
    const double bar = now + det_log(random.uniform() + 1e-300);
    double angle = kTurn * random.uniform();
    double low = angle - kTurn, high = angle;
    Eigen::VectorXd trial;
    for (;;) {
      trial = f * det_cos(angle) + other * det_sin(angle);
      now = log_likelihood(trial);
      if (now > bar) break;
      (angle < 0 ? low : high) = angle;
      angle = low + (high - low) * random.uniform();
    }
    f = trial;
    if (step < 0) continue;
    mean.col(step / per_batch) += f / per_batch;
    above.col(step / per_batch) += (f.array() > 0).cast<double>().matrix() / per_batch;
    square += f.cwiseProduct(f) / (per_batch * kBatches);
  }
  const auto error_of = [&](const Eigen::MatrixXd& batches) {
    const Eigen::VectorXd centre = batches.rowwise().mean();
    return Eigen::VectorXd(((batches.colwise() - centre).rowwise().squaredNorm() / (kBatches * (kBatches - 1.0))).cwiseSqrt());
  };
  Sampled s;
  s.mean = mean.rowwise().mean();
  s.sd = (square - s.mean.cwiseProduct(s.mean)).cwiseSqrt();
  s.above_zero = above.rowwise().mean();
  s.mean_error = error_of(mean);
  s.above_zero_error = error_of(above);
  return s;
}

inline std::vector<double> numbers(const nlohmann::json& json) { return json.get<std::vector<double>>(); }

inline double chance_above_zero(double mean, double variance) { return normal_cdf(mean / std::sqrt(variance)); }

// One layer, nothing but the shared term: the covariance is a product of two Materns.
inline survey::Model bare_model(double degrees, bool grained) {
  survey::Model model;
  survey::Node node;
  node.degrees = degrees;
  node.grained = grained;
  model.nodes.push_back(node);
  model.shared_degrees = degrees;
  model.shared_grained = grained;
  model.rot_far = {0, 0};
  model.wet_far = {0, 0};
  model.node_sd = 0;
  model.own_share = 0;
  return model;
}

}  // namespace awlmark::testing
