// How water runs and soaks through a floor: free water under the sheet flooring, wicking through
// each layer (faster along the grain, held back at board joints, with a front because dry wood
// passes little), transfer to the layer below where they touch, drying. Decay is the sum of days
// above fibre saturation. A plausible leak, not a laboratory model: constants are of the right order
// (a leak of a cup a day wets some 10 to 30 sf of deck within a year or two), no more is claimed.
//
// Explicit steps on cells; inches and days. Water is inches of depth; moisture content a fraction.
#pragma once

#include <vector>

#include "base/geometry.hpp"
#include "base/random.hpp"

namespace awlmark::simulator {

inline constexpr double kSaturated = 0.80;  // moisture content of a cell that takes no more
inline constexpr double kAirDry = 0.11;

struct SoakingLayer {
  double thickness_in = 0.75;
  bool grain_along_x = true;
  double along_in2_per_day = 14;
  double across_in2_per_day = 2;
  double board_width_in = 0;    // 0: a sheet without joints
  double dries_per_day = 0.02;  // share of the excess over air-dry lost in a day
};

struct Inflow {
  Point at_in;
  double in3_per_day = 8;
  double share_of_days = 1;  // a shower leaks only when it runs
};

struct Soaking {
  double cell_in = 3;
  int nx = 0;
  int ny = 0;
  std::vector<SoakingLayer> layers;
  std::vector<Inflow> inflows;
  double wet_days = 400;
  double dry_days = 0;  // since the water stopped
};

struct Soaked {
  std::vector<double> moisture;      // today's moisture content, a fraction
  std::vector<double> exposed_days;  // days above fibre saturation, weighted by how far above
};

// One result a layer, cells row by row from the low y.
std::vector<Soaked> soak(const Soaking& plan, Random& random);

}  // namespace awlmark::simulator
