#include "survey/separable_grid.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "survey/covariance.hpp"

namespace awlmark::survey {
namespace {

constexpr double kStep = 0.577;  // a third of a length, in units of length / sqrt(3)
constexpr double kFine = 0.433;  // a quarter of a length: as far apart as nodes among cells lie
constexpr int kMostNodes = 160;  // a very large room gets wider steps instead

double correlation(double distance) {
  const double d = std::fabs(distance);
  return (1 + d) * exp_of_negative(-d);
}

struct Progression {
  double first = 0;
  double step = 0;  // 0: the values do not stand at even steps
};

Progression progression_of(std::vector<double> values) {
  if (values.empty()) return {};
  std::sort(values.begin(), values.end());
  double step = 0;
  for (std::size_t i = 1; i < values.size(); ++i) {
    const double gap = values[i] - values[i - 1];
    if (gap > 1e-9 && (step == 0 || gap < step)) step = gap;
  }
  if (step < 1e-4) return {};
  for (const double v : values) {
    const double steps = (v - values[0]) / step;
    if (std::fabs(steps - std::floor(steps + 0.5)) > 1e-6 * std::max(1.0, steps)) return {};
  }
  return {values[0], step};
}

// `field`: x down the rows.
void add_along(const Eigen::MatrixXd& field, const LatticeSpots& spots, std::vector<double>& scratch, std::vector<double>& out) {
  const std::size_t nx = spots.x.size(), columns = static_cast<std::size_t>(field.cols());
  const int along = static_cast<int>(std::min<Eigen::Index>(4, field.rows())), across = static_cast<int>(std::min<Eigen::Index>(4, field.cols()));
  scratch.resize(nx * columns);
  for (std::size_t j = 0; j < columns; ++j) {
    const double* from = field.data() + static_cast<std::ptrdiff_t>(j) * field.rows();
    double* to = &scratch[j * nx];
    if (along == 4)
      for (std::size_t i = 0; i < nx; ++i) {
        const MaternAxis::Weights& w = spots.x[i];
        const double* f = from + w.first;
        to[i] = (w.w[0] * f[0] + w.w[1] * f[1]) + (w.w[2] * f[2] + w.w[3] * f[3]);
      }
    else
      std::fill(to, to + nx, from[0]);
  }
  for (std::size_t r = 0; r < spots.y.size(); ++r) {
    const MaternAxis::Weights& w = spots.y[r];
    const double* f = &scratch[static_cast<std::size_t>(w.first) * nx];
    double* to = &out[r * nx];
    if (across == 4) {
      const double w0 = w.w[0], w1 = w.w[1], w2 = w.w[2], w3 = w.w[3];
      const double *f1 = f + nx, *f2 = f1 + nx, *f3 = f2 + nx;
      for (std::size_t i = 0; i < nx; ++i) to[i] += (w0 * f[i] + w1 * f1[i]) + (w2 * f2[i] + w3 * f3[i]);
    } else {
      for (std::size_t i = 0; i < nx; ++i) to[i] += f[i];
    }
  }
}

}  // namespace

MaternAxis::MaternAxis(const std::vector<double>& cells, const std::vector<double>& all) {
  double low = 0, high = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    low = i == 0 ? all[i] : std::min(low, all[i]);
    high = i == 0 ? all[i] : std::max(high, all[i]);
  }
  if (!(high - low > 1e-9)) {
    start_ = low;
    own_ = {1};
    last_ = {0};
    return;
  }
  const Progression even = progression_of(cells);
  if (even.step > 0 && (high - low) / even.step < kMostNodes) {
    step_ = even.step * std::max(1.0, std::floor(kFine / even.step));
    start_ = even.first - step_ * (2 + std::ceil(std::max(0.0, (even.first - low) / step_ - 1e-9)));
  } else {
    step_ = std::max(kStep, (high - low) / (kMostNodes - 4));
    start_ = low - 1.5 * step_;
  }
  size_ = std::max(4, static_cast<int>(std::ceil((high - start_) / step_ - 1e-9)) + 3);
  Eigen::MatrixXd k(size_, size_);
  for (int j = 0; j < size_; ++j)
    for (int i = 0; i < size_; ++i) k(i, j) = correlation((i - j) * step_);
  const Eigen::MatrixXd lower = k.llt().matrixL();
  const double decay = exp_of_negative(-step_);
  near_ = 2 * decay;
  far_ = -decay * decay;
  for (int i = 0; i < size_; ++i) {
    own_.push_back(lower(i, i));
    // The second row stands as it is; from the third on the row before is taken along.
    last_.push_back(i == 0 ? 0 : lower(i, i - 1) - (i == 1 ? 0 : near_ * lower(i - 1, i - 1)));
  }
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

SeparableGrid::SeparableGrid(const std::vector<Point>& cells, const std::vector<Point>& all) {
  std::vector<double> cell_u, cell_v, all_u, all_v;
  for (const Point& p : cells) {
    cell_u.push_back(p.x_in);
    cell_v.push_back(p.y_in);
  }
  for (const Point& p : all) {
    all_u.push_back(p.x_in);
    all_v.push_back(p.y_in);
  }
  u_ = MaternAxis(cell_u, all_u);
  v_ = MaternAxis(cell_v, all_v);
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

void SeparableGrid::add(const Eigen::MatrixXd& field, const LatticeSpots& spots, std::vector<double>& scratch, std::vector<double>& out) const {
  if (spots.turned) return add_along(field.transpose(), spots, scratch, out);
  add_along(field, spots, scratch, out);
}

void MaternAxis::colour_rows(Eigen::MatrixXd& white) const {
  for (Eigen::Index c = 0; c < white.cols(); ++c) {
    double* f = &white(0, c);
    double e_before = 0;
    for (int k = 0; k < size_; ++k) {
      const double e = f[k];
      double value = own_[static_cast<std::size_t>(k)] * e + last_[static_cast<std::size_t>(k)] * e_before;
      if (k >= 2) value += near_ * f[k - 1] + far_ * f[k - 2];
      f[k] = value;
      e_before = e;
    }
  }
}

void MaternAxis::colour_columns(Eigen::MatrixXd& white) const {
  const Eigen::Index rows = white.rows();
  std::vector<double> before(static_cast<std::size_t>(rows), 0);  // the white column before
  for (int k = 0; k < size_; ++k) {
    double* f = &white(0, k);
    const double own = own_[static_cast<std::size_t>(k)], last = last_[static_cast<std::size_t>(k)];
    for (Eigen::Index r = 0; r < rows; ++r) {
      const double e = f[r];
      f[r] = own * e + last * before[static_cast<std::size_t>(r)];
      before[static_cast<std::size_t>(r)] = e;
    }
    if (k < 2) continue;
    const double* f1 = &white(0, k - 1);
    const double* f2 = &white(0, k - 2);
    for (Eigen::Index r = 0; r < rows; ++r) f[r] += near_ * f1[r] + far_ * f2[r];
  }
}

Eigen::MatrixXd SeparableGrid::draw(Random& random) const {
  Eigen::MatrixXd z(u_.size(), v_.size());
  for (Eigen::Index j = 0; j < z.cols(); ++j)
    for (Eigen::Index i = 0; i < z.rows(); ++i) z(i, j) = random.normal();
  u_.colour_rows(z);
  v_.colour_columns(z);
  return z;
}

}  // namespace awlmark::survey
