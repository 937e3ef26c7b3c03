// What is taken where nobody measured, what is bought over what is laid, and how far pace and market swing: data/usual.csv.
#pragma once

namespace awlmark::tables {

struct Usual {
  double member_depth_in = 0;
  double wallboard_in = 0;
  double plate_thickness_in = 0, plate_width_in = 0;
  double waste_share = 0, waste_grout_share = 0, waste_bed_share = 0;  // over the net amount
  double bag_limit_lb = 0, bag_ft3 = 0, bag_fill_share = 0;
  double pace_spread = 0, market_spread = 0;  // standard deviations of factors with mean 1
};
const Usual& usual();

// A figure of data/pin_meter.csv by id; an id without a row is a fault of the program.
double pin_meter(const char* id);

}  // namespace awlmark::tables
