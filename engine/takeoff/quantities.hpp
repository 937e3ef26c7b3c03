// Bulk and joints: what debris weighs and fills, what grout a joint takes.
#pragma once

#include <string>

#include "base/reason.hpp"
#include "job/words.hpp"

namespace awlmark::takeoff {

struct Debris {
  double lb = 0;
  double yd3 = 0;  // loose, thrown in
  Reason reason;
};

// Loose volume is the volume in place times the material's bulking (data/debris.csv).
Debris debris_of(Material material, double area_sf, double thickness_in);
// lb/yd3 of loose debris from the solid's lb/ft3.
double loose_density(double solid_lb_per_ft3, double bulking);

double filled_bag_ft3();  // what a bag holds of broken boards and tile
// Whichever is met first, weight or volume.
int bags_for(double lb, double yd3);

struct Grout {
  double volume_in3 = 0;  // exact: joints on two sides of every tile, their crossing once
  double rough_in3 = 0;   // by the usual formula w d (L + W) / (L W), a little more
};
Grout grout_volume(double tile_length_in, double tile_width_in, double joint_in, double depth_in, double area_sf);

}  // namespace awlmark::takeoff
