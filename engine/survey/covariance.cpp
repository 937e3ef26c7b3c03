#include "survey/covariance.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <numeric>

#include "base/special.hpp"

namespace awlmark::survey {
namespace {

constexpr double kSqrt3 = 1.7320508075688772935;

double two_to(int k) {  // k in [-1022, 0]
  const std::uint64_t bits = static_cast<std::uint64_t>(1023 + k) << 52;
  double value = 0;
  std::memcpy(&value, &bits, sizeof value);
  return value;
}

// Cosine that is exactly 0 or 1 at quarter turns, so that a turned job gives the same numbers.
double clean_cos(double degrees) {
  double turned = degrees - 360 * std::floor(degrees / 360);
  if (turned > 180) turned = 360 - turned;
  if (turned == 0) return 1;
  if (turned == 90) return 0;
  if (turned == 180) return -1;
  return det_cos(turned * kPi / 180);
}

// The distinct points of a list of places, and which of them each place has.
struct Spots {
  std::vector<Point> points;
  std::vector<std::size_t> of;
};

Spots spots_of(const std::vector<Place>& places) {
  std::vector<std::size_t> order(places.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto before = [](Point a, Point b) { return a.x_in != b.x_in ? a.x_in < b.x_in : a.y_in < b.y_in; };
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (before(places[a].at_in, places[b].at_in)) return true;
    if (before(places[b].at_in, places[a].at_in)) return false;
    return a < b;
  });
  Spots spots;
  spots.of.resize(places.size());
  for (const std::size_t i : order) {
    if (spots.points.empty() || !(spots.points.back() == places[i].at_in)) spots.points.push_back(places[i].at_in);
    spots.of[i] = spots.points.size() - 1;
  }
  return spots;
}

Eigen::MatrixXd correlations(const std::vector<Point>& of, const std::vector<Point>& with) {
  Eigen::MatrixXd k(of.size(), with.size());
  for (std::size_t j = 0; j < with.size(); ++j)
    for (std::size_t i = 0; i < of.size(); ++i)
      k(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = product_matern(of[i].x_in - with[j].x_in, of[i].y_in - with[j].y_in);
  return k;
}

}  // namespace

double exp_of_negative(double x) {
  constexpr double kLn2High = 6.93147180369123816490e-01;
  constexpr double kLn2Low = 1.90821492927058770002e-10;
  if (x < -708) return 0;
  const int k = static_cast<int>(x * 1.44269504088896340736 - 0.5);  // to the nearest, x is not positive
  const double r = (x - k * kLn2High) - k * kLn2Low;
  // Taylor to the 13th power: |r| <= 0.347, the term left out is below 1e-17.
  double sum = 1.0 / 6227020800.0;
  sum = sum * r + 1.0 / 479001600.0;
  sum = sum * r + 1.0 / 39916800.0;
  sum = sum * r + 1.0 / 3628800.0;
  sum = sum * r + 1.0 / 362880.0;
  sum = sum * r + 1.0 / 40320.0;
  sum = sum * r + 1.0 / 5040.0;
  sum = sum * r + 1.0 / 720.0;
  sum = sum * r + 1.0 / 120.0;
  sum = sum * r + 1.0 / 24.0;
  sum = sum * r + 1.0 / 6.0;
  sum = sum * r + 0.5;
  sum = sum * r + 1.0;
  sum = sum * r + 1.0;
  return sum * two_to(k);
}

double matern32(double scaled_distance) {
  const double d = kSqrt3 * std::fabs(scaled_distance);
  return (1 + d) * exp_of_negative(-d);
}

Covariance::Covariance(const Model& model, const Setting& setting) : model_(&model), setting_(setting) {
  const double variance = setting.amplitude * setting.amplitude;
  own_variance_ = model.own_share * variance;
  shared_variance_ = variance - own_variance_;
  log_depth_ = det_log(model.depth_correlation);
  const double across = setting.length_in;
  shared_ = frame(model.shared_degrees, across * (model.shared_grained ? setting.stretch : 1), across, false);
  for (const Node& node : model.nodes) {
    const bool line = node.kind != Node::Kind::layer;
    const double own_across = across * model.own_length;
    const double own_along = own_across * (node.grained || line ? setting.stretch : 1);
    own_.push_back(frame(node.degrees, own_along, own_across, line));
    // A line hangs below or stands on the deck: the water came to it along the deck's grain.
    const double degrees = line ? model.shared_degrees : node.degrees;
    const bool grained = line ? model.shared_grained : node.grained;
    const double fall_along = setting.reach_in * (grained ? setting.stretch : 1);
    Frame fall = frame(degrees, fall_along, setting.reach_in, false);
    for (double* c : {&fall.cu, &fall.su, &fall.cv, &fall.sv}) *c /= kSqrt3;
    fall_.push_back(fall);
  }
  for (std::size_t n = 0; n < own_.size(); ++n) {
    std::size_t kind = own_kinds_;
    for (std::size_t m = 0; m < n && kind == own_kinds_; ++m)
      if (own_[m].cu == own_[n].cu && own_[m].su == own_[n].su && own_[m].cv == own_[n].cv && own_[m].sv == own_[n].sv) kind = own_kind_[m];
    own_kind_.push_back(kind);
    if (kind == own_kinds_) ++own_kinds_;
  }
}

Covariance::Frame Covariance::frame(double degrees, double along, double across, bool line) const {
  const double c = clean_cos(degrees), s = clean_cos(degrees - 90);
  const double u = kSqrt3 / along, v = line ? 0 : kSqrt3 / across;
  return {c * u, s * u, -s * v, c * v};
}

double Covariance::depth_factor(double depth_a, double depth_b) const {
  const double steps = std::fabs(depth_a - depth_b);
  if (steps == 1) return model_->depth_correlation;
  return steps == 0 ? 1 : exp_of_negative(log_depth_ * steps);
}

Point Covariance::shared_scaled(Point at) const { return {shared_.cu * at.x_in + shared_.su * at.y_in, shared_.cv * at.x_in + shared_.sv * at.y_in}; }

Point Covariance::own_scaled(int node, Point at) const {
  const Frame& f = own_[static_cast<std::size_t>(node)];
  return {f.cu * at.x_in + f.su * at.y_in, f.cv * at.x_in + f.sv * at.y_in};
}

void Covariance::basis(int node, Point at, double* values) const {
  const Frame& f = fall_[static_cast<std::size_t>(node)];
  const auto& sources = model_->sources;
  double nearest = 0, sum = 0;
  for (std::size_t k = 0; k < sources.size(); ++k) {
    const double dx = at.x_in - sources[k].x_in, dy = at.y_in - sources[k].y_in;
    const double u = f.cu * dx + f.su * dy, v = f.cv * dx + f.sv * dy;
    const double d2 = u * u + v * v, d = std::sqrt(d2);
    const double near = exp_of_negative(-(model_->fall_halves == 2 ? d : (model_->fall_halves == 3 ? d * std::sqrt(d) : d2)));
    nearest = std::max(nearest, near);
    values[1 + k] = near * near * near * near;  // the nearest source rules, two alike share
    sum += values[1 + k];
  }
  for (std::size_t k = 0; k < sources.size(); ++k) values[1 + k] = sum > 1e-300 ? values[1 + k] * (nearest / sum) : 0;
  values[0] = 1 - nearest;
}

double Covariance::basis_sd(int b, int attribute) const {
  const Moments& m = attribute == kRot ? (b == 0 ? model_->rot_far : model_->rot_at_source) : (b == 0 ? model_->wet_far : model_->wet_at_source);
  return m.sd;
}

double Covariance::basis_mean(int b, int attribute) const {
  const Moments& m = attribute == kRot ? (b == 0 ? model_->rot_far : model_->rot_at_source) : (b == 0 ? model_->wet_far : model_->wet_at_source);
  return m.mean;
}

Ready Covariance::ready(const Place& place, double* basis_values) const {
  Ready r;
  r.node = place.node;
  r.attribute = place.attribute;
  r.depth = model_->nodes[static_cast<std::size_t>(place.node)].depth;
  const Point s = shared_scaled(place.at_in), o = own_scaled(place.node, place.at_in);
  r.su = s.x_in;
  r.sv = s.y_in;
  r.ou = o.x_in;
  r.ov = o.y_in;
  basis(place.node, place.at_in, basis_values);
  r.mean = offset(place.node, place.attribute);
  for (int b = 0; b < basis_count(); ++b) {
    r.mean += basis_mean(b, place.attribute) * basis_values[b];
    basis_values[b] *= basis_sd(b, place.attribute);
  }
  return r;
}

double Covariance::mean(const Place& place) const {
  std::vector<double> values(static_cast<std::size_t>(basis_count()));
  return ready(place, values.data()).mean;
}

double Covariance::variance(const Place& place) const {
  std::vector<double> values(static_cast<std::size_t>(basis_count()));
  ready(place, values.data());
  double sum = shared_variance_ + own_variance_ + node_sd() * node_sd();
  for (const double v : values) sum += v * v;
  return sum;
}

double Covariance::between(const Place& p, const Place& q) const { return matrix({p}, {q})(0, 0); }

Eigen::MatrixXd Covariance::matrix(const std::vector<Place>& places) const { return matrix(places, places); }

Eigen::MatrixXd Covariance::matrix(const std::vector<Place>& of, const std::vector<Place>& with) const {
  const std::size_t width = static_cast<std::size_t>(basis_count());
  std::vector<double> b_of(of.size() * width), b_with(with.size() * width);
  std::vector<Ready> r_of, r_with;
  for (std::size_t i = 0; i < of.size(); ++i) r_of.push_back(ready(of[i], &b_of[i * width]));
  for (std::size_t j = 0; j < with.size(); ++j) r_with.push_back(ready(with[j], &b_with[j * width]));
  const Spots s_of = spots_of(of), s_with = spots_of(with);
  const auto in_frame = [](const Spots& spots, const Frame& f) {
    std::vector<Point> scaled;
    for (const Point& p : spots.points) scaled.push_back({f.cu * p.x_in + f.su * p.y_in, f.cv * p.x_in + f.sv * p.y_in});
    return scaled;
  };
  const Eigen::MatrixXd shared = correlations(in_frame(s_of, shared_), in_frame(s_with, shared_));
  std::vector<Eigen::MatrixXd> own(own_kinds_);  // filled when first asked for
  const double node_variance = node_sd() * node_sd();
  Eigen::MatrixXd k(of.size(), with.size());
  for (std::size_t j = 0; j < with.size(); ++j) {
    const Ready& q = r_with[j];
    const double* bq = &b_with[j * width];
    for (std::size_t i = 0; i < of.size(); ++i) {
      const Ready& p = r_of[i];
      const Eigen::Index si = static_cast<Eigen::Index>(s_of.of[i]), sj = static_cast<Eigen::Index>(s_with.of[j]);
      double sum = shared_variance_ * shared(si, sj);
      if (p.depth != q.depth) sum *= depth_factor(p.depth, q.depth);
      if (p.node == q.node) {
        Eigen::MatrixXd& table = own[own_kind_[static_cast<std::size_t>(p.node)]];
        const Frame& frame = own_[static_cast<std::size_t>(p.node)];
        if (table.size() == 0) table = correlations(in_frame(s_of, frame), in_frame(s_with, frame));
        sum += own_variance_ * table(si, sj) + node_variance;
      }
      const double* bp = &b_of[i * width];
      for (std::size_t b = 0; b < width; ++b) sum += bp[b] * bq[b];
      k(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = p.attribute == q.attribute ? sum : sum * model_->coupling;
    }
  }
  return k;
}

}  // namespace awlmark::survey
