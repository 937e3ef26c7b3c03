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

// What a reading's likelihood over its site weighs at a point's standard score z: exp(c1 z + c2 z^2) times a
// mass whose ends move evenly with z.
struct Near {
  double c1 = 0, c2 = 0;
  double low = 0, high = 0, low_slope = 0, high_slope = 0;
  std::array<double, 3> given{0, 1, 0};

  Near() = default;
  // `slope`, `mean`: of the reading's latent value with z, less the prior mean; `within`: its variance given z.
  Near(const Likelihood& l, double mean, double slope, double within, double prior_mean, double precision, double shift) {
    const double cavity = 1 / (1 / within - precision), to = cavity / within;
    const double m0 = to * mean - shift * cavity, m1 = to * slope;  // the cavity's mean
    c1 = m0 * m1 / cavity - mean * slope / within;
    c2 = 0.5 * m1 * m1 / cavity - 0.5 * slope * slope / within;
    const double spread = 1 / std::sqrt(cavity + l.noise_sd * l.noise_sd);
    low = (l.low - m0 - prior_mean) * spread;
    high = (l.high - m0 - prior_mean) * spread;
    low_slope = std::isinf(l.low) ? 0 : -m1 * spread;
    high_slope = std::isinf(l.high) ? 0 : -m1 * spread;
    if (l.kind == Likelihood::Kind::graded) given = l.given;
  }

  double mass(double z, const NormalTable& normal) const {
    const double below = normal.cdf(low + low_slope * z), to_high = normal.cdf(high + high_slope * z);
    return std::max(1e-30, given[0] * below + given[1] * (to_high - below) + given[2] * (1 - to_high));
  }
};

// Of all readings near a point together.
class Weighing {
 public:
  void add(const Near& near) {
    near_[count_++] = near;
    c1_ += near.c1;
    c2_ += near.c2;
  }

  // Shares of the weight below and above the cut.
  double above(double cut) const {
    std::array<double, 2 * kAt.size()> z{}, power{};
    double most = -1e300;
    for (std::size_t k = 0; k < kAt.size(); ++k) {
      z[k] = (kLow + cut) / 2 + (cut - kLow) / 2 * kAt[k];
      z[k + kAt.size()] = cut + kHigh / 2 * (1 + kAt[k]);
    }
    for (std::size_t k = 0; k < z.size(); ++k) {
      power[k] = z[k] * (c1_ + c2_ * z[k]);
      most = std::max(most, power[k]);
    }
    const NormalTable& normal = normal_table();
    double low = 0, high = 0;
    for (std::size_t k = 0; k < z.size(); ++k) {
      double weight = kShare[k % kShare.size()] * exp_of_negative(power[k] - most);
      for (std::size_t n = 0; n < count_; ++n) weight *= near_[n].mass(z[k], normal);
      (k < kAt.size() ? low : high) += weight;
    }
    low *= (cut - kLow) / 2;
    high *= kHigh / 2;
    return high / (low + high);
  }

 private:
  std::array<Near, kNearest> near_;
  std::size_t count_ = 0;
  double c1_ = 0, c2_ = -0.5;
};

}  // namespace

Tails::Tails(const Fit& fit, const Member& member, const MatrixXd& link) : member_(member) {
  if (fit.places.empty()) return;
  with_readings_ = link.transpose() * member.untold;
  for (const Observation& o : fit.observations) likelihoods_.push_back(o.likelihood(member.covariance.setting().gap));
  for (const Place& p : fit.places) prior_mean_.push_back(member.covariance.mean(p));
}

void Tails::share(const std::vector<double>& features, std::size_t stride, std::size_t width) {
  shared_.assign(likelihoods_.size() * stride, 0.0);
  stride_ = stride;
  const Index rows = with_readings_.rows();
  for (std::size_t i = 0; i < likelihoods_.size(); ++i) {
    double* to = &shared_[i * stride];
    const double* by = with_readings_.data() + static_cast<Index>(i) * rows;
    Index r = 0;
    for (; r + 4 <= rows; r += 4) {
      const double b0 = by[r], b1 = by[r + 1], b2 = by[r + 2], b3 = by[r + 3];
      const double *f0 = &features[static_cast<std::size_t>(r) * stride], *f1 = f0 + stride, *f2 = f1 + stride, *f3 = f2 + stride;
      for (std::size_t c = 0; c < width; ++c) to[c] += (b0 * f0[c] + b1 * f1[c]) + (b2 * f2[c] + b3 * f3[c]);
    }
    for (; r < rows; ++r) {
      const double* f = &features[static_cast<std::size_t>(r) * stride];
      for (std::size_t c = 0; c < width; ++c) to[c] += by[r] * f[c];
    }
  }
}

bool Tails::wanted(double mean, double variance) const {
  const double plain = normal_table().cdf(mean / std::sqrt(variance));
  return !likelihoods_.empty() && plain > kTailLeast && plain <= kTailMost;
}

double Tails::chance(std::size_t c, double mean, double variance) const {
  const double sd = std::sqrt(variance);
  const double plain = normal_table().cdf(mean / sd);
  if (!wanted(mean, variance)) return plain;
  // The nearest of those that tell something, the nearest first.
  std::array<double, kNearest> told{};
  std::array<std::size_t, kNearest> which{};
  std::size_t count = 0;
  for (std::size_t k = 0; k < likelihoods_.size(); ++k) {
    const double shared = shared_[k * stride_ + c], own = member_.ep.variance[static_cast<Index>(k)];
    const double tells = shared * shared / (variance * std::max(1e-12, own));
    if (tells < kTold || (count == kNearest && tells <= told[count - 1] + 1e-12)) continue;
    if (likelihoods_[k].kind == Likelihood::Kind::gaussian) continue;  // its site is exact
    const double within = own - shared * shared / variance;
    if (!(within > 1e-9) || within * member_.ep.sites.precision[static_cast<Index>(k)] > 0.9999) continue;
    std::size_t at = count < kNearest ? count++ : kNearest - 1;
    for (; at > 0 && tells > told[at - 1] + 1e-12; --at) {
      told[at] = told[at - 1];
      which[at] = which[at - 1];
    }
    told[at] = tells;
    which[at] = k;
  }
  if (count == 0) return plain;
  Weighing weighing;
  for (std::size_t n = 0; n < count; ++n) {
    const std::size_t k = which[n];
    const Index i = static_cast<Index>(k);
    const double shared = shared_[k * stride_ + c];
    weighing.add(Near(likelihoods_[k], member_.ep.mean[i] - prior_mean_[k], shared / sd, member_.ep.variance[i] - shared * shared / variance, prior_mean_[k],
                      member_.ep.sites.precision[i], member_.ep.sites.shift[i]));
  }
  return weighing.above(-mean / sd);
}

}  // namespace awlmark::survey
