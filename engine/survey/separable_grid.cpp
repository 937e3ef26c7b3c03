#include "survey/separable_grid.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "survey/covariance.hpp"

namespace awlmark::survey {
namespace {

constexpr double kStep = 0.577;  // a third of a length, in units of length / sqrt(3)
constexpr int kMostNodes = 120;  // a very large room gets wider steps instead

double correlation(double distance) {
  const double d = std::fabs(distance);
  return (1 + d) * exp_of_negative(-d);
}

}  // namespace

MaternAxis::MaternAxis(double low, double high) {
  if (!(high - low > 1e-9)) {
    start_ = low;
    lower_ = Eigen::MatrixXd::Ones(1, 1);
    return;
  }
  step_ = std::max(kStep, (high - low) / (kMostNodes - 4));
  start_ = low - 1.5 * step_;
  size_ = static_cast<int>(std::ceil((high - start_) / step_)) + 2;
  Eigen::MatrixXd k(size_, size_);
  for (int j = 0; j < size_; ++j)
    for (int i = 0; i < size_; ++i) k(i, j) = correlation((i - j) * step_) + (i == j ? 1e-12 : 0);
  lower_ = k.llt().matrixL();
  four_inverse_ = k.topLeftCorner<4, 4>().inverse();
}

MaternAxis::Weights MaternAxis::at(double coordinate) const {
  Weights weights;
  if (size_ == 1) {
    weights.w[0] = 1;
    return weights;
  }
  weights.first = std::clamp(static_cast<int>(std::floor((coordinate - start_) / step_)) - 1, 0, size_ - 4);
  Eigen::Vector4d c;
  for (int i = 0; i < 4; ++i) c[i] = correlation(coordinate - node(weights.first + i));
  const Eigen::Vector4d w = four_inverse_ * c;
  for (std::size_t i = 0; i < 4; ++i) weights.w[i] = w[static_cast<Eigen::Index>(i)];
  return weights;
}

double MaternAxis::variance(const Weights& weights) const {
  if (size_ == 1) return 1;
  double sum = 0;
  for (std::size_t i = 0; i < 4; ++i)
    for (std::size_t j = 0; j < 4; ++j) sum += weights.w[i] * weights.w[j] * correlation((static_cast<double>(i) - static_cast<double>(j)) * step_);
  return sum;
}

Eigen::VectorXd MaternAxis::with_nodes(double coordinate) const {
  Eigen::VectorXd c(size_);
  for (int i = 0; i < size_; ++i) c[i] = size_ == 1 ? 1 : correlation(coordinate - node(i));
  return c;
}

SeparableGrid::SeparableGrid(const std::vector<Point>& scaled) {
  if (scaled.empty()) {
    u_ = MaternAxis(0, 0);
    v_ = MaternAxis(0, 0);
    return;
  }
  const Box box = bounds(scaled);
  u_ = MaternAxis(box.x0_in, box.x1_in);
  v_ = MaternAxis(box.y0_in, box.y1_in);
}

double SeparableGrid::missing(const Spot& spot) const { return std::max(0.0, 1 - u_.variance(spot.u) * v_.variance(spot.v)); }

double SeparableGrid::read(const Eigen::MatrixXd& field, const Spot& spot) const {
  const int nu = std::min(4, u_.size()), nv = std::min(4, v_.size());
  double sum = 0;
  for (int j = 0; j < nv; ++j) {
    const double* column = &field(spot.u.first, spot.v.first + j);
    double along = 0;
    for (int i = 0; i < nu; ++i) along += spot.u.w[static_cast<std::size_t>(i)] * column[i];
    sum += spot.v.w[static_cast<std::size_t>(j)] * along;
  }
  return sum;
}

Eigen::MatrixXd SeparableGrid::draw(Random& random) const {
  Eigen::MatrixXd z(u_.size(), v_.size());
  for (Eigen::Index j = 0; j < z.cols(); ++j)
    for (Eigen::Index i = 0; i < z.rows(); ++i) z(i, j) = random.normal();
  const Eigen::MatrixXd half = u_.lower().triangularView<Eigen::Lower>() * z;
  return half * v_.lower().transpose().triangularView<Eigen::Upper>();
}

}  // namespace awlmark::survey
