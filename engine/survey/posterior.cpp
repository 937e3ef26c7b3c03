#include "survey/posterior.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <optional>

#include "survey/lattice.hpp"
#include "survey/normal_table.hpp"
#include "survey/tails.hpp"

namespace awlmark::survey {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr std::size_t kBlock = 64;  // points at a time, so that the work stays in the cache

// Correlations of lattice points with scattered spots in a frame square to the room: a factor for the
// column times one for the row, so that a handful of exponentials do for all the cells.
class SquareTable {
 public:
  SquareTable() = default;
  SquareTable(const Covariance::Frame& frame, const std::vector<Point>& scaled_spots, const PlanLattice& lattice) {
    const bool u_of_one = frame.cu == 0 || frame.su == 0, v_of_one = frame.cv == 0 || frame.sv == 0;
    if (!lattice.pays || !u_of_one || !v_of_one) return;
    columns_ = lattice.x.size();
    rows_ = lattice.y.size();
    for (const Point& spot : scaled_spots) {
      for (const double x : lattice.x) by_column_.push_back(factor(frame.cu, frame.cv, x, spot));
      for (const double y : lattice.y) by_row_.push_back(factor(frame.su, frame.sv, y, spot));
    }
  }

  bool ready() const { return columns_ > 0; }
  double at(std::size_t spot, std::size_t column, std::size_t row) const { return by_column_[spot * columns_ + column] * by_row_[spot * rows_ + row]; }

 private:
  static double factor(double to_u, double to_v, double at, const Point& spot) {
    return product_matern(to_u != 0 ? to_u * at - spot.x_in : 0, to_v != 0 ? to_v * at - spot.y_in : 0);
  }

  std::size_t columns_ = 0, rows_ = 0;
  std::vector<double> by_column_, by_row_;
};

// The readings as one member sees them, against many points of one node. Readings that lie over each
// other (an opening is read layer by layer) share their correlations with a point, so where that pays
// the covariance vector is written as a matrix times the few distinct correlations, and the quadratic
// form is reduced to their number by a QR factorization. Where readings share no spot it does not pay.
class NodeReadings {
 public:
  NodeReadings(const Fit& fit, const Member& member, int node, const PlanLattice& lattice, std::size_t points, bool with_wet)
      : fit_(fit), member_(member), covariance_(member.covariance), node_(node), lattice_(lattice) {
    for (const Place& place : fit.places) {
      shared_of_.push_back(distinct(shared_, covariance_.shared_scaled(place.at_in)));
      own_of_.push_back(place.node == node ? distinct(own_, covariance_.own_scaled(node, place.at_in)) : 0);
    }
    shared_table_ = SquareTable(covariance_.shared_frame(), shared_, lattice);
    own_table_ = SquareTable(covariance_.own_frame(node), own_, lattice);
    bases_ = static_cast<std::size_t>(covariance_.basis_count());
    width_ = shared_.size() + own_.size() + 1 + bases_;
    rot_ = side_of(kRot, points);
    if (with_wet) wet_ = side_of(kWet, points);
  }

  // Covariance of each reading with the rot at a point, as coefficients of the point's features.
  const MatrixXd& rot_link() const { return rot_.link; }

  std::size_t width() const { return width_; }

  // Distinct correlations of point `i`: column `c` of `features` (width x kBlock), and its prior.
  void point(Point at, std::size_t i, std::size_t c, std::vector<double>& features, double* mean, double* prior) const {
    std::vector<double> basis(bases_);
    covariance_.basis(node_, at, basis.data());
    std::size_t row = 0;
    correlate(shared_table_, shared_, covariance_.shared_scaled(at), i, c, features, row);
    correlate(own_table_, own_, covariance_.own_scaled(node_, at), i, c, features, row);
    features[row++ * kBlock + c] = 1;
    for (const int a : {static_cast<int>(kRot), static_cast<int>(kWet)}) {
      mean[a] = covariance_.offset(node_, a);
      prior[a] = covariance_.shared_variance() + covariance_.own_variance() + covariance_.node_sd() * covariance_.node_sd();
      for (std::size_t b = 0; b < bases_; ++b) {
        const double sd = covariance_.basis_sd(static_cast<int>(b), a);
        mean[a] += basis[b] * covariance_.basis_mean(static_cast<int>(b), a);
        prior[a] += basis[b] * basis[b] * sd * sd;
      }
    }
    for (std::size_t b = 0; b < bases_; ++b) features[row++ * kBlock + c] = basis[b];
  }

  void condition(Attribute attribute, const std::vector<double>& features, std::size_t width, double* mean, double* variance) const {
    const Side& side = attribute == kRot ? rot_ : wet_;
    for (std::size_t r = 0; r < width_; ++r) {
      const double w = side.weights[static_cast<Index>(r)];
      for (std::size_t c = 0; c < width; ++c) mean[c] += w * features[r * kBlock + c];
    }
    std::vector<double> row(kBlock), with_readings;
    const double* from = features.data();
    if (side.direct) {
      with_readings.resize(fit_.places.size() * kBlock);
      against_readings(side.link, features, with_readings);
      from = with_readings.data();
    }
    const MatrixXd& q = side.direct ? member_.ep.half : side.reduced;
    const bool lower = side.direct, upper = !lower && q.rows() == q.cols();
    for (Index i = 0; i < q.rows(); ++i) {
      std::fill(row.begin(), row.end(), 0.0);
      add_rows(q, i, upper ? i : 0, lower ? i + 1 : q.cols(), from, row.data());
      for (std::size_t c = 0; c < width; ++c) variance[c] -= row[c] * row[c];
    }
    for (std::size_t c = 0; c < width; ++c) variance[c] = std::max(variance[c], 1e-12);
  }

 private:
  // How the readings see one attribute: as a product with the distinct features, reduced to their number where
  // that is smaller, or (`direct`) reading by reading through EP's own triangle.
  struct Side {
    MatrixXd link, reduced;
    VectorXd weights;
    bool direct = false;
  };

  // row += q(i, from .. to) times the rows of f, four at a time.
  static void add_rows(const MatrixXd& q, Index i, Index from, Index to, const double* f, double* row) {
    Index j = from;
    for (; j + 4 <= to; j += 4) {
      const double h0 = q(i, j), h1 = q(i, j + 1), h2 = q(i, j + 2), h3 = q(i, j + 3);
      const double *f0 = f + static_cast<std::size_t>(j) * kBlock, *f1 = f0 + kBlock, *f2 = f1 + kBlock, *f3 = f2 + kBlock;
      for (std::size_t c = 0; c < kBlock; ++c) row[c] += (h0 * f0[c] + h1 * f1[c]) + (h2 * f2[c] + h3 * f3[c]);
    }
    for (; j < to; ++j) {
      const double h = q(i, j);
      const double* fj = f + static_cast<std::size_t>(j) * kBlock;
      for (std::size_t c = 0; c < kBlock; ++c) row[c] += h * fj[c];
    }
  }

  // Covariance of every reading with the points: few of a reading's coefficients are not 0.
  void against_readings(const MatrixXd& link, const std::vector<double>& features, std::vector<double>& out) const {
    const std::size_t tail = shared_.size() + own_.size();
    const auto add = [&](std::size_t i, std::size_t r) {
      const double by = link(static_cast<Index>(i), static_cast<Index>(r));
      if (by == 0) return;
      for (std::size_t c = 0; c < kBlock; ++c) out[i * kBlock + c] += by * features[r * kBlock + c];
    };
    for (std::size_t i = 0; i < fit_.places.size(); ++i) {
      std::fill_n(&out[i * kBlock], kBlock, 0.0);
      add(i, shared_of_[i]);
      if (fit_.places[i].node == node_) add(i, shared_.size() + own_of_[i]);
      for (std::size_t r = tail; r < width_; ++r) add(i, r);
    }
  }

  Side side_of(Attribute attribute, std::size_t points) const {
    Side side;
    side.link = link(attribute);
    side.weights = side.link.transpose() * member_.ep.weights;
    const Index n = side.link.rows(), width = side.link.cols();
    if (n == 0) return side;
    // Multiplications a point: through the triangle, or through the reduced one, which costs a factorization first.
    const double own = 0.5 * static_cast<double>(n * n) + 5.0 * static_cast<double>(n), few = 0.5 * static_cast<double>(width * width),
                 once = static_cast<double>(n * n * width) / 2 + 2.0 * static_cast<double>(n * width * width);
    side.direct = width >= n || (own - few) * static_cast<double>(points) < once;
    if (side.direct) return side;
    const Eigen::HouseholderQR<MatrixXd> qr(member_.ep.half.triangularView<Eigen::Lower>() * side.link);
    side.reduced = qr.matrixQR().topRows(width).triangularView<Eigen::Upper>();
    return side;
  }

  void correlate(const SquareTable& table, const std::vector<Point>& spots, Point scaled, std::size_t i, std::size_t c, std::vector<double>& features,
                 std::size_t& row) const {
    for (std::size_t k = 0; k < spots.size(); ++k)
      features[row++ * kBlock + c] =
          table.ready() ? table.at(k, lattice_.column[i], lattice_.row[i]) : product_matern(scaled.x_in - spots[k].x_in, scaled.y_in - spots[k].y_in);
  }

  static std::size_t distinct(std::vector<Point>& known, Point p) {
    const auto found = std::find(known.begin(), known.end(), p);
    const std::size_t index = static_cast<std::size_t>(found - known.begin());
    if (found == known.end()) known.push_back(p);
    return index;
  }

  // Covariance of each reading with a point of the node, as coefficients of the distinct features.
  MatrixXd link(Attribute attribute) const {
    const Index n = static_cast<Index>(fit_.places.size());
    const Index own_at = static_cast<Index>(shared_.size()), one_at = own_at + static_cast<Index>(own_.size());
    MatrixXd m = MatrixXd::Zero(n, one_at + 1 + static_cast<Index>(bases_));
    const auto& nodes = covariance_.model().nodes;
    std::vector<double> basis(bases_);
    for (Index i = 0; i < n; ++i) {
      const Place& place = fit_.places[static_cast<std::size_t>(i)];
      const double factor = covariance_.attribute_factor(attribute, place.attribute);
      m(i, static_cast<Index>(shared_of_[static_cast<std::size_t>(i)])) =
          factor * covariance_.shared_variance() *
          covariance_.depth_factor(nodes[static_cast<std::size_t>(node_)].depth, nodes[static_cast<std::size_t>(place.node)].depth);
      if (place.node == node_) {
        m(i, own_at + static_cast<Index>(own_of_[static_cast<std::size_t>(i)])) = factor * covariance_.own_variance();
        m(i, one_at) = factor * covariance_.node_sd() * covariance_.node_sd();
      }
      covariance_.basis(place.node, place.at_in, basis.data());
      for (std::size_t b = 0; b < bases_; ++b)
        m(i, one_at + 1 + static_cast<Index>(b)) =
            factor * basis[b] * covariance_.basis_sd(static_cast<int>(b), place.attribute) * covariance_.basis_sd(static_cast<int>(b), attribute);
    }
    return m;
  }

  const Fit& fit_;
  const Member& member_;
  const Covariance& covariance_;
  int node_;
  const PlanLattice& lattice_;
  SquareTable shared_table_, own_table_;
  std::size_t bases_ = 0, width_ = 0;
  std::vector<Point> shared_, own_;
  std::vector<std::size_t> shared_of_, own_of_;
  Side rot_, wet_;
};

// `unsound`, where asked for: the chance of rot above 0 at each point, its tail corrected.
NodeMoments moments_on(const Fit& fit, const Member& member, int node, const std::vector<Point>& points, const PlanLattice& lattice, bool wet = true,
                       std::vector<double>* unsound = nullptr) {
  const NodeReadings readings(fit, member, node, lattice, points.size(), wet);
  std::optional<Tails> tails;
  if (unsound != nullptr) {
    tails.emplace(fit, member, readings.rot_link());
    unsound->resize(points.size());
  }
  NodeMoments out;
  for (LatentMoments* m : {&out.rot, &out.wet}) {
    m->mean.resize(points.size());
    m->variance.resize(points.size());
  }
  std::vector<double> features(readings.width() * kBlock);
  for (std::size_t start = 0; start < points.size(); start += kBlock) {
    const std::size_t width = std::min(kBlock, points.size() - start);
    for (std::size_t c = 0; c < width; ++c) {
      double mean[2], prior[2];
      readings.point(points[start + c], start + c, c, features, mean, prior);
      out.rot.mean[start + c] = mean[kRot];
      out.wet.mean[start + c] = mean[kWet];
      out.rot.variance[start + c] = prior[kRot];
      out.wet.variance[start + c] = prior[kWet];
    }
    readings.condition(kRot, features, width, &out.rot.mean[start], &out.rot.variance[start]);
    if (wet) readings.condition(kWet, features, width, &out.wet.mean[start], &out.wet.variance[start]);
    if (!tails) continue;
    bool any = false;
    for (std::size_t c = 0; c < width; ++c) any = any || tails->wanted(out.rot.mean[start + c], out.rot.variance[start + c]);
    if (any) tails->share(features, kBlock, width);
    for (std::size_t c = 0; c < width; ++c) (*unsound)[start + c] = tails->chance(c, out.rot.mean[start + c], out.rot.variance[start + c]);
  }
  return out;
}

}  // namespace

NodeMoments moments_at(const Fit& fit, const Member& member, int node, const std::vector<Point>& points) {
  return moments_on(fit, member, node, points, lattice_of(points));
}

Chances chances_at(const Fit& fit, int node, const std::vector<Point>& points, bool wet) {
  Chances out;
  out.unsound.assign(points.size(), 0);
  out.gone.assign(points.size(), 0);
  if (wet) out.wet.assign(points.size(), 0);
  const NormalTable& normal = normal_table();
  const PlanLattice lattice = lattice_of(points);
  for (const Member& member : fit.members) {
    std::vector<double> unsound;
    const NodeMoments m = moments_on(fit, member, node, points, lattice, wet, &unsound);
    for (std::size_t c = 0; c < points.size(); ++c) {
      const double rot_sd = std::sqrt(m.rot.variance[c]);
      out.unsound[c] += member.weight * unsound[c];
      // What the correction takes from unsound it takes in proportion from gone.
      const double kept = std::min(1.0, unsound[c] / std::max(1e-300, normal.cdf(m.rot.mean[c] / rot_sd)));
      for (const auto& gap : member.gaps) out.gone[c] += kept * gap.weight * normal.cdf((m.rot.mean[c] - gap.gap) / rot_sd);
      if (wet) out.wet[c] += member.weight * normal.cdf(m.wet.mean[c] / std::sqrt(m.wet.variance[c]));
    }
  }
  return out;
}

}  // namespace awlmark::survey
