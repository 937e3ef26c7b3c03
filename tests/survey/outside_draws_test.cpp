// Posterior draws against conditional simulation by gstat: tests/outside/survey_gaussian.json, part
// "transect"; its maker beside it prints the versions.
#include <gtest/gtest.h>

#include "outside_kernels.hpp"
#include "support/outside.hpp"
#include "survey/draws.hpp"
#include "survey/fit.hpp"

using namespace awlmark;
using namespace awlmark::testing;
using survey::Likelihood;

// Conditional simulation against gstat on a transect, where the product of two Materns is one.
// 4000 draws a side: means within 4.5 standard errors of the difference, sds within 6 percent (their
// own error is 1.1 percent a side; the engine's grid may lack half a percent of variance), and the
// correlation of neighbours within 0.02.
TEST(OutsideGaussian, ConditionalDrawsByGstat) {
  const auto c = outside_file("survey_gaussian.json")["transect"];
  const survey::Model model = bare_model(0, false);
  survey::Setting setting;
  setting.length_in = c["length"];
  setting.stretch = 1;
  setting.amplitude = std::sqrt(c["sill"].get<double>());
  const auto x = numbers(c["x"]), value = numbers(c["value"]), ax = numbers(c["at_x"]);
  std::vector<survey::Observation> observations;
  for (std::size_t i = 0; i < x.size(); ++i) {
    survey::Observation seen;
    seen.place = {0, survey::kRot, {x[i], 0}};
    seen.fixed = Likelihood::measured(value[i], std::sqrt(c["error_variance"].get<double>()));
    observations.push_back(seen);
  }
  const auto fitted = survey::fit(model, observations, std::vector<survey::Setting>{setting});
  survey::DrawTarget target;
  for (const double a : ax) target.points.push_back({a, 0});
  constexpr int kDraws = 16000;  // mirrored pairs: a product of two places counts once a pair
  const auto latent = survey::draw_latent(fitted, {target}, kDraws, 1954).front();
  const auto cells = static_cast<Eigen::Index>(ax.size());
  const Eigen::MatrixXd draws = Eigen::Map<const Eigen::MatrixXd>(latent.data(), cells, kDraws).transpose();
  const Eigen::RowVectorXd mean = draws.colwise().mean();
  const Eigen::MatrixXd off = draws.rowwise() - mean;
  const Eigen::RowVectorXd sd = (off.colwise().squaredNorm() / (kDraws - 1)).cwiseSqrt();
  for (Eigen::Index i = 0; i < cells; ++i) {
    const auto j = static_cast<std::size_t>(i);
    const double kriged_sd = std::sqrt(c["variance"][j].get<double>());
    EXPECT_NEAR(mean[i], c["pred"][j].get<double>(), 4.5 * kriged_sd / std::sqrt(kDraws));
    EXPECT_NEAR(mean[i], c["sim_mean"][j].get<double>(), 4.5 * kriged_sd * std::sqrt(2.0 / kDraws));
    EXPECT_NEAR(sd[i] / kriged_sd, 1, 0.06);
    EXPECT_NEAR(sd[i] / c["sim_sd"][j].get<double>(), 1, 0.07);
    if (i + 1 == cells) continue;
    const double correlation = off.col(i).dot(off.col(i + 1)) / (kDraws - 1) / sd[i] / sd[i + 1];
    // Both sides are drawn: 4,000 by gstat, kDraws / 2 pairs here; 3.5 standard errors of the difference.
    const double simulated = c["sim_next_correlation"][j].get<double>();
    EXPECT_NEAR(correlation, simulated, 3.5 * (1 - simulated * simulated) * std::sqrt(1.0 / 4000 + 2.0 / kDraws));
  }
}
