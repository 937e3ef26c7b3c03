// Small chances beside sound readings, against a long sampler that knows no Gaussian sites.
#include <gtest/gtest.h>

#include <Eigen/Cholesky>
#include <cmath>

#include "base/random.hpp"
#include "base/special.hpp"
#include "survey/posterior.hpp"

namespace awlmark::survey {
namespace {

Observation awl(Point p, Observation::Says says) {
  Observation o;
  o.place = {0, kRot, p};
  o.says = says;
  o.noise_sd = kAwl_sd;
  return o;
}

// Share of prior draws, weighted by the likelihood of all readings, in which the rot at the point is above 0.
double sampled(const Fit& fit, Point at, int draws) {
  const Covariance& covariance = fit.members[0].covariance;
  std::vector<Place> places = fit.places;
  places.push_back({0, kRot, at});
  const Eigen::MatrixXd lower = covariance.matrix(places).llt().matrixL();
  const Eigen::Index n = lower.rows();
  Random random(7);
  double above = 0, all = 0;
  for (int d = 0; d < draws; ++d) {
    Eigen::VectorXd white(n);
    for (Eigen::Index i = 0; i < n; ++i) white[i] = random.normal();
    const Eigen::VectorXd f = lower * white;
    double weight = 1;
    for (Eigen::Index i = 0; i + 1 < n; ++i) {
      const auto k = static_cast<std::size_t>(i);
      weight *= det_exp(tilt(fit.observations[k].likelihood(covariance.setting().gap), f[i] + covariance.mean(places[k]), 0).log_mass);
    }
    all += weight;
    if (f[n - 1] + covariance.mean(places.back()) > 0) above += weight;
  }
  return above / all;
}

Fit fitted(const std::vector<Observation>& seen) {
  Model model;
  model.nodes = {Node{}};
  model.sources = {{20, 20}};
  return fit(model, seen, std::vector<Setting>{{20, 1, 1.3, 30, 1.05, 1}});
}

TEST(Tails, BesideOneSoundReadingTheyAreExact) {
  const Fit now = fitted({awl({30, 20}, Observation::Says::sound)});
  for (const double x : {31.0, 34.0, 38.0}) {
    const double exact = sampled(now, {x, 20}, 400000);
    const double found = chances_at(now, 0, {{x, 20}}).unsound[0];
    EXPECT_NEAR(found, exact, 0.04 * exact + 3e-4) << x;
  }
}

TEST(Tails, BesideSeveralReadingsTheyAreCloserThanGaussian) {
  const Fit now = fitted({awl({30, 20}, Observation::Says::sound), awl({40, 26}, Observation::Says::sound), awl({20, 14}, Observation::Says::sound),
                          awl({8, 20}, Observation::Says::gone)});
  double off = 0, off_gaussian = 0;
  for (const Point p : {Point{34, 21}, Point{36, 24}, Point{26, 18}, Point{31, 30}, Point{44, 20}}) {
    const double exact = sampled(now, p, 400000);
    const double found = chances_at(now, 0, {p}).unsound[0];
    const LatentMoments m = moments_at(now, now.members[0], 0, {p}).rot;
    const double gaussian = normal_cdf(m.mean[0] / std::sqrt(m.variance[0]));
    off += std::fabs(found - exact);
    off_gaussian += std::fabs(gaussian - exact);
    EXPECT_NEAR(found, exact, 0.1 * exact + 3e-3) << p.x_in << ", " << p.y_in << ": Gaussian " << gaussian;
  }
  EXPECT_LT(off, 0.6 * off_gaussian);
}

}  // namespace
}  // namespace awlmark::survey
