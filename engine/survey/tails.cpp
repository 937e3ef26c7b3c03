#include "survey/tails.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/special.hpp"
#include "survey/normal_table.hpp"

namespace awlmark::survey {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;

// Gauss-Legendre, 8 nodes on [-1, 1] (Abramowitz and Stegun, table 25.4).
constexpr std::array<double, 8> kAt{-0.960289856497536, -0.796666477413627, -0.525532409916329, -0.183434642495650,
                                    0.183434642495650,  0.525532409916329,  0.796666477413627,  0.960289856497536};
constexpr std::array<double, 8> kShare{0.101228536290376, 0.222381034453374, 0.313706645877887, 0.362683783378362,
                                       0.362683783378362, 0.313706645877887, 0.222381034453374, 0.101228536290376};
constexpr std::size_t kNearest = 6;         // readings that correct a point
constexpr double kTold = 0.02;              // share of a point's variance that a reading must explain to matter
constexpr double kLow = -4.5, kHigh = 4.5;  // sds below the middle and above the cut that are summed

// A reading against one point: the conditional of its latent value, and its site.
struct Near {
  const Likelihood* likelihood = nullptr;
  double told = 0;   // share of the point's variance
  double slope = 0;  // of the reading's mean with the point's standard score
  double mean = 0;   // less the prior mean
  double prior_mean = 0;
  double within = 0;                // its variance given the point
  double precision = 0, shift = 0;  // its site

  // log of the expectation of likelihood over site, given the point's standard score.
  double log_ratio(double z) const {
    const double m = mean + slope * z;
    const double cavity_precision = 1 / within - precision;
    const double cavity = 1 / cavity_precision, cavity_mean = (m / within - shift) * cavity;
    return 0.5 * cavity_mean * cavity_mean * cavity_precision - 0.5 * m * m / within + tilted_log_mass(*likelihood, cavity_mean + prior_mean, cavity);
  }

  static double tilted_log_mass(const Likelihood& l, double mean, double variance) {
    if (l.kind != Likelihood::Kind::graded) return tilt(l, mean, variance).log_mass;
    const double spread = 1 / std::sqrt(variance + l.noise_sd * l.noise_sd);
    const NormalTable& normal = normal_table();
    const double below = normal.cdf((l.low - mean) * spread), to_high = normal.cdf((l.high - mean) * spread);
    return det_log(l.given[0] * below + l.given[1] * (to_high - below) + l.given[2] * (1 - to_high));
  }
};

double half_sum(const std::vector<Near>& near, double from, double to, double at_middle) {
  const double middle = (from + to) / 2, half = (to - from) / 2;
  double sum = 0;
  for (std::size_t k = 0; k < kAt.size(); ++k) {
    const double z = middle + half * kAt[k];
    double log_weight = -0.5 * z * z - at_middle;
    for (const Near& n : near) log_weight += n.log_ratio(z);
    sum += kShare[k] * det_exp(std::clamp(log_weight, -700.0, 700.0));
  }
  return sum * half;
}

}  // namespace

Tails::Tails(const Fit& fit, const Member& member, const MatrixXd& link) : member_(member) {
  const Index n = static_cast<Index>(fit.places.size());
  if (n == 0) return;
  const MatrixXd prior = member.covariance.matrix(fit.places);
  MatrixXd kept = MatrixXd::Identity(n, n);
  const MatrixXd half_prior = member.ep.half.triangularView<Eigen::Lower>() * prior;
  kept.noalias() -= member.ep.half.transpose().triangularView<Eigen::Upper>() * half_prior;
  with_readings_ = link.transpose() * kept;
  for (const Observation& o : fit.observations) likelihoods_.push_back(o.likelihood(member.covariance.setting().gap));
  for (const Place& p : fit.places) prior_mean_.push_back(member.covariance.mean(p));
}

double Tails::chance(const double* features, std::size_t stride, double mean, double variance) const {
  const double sd = std::sqrt(variance), cut = -mean / sd;
  const double plain = normal_table().cdf(-cut);
  if (likelihoods_.empty() || !(plain > kTailLeast) || plain > kTailMost) return plain;
  std::vector<Near> near;
  for (Index i = 0; i < with_readings_.cols(); ++i) {
    if (likelihoods_[static_cast<std::size_t>(i)].kind == Likelihood::Kind::gaussian) continue;  // its site is exact
    double shared = 0;
    for (Index r = 0; r < with_readings_.rows(); ++r) shared += with_readings_(r, i) * features[static_cast<std::size_t>(r) * stride];
    const double own = member_.ep.variance[i], told = shared * shared / (variance * std::max(1e-12, own));
    const double within = own - shared * shared / variance, precision = member_.ep.sites.precision[i];
    if (told < kTold || !(within > 1e-9) || within * precision > 0.9999) continue;
    near.push_back({&likelihoods_[static_cast<std::size_t>(i)], told, shared / sd, member_.ep.mean[i] - prior_mean_[static_cast<std::size_t>(i)],
                    prior_mean_[static_cast<std::size_t>(i)], within, precision, member_.ep.sites.shift[i]});
  }
  if (near.empty()) return plain;
  std::stable_sort(near.begin(), near.end(), [](const Near& a, const Near& b) { return a.told > b.told + 1e-12; });
  if (near.size() > kNearest) near.resize(kNearest);
  double at_middle = 0;
  for (const Near& n : near) at_middle += n.log_ratio(0);
  const double below = half_sum(near, kLow, cut, at_middle), above = half_sum(near, cut, cut + kHigh, at_middle);
  return above / (below + above);
}

}  // namespace awlmark::survey
