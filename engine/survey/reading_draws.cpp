#include "survey/reading_draws.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>

#include "base/special.hpp"
#include "survey/normal_table.hpp"

namespace awlmark::survey {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr int kSweeps = 3;
constexpr Index kMany = 150;       // readings from which one sweep has to do: they pin the latent values down
constexpr double kPlenty = 0.25;   // share of a normal in an interval from which plain draws hit it soon enough
constexpr double kNothing = 1e-8;  // below, the table of the normal distribution tells nothing

// A standard normal between a and b, a > 0: by an exponential, or by an even draw where that is shorter
// (Robert, Statistics and Computing 5, 1995, from memory).
double beyond(double a, double b, Random& random) {
  const double rate = 0.5 * (a + std::sqrt(a * a + 4));
  const bool even = (b - a) * rate < 1;
  for (;;) {
    const double first = random.uniform();
    const double z = even ? a + first * (b - a) : a - det_log(1 - first) / rate;
    if (z > b) continue;
    const double log_share = even ? 0.5 * (a * a - z * z) : -0.5 * (z - rate) * (z - rate);
    if (random.uniform() < det_exp(log_share)) return z;
  }
}

double normal_between(double a, double b, Random& random) {
  if (a > 0) return beyond(a, b, random);
  if (b < 0) return -beyond(-b, -a, random);
  const NormalTable& normal = normal_table();
  if (normal.cdf(b) - normal.cdf(a) > kPlenty)
    for (;;) {
      const double z = random.normal();
      if (z >= a && z <= b) return z;
    }
  const double low = std::max(a, -8.0), high = std::min(b, 8.0);
  for (;;) {
    const double z = low + random.uniform() * (high - low);
    if (random.uniform() < det_exp(-0.5 * z * z)) return z;
  }
}

}  // namespace

ReadingDraws::ReadingDraws(const Fit& fit, const Member& member) {
  const Index n = static_cast<Index>(fit.places.size());
  if (n == 0) return;
  prior_mean_.resize(n);
  for (Index i = 0; i < n; ++i) {
    const auto k = static_cast<std::size_t>(i);
    likelihoods_.push_back(fit.observations[k].likelihood(member.covariance.setting().gap));
    prior_mean_[i] = member.covariance.mean(fit.places[k]);
  }
  start_ = member.ep.mean - prior_mean_;
  MatrixXd sum = member.covariance.matrix(fit.places);
  const MatrixXd half = member.ep.half.triangularView<Eigen::Lower>() * sum;
  MatrixXd left = sum;
  left.noalias() -= half.transpose() * half;
  for (Index i = 0; i < n; ++i) {
    left(i, i) += 1e-9 + 1e-9 * sum(i, i);
    sum(i, i) += noise_sd(i) * noise_sd(i);
  }
  root_ = left.llt().matrixL();
  inverse_ = sum.llt().solve(MatrixXd::Identity(n, n));
  sweeps_ = n > kMany ? 1 : kSweeps;
}

// A draw of N(mean, sd) weighted by what reading `i` says of it.
double ReadingDraws::felt(Index i, double mean, double sd, Random& random) const {
  const Likelihood& l = likelihoods_[static_cast<std::size_t>(i)];
  const double a = (l.low - prior_mean_[i] - mean) / sd, b = (l.high - prior_mean_[i] - mean) / sd;
  const NormalTable& normal = normal_table();
  const double to_a = normal.cdf(a), to_b = normal.cdf(b);
  const std::array<double, 3> given = l.kind == Likelihood::Kind::graded ? l.given : std::array<double, 3>{0, 1, 0};
  const std::array<double, 3> share{given[0] * to_a, given[1] * (to_b - to_a), given[2] * (1 - to_b)};
  const std::array<double, 3> low{-1e9, a, b}, high{a, b, 1e9};
  const double all = share[0] + share[1] + share[2];
  std::size_t part = 0;
  if (all > kNothing) {
    double left = random.uniform() * all;
    while (part < 2 && left >= share[part]) left -= share[part++];
    if (!(share[part] > 0)) part = share[1] > 0 ? 1 : (share[0] > 0 ? 0 : 2);
  } else {  // far from all that the reading allows: into the nearest part of it
    double least = 1e300;
    for (std::size_t k = 0; k < 3; ++k) {
      const double away = std::max({0.0, low[k], -high[k]});
      if (given[k] <= 0 || away >= least) continue;
      least = away;
      part = k;
    }
  }
  return mean + sd * normal_between(low[part], high[part], random);
}

VectorXd ReadingDraws::draw(Random& random, double sign) const {
  const Index n = prior_mean_.size();
  VectorXd y(n);
  if (n == 0) return y;
  VectorXd white(n);
  for (Index i = 0; i < n; ++i) white[i] = sign * random.normal();
  const VectorXd f = start_ + root_.triangularView<Eigen::Lower>() * white;
  const auto measured = [&](Index i) { return likelihoods_[static_cast<std::size_t>(i)].kind == Likelihood::Kind::gaussian; };
  for (Index i = 0; i < n; ++i) y[i] = measured(i) ? likelihoods_[static_cast<std::size_t>(i)].value - prior_mean_[i] : felt(i, f[i], noise_sd(i), random);
  VectorXd pulled = inverse_ * y;
  for (int sweep = 0; sweep < sweeps_; ++sweep)
    for (Index i = 0; i < n; ++i) {
      if (measured(i)) continue;
      const double own = inverse_(i, i);
      const double next = felt(i, y[i] - pulled[i] / own, 1 / std::sqrt(own), random), step = next - y[i];
      y[i] = next;
      const double* column = &inverse_(0, i);
      for (Index j = 0; j < n; ++j) pulled[j] += step * column[j];
    }
  return y;
}

}  // namespace awlmark::survey
