// The survey's kernels one by one: covariance, likelihoods, expectation propagation, openings, draws.
#include <gtest/gtest.h>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <array>
#include <cmath>

#include "base/special.hpp"
#include "support/property.hpp"
#include "survey/covariance.hpp"
#include "survey/draws.hpp"
#include "survey/ep.hpp"
#include "survey/normal_table.hpp"
#include "survey/openings.hpp"
#include "survey/posterior.hpp"
#include "survey/separable_grid.hpp"

namespace awlmark::survey {
namespace {

using testing::between;
using testing::for_each_seed;

Model three_layers() {
  Model model;
  for (int i = 0; i < 3; ++i) {
    Node node;
    node.index = i;
    node.depth = i;
    node.grained = i == 2;
    node.degrees = i == 2 ? 30 : 0;
    model.nodes.push_back(node);
  }
  Node member;
  member.kind = Node::Kind::member;
  member.depth = 3;
  member.degrees = 90;
  member.grained = true;
  model.nodes.push_back(member);
  model.shared_degrees = 30;
  model.shared_grained = true;
  model.sources = {{40, 40}, {90, 20}};
  return model;
}

Place somewhere(Random& random, int nodes) {
  Place place;
  place.node = static_cast<int>(random.below(static_cast<std::uint64_t>(nodes)));
  place.attribute = random.uniform() < 0.5 ? kRot : kWet;
  place.at_in.x_in = between(random, -10, 120);
  place.at_in.y_in = between(random, -10, 90);
  return place;
}

Observation awl(Place place, Observation::Says says, double noise = 0.35) {
  Observation o;
  o.place = place;
  o.says = says;
  o.noise_sd = noise;
  return o;
}

TEST(Covariance, ExponentialAgreesWithTheBase) {
  for (double x = 0; x > -700; x -= 0.37) EXPECT_NEAR(exp_of_negative(x) / det_exp(x), 1, 4e-15) << x;
  EXPECT_EQ(exp_of_negative(0), 1);
  EXPECT_EQ(exp_of_negative(-800), 0);
}

TEST(Covariance, NormalTableAgreesWithTheBase) {
  for (double z = -9; z < 9; z += 0.0131) EXPECT_NEAR(normal_table().cdf(z), normal_cdf(z), 2e-10) << z;
}

TEST(Covariance, IsPositiveSemiDefinite) {
  const Model model = three_layers();
  for_each_seed(6, [&](Random& random) {
    const Setting setting{between(random, 8, 40), between(random, 1, 4), between(random, 0.5, 2), between(random, 10, 50), 1, 1};
    const Covariance covariance(model, setting);
    std::vector<Place> places;
    for (int i = 0; i < 40; ++i) places.push_back(somewhere(random, 4));
    places.push_back(places[0]);  // the same place twice is allowed
    const Eigen::MatrixXd k = covariance.matrix(places);
    EXPECT_LT((k - k.transpose()).cwiseAbs().maxCoeff(), 1e-12);
    EXPECT_GT(Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(k).eigenvalues().minCoeff(), -1e-10);
    for (std::size_t i = 0; i < places.size(); ++i)
      EXPECT_NEAR(covariance.variance(places[i]), k(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(i)), 1e-12);
  });
}

double likelihood_at(const Likelihood& l, double f) {
  if (l.kind == Likelihood::Kind::gaussian) return normal_pdf((l.value - f) / l.noise_sd) / l.noise_sd;
  const double below = normal_cdf((l.low - f) / l.noise_sd), up_to_high = normal_cdf((l.high - f) / l.noise_sd);
  const std::array<double, 3> given = l.kind == Likelihood::Kind::graded ? l.given : std::array<double, 3>{0, 1, 0};
  return given[0] * below + given[1] * (up_to_high - below) + given[2] * (1 - up_to_high);
}

// Moments of a tilted normal by the trapezoid rule, fine enough to be exact here.
Tilted by_quadrature(const Likelihood& l, double mean, double variance) {
  const double sd = std::sqrt(variance);
  double mass = 0, first = 0, second = 0;
  for (int i = -4000; i <= 4000; ++i) {
    const double z = i * 0.003, f = mean + sd * z;
    const double w = normal_pdf(z) * 0.003 * likelihood_at(l, f);
    mass += w;
    first += w * f;
    second += w * f * f;
  }
  return {det_log(mass), first / mass, second / mass - first / mass * (first / mass)};
}

TEST(Likelihood, MomentsAgreeWithQuadrature) {
  for_each_seed(12, [](Random& random) {
    const double noise = between(random, 0.2, 1.5), mean = between(random, -3, 3), variance = between(random, 0.05, 4);
    for (const Likelihood& l :
         {Likelihood::below(0, noise), Likelihood::between(0, 1.1, noise), Likelihood::above(1.1, noise), Likelihood::measured(0.4, noise),
          Likelihood::awl(0, 1.1, noise, 0.05), Likelihood::awl(1, 1.1, noise, 0.05), Likelihood::awl(2, 1.1, noise, 0.05)}) {
      const Tilted exact = by_quadrature(l, mean, variance), got = tilt(l, mean, variance);
      EXPECT_NEAR(got.log_mass, exact.log_mass, 1e-7);
      EXPECT_NEAR(got.mean, exact.mean, 1e-7);
      EXPECT_NEAR(got.variance, exact.variance, 1e-7);
    }
  });
}

TEST(Likelihood, StaysFiniteFarFromTheReading) {
  for (const double mean : {-60.0, -8.0, 8.0, 60.0})
    for (const Likelihood& l : {Likelihood::below(0, 0.3), Likelihood::between(0, 1, 0.3), Likelihood::above(1, 0.3)}) {
      const Tilted t = tilt(l, mean, 1.5);
      EXPECT_TRUE(std::isfinite(t.log_mass) && std::isfinite(t.mean));
      EXPECT_GT(t.variance, 0);
      EXPECT_LE(t.variance, 1.5 + 1e-9);
    }
}

TEST(Likelihood, OfAnAwlSumsToOneAndIsPlainWithoutStrays) {
  for_each_seed(20, [](Random& random) {
    const double f = between(random, -4, 4), gap = between(random, 0.5, 2), noise = between(random, 0.2, 1), stray = between(random, 0, 0.2);
    double sum = 0;
    for (int grade = 0; grade < 3; ++grade) sum += likelihood_at(Likelihood::awl(grade, gap, noise, stray), f);
    EXPECT_NEAR(sum, 1, 1e-12);
    const Tilted plain = tilt(Likelihood::between(0, gap, noise), f, 1), none = tilt(Likelihood::awl(1, gap, noise, 0), f, 1);
    EXPECT_NEAR(plain.mean, none.mean, 1e-12);
    EXPECT_NEAR(plain.variance, none.variance, 1e-12);
  });
}

TEST(Likelihood, OfAStrayStaysFiniteFarOut) {
  for (const double mean : {-60.0, -8.0, 8.0, 60.0})
    for (int grade = 0; grade < 3; ++grade) {
      const Tilted t = tilt(Likelihood::awl(grade, 1, 0.3, 0.02), mean, 1.5);
      EXPECT_TRUE(std::isfinite(t.log_mass) && std::isfinite(t.mean));
      EXPECT_GT(t.variance, 0);
    }
}

// One soft reading among many sound ones a hand's breadth away: doubted, never ignored.
TEST(ExpectationPropagation, DoubtsALoneReadingThatMayHaveStrayed) {
  const Model model = three_layers();
  const Covariance covariance(model, {20, 1.5, 1.0, 30, 1, 1});
  std::vector<Place> places{{2, kRot, {40, 45}}};
  std::vector<Likelihood> plain{Likelihood::between(0, 1, 0.45)}, awl{Likelihood::awl(1, 1, 0.45, 0.02)};
  for (const double dx : {-3.0, 0.0, 3.0})
    for (const double dy : {-3.0, 0.0, 3.0}) {
      if (dx == 0 && dy == 0) continue;
      places.push_back({2, kRot, {40 + dx, 45 + dy}});
      plain.push_back(Likelihood::below(0, 0.45));
      awl.push_back(Likelihood::awl(0, 1, 0.45, 0.02));
    }
  Eigen::VectorXd mean(static_cast<Eigen::Index>(places.size()));
  for (std::size_t i = 0; i < places.size(); ++i) mean[static_cast<Eigen::Index>(i)] = covariance.mean(places[i]);
  const EpResult sure = expectation_propagation(covariance.matrix(places), mean, plain),
                 doubting = expectation_propagation(covariance.matrix(places), mean, awl);
  ASSERT_TRUE(sure.converged && doubting.converged);
  EXPECT_LT(doubting.mean[0], sure.mean[0]);
  const std::vector<Place> others(places.begin() + 1, places.end());
  const EpResult without =
      expectation_propagation(covariance.matrix(others), mean.tail(static_cast<Eigen::Index>(others.size())), {awl.begin() + 1, awl.end()});
  EXPECT_GT(doubting.mean[1], without.mean[0]);
}

TEST(ExpectationPropagation, IsExactForMeterReadings) {
  const Model model = three_layers();
  for_each_seed(4, [&](Random& random) {
    const Covariance covariance(model, {18, 2, 1.1, 30, 1, 1});
    std::vector<Place> places;
    std::vector<Likelihood> readings;
    const Eigen::Index n = 12;
    Eigen::VectorXd mean(n), y(n), noise(n);
    for (Eigen::Index i = 0; i < n; ++i) {
      places.push_back(somewhere(random, 4));
      mean[i] = covariance.mean(places.back());
      y[i] = between(random, -2, 2);
      noise[i] = between(random, 0.2, 1);
      readings.push_back(Likelihood::measured(y[i], noise[i]));
    }
    const Eigen::MatrixXd k = covariance.matrix(places);
    const EpResult ep = expectation_propagation(k, mean, readings);
    const Eigen::MatrixXd s = k + Eigen::MatrixXd(noise.cwiseAbs2().asDiagonal());
    const Eigen::LLT<Eigen::MatrixXd> llt(s);
    const Eigen::VectorXd solved = llt.solve(y - mean);
    const Eigen::MatrixXd left = k - k * llt.solve(k);
    double evidence = -0.5 * (y - mean).dot(solved) - 0.5 * static_cast<double>(n) * 1.8378770664093453;
    for (Eigen::Index i = 0; i < n; ++i) evidence -= det_log(llt.matrixLLT()(i, i));
    EXPECT_TRUE(ep.converged);
    EXPECT_NEAR(ep.log_evidence, evidence, 1e-8);
    for (Eigen::Index i = 0; i < n; ++i) {
      EXPECT_NEAR(ep.mean[i], (mean + k * solved)[i], 1e-8);
      EXPECT_NEAR(ep.variance[i], left(i, i), 1e-8);
      EXPECT_NEAR(ep.weights[i], solved[i], 1e-7);
    }
  });
}

// Weighted draws from the prior: exact in the limit, and needs nothing of what it checks.
TEST(ExpectationPropagation, AgreesWithImportanceSampling) {
  const Model model = three_layers();
  const Covariance covariance(model, {20, 1.5, 1.0, 30, 1, 1});
  const std::vector<Place> places{{2, kRot, {40, 45}}, {2, kRot, {52, 48}}, {1, kRot, {52, 48}}, {2, kRot, {75, 30}}};
  const std::vector<Likelihood> readings{Likelihood::above(1.1, 0.35), Likelihood::awl(1, 1.1, 0.35, 0.02), Likelihood::below(0, 0.35),
                                         Likelihood::awl(0, 1.1, 0.35, 0.02)};
  Eigen::VectorXd mean(4);
  for (int i = 0; i < 4; ++i) mean[i] = covariance.mean(places[static_cast<std::size_t>(i)]);
  const Eigen::MatrixXd k = covariance.matrix(places);
  const Eigen::MatrixXd lower = k.llt().matrixL();
  Random random(99);
  double mass = 0;
  Eigen::VectorXd first = Eigen::VectorXd::Zero(4), second = first;
  const int draws = 150000;
  for (int d = 0; d < draws; ++d) {
    Eigen::VectorXd z(4);
    for (int i = 0; i < 4; ++i) z[i] = random.normal();
    const Eigen::VectorXd f = mean + lower * z;
    double w = 1;
    for (int i = 0; i < 4; ++i) w *= likelihood_at(readings[static_cast<std::size_t>(i)], f[i]);
    mass += w;
    first += w * f;
    second += w * f.cwiseAbs2();
  }
  const EpResult ep = expectation_propagation(k, mean, readings);
  EXPECT_NEAR(ep.log_evidence, det_log(mass / draws), 0.03);
  for (int i = 0; i < 4; ++i) {
    const double m = first[i] / mass;
    EXPECT_NEAR(ep.mean[i], m, 0.03);
    EXPECT_NEAR(std::sqrt(ep.variance[i]), std::sqrt(second[i] / mass - m * m), 0.03);
  }
}

TEST(ExpectationPropagation, BearsFourHundredReadingsAtOneSpot) {
  const Model model = three_layers();
  const Covariance covariance(model, {18, 2, 1.1, 30, 1, 1});
  const std::vector<Place> places(400, Place{2, kRot, {40, 40}});
  const std::vector<Likelihood> readings(400, Likelihood::between(0, 1.1, 0.35));
  const EpResult ep = expectation_propagation(covariance.matrix(places), Eigen::VectorXd::Constant(400, covariance.mean(places[0])), readings, {40, 1e-6, 1.0});
  EXPECT_TRUE(ep.converged);
  EXPECT_GT(ep.mean[0], 0.2);
  EXPECT_LT(ep.mean[0], 0.9);
  EXPECT_GT(ep.variance[0], 0);
  EXPECT_LT(ep.variance[0], 0.01);
}

TEST(Posterior, MomentsAgreeWithTheDirectForm) {
  const Model model = three_layers();
  for_each_seed(3, [&](Random& random) {
    std::vector<Observation> seen;
    for (int i = 0; i < 6; ++i) {
      Place place = somewhere(random, 4);
      place.attribute = kRot;
      for (int node = 0; node < 3; ++node) {  // an opening is read layer by layer
        place.node = node;
        seen.push_back(awl(place, i < 3 ? Observation::Says::soft : Observation::Says::sound));
      }
    }
    const Setting setting{18, 2, 1.1, 30, 1.1, 1};
    const Fit posterior = fit(model, seen, std::vector<Setting>{setting});
    const Member& member = posterior.members[0];
    std::vector<Point> scattered, cells;  // a room's cells take a shorter way
    for (int i = 0; i < 70; ++i) scattered.push_back(somewhere(random, 4).at_in);
    for (int j = 0; j < 12; ++j)
      for (int i = 0; i < 13; ++i) cells.push_back({3 + 7.0 * i, 2 + 6.0 * j});
    for (const std::vector<Point>& points : {scattered, cells})
      for (const int node : {1, 2, 3}) {
        const NodeMoments moments = moments_at(posterior, member, node, points);
        for (std::size_t i = 0; i < points.size(); i += 7) {
          const Place place{node, kRot, points[i]};
          const Eigen::VectorXd k = member.covariance.matrix(posterior.places, {place}).col(0);
          EXPECT_NEAR(moments.rot.mean[i], member.covariance.mean(place) + k.dot(member.ep.weights), 1e-9);
          EXPECT_NEAR(moments.rot.variance[i], member.covariance.variance(place) - (member.ep.half * k).squaredNorm(), 1e-9);
        }
      }
  });
}

TEST(Draws, AxisHasTheCorrelationOfMatern) {
  const MaternAxis axis({}, {0, 9.3});
  Eigen::MatrixXd rows = Eigen::MatrixXd::Identity(axis.size(), axis.size()), columns = rows;
  axis.colour_rows(rows);
  axis.colour_columns(columns);
  EXPECT_LT((columns - rows.transpose()).cwiseAbs().maxCoeff(), 1e-12);
  const Eigen::MatrixXd k = rows * rows.transpose();
  for (int i = 0; i < axis.size(); ++i)
    for (int j = 0; j < axis.size(); ++j) {
      const double d = std::fabs(axis.node(i) - axis.node(j));
      EXPECT_NEAR(k(i, j), (1 + d) * det_exp(-d), 1e-12);
    }
}

TEST(Draws, HaveTheMomentsOfThePosterior) {
  Model model = three_layers();
  model.coupling = 0.7;
  std::vector<Observation> seen{awl({2, kRot, {30, 30}}, Observation::Says::gone), awl({1, kRot, {30, 30}}, Observation::Says::soft),
                                awl({2, kRot, {60, 44}}, Observation::Says::sound), awl({3, kRot, {48, 60}}, Observation::Says::sound)};
  Observation meter;
  meter.place = {2, kWet, {80, 40}};
  meter.fixed = Likelihood::measured(1.5, 0.4);
  seen.push_back(meter);
  const Fit posterior = fit(model, seen, std::vector<Setting>{{18, 2, 1.1, 30, 1.1, 1}});
  const std::vector<Point> points{{30, 30}, {42, 36}, {81, 42}, {100, 70}};
  const std::vector<DrawTarget> targets{{1, points}, {2, points}, {3, {{48, 55}, {48, 20}}}};
  const int count = 3000;
  const auto latent = draw_latent(posterior, targets, count, 7);
  for (std::size_t t = 0; t < targets.size(); ++t) {
    const std::size_t n = targets[t].points.size();
    const NodeMoments moments = moments_at(posterior, posterior.members[0], targets[t].node, targets[t].points);
    for (std::size_t i = 0; i < n; ++i) {
      double sum = 0, square = 0;
      for (int d = 0; d < count; ++d) {
        const double f = latent[t][static_cast<std::size_t>(d) * n + i];
        sum += f;
        square += f * f;
      }
      const double mean = sum / count, sd = std::sqrt(square / count - mean * mean), wanted = std::sqrt(moments.rot.variance[i]);
      EXPECT_NEAR(mean, moments.rot.mean[i], 4.5 * wanted / std::sqrt(count)) << t << " " << i;
      EXPECT_NEAR(sd / wanted, 1, 0.06) << t << " " << i;
    }
  }
}

// An opening's worth against nested Monte Carlo: draw the truth, draw its readings, infer anew by the
// full machinery, decide, and pay.
TEST(Openings, WorthAgreesWithNestedMonteCarlo) {
  Model model;
  Node layer;
  model.nodes = {layer, layer};
  model.nodes[1].depth = 1;
  model.sources = {{20, 20}};
  const std::vector<Setting> settings{{16, 1, 1.0, 24, 1.1, 1}};
  const std::vector<Observation> seen{awl({1, kRot, {20, 20}}, Observation::Says::gone), awl({1, kRot, {70, 20}}, Observation::Says::sound)};
  const Fit now = fit(model, seen, settings);
  std::vector<Stake> stakes;
  for (int node = 0; node < 2; ++node)
    for (int i = 0; i < 6; ++i) stakes.push_back({node, {10.0 + 12 * i, 20}, 1, 90, 30});
  const Look look{{{{0, kRot, {44, 20}}, 0.35}, {{1, kRot, {44, 20}}, 0.35}}};
  const LossModel model_of_loss(now, stakes, 4);
  const double worth = model_of_loss.value(look).worth;

  std::vector<DrawTarget> targets{{0, {{44, 20}}}, {1, {{44, 20}}}};
  const int draws = 4000;
  const auto truth = draw_latent(now, targets, draws, 11);
  Random random(12);
  // Nine outcomes: infer once for each, count how often each comes.
  double counts[3][3] = {};
  for (int d = 0; d < draws; ++d) {
    int read[2];
    for (std::size_t l = 0; l < 2; ++l) {
      const double felt = truth[l][static_cast<std::size_t>(d)] + 0.35 * random.normal();
      read[l] = felt < 0 ? 0 : (felt < 1.1 ? 1 : 2);
    }
    counts[read[0]][read[1]] += 1;
  }
  const Observation::Says says[3] = {Observation::Says::sound, Observation::Says::soft, Observation::Says::gone};
  double after = 0;
  for (int a = 0; a < 3; ++a)
    for (int b = 0; b < 3; ++b) {
      if (counts[a][b] == 0) continue;
      std::vector<Observation> more = seen;
      more.push_back(awl({0, kRot, {44, 20}}, says[a]));
      more.push_back(awl({1, kRot, {44, 20}}, says[b]));
      const Fit then = fit(model, more, settings);
      double loss = 0;
      for (int node = 0; node < 2; ++node) {
        std::vector<Point> points;
        for (const Stake& s : stakes)
          if (s.node == node) points.push_back(s.at_in);
        const Chances chances = chances_at(then, node, points);
        for (std::size_t i = 0; i < points.size(); ++i) loss += loss_of(chances.unsound[i], stakes[i]);
      }
      after += counts[a][b] / draws * loss;
    }
  const double nested = model_of_loss.loss_now() - after;
  EXPECT_GT(worth, 0);
  EXPECT_NEAR(worth, nested, 0.12 * nested + 1.5);
}

TEST(Openings, NothingIsWorthSeeingTwice) {
  Model model;
  model.nodes = {Node{}};
  model.rot_far = {-0.5, 1.0};
  std::vector<Observation> seen;
  for (int i = 0; i < 6; ++i) seen.push_back(awl({0, kRot, {30, 30}}, Observation::Says::sound));
  const Fit now = fit(model, seen, std::vector<Setting>{{16, 1, 1.0, 24, 1.1, 1}});
  const std::vector<Stake> stakes{{0, {30, 30}, 1, 90, 30}, {0, {60, 30}, 1, 90, 30}};
  const LossModel loss(now, stakes, 4);
  const double again = loss.value({{{{0, kRot, {30, 30}}, 0.35}}}).worth, elsewhere = loss.value({{{{0, kRot, {60, 30}}, 0.35}}}).worth;
  EXPECT_GT(elsewhere, 2);
  EXPECT_LT(again, 0.2 * elsewhere);
}

}  // namespace
}  // namespace awlmark::survey
