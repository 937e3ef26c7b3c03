// Draws of a separable Matern 3/2 field on a plan: a product grid, filled by the two axes' Cholesky
// factors (the Kronecker structure). Its nodes are the cells themselves where those stand square to
// the frame, or every second or third of them where a length scale spans many cells; elsewhere they lie about
// a third of a length scale apart. The field is read off between them by kriging weights on the four nearest of
// each axis, which carry all but about half a percent of the variance; `missing` says exactly how much a place
// lacks.
//
// Sampled at even steps, a Matern 3/2 process is an autoregression of order two with a moving average
// of order one (its spectrum is (1 + w^2)^-2), so each row of the Cholesky factor follows from the two
// before it and applying the factor costs four multiplications a node instead of one a node and row.
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
  // Nodes that surround all coordinates by two steps; a single node where they have no extent. Where
  // the cells stand at even steps (a grid in its own frame) the nodes are cells, each or every few of them.
  MaternAxis(const std::vector<double>& cells, const std::vector<double>& all);

  struct Weights {
    int first = 0;
    std::array<double, 4> w{};  // on nodes first .. first + 3; a single node has w[0] = 1
  };
  int size() const { return size_; }
  double node(int i) const { return start_ + i * step_; }
  Weights at(double coordinate) const;
  // Variance that the weighted nodes have at this place, of 1.
  double variance(const Weights& weights) const;
  // white := L white, L the Cholesky factor of the nodes' correlation, down each column.
  void colour_rows(Eigen::MatrixXd& white) const;
  // white := white L', along each row.
  void colour_columns(Eigen::MatrixXd& white) const;
  // Correlation of a coordinate with every node.
  Eigen::VectorXd with_nodes(double coordinate) const;

 private:
  int size_ = 1;
  double start_ = 0;
  double step_ = 1;
  // Row k of L from rows k - 1 and k - 2: f_k = near f_{k-1} + far f_{k-2} + own_k e_k + last_k e_{k-1}.
  double near_ = 0, far_ = 0;
  std::vector<double> own_, last_;
  Eigen::Matrix4d four_inverse_;
};

// Points in the rows and columns of a room's cells, as a grid whose frame is square to the room reads them.
struct LatticeSpots {
  bool turned = false;  // the grid's u runs along the room's y
  std::vector<MaternAxis::Weights> x, y;
};

class SeparableGrid {
 public:
  SeparableGrid() = default;
  // Around all the scaled points given, on the nodes of the cells where those lie at even steps.
  SeparableGrid(const std::vector<Point>& cells, const std::vector<Point>& all);

  struct Spot {
    MaternAxis::Weights u, v;
  };
  const MaternAxis& u() const { return u_; }
  const MaternAxis& v() const { return v_; }
  Spot spot(Point scaled) const { return {u_.at(scaled.x_in), v_.at(scaled.y_in)}; }
  double missing(const Spot& spot) const;  // variance, of 1
  double read(const Eigen::MatrixXd& field, const Spot& spot) const;
  // The same at all places of a lattice, added to out[row * columns + column]: first along x, then along y.
  void add(const Eigen::MatrixXd& field, const LatticeSpots& spots, std::vector<double>& scratch, std::vector<double>& out) const;
  // A draw with unit variance, u down the rows.
  Eigen::MatrixXd draw(Random& random) const;

 private:
  MaternAxis u_, v_;
};

}  // namespace awlmark::survey
