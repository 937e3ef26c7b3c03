#include "survey/openings.hpp"

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

// Gauss-Hermite for the standard normal, 7 nodes (Abramowitz and Stegun table 25.10, rescaled).
constexpr std::array<double, 7> kNode{-3.750439717725742, -2.366759410734541, -1.154405394739968, 0, 1.154405394739968, 2.366759410734541, 3.750439717725742};
constexpr std::array<double, 7> kWeight{0.000548268855972219, 0.0307571239675864, 0.240123178605013,   0.457142857142857,
                                        0.240123178605013,    0.0307571239675864, 0.000548268855972219};
constexpr double kUnlikely = 2e-4;   // outcomes rarer than this are not followed further
constexpr double kUntouched = 1e-4;  // share of a stake's variance below which a look tells it nothing
constexpr std::size_t kMostReadings = 7;

std::size_t at(Index i) { return static_cast<std::size_t>(i); }

std::vector<Place> places_of(const std::vector<Stake>& stakes) {
  std::vector<Place> places;
  for (const Stake& s : stakes) places.push_back({s.node, kRot, s.at_in});
  return places;
}

// to -= a b, four columns of `a` at a time down whole columns of `to`, so that lanes are stakes.
void subtract_product(const MatrixXd& a, const MatrixXd& b, MatrixXd& to) {
  const Index n = a.rows(), inner = a.cols();
  for (Index j = 0; j < b.cols(); ++j) {
    double* t = to.data() + j * n;
    Index r = 0;
    for (; r + 4 <= inner; r += 4) {
      const double b0 = b(r, j), b1 = b(r + 1, j), b2 = b(r + 2, j), b3 = b(r + 3, j);
      const double *a0 = a.data() + r * n, *a1 = a0 + n, *a2 = a1 + n, *a3 = a2 + n;
      for (Index i = 0; i < n; ++i) t[i] -= (b0 * a0[i] + b1 * a1[i]) + (b2 * a2[i] + b3 * a3[i]);
    }
    for (; r < inner; ++r) {
      const double b0 = b(r, j);
      const double* a0 = a.data() + r * n;
      for (Index i = 0; i < n; ++i) t[i] -= b0 * a0[i];
    }
  }
}

// Follows every outcome of a look's readings. Stakes that the look cannot move are left out.
class OutcomeTree {
 public:
  OutcomeTree(const std::vector<Stake>& stakes, const std::vector<Look::Reading>& readings, double gap) : stakes_(stakes), readings_(readings), gap_(gap) {}

  // One level's state: what is believed before reading `k`.
  struct State {
    VectorXd place_mean;
    MatrixXd within;
    VectorXd mean, variance;  // of the stakes
    MatrixXd across;          // stakes x places
  };

  // What the outcomes save against the decisions taken now, both reckoned from the same beliefs after each
  // outcome: never below nothing, and not nothing where a rare outcome turns a decision.
  double expected_saving(const State& start) {
    turned_.assign(stakes_.size(), 0);
    takes_.resize(stakes_.size());
    for (std::size_t c = 0; c < stakes_.size(); ++c) takes_[c] = takes(start, c);
    return follow(start, 0, 1);
  }
  double turned(std::size_t stake) const { return turned_[stake]; }

 private:
  bool takes(const State& s, std::size_t c) const {
    const double p = normal_table().cdf(s.mean[static_cast<Index>(c)] / std::sqrt(s.variance[static_cast<Index>(c)]));
    return p * stakes_[c].leave_unsound > (1 - p) * stakes_[c].tear_out_sound;
  }

  double leaf(const State& s, double chance) {
    double sum = 0;
    for (std::size_t c = 0; c < stakes_.size(); ++c) {
      const double p = normal_table().cdf(s.mean[static_cast<Index>(c)] / std::sqrt(s.variance[static_cast<Index>(c)]));
      const double leave = p * stakes_[c].leave_unsound, take = (1 - p) * stakes_[c].tear_out_sound;
      if ((leave > take) == static_cast<bool>(takes_[c])) continue;
      sum += std::fabs(leave - take);
      turned_[c] += chance;
    }
    return sum;
  }

  double follow(const State& s, std::size_t k, double chance) {
    if (k == readings_.size() || chance < kUnlikely) return leaf(s, chance);
    const Index j = static_cast<Index>(k);
    const double variance = s.within(j, j);
    if (!(variance > 1e-12)) return follow(s, k + 1, chance);
    const double noise = readings_[k].noise_sd;
    double sum = 0;
    for (int grade = 0; grade < 3; ++grade) {
      const Tilted tilted = tilt(Likelihood::awl(grade, gap_, noise, kAwlStray), s.place_mean[j], variance);
      const double p = det_exp(tilted.log_mass);
      if (p < 1e-9) continue;
      sum += p * follow(after(s, j, tilted, variance), k + 1, chance * p);
    }
    return sum;
  }

  static State after(const State& s, Index j, const Tilted& tilted, double variance) {
    const double step = (tilted.mean - s.place_mean[j]) / variance;
    const double shrink = (variance - tilted.variance) / (variance * variance);
    State next = s;
    const VectorXd column = s.within.col(j);
    next.place_mean += step * column;
    next.within.noalias() -= shrink * column * column.transpose();
    const Index n = s.mean.size();
    const double* a = &s.across(0, j);
    for (Index c = 0; c < n; ++c) {
      next.mean[c] += step * a[c];
      next.variance[c] = std::max(1e-12, next.variance[c] - shrink * a[c] * a[c]);
    }
    for (Index i = j + 1; i < column.size(); ++i) {
      const double f = shrink * column[i];
      for (Index c = 0; c < n; ++c) next.across(c, i) -= f * a[c];
    }
    return next;
  }

  const std::vector<Stake>& stakes_;
  const std::vector<Look::Reading>& readings_;
  double gap_;
  std::vector<double> turned_;
  std::vector<char> takes_;
};

}  // namespace

double loss_of(double p_unsound, const Stake& stake) { return std::min(p_unsound * stake.leave_unsound, (1 - p_unsound) * stake.tear_out_sound); }

LossModel::LossModel(const Fit& fit, const std::vector<Stake>& stakes, std::size_t most, double share)
    : fit_(fit), stakes_(stakes), ground_(places_of(stakes)), marks_(fit.places) {
  double sum = 0, gap = 0;
  for (const Member& member : fit.members) {
    if (parts_.size() >= most || sum >= share) break;
    parts_.push_back({&member, member.weight, member.covariance.prepare(ground_), member.covariance.prepare(marks_), {}, {}});
    sum += member.weight;
  }
  const Index n = static_cast<Index>(stakes.size());
  mean_ = VectorXd::Zero(n);
  VectorXd second = VectorXd::Zero(n);
  for (Part& part : parts_) {
    part.weight /= sum;
    const Covariance& covariance = part.member->covariance;
    part.mean = VectorXd::Zero(n);
    part.pulled = MatrixXd::Zero(n, static_cast<Index>(fit.places.size()));
    if (!fit.places.empty()) {
      const MatrixXd k = covariance.matrix(part.stakes, part.marks);
      part.pulled.noalias() = k * part.member->ep.half.transpose().triangularView<Eigen::Upper>();
      part.mean = k * part.member->ep.weights;
    }
    for (Index c = 0; c < n; ++c) {
      part.mean[c] += part.stakes.mean[at(c)];
      const double own = std::max(1e-12, part.stakes.variance[at(c)] - (part.pulled.cols() == 0 ? 0.0 : part.pulled.row(c).squaredNorm()));
      mean_[c] += part.weight * part.mean[c];
      second[c] += part.weight * (own + part.mean[c] * part.mean[c]);
    }
    double of_gaps = 0;
    for (const auto& g : part.member->gaps) of_gaps += g.gap * g.weight;
    gap += part.weight * of_gaps / part.member->weight;
  }
  gap_ = parts_.empty() ? 1 : gap;
  variance_ = second - mean_.cwiseProduct(mean_);
  for (Index c = 0; c < n; ++c) {
    variance_[c] = std::max(variance_[c], 1e-12);
    const double p = normal_table().cdf(mean_[c] / std::sqrt(variance_[c]));
    takes_.push_back(p * stakes_[at(c)].leave_unsound > (1 - p) * stakes_[at(c)].tear_out_sound ? 1 : 0);
    loss_now_ += loss_of(p, stakes_[at(c)]);
  }
}

LossModel::Joint LossModel::joint(const std::vector<Place>& places) const {
  const Index m = static_cast<Index>(places.size()), n = static_cast<Index>(stakes_.size());
  const Ground ground(places);
  Joint all{VectorXd::Zero(m), MatrixXd::Zero(m, m), MatrixXd::Zero(n, m)};
  std::vector<VectorXd> means;
  for (const Part& part : parts_) {
    const Covariance& covariance = part.member->covariance;
    const Covariance::Prepared prepared = covariance.prepare(ground);
    VectorXd mean = Eigen::Map<const VectorXd>(prepared.mean.data(), m);
    MatrixXd across = covariance.matrix(part.stakes, prepared);
    all.within += part.weight * covariance.matrix(prepared, prepared);
    if (!fit_.places.empty()) {
      const MatrixXd k = covariance.matrix(part.marks, prepared);
      const MatrixXd pulled = part.member->ep.half.triangularView<Eigen::Lower>() * k;
      mean.noalias() += k.transpose() * part.member->ep.weights;
      subtract_product(part.pulled, pulled, across);
      all.within.noalias() -= part.weight * (pulled.transpose() * pulled);
    }
    all.across += part.weight * across;
    all.mean += part.weight * mean;
    means.push_back(std::move(mean));
  }
  for (std::size_t p = 0; p < parts_.size(); ++p) {
    const VectorXd off = means[p] - all.mean;
    all.within.noalias() += parts_[p].weight * off * off.transpose();
    all.across.noalias() += parts_[p].weight * (parts_[p].mean - mean_) * off.transpose();
  }
  return all;
}

double LossModel::chance(const Place& place) const {
  const Joint j = joint({place});
  return normal_table().cdf(j.mean[0] / std::sqrt(std::max(1e-12, j.within(0, 0))));
}

double LossModel::rough(const Joint& joint, const std::vector<Look::Reading>& readings, const std::vector<Index>& columns) const {
  const Index m = static_cast<Index>(readings.size()), n = mean_.size();
  MatrixXd s(m, m);
  for (Index i = 0; i < m; ++i)
    for (Index j = 0; j < m; ++j) s(i, j) = joint.within(columns[at(i)], columns[at(j)]);
  for (Index j = 0; j < m; ++j) s(j, j) += readings[at(j)].noise_sd * readings[at(j)].noise_sd + 1e-9;
  const Eigen::LLT<MatrixXd> factor(s);
  const MatrixXd lower = factor.matrixL();
  VectorXd told = VectorXd::Zero(n);
  MatrixXd b(n, m);  // row by row L^-1 across', stakes down the columns
  for (Index j = 0; j < m; ++j) {
    double* to = b.data() + j * n;
    const double* from = joint.across.data() + columns[at(j)] * n;
    std::copy(from, from + n, to);
    for (Index k = 0; k < j; ++k) {
      const double by = lower(j, k);
      const double* before = b.data() + k * n;
      for (Index c = 0; c < n; ++c) to[c] -= by * before[c];
    }
    const double scale = 1 / lower(j, j);
    for (Index c = 0; c < n; ++c) {
      to[c] *= scale;
      told[c] += to[c] * to[c];
    }
  }
  double worth = 0;
  const NormalTable& normal = normal_table();
  for (Index c = 0; c < n; ++c) {
    const double share = std::min(told[c], 0.9999 * variance_[c]);
    if (share < kUntouched * variance_[c]) continue;
    const double sd = std::sqrt(share), left = 1 / std::sqrt(variance_[c] - share);
    const Stake& stake = stakes_[at(c)];
    for (std::size_t i = 0; i < kNode.size(); ++i) {
      const double p = normal.cdf((mean_[c] + sd * kNode[i]) * left);
      const double more = p * stake.leave_unsound - (1 - p) * stake.tear_out_sound;  // what leaving costs above taking
      worth += kWeight[i] * std::max(0.0, takes_[at(c)] ? -more : more);
    }
  }
  return worth;
}

std::vector<double> LossModel::screen(const std::vector<Look>& looks) const {
  std::vector<double> worth;
  if (parts_.empty()) return std::vector<double>(looks.size(), 0);
  // In batches: the joint covariance of all looks with all stakes need not be held at once. Looks that read one
  // place share its column.
  constexpr std::size_t kBatch = 32;
  for (std::size_t start = 0; start < looks.size(); start += kBatch) {
    const std::size_t end = std::min(looks.size(), start + kBatch);
    std::vector<Place> batch;
    std::vector<std::vector<Index>> columns;
    for (std::size_t i = start; i < end; ++i) {
      columns.emplace_back();
      for (const auto& reading : looks[i].readings) {
        const auto found = std::find_if(batch.begin(), batch.end(), [&](const Place& p) {
          return p.node == reading.place.node && p.attribute == reading.place.attribute && p.at_in == reading.place.at_in;
        });
        columns.back().push_back(static_cast<Index>(found - batch.begin()));
        if (found == batch.end()) batch.push_back(reading.place);
      }
    }
    if (batch.empty()) {
      worth.resize(end, 0);
      continue;
    }
    const Joint all = joint(batch);
    for (std::size_t i = start; i < end; ++i) worth.push_back(looks[i].readings.empty() ? 0 : rough(all, looks[i].readings, columns[i - start]));
  }
  return worth;
}

double LossModel::screen_pair(const Look& a, const Look& b) const {
  Look both = a;
  both.readings.insert(both.readings.end(), b.readings.begin(), b.readings.end());
  return screen({both})[0];
}

LookValue LossModel::value(const Look& look) const {
  LookValue result;
  const std::vector<Look::Reading>& readings = look.readings;
  if (readings.empty() || parts_.empty()) return result;
  // Measurements and wide looks are Gaussian, or as good as: the quick measure holds for them.
  if (look.readings.size() > kMostReadings || std::any_of(readings.begin(), readings.end(), [](const auto& r) { return r.measured; })) {
    result.worth = screen({look})[0];
    return result;
  }
  std::vector<Place> places;
  for (const auto& reading : readings) places.push_back(reading.place);
  const Joint all = joint(places);
  // Only the stakes that these readings can move.
  std::vector<Index> moved;
  for (Index c = 0; c < mean_.size(); ++c) {
    double most = 0;
    for (Index j = 0; j < all.within.rows(); ++j) most = std::max(most, all.across(c, j) * all.across(c, j) / std::max(1e-12, all.within(j, j)));
    if (most > kUntouched * variance_[c]) moved.push_back(c);
  }
  std::vector<Stake> stakes;
  OutcomeTree::State state{all.mean, all.within, VectorXd(static_cast<Index>(moved.size())), VectorXd(static_cast<Index>(moved.size())),
                           MatrixXd(static_cast<Index>(moved.size()), all.across.cols())};
  for (std::size_t i = 0; i < moved.size(); ++i) {
    stakes.push_back(stakes_[at(moved[i])]);
    state.mean[static_cast<Index>(i)] = mean_[moved[i]];
    state.variance[static_cast<Index>(i)] = variance_[moved[i]];
    state.across.row(static_cast<Index>(i)) = all.across.row(moved[i]);
  }
  OutcomeTree tree(stakes, readings, gap_);
  result.worth = tree.expected_saving(state);
  for (std::size_t i = 0; i < stakes.size(); ++i)
    if (tree.turned(i) >= 0.1) result.decides_sf += stakes[i].area_sf;
  return result;
}

}  // namespace awlmark::survey
