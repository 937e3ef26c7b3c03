// The Gaussian limit: with meter readings only, the field is kriging, and EP must give it exactly.
//
// Outside: tests/outside/survey_gaussian.json by R's gstat (open meuse data; measurement error held
// apart from the field by "Err"; gstat's "Mat" range is the length over sqrt(3)) and
// survey_probit.json by scikit-learn and NumPy. Makers beside them print their versions.
// Tolerance: both sides solve the same linear system in doubles; 1e-7 relative leaves room for the
// condition number, and for gstat's output of about ten digits.
#include <gtest/gtest.h>

#include "outside_kernels.hpp"
#include "support/outside.hpp"
#include "survey/covariance.hpp"

using namespace awlmark;
using namespace awlmark::testing;
using survey::Likelihood;

namespace {

std::vector<Likelihood> measured(const std::vector<double>& values, double variance) {
  std::vector<Likelihood> all;
  for (const double v : values) all.push_back(Likelihood::measured(v, std::sqrt(variance)));
  return all;
}

Eigen::MatrixXd matern_plane(const std::vector<double>& ax, const std::vector<double>& ay, const std::vector<double>& bx, const std::vector<double>& by,
                             double variance, double length) {
  Eigen::MatrixXd k(ax.size(), bx.size());
  for (std::size_t i = 0; i < ax.size(); ++i)
    for (std::size_t j = 0; j < bx.size(); ++j)
      k(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = variance * survey::matern32(distance_in({ax[i], ay[i]}, {bx[j], by[j]}) / length);
  return k;
}

}  // namespace

TEST(OutsideGaussian, MeuseByGstat) {
  const auto c = outside_file("survey_gaussian.json")["meuse"];
  const auto x = numbers(c["x"]), y = numbers(c["y"]), ax = numbers(c["at_x"]), ay = numbers(c["at_y"]);
  const double sill = c["sill"], length = c["length"], mean = c["mean"];
  const auto k = matern_plane(x, y, x, y, sill, length);
  const auto ep = survey::expectation_propagation(k, Eigen::VectorXd::Constant(k.rows(), mean), measured(numbers(c["log_zinc"]), c["error_variance"]));
  EXPECT_TRUE(ep.converged);
  const auto here = predict(ep, matern_plane(x, y, ax, ay, sill, length), sill, mean);
  ASSERT_EQ(ax.size(), 120U);
  for (std::size_t i = 0; i < ax.size(); ++i) {
    const auto e = static_cast<Eigen::Index>(i);
    EXPECT_NEAR(here.mean[e], c["pred"][i].get<double>(), 1e-7 * 7);
    EXPECT_NEAR(here.variance[e], c["variance"][i].get<double>(), 1e-7 * sill);
  }
}

TEST(OutsideGaussian, SixPointsByScikitLearn) {
  const auto c = outside_file("survey_probit.json")["regression"];
  const auto x = numbers(c["x"]), at = numbers(c["predict_x"]);
  const auto k = matern_matrix(x, x, c["variance"], c["length"]);
  const auto ep = survey::expectation_propagation(k, Eigen::VectorXd::Zero(k.rows()), measured(numbers(c["y"]), c["noise_variance"]));
  const auto here = predict(ep, matern_matrix(x, at, c["variance"], c["length"]), c["variance"]);
  for (std::size_t i = 0; i < at.size(); ++i) {
    EXPECT_NEAR(here.mean[static_cast<Eigen::Index>(i)], c["mean"][i].get<double>(), 1e-9);
    EXPECT_NEAR(std::sqrt(here.variance[static_cast<Eigen::Index>(i)]), c["sd"][i].get<double>(), 1e-9);
  }
  EXPECT_NEAR(ep.log_evidence, c["log_marginal"].get<double>(), 1e-9);
  // The same by octave-stk 2.7.0 and OpenTURNS 1.20, as the reference notes give it.
  EXPECT_NEAR(here.mean[0], 0.6276086114, 1e-9);
  EXPECT_NEAR(std::sqrt(here.variance[0]), 0.4229685479, 1e-9);
  EXPECT_NEAR(ep.log_evidence, -7.2190300410, 1e-9);
}

// The survey's own covariance, turned by 30 degrees and longer along the grain, against a dense NumPy
// solve written apart from it.
TEST(OutsideGaussian, TurnedGrainByNumPy) {
  const auto c = outside_file("survey_probit.json")["product"];
  const survey::Model model = bare_model(c["degrees"], true);
  survey::Setting setting;
  setting.length_in = c["length_across"];
  setting.stretch = c["length_along"].get<double>() / c["length_across"].get<double>();
  setting.amplitude = std::sqrt(c["variance"].get<double>());
  const auto x = numbers(c["x"]), y = numbers(c["y"]), ax = numbers(c["at_x"]), ay = numbers(c["at_y"]);
  std::vector<survey::Place> places, at;
  for (std::size_t i = 0; i < x.size(); ++i) places.push_back({0, survey::kRot, {x[i], y[i]}});
  for (std::size_t i = 0; i < ax.size(); ++i) at.push_back({0, survey::kRot, {ax[i], ay[i]}});
  const survey::Covariance covariance(model, setting);
  const auto ep = survey::expectation_propagation(covariance.matrix(places), Eigen::VectorXd::Zero(static_cast<Eigen::Index>(places.size())),
                                                  measured(numbers(c["value"]), c["noise_variance"]));
  const auto here = predict(ep, covariance.matrix(places, at), c["variance"]);
  for (std::size_t i = 0; i < at.size(); ++i) {
    EXPECT_NEAR(here.mean[static_cast<Eigen::Index>(i)], c["mean"][i].get<double>(), 1e-8);
    EXPECT_NEAR(here.variance[static_cast<Eigen::Index>(i)], c["posterior_variance"][i].get<double>(), 1e-8);
  }
  EXPECT_NEAR(ep.log_evidence, c["log_marginal"].get<double>(), 1e-7);
}
