#include "survey/covariance.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <numeric>
#include <optional>

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

std::vector<double> distinct(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  values.erase(std::unique(values.begin(), values.end()), values.end());
  return values;
}

std::size_t index_in(const std::vector<double>& rising, double value) {
  return static_cast<std::size_t>(std::lower_bound(rising.begin(), rising.end(), value) - rising.begin());
}

const Moments& moments_of(const Model& model, int basis, int attribute) {
  if (basis == 0) return attribute == kRot ? model.rot_far : model.wet_far;
  return attribute == kRot ? model.rot_at_source : model.wet_at_source;
}

// Correlations of two grounds in one frame: where that is square to the room a factor for the columns times one
// for the rows, else spot by spot.
struct Correlations {
  bool square = false;
  Eigen::MatrixXd of_x, of_y, of_spots;

  Correlations(const Ground& of, const Ground& with, const Covariance::Frame& f) {
    square = (f.cu == 0 || f.su == 0) && (f.cv == 0 || f.sv == 0);
    if (square) {
      of_x = along(of.x, with.x, f.cu != 0 ? f.cu : f.cv);
      of_y = along(of.y, with.y, f.su != 0 ? f.su : f.sv);
      return;
    }
    of_spots.resize(static_cast<Eigen::Index>(of.spots.size()), static_cast<Eigen::Index>(with.spots.size()));
    for (std::size_t j = 0; j < with.spots.size(); ++j)
      for (std::size_t i = 0; i < of.spots.size(); ++i) {
        const double dx = of.spots[i].x_in - with.spots[j].x_in, dy = of.spots[i].y_in - with.spots[j].y_in;
        of_spots(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = product_matern(f.cu * dx + f.su * dy, f.cv * dx + f.sv * dy);
      }
  }

  static Eigen::MatrixXd along(const std::vector<double>& a, const std::vector<double>& b, double scale) {
    Eigen::MatrixXd k(a.size(), b.size());
    for (std::size_t j = 0; j < b.size(); ++j)
      for (std::size_t i = 0; i < a.size(); ++i)
        k(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = scale == 0 ? 1 : product_matern(scale * (a[i] - b[j]), 0);
    return k;
  }

  // to[i] += factor times the correlation of place i of a run with place j.
  void add(const Ground& of, const Ground::Run& run, const Ground& with, std::size_t j, double factor, double* to) const {
    if (square) {
      const double *x = of_x.data() + with.column[j] * of.x.size(), *y = of_y.data() + with.row[j] * of.y.size();
      for (std::size_t i = run.begin; i < run.end; ++i) to[i] += factor * (x[of.column[i]] * y[of.row[i]]);
    } else {
      const double* c = of_spots.data() + with.spot[j] * of.spots.size();
      for (std::size_t i = run.begin; i < run.end; ++i) to[i] += factor * c[of.spot[i]];
    }
  }
};

}  // namespace

Ground::Ground(const std::vector<Place>& all) : places(all) {
  std::vector<std::size_t> order(all.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto before = [](Point a, Point b) { return a.x_in != b.x_in ? a.x_in < b.x_in : a.y_in < b.y_in; };
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (before(all[a].at_in, all[b].at_in)) return true;
    if (before(all[b].at_in, all[a].at_in)) return false;
    return a < b;
  });
  spot.resize(all.size());
  for (const std::size_t i : order) {
    if (spots.empty() || !(spots.back() == all[i].at_in)) spots.push_back(all[i].at_in);
    spot[i] = spots.size() - 1;
  }
  for (const Point p : spots) {
    x.push_back(p.x_in);
    y.push_back(p.y_in);
  }
  x = distinct(std::move(x));
  y = distinct(std::move(y));
  for (std::size_t i = 0; i < all.size(); ++i) {
    column.push_back(index_in(x, all[i].at_in.x_in));
    row.push_back(index_in(y, all[i].at_in.y_in));
    if (runs.empty() || runs.back().node != all[i].node || runs.back().attribute != all[i].attribute) runs.push_back({i, i, all[i].node, all[i].attribute});
    runs.back().end = i + 1;
  }
}

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
  for (std::size_t k = 0; k < model_->channels.size(); ++k) {
    const Channel& channel = model_->channels[k];
    const double off = distance_to_segment_in(at, channel.from_in, channel.to_in) / model_->channel_width_in;
    values[1 + sources.size() + k] = channel.share * exp_of_negative(-off);
  }
}

double Covariance::basis_sd(int b, int attribute) const {
  if (b > static_cast<int>(model_->sources.size())) return attribute == kRot ? model_->channel_rot_sd : model_->channel_wet_sd;
  return moments_of(*model_, b, attribute).sd;
}

double Covariance::basis_mean(int b, int attribute) const { return b > static_cast<int>(model_->sources.size()) ? 0 : moments_of(*model_, b, attribute).mean; }

double Covariance::ready(const Place& place, double* basis_values) const {
  basis(place.node, place.at_in, basis_values);
  double mean = offset(place.node, place.attribute);
  for (int b = 0; b < basis_count(); ++b) {
    mean += basis_mean(b, place.attribute) * basis_values[b];
    basis_values[b] *= basis_sd(b, place.attribute);
  }
  return mean;
}

double Covariance::mean(const Place& place) const {
  std::vector<double> values(static_cast<std::size_t>(basis_count()));
  return ready(place, values.data());
}

double Covariance::variance(const Place& place) const {
  std::vector<double> values(static_cast<std::size_t>(basis_count()));
  ready(place, values.data());
  double sum = shared_variance_ + own_variance_ + node_sd() * node_sd();
  for (const double v : values) sum += v * v;
  return sum;
}

double Covariance::between(const Place& p, const Place& q) const { return matrix({p}, {q})(0, 0); }

Eigen::MatrixXd Covariance::matrix(const std::vector<Place>& places) const {
  const Ground ground(places);
  const Prepared prepared = prepare(ground);
  return matrix(prepared, prepared);
}

Eigen::MatrixXd Covariance::matrix(const std::vector<Place>& of, const std::vector<Place>& with) const {
  const Ground ground_of(of), ground_with(with);
  return matrix(prepare(ground_of), prepare(ground_with));
}

Covariance::Prepared Covariance::prepare(const Ground& ground) const {
  const std::size_t n = ground.places.size(), width = static_cast<std::size_t>(basis_count());
  Prepared out;
  out.ground = &ground;
  out.basis.resize(n * width);
  std::vector<double> values(width);
  for (std::size_t i = 0; i < n; ++i) {
    out.mean.push_back(ready(ground.places[i], values.data()));
    double variance = shared_variance_ + own_variance_ + node_sd() * node_sd();
    for (std::size_t b = 0; b < width; ++b) {
      out.basis[b * n + i] = values[b];
      variance += values[b] * values[b];
    }
    out.variance.push_back(variance);
  }
  return out;
}

Eigen::MatrixXd Covariance::matrix(const Prepared& of, const Prepared& with) const {
  const Ground &g = *of.ground, &h = *with.ground;
  const std::size_t n = g.places.size(), m = h.places.size(), width = static_cast<std::size_t>(basis_count());
  Eigen::MatrixXd k = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(n), static_cast<Eigen::Index>(m));
  const Correlations shared(g, h, shared_);
  std::vector<std::optional<Correlations>> own(own_kinds_);  // made when first asked for
  for (std::size_t j = 0; j < m; ++j) {
    const Place& q = h.places[j];
    double* to = k.data() + j * n;
    for (const Ground::Run& run : g.runs) {
      const double factor = attribute_factor(run.attribute, q.attribute);
      shared.add(g, run, h, j, factor * shared_variance_ * depth_factor(depth(run.node), depth(q.node)), to);
      if (run.node == q.node) {
        std::optional<Correlations>& of_kind = own[own_kind_[static_cast<std::size_t>(run.node)]];
        if (!of_kind) of_kind.emplace(g, h, own_[static_cast<std::size_t>(run.node)]);
        of_kind->add(g, run, h, j, factor * own_variance_, to);
        for (std::size_t i = run.begin; i < run.end; ++i) to[i] += factor * node_sd() * node_sd();
      }
      for (std::size_t b = 0; b < width; ++b) {
        const double by = factor * with.basis[b * m + j];
        const double* values = &of.basis[b * n];
        for (std::size_t i = run.begin; i < run.end; ++i) to[i] += by * values[i];
      }
    }
  }
  return k;
}

}  // namespace awlmark::survey
