// Joint draws from the posterior by Matheron's rule (conditioning by kriging: Chiles and Delfiner,
// chapter 7, from memory): draw the prior everywhere, draw the readings' noise, and add the kriged
// difference between what was read and what the draw would have read:
//
//   f | marks  =  f + k(., marks) (K + N)^-1 (y - f(marks) - e)
//
// with y a draw of what every reading felt (reading_draws.hpp) and N its noise. The prior is drawn term by term on separable
// grids (separable_grid.hpp); the correction is added there too, so a draw never meets a matrix of
// cells by cells. Each draw uses one member of the fit, in proportion to its weight, in mixed order,
// so that any stretch of draws is a fair sample.
#pragma once

#include <cstdint>
#include <vector>

#include "survey/fit.hpp"

namespace awlmark::survey {

// Where the draws are wanted.
struct DrawTarget {
  int node = 0;
  std::vector<Point> points;
};

// degree[target][draw * points + point]: 0 sound, 1 soft, 2 gone.
struct DegreeDraws {
  int count = 0;
  std::vector<std::vector<std::uint8_t>> degree;
};
DegreeDraws draw_degrees(const Fit& fit, const std::vector<DrawTarget>& targets, int count, std::uint64_t seed);

// The latent rot itself, for checks: latent[target][draw * points + point].
std::vector<std::vector<double>> draw_latent(const Fit& fit, const std::vector<DrawTarget>& targets, int count, std::uint64_t seed);

}  // namespace awlmark::survey
