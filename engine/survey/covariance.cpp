#include "survey/covariance.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>

#include "base/special.hpp"

namespace awlmark::survey {
namespace {

constexpr double kSqrt3 = 1.7320508075688772935;
constexpr double kPi = 3.14159265358979323846;

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
}

Covariance::Frame Covariance::frame(double degrees, double along, double across, bool line) const {
  const double c = clean_cos(degrees), s = clean_cos(degrees - 90);
  const double u = kSqrt3 / along, v = line ? 0 : kSqrt3 / across;
  return {c * u, s * u, -s * v, c * v};
}

double Covariance::depth_factor(double depth_a, double depth_b) const { return exp_of_negative(log_depth_ * std::fabs(depth_a - depth_b)); }

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
    const double near = exp_of_negative(-std::sqrt(u * u + v * v));
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

double Covariance::value(const Ready& p, const double* bp, const Ready& q, const double* bq) const {
  double sum = shared_variance_ * product_matern(p.su - q.su, p.sv - q.sv);
  if (p.depth != q.depth) sum *= depth_factor(p.depth, q.depth);
  if (p.node == q.node) sum += own_variance_ * product_matern(p.ou - q.ou, p.ov - q.ov) + node_sd() * node_sd();
  for (int b = 0; b < basis_count(); ++b) sum += bp[b] * bq[b];
  return p.attribute == q.attribute ? sum : sum * model_->coupling;
}

double Covariance::mean(const Place& place) const {
  std::vector<double> values(static_cast<std::size_t>(basis_count()));
  return ready(place, values.data()).mean;
}

double Covariance::between(const Place& p, const Place& q) const {
  std::vector<double> bp(static_cast<std::size_t>(basis_count())), bq(bp.size());
  const Ready rp = ready(p, bp.data()), rq = ready(q, bq.data());
  return value(rp, bp.data(), rq, bq.data());
}

Eigen::MatrixXd Covariance::matrix(const std::vector<Place>& places) const { return matrix(places, places); }

Eigen::MatrixXd Covariance::matrix(const std::vector<Place>& of, const std::vector<Place>& with) const {
  const std::size_t width = static_cast<std::size_t>(basis_count());
  std::vector<double> b_of(of.size() * width), b_with(with.size() * width);
  std::vector<Ready> r_of, r_with;
  for (std::size_t i = 0; i < of.size(); ++i) r_of.push_back(ready(of[i], &b_of[i * width]));
  for (std::size_t j = 0; j < with.size(); ++j) r_with.push_back(ready(with[j], &b_with[j * width]));
  Eigen::MatrixXd k(of.size(), with.size());
  for (std::size_t j = 0; j < with.size(); ++j)
    for (std::size_t i = 0; i < of.size(); ++i)
      k(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = value(r_of[i], &b_of[i * width], r_with[j], &b_with[j * width]);
  return k;
}

}  // namespace awlmark::survey
