#include "survey/posterior.hpp"

#include <algorithm>
#include <cmath>

#include "survey/normal_table.hpp"

namespace awlmark::survey {
namespace {

constexpr std::size_t kBlock = 64;  // points at a time, so that the work stays in the cache

// The readings as one member sees them, ready to be set against many points of one node.
struct Readings {
  std::size_t count = 0;
  int bases = 0;
  std::vector<double> su, sv, ou, ov;  // scaled coordinates; own frame of the node asked about
  std::vector<char> same_node;
  std::vector<double> depth_factor;            // shared variance times the fall with depth
  std::vector<double> basis;                   // values times sd, reading by reading
  std::vector<double> rot_factor, wet_factor;  // 1 or the coupling
};

Readings readings_for(const Fit& fit, const Covariance& covariance, int node) {
  Readings r;
  r.count = fit.places.size();
  r.bases = covariance.basis_count();
  const auto& nodes = covariance.model().nodes;
  const double depth = nodes[static_cast<std::size_t>(node)].depth;
  std::vector<double> values(static_cast<std::size_t>(r.bases));
  for (const Place& place : fit.places) {
    const Point s = covariance.shared_scaled(place.at_in), o = covariance.own_scaled(node, place.at_in);
    r.su.push_back(s.x_in);
    r.sv.push_back(s.y_in);
    r.ou.push_back(o.x_in);
    r.ov.push_back(o.y_in);
    r.same_node.push_back(place.node == node);
    r.depth_factor.push_back(covariance.shared_variance() * covariance.depth_factor(depth, nodes[static_cast<std::size_t>(place.node)].depth));
    covariance.basis(place.node, place.at_in, values.data());
    for (int b = 0; b < r.bases; ++b) r.basis.push_back(values[static_cast<std::size_t>(b)] * covariance.basis_sd(b, place.attribute));
    r.rot_factor.push_back(covariance.attribute_factor(kRot, place.attribute));
    r.wet_factor.push_back(covariance.attribute_factor(kWet, place.attribute));
  }
  return r;
}

// Mean and variance of a block of points from their covariances with the readings (k: readings x block).
void condition(const Member& member, std::size_t count, std::size_t width, const std::vector<double>& k, double* mean, double* variance) {
  std::vector<double> row(kBlock);
  for (std::size_t i = 0; i < count; ++i) {
    const double w = member.ep.weights[static_cast<Eigen::Index>(i)];
    for (std::size_t c = 0; c < width; ++c) mean[c] += w * k[i * kBlock + c];
    std::fill(row.begin(), row.end(), 0.0);
    for (std::size_t j = 0; j <= i; ++j) {
      const double h = member.ep.half(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
      const double* kj = &k[j * kBlock];
      for (std::size_t c = 0; c < kBlock; ++c) row[c] += h * kj[c];
    }
    for (std::size_t c = 0; c < width; ++c) variance[c] -= row[c] * row[c];
  }
  for (std::size_t c = 0; c < width; ++c) variance[c] = std::max(variance[c], 1e-12);
}

}  // namespace

NodeMoments moments_at(const Fit& fit, const Member& member, int node, const std::vector<Point>& points) {
  const Covariance& covariance = member.covariance;
  const Readings r = readings_for(fit, covariance, node);
  const double node_variance = covariance.node_sd() * covariance.node_sd();
  const double own_variance = covariance.own_variance();
  NodeMoments out;
  for (LatentMoments* m : {&out.rot, &out.wet}) {
    m->mean.resize(points.size());
    m->variance.resize(points.size());
  }
  std::vector<double> k_rot(r.count * kBlock), k_wet(r.count * kBlock), basis(static_cast<std::size_t>(r.bases));
  for (std::size_t start = 0; start < points.size(); start += kBlock) {
    const std::size_t width = std::min(kBlock, points.size() - start);
    for (std::size_t c = 0; c < width; ++c) {
      const Point at = points[start + c];
      const Point s = covariance.shared_scaled(at), o = covariance.own_scaled(node, at);
      covariance.basis(node, at, basis.data());
      double mean_rot = covariance.offset(node, kRot), mean_wet = covariance.offset(node, kWet);
      double prior_rot = covariance.shared_variance() + own_variance + node_variance, prior_wet = prior_rot;
      for (int b = 0; b < r.bases; ++b) {
        const double v = basis[static_cast<std::size_t>(b)];
        const double sr = covariance.basis_sd(b, kRot), sw = covariance.basis_sd(b, kWet);
        mean_rot += v * covariance.basis_mean(b, kRot);
        mean_wet += v * covariance.basis_mean(b, kWet);
        prior_rot += v * v * sr * sr;
        prior_wet += v * v * sw * sw;
      }
      out.rot.mean[start + c] = mean_rot;
      out.wet.mean[start + c] = mean_wet;
      out.rot.variance[start + c] = prior_rot;
      out.wet.variance[start + c] = prior_wet;
      for (std::size_t i = 0; i < r.count; ++i) {
        double common = r.depth_factor[i] * product_matern(s.x_in - r.su[i], s.y_in - r.sv[i]);
        if (r.same_node[i]) common += own_variance * product_matern(o.x_in - r.ou[i], o.y_in - r.ov[i]) + node_variance;
        double rot = common, wet = common;
        for (int b = 0; b < r.bases; ++b) {
          const double v = basis[static_cast<std::size_t>(b)] * r.basis[i * static_cast<std::size_t>(r.bases) + static_cast<std::size_t>(b)];
          rot += v * covariance.basis_sd(b, kRot);
          wet += v * covariance.basis_sd(b, kWet);
        }
        k_rot[i * kBlock + c] = rot * r.rot_factor[i];
        k_wet[i * kBlock + c] = wet * r.wet_factor[i];
      }
    }
    condition(member, r.count, width, k_rot, &out.rot.mean[start], &out.rot.variance[start]);
    condition(member, r.count, width, k_wet, &out.wet.mean[start], &out.wet.variance[start]);
  }
  return out;
}

Chances chances_at(const Fit& fit, int node, const std::vector<Point>& points) {
  Chances out;
  out.unsound.assign(points.size(), 0);
  out.gone.assign(points.size(), 0);
  out.wet.assign(points.size(), 0);
  const NormalTable& normal = normal_table();
  for (const Member& member : fit.members) {
    const NodeMoments m = moments_at(fit, member, node, points);
    for (std::size_t c = 0; c < points.size(); ++c) {
      const double rot_sd = std::sqrt(m.rot.variance[c]);
      out.unsound[c] += member.weight * normal.cdf(m.rot.mean[c] / rot_sd);
      for (const auto& gap : member.gaps) out.gone[c] += gap.weight * normal.cdf((m.rot.mean[c] - gap.gap) / rot_sd);
      out.wet[c] += member.weight * normal.cdf(m.wet.mean[c] / std::sqrt(m.wet.variance[c]));
    }
  }
  return out;
}

}  // namespace awlmark::survey
