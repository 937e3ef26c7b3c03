// Soil bearing and pads: IRC Table R401.4.1, R403.1; mudsills under shores.
#pragma once

#include <string>
#include <vector>

#include "base/reason.hpp"

namespace awlmark::mechanics {

enum class Soil { unknown, bedrock, sedimentary_rock, gravel, sand, clay };
BOOST_DESCRIBE_ENUM(Soil, unknown, bedrock, sedimentary_rock, gravel, sand, clay)

struct SoilRow {
  double bearing_psf = 0;
  Reason reason;
};
SoilRow soil_bearing(Soil soil);  // unknown: 1500 psf

struct Pad {
  double area_ft2 = 0;
  double square_side_in = 0;
  double round_diameter_in = 0;
  Reason reason;
};
Pad pad_for(double load_lb, double soil_psf);

}  // namespace awlmark::mechanics
