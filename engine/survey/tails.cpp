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

// What a reading's likelihood over its site weighs at a point's standard score z: exp(c0 + c1 z + c2 z^2) times a
// mass whose ends move evenly with z.
struct Near {
  double told = 0;  // share of the point's variance
  double c0 = 0, c1 = 0, c2 = 0;
  double low = 0, high = 0, low_slope = 0, high_slope = 0;
  std::array<double, 3> given{0, 1, 0};

  // `slope`, `mean`: of the reading's latent value with z, less the prior mean; `within`: its variance given z.
  Near(const Likelihood& l, double told_share, double mean, double slope, double within, double prior_mean, double precision, double shift) : told(told_share) {
    const double cavity = 1 / (1 / within - precision), to = cavity / within;
    const double m0 = to * mean - shift * cavity, m1 = to * slope;  // the cavity's mean
    c0 = 0.5 * m0 * m0 / cavity - 0.5 * mean * mean / within;
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
struct Weighing {
  const std::vector<Near>& near;
  const NormalTable& normal;
  double c1 = 0, c2 = -0.5;

  explicit Weighing(const std::vector<Near>& all) : near(all), normal(normal_table()) {
    for (const Near& n : near) {
      c1 += n.c1;
      c2 += n.c2;
    }
  }

  double over(double from, double to) const {
    const double middle = (from + to) / 2, half = (to - from) / 2;
    double sum = 0;
    for (std::size_t k = 0; k < kAt.size(); ++k) {
      const double z = middle + half * kAt[k];
      double weight = kShare[k] * det_exp(std::clamp(z * (c1 + c2 * z), -700.0, 700.0));
      for (const Near& n : near) weight *= n.mass(z, normal);
      sum += weight;
    }
    return sum * half;
  }
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
  for (std::size_t i = 0; i < likelihoods_.size(); ++i) {
    double* to = &shared_[i * stride];
    for (Index r = 0; r < with_readings_.rows(); ++r) {
      const double by = with_readings_(r, static_cast<Index>(i));
      const double* f = &features[static_cast<std::size_t>(r) * stride];
      for (std::size_t c = 0; c < width; ++c) to[c] += by * f[c];
    }
  }
  stride_ = stride;
}

double Tails::chance(std::size_t c, double mean, double variance) const {
  const double sd = std::sqrt(variance), cut = -mean / sd;
  const double plain = normal_table().cdf(-cut);
  if (likelihoods_.empty() || !(plain > kTailLeast) || plain > kTailMost) return plain;
  std::vector<Near> near;
  near.reserve(likelihoods_.size());
  for (std::size_t k = 0; k < likelihoods_.size(); ++k) {
    if (likelihoods_[k].kind == Likelihood::Kind::gaussian) continue;  // its site is exact
    const Index i = static_cast<Index>(k);
    const double shared = shared_[k * stride_ + c], own = member_.ep.variance[i];
    const double told = shared * shared / (variance * std::max(1e-12, own));
    if (told < kTold) continue;
    const double within = own - shared * shared / variance, precision = member_.ep.sites.precision[i];
    if (!(within > 1e-9) || within * precision > 0.9999) continue;
    near.emplace_back(likelihoods_[k], told, member_.ep.mean[i] - prior_mean_[k], shared / sd, within, prior_mean_[k], precision, member_.ep.sites.shift[i]);
  }
  if (near.empty()) return plain;
  if (near.size() > kNearest) {
    std::stable_sort(near.begin(), near.end(), [](const Near& a, const Near& b) { return a.told > b.told + 1e-12; });
    near.erase(near.begin() + kNearest, near.end());
  }
  const Weighing weighing(near);
  const double below = weighing.over(kLow, cut), above = weighing.over(cut, cut + kHigh);
  return above / (below + above);
}

}  // namespace awlmark::survey
