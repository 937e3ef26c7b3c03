// Covariance and mean of the latent fields under one setting.
//
//   k(p, q) = A(a, a') { share R(l, l') M(du / lu) M(dv / lv)            all nodes, the deck's frame
//                      + own [l = l'] M(du' / lu') M(dv' / lv')         in the node's own frame
//                      + sum_b s_b(a) s_b(a') b(p) b(q) }               uncertain level, source strengths
//
// M is the Matern 3/2 correlation, M(d) = (1 + sqrt(3) d) exp(-sqrt(3) d) (Rasmussen and Williams
// 2006, eq. 4.17, from memory); R falls by the model's factor for each step in depth; A is 1 on the
// diagonal and the coupling off it. A sum of products of covariances is a covariance, so every
// matrix built here is positive semi-definite; only sums I + S K S are ever factored.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <vector>

#include "survey/model.hpp"

namespace awlmark::survey {

// exp(x) for x <= 0, same bits on every target, faster than det_exp (no divisions); relative error
// below 3e-15 (tests/survey).
double exp_of_negative(double x);

// Matern 3/2 correlation at a distance already divided by its length scale.
double matern32(double scaled_distance);

// What a list of places has in common under every setting: the distinct coordinates and spots, and the runs
// of one node and attribute.
struct Ground {
  explicit Ground(const std::vector<Place>& places);

  struct Run {
    std::size_t begin = 0, end = 0;
    int node = 0;
    Attribute attribute = kRot;
  };
  std::vector<Place> places;
  std::vector<double> x, y;
  std::vector<std::size_t> column, row;  // of each place, in x and in y
  std::vector<Point> spots;
  std::vector<std::size_t> spot;  // of each place
  std::vector<Run> runs;
};

// Correlation of two ready places in the frame given; coordinates carry the scale already.
inline double product_matern(double du, double dv) {
  du = du < 0 ? -du : du;
  dv = dv < 0 ? -dv : dv;
  return (1 + du) * (1 + dv) * exp_of_negative(-(du + dv));
}

class Covariance {
 public:
  Covariance(const Model& model, const Setting& setting);

  const Model& model() const { return *model_; }
  const Setting& setting() const { return setting_; }

  double mean(const Place& place) const;
  double variance(const Place& place) const;
  double between(const Place& p, const Place& q) const;
  // Same, symmetric; n x n. Places that share a point, a row or a column share the work: layers over each other
  // cost little more than one, and on ground square to the grain a few exponentials do for all.
  Eigen::MatrixXd matrix(const std::vector<Place>& places) const;
  // rows: `of`, columns: `with`.
  Eigen::MatrixXd matrix(const std::vector<Place>& of, const std::vector<Place>& with) const;

  // Places made ready for this setting, for those who ask often.
  struct Prepared {
    const Ground* ground = nullptr;  // outlives it
    std::vector<double> basis;       // values times their sd, basis by basis
    std::vector<double> mean;
    std::vector<double> variance;
  };
  Prepared prepare(const Ground& ground) const;
  Eigen::MatrixXd matrix(const Prepared& of, const Prepared& with) const;

  // ---- The parts, for draws that work term by term.
  double shared_variance() const { return shared_variance_; }
  double own_variance() const { return own_variance_; }
  double attribute_factor(int a, int b) const { return a == b ? 1 : model_->coupling; }
  double depth_factor(double depth_a, double depth_b) const;
  double depth(int node) const { return model_->nodes[static_cast<std::size_t>(node)].depth; }
  struct Frame {
    double cu, su, cv, sv;  // u = cu x + su y, v = cv x + sv y, scaled
  };
  const Frame& shared_frame() const { return shared_; }
  const Frame& own_frame(int node) const { return own_[static_cast<std::size_t>(node)]; }
  // Coordinates of a place times sqrt(3) / length, in the shared or in the node's own frame.
  Point shared_scaled(Point at_in) const;
  Point own_scaled(int node, Point at_in) const;
  // Values of the basis functions (far level, one per source, one per channel) at a place; the node's own
  // level is not among them. `basis_sd[b]` belongs to the attribute.
  int basis_count() const { return 1 + static_cast<int>(model_->sources.size() + model_->channels.size()); }
  void basis(int node, Point at_in, double* values) const;
  double basis_sd(int b, int attribute) const;
  double basis_mean(int b, int attribute) const;
  double node_sd() const { return model_->node_sd; }
  double offset(int node, int attribute) const { return attribute == kRot ? model_->nodes[static_cast<std::size_t>(node)].rot_offset : 0; }

 private:
  Frame frame(double degrees, double along, double across, bool line) const;
  double ready(const Place& place, double* basis_values) const;  // the mean; basis values become values times sd

  const Model* model_;
  Setting setting_;
  double shared_variance_ = 0;
  double own_variance_ = 0;
  Frame shared_{};
  std::vector<Frame> own_;
  std::vector<Frame> fall_;            // distance from a source, in e-foldings, node by node
  std::vector<std::size_t> own_kind_;  // nodes with the same own frame share a number
  std::size_t own_kinds_ = 0;
  double log_depth_ = 0;
};

}  // namespace awlmark::survey
