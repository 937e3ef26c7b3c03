// Marginals of the posterior at cells and stations: mean and variance of the latent values for one
// member, and the chances of unsound, gone and wet averaged over all members.
// Cost: readings^2 / 2 multiplications for each value and member.
#pragma once

#include <vector>

#include "survey/fit.hpp"

namespace awlmark::survey {

struct LatentMoments {
  std::vector<double> mean;
  std::vector<double> variance;
};

// Rot and wet of one node at many points.
struct NodeMoments {
  LatentMoments rot;
  LatentMoments wet;
};
NodeMoments moments_at(const Fit& fit, const Member& member, int node, const std::vector<Point>& points);

struct Chances {
  std::vector<double> unsound;
  std::vector<double> gone;
  std::vector<double> wet;
};
// `wet` false leaves wet out, empty.
Chances chances_at(const Fit& fit, int node, const std::vector<Point>& points, bool wet = true);

}  // namespace awlmark::survey
