#include "survey/ep.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "base/special.hpp"

namespace awlmark::survey {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double kIdle = 0.1;  // share of the tolerance

// The approximate posterior of f less its prior mean, and what was factored to get it.
struct State {
  MatrixXd covariance;
  VectorXd mean;
  MatrixXd lower;  // of I + S K S
  VectorXd root;   // sqrt(precision)
};

MatrixXd factor(const MatrixXd& k, const VectorXd& root) {
  const Index n = k.rows();
  MatrixXd b(n, n);
  for (Index j = 0; j < n; ++j)
    for (Index i = 0; i < n; ++i) b(i, j) = root[i] * k(i, j) * root[j] + (i == j ? 1.0 : 0.0);
  return b.llt().matrixL();
}

State refresh(const MatrixXd& k, const Sites& sites) {
  State state;
  state.root = sites.precision.cwiseSqrt();
  state.lower = factor(k, state.root);
  const MatrixXd v = state.lower.triangularView<Eigen::Lower>().solve(state.root.asDiagonal() * k);
  state.covariance = k;
  state.covariance.noalias() -= v.transpose() * v;
  state.mean = state.covariance * sites.shift;
  return state;
}

// Covariance and mean after site i gained `precision` and `shift`: a rank-one change, by whole columns.
void apply(State& state, Index i, double precision, double shift) {
  const Index n = state.mean.size();
  const VectorXd column = state.covariance.col(i);
  const double scale = 1 / (1 + precision * column[i]);
  const double step = (shift - precision * state.mean[i]) * scale;
  state.mean += step * column;
  const double* c = column.data();
  for (Index j = 0; j < n; ++j) {
    const double f = precision * scale * c[j];
    double* to = state.covariance.data() + j * n;
    for (Index m = 0; m < n; ++m) to[m] -= f * c[m];
  }
}

struct Cavity {
  double precision = 0;
  double shift = 0;
};

Cavity cavity_of(const State& state, const Sites& sites, Index i) {
  const double s = state.covariance(i, i);
  return {1 / s - sites.precision[i], state.mean[i] / s - sites.shift[i]};
}

// Steps far below the tolerance are left out: late sweeps then cost little more than their readings.
double sweep(State& state, Sites& sites, const VectorXd& prior_mean, const std::vector<Likelihood>& likelihoods, double damping, double tolerance) {
  double largest = 0;
  for (Index i = 0; i < state.mean.size(); ++i) {
    const double s = state.covariance(i, i);
    if (!(s > 1e-14)) continue;  // known already
    const Cavity cavity = cavity_of(state, sites, i);
    if (!(cavity.precision > 1e-12 / s)) continue;
    const double variance = 1 / cavity.precision;
    const Tilted tilted = tilt(likelihoods[static_cast<std::size_t>(i)], cavity.shift * variance + prior_mean[i], variance);
    const double mean = tilted.mean - prior_mean[i];
    // Held at none where a reading that may have strayed would widen what the others say.
    const double goal_precision = std::max(0.0, 1 / tilted.variance - cavity.precision);
    const double goal_variance = 1 / (goal_precision + cavity.precision);
    const double change = std::max(std::fabs(mean - state.mean[i]) / std::sqrt(s), std::fabs(goal_variance - s) / s);
    largest = std::max(largest, change);
    if (change < kIdle * tolerance) continue;
    const double goal_shift = mean * (goal_precision + cavity.precision) - cavity.shift;
    const double dp = damping * (goal_precision - sites.precision[i]);
    const double ds = damping * (goal_shift - sites.shift[i]);
    sites.precision[i] += dp;
    sites.shift[i] += ds;
    apply(state, i, dp, ds);
  }
  return largest;
}

// Rasmussen and Williams eq. 3.65 with the terms that cancel already cancelled (their eq. 3.73-3.74).
double evidence(const State& state, const Sites& sites, const VectorXd& prior_mean, const std::vector<Likelihood>& likelihoods) {
  double sum = 0;
  for (Index i = 0; i < state.mean.size(); ++i) {
    const Cavity c = cavity_of(state, sites, i);
    const double mean = c.shift / c.precision;
    const double both = c.precision + sites.precision[i];
    sum += tilt(likelihoods[static_cast<std::size_t>(i)], mean + prior_mean[i], 1 / c.precision).log_mass;
    sum += 0.5 * det_log(both / c.precision) - det_log(state.lower(i, i));
    sum += 0.5 * sites.shift[i] * (state.mean[i] - sites.shift[i] / both);
    sum += 0.5 * mean * c.precision / both * (sites.precision[i] * mean - 2 * sites.shift[i]);
  }
  return sum;
}

}  // namespace

EpResult expectation_propagation(const MatrixXd& prior, const VectorXd& prior_mean, const std::vector<Likelihood>& likelihoods, const EpOptions& options,
                                 const Sites* start) {
  const Index n = prior.rows();
  EpResult result;
  result.sites = start != nullptr && start->precision.size() == n ? *start : Sites{VectorXd::Zero(n), VectorXd::Zero(n)};
  if (n == 0) {  // nothing was read: the prior stands
    result.half.resize(0, 0);
    return result;
  }
  // At no sites the prior is the posterior; the rank-one changes of a few sweeps lose nothing that counts, so that
  // at the end only the factor is made anew.
  const bool fresh = (result.sites.precision.array() == 0).all() && (result.sites.shift.array() == 0).all();
  State state = fresh ? State{prior, VectorXd::Zero(n), {}, {}} : refresh(prior, result.sites);
  double damping = options.damping, before = 1e300;
  result.converged = false;
  while (!result.converged && result.sweeps < options.max_sweeps) {
    result.largest_step = sweep(state, result.sites, prior_mean, likelihoods, damping, options.tolerance);
    ++result.sweeps;
    result.converged = result.largest_step < options.tolerance;
    if (result.largest_step > before) damping = std::max(0.3, 0.7 * damping);
    before = result.largest_step;
    if (result.sweeps % 8 == 0) state = refresh(prior, result.sites);
  }
  state.root = result.sites.precision.cwiseSqrt();
  state.lower = factor(prior, state.root);
  result.mean = state.mean + prior_mean;
  result.variance = state.covariance.diagonal();
  result.log_evidence = evidence(state, result.sites, prior_mean, likelihoods);
  if (!options.predicts) return result;
  result.half = state.lower.triangularView<Eigen::Lower>().solve(MatrixXd(state.root.asDiagonal()));
  // K^-1 (mean - prior mean) without inverting K: shift - S B^-1 S K shift.
  const VectorXd pulled = result.half * (prior * result.sites.shift);
  result.weights = result.sites.shift - result.half.transpose() * pulled;
  return result;
}

}  // namespace awlmark::survey
