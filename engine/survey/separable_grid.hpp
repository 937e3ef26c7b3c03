// Draws of a separable Matern 3/2 field on a plan: a product grid about a third of a length scale
// wide, filled by the two axes' Cholesky factors (the Kronecker structure), and read off between its
// nodes by kriging weights along each axis. A Matern 3/2 process is so smooth between nodes that near
// that the four nearest nodes of each axis carry all but about half a percent of the variance;
// `missing` says exactly how much a place lacks.
#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "base/geometry.hpp"
#include "base/random.hpp"

namespace awlmark::survey {

// One axis, in coordinates scaled by sqrt(3) / length.
class MaternAxis {
 public:
  MaternAxis() = default;
  // Nodes that surround [low, high] by two steps; a single node where the axis has no extent.
  MaternAxis(double low, double high);

  struct Weights {
    int first = 0;
    std::array<double, 4> w{};  // on nodes first .. first + 3; a single node has w[0] = 1
  };
  int size() const { return size_; }
  double node(int i) const { return start_ + i * step_; }
  Weights at(double coordinate) const;
  // Variance that the weighted nodes have at this place, of 1.
  double variance(const Weights& weights) const;
  const Eigen::MatrixXd& lower() const { return lower_; }
  // Correlation of a coordinate with every node.
  Eigen::VectorXd with_nodes(double coordinate) const;

 private:
  int size_ = 1;
  double start_ = 0;
  double step_ = 1;
  Eigen::MatrixXd lower_;
  Eigen::Matrix4d four_inverse_;
};

class SeparableGrid {
 public:
  SeparableGrid() = default;
  // Around all the scaled points given.
  explicit SeparableGrid(const std::vector<Point>& scaled);

  struct Spot {
    MaternAxis::Weights u, v;
  };
  const MaternAxis& u() const { return u_; }
  const MaternAxis& v() const { return v_; }
  Spot spot(Point scaled) const { return {u_.at(scaled.x_in), v_.at(scaled.y_in)}; }
  double missing(const Spot& spot) const;  // variance, of 1
  double read(const Eigen::MatrixXd& field, const Spot& spot) const;
  // A draw with unit variance, u down the rows.
  Eigen::MatrixXd draw(Random& random) const;

 private:
  MaternAxis u_, v_;
};

}  // namespace awlmark::survey
