// Small chances beside sound readings, against a long sampler that knows no Gaussian sites.
#include <gtest/gtest.h>

#include <Eigen/Cholesky>
#include <cmath>

#include "base/random.hpp"
#include "base/special.hpp"
#include "survey/draws.hpp"
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

// Share of prior draws, weighted by the likelihood of all readings, in which the rot at each point is above 0.
std::vector<double> sampled(const Fit& fit, const std::vector<Point>& points, int draws) {
  const Covariance& covariance = fit.members[0].covariance;
  std::vector<Place> places = fit.places;
  for (const Point p : points) places.push_back({0, kRot, p});
  const Eigen::MatrixXd lower = covariance.matrix(places).llt().matrixL();
  const Eigen::Index n = lower.rows();
  std::vector<Likelihood> said;
  std::vector<double> mean, above(points.size(), 0);
  for (const Observation& o : fit.observations) said.push_back(o.likelihood(covariance.setting().gap));
  for (const Place& p : places) mean.push_back(covariance.mean(p));
  Random random(7);
  double all = 0;
  for (int d = 0; d < draws; ++d) {
    Eigen::VectorXd white(n);
    for (Eigen::Index i = 0; i < n; ++i) white[i] = random.normal();
    const Eigen::VectorXd f = lower.triangularView<Eigen::Lower>() * white;
    double weight = 1;
    for (std::size_t k = 0; k < said.size(); ++k) {
      const double felt = f[static_cast<Eigen::Index>(k)] + mean[k];
      const double below = normal_cdf((said[k].low - felt) / said[k].noise_sd), to_high = normal_cdf((said[k].high - felt) / said[k].noise_sd);
      weight *= said[k].given[0] * below + said[k].given[1] * (to_high - below) + said[k].given[2] * (1 - to_high);
    }
    all += weight;
    for (std::size_t p = 0; p < points.size(); ++p)
      if (f[static_cast<Eigen::Index>(said.size() + p)] + mean[said.size() + p] > 0) above[p] += weight;
  }
  for (double& share : above) share /= all;
  return above;
}

double gaussian(const Fit& fit, Point p) {
  const LatentMoments m = moments_at(fit, fit.members[0], 0, {p}).rot;
  return normal_cdf(m.mean[0] / std::sqrt(m.variance[0]));
}

Fit fitted(const std::vector<Observation>& seen) {
  Model model;
  model.nodes = {Node{}};
  model.sources = {{20, 20}};
  return fit(model, seen, std::vector<Setting>{{20, 1, 1.3, 30, 1.05, 1}});
}

TEST(Tails, BesideOneSoundReadingTheyAreExact) {
  const Fit now = fitted({awl({30, 20}, Observation::Says::sound)});
  const std::vector<Point> points{{31, 20}, {34, 20}, {38, 20}};
  const std::vector<double> exact = sampled(now, points, 300000), found = chances_at(now, 0, points).unsound;
  for (std::size_t i = 0; i < points.size(); ++i) EXPECT_NEAR(found[i], exact[i], 0.04 * exact[i] + 3e-4) << points[i].x_in;
}

TEST(Tails, BesideSeveralReadingsTheyAreCloserThanGaussian) {
  const Fit now = fitted({awl({30, 20}, Observation::Says::sound), awl({40, 26}, Observation::Says::sound), awl({20, 14}, Observation::Says::sound),
                          awl({8, 20}, Observation::Says::gone)});
  const std::vector<Point> points{{34, 21}, {36, 24}, {26, 18}, {31, 30}, {44, 20}};
  const std::vector<double> exact = sampled(now, points, 300000), found = chances_at(now, 0, points).unsound;
  double off = 0, off_gaussian = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    off += std::fabs(found[i] - exact[i]);
    off_gaussian += std::fabs(gaussian(now, points[i]) - exact[i]);
    EXPECT_NEAR(found[i], exact[i], 0.1 * exact[i] + 3e-3) << points[i].x_in << ", " << points[i].y_in << ": Gaussian " << gaussian(now, points[i]);
  }
  EXPECT_LT(off, 0.6 * off_gaussian);
}

// Areas and prices come from draws: those, too, must be cut off beside a sound reading.
TEST(Tails, DrawsHaveThem) {
  const Fit now = fitted({awl({30, 20}, Observation::Says::sound), awl({40, 26}, Observation::Says::sound), awl({20, 14}, Observation::Says::sound),
                          awl({8, 20}, Observation::Says::gone), awl({30, 26}, Observation::Says::sound)});
  const std::vector<Point> points{{32, 22}, {34, 21}, {36, 24}, {29, 23}, {14, 18}};
  const std::vector<double> exact = sampled(now, points, 300000);
  constexpr int kDraws = 20000;
  const std::vector<std::uint8_t> degree = draw_degrees(now, {{0, points}}, kDraws, 5).degree[0];
  double off = 0, off_gaussian = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    double share = 0;
    for (std::size_t d = 0; d < kDraws; ++d) share += (degree[d * points.size() + i] > 0 ? 1.0 : 0.0) / kDraws;
    off += std::fabs(share - exact[i]);
    off_gaussian += std::fabs(gaussian(now, points[i]) - exact[i]);
    EXPECT_NEAR(share, exact[i], 4 * std::sqrt(exact[i] / kDraws) + 0.05 * exact[i] + 1e-3) << points[i].x_in;
  }
  EXPECT_LT(off, 0.5 * off_gaussian);
}

}  // namespace
}  // namespace awlmark::survey
