// A shower pan with a level edge that falls to a point or a line drain.
//
// Geometry: the edge of the outline lies level at H above the drain. Every stretch of the edge is
// joined to the end of the drain, or to the whole drain, that it faces; between two such planes a
// corner is joined to the whole line. So a point drain makes one plane an edge, with valleys to the
// corners; a line from wall to wall makes one plane a side; a line within the floor makes both.
// H is set so that the longest valley, the flattest way to the drain, keeps the least fall; the
// nearest edge is then the steepest.
//
// Guarantees: (1) the planes cover the outline exactly, without overlap (checked on every answer);
// (2) no way down is flatter than asked; (3) bed volume is exact. Refused with the reason: a drain
// outside the outline, a point drain on its edge, an outline that the drain does not see whole (split
// it into parts with a drain each). A wall that holds the line drain is not level; nor are walls that
// run into it.
#pragma once

#include <string>
#include <vector>

#include "base/geometry.hpp"
#include "base/problem.hpp"

namespace awlmark::shower {

struct PanQuestion {
  Polygon outline_in;
  Point drain_from_in;  // a point drain: both the same
  Point drain_to_in;
  double least_fall_in_per_ft = 0.25;
  double least_thickness_in = 0;  // of the bed, at the drain
};

struct PanPlane {
  Polygon outline_in;
  double slope_in_per_ft = 0;
  Point falls_toward;  // unit vector downhill
};

struct Pan {
  double edge_height_in = 0;  // of the level edge above the drain
  double steepest_in_per_ft = 0;
  double flattest_in_per_ft = 0;  // along the longest valley
  double flattest_plane_in_per_ft = 0;
  double longest_run_in = 0;  // corner to drain along its valley
  double area_sf = 0;
  double bed_volume_ft3 = 0;
  std::vector<PanPlane> planes;
  std::vector<Polygon> valleys_in;  // each two points, corner to drain
};

Outcome<Pan> pan_fall(const PanQuestion& question);
// Height of the finished surface above the drain at a point of the outline; 0 outside it.
double pan_height_in(const Pan& pan, Point p);
// Water that stands on the pan when it is this deep at the edge.
double pan_water_ft3(const Pan& pan, double depth_at_edge_in);

inline constexpr double kSteepestAllowed_in_per_ft = 0.5;  // IRC P2709.1 family: 1/4 to 1/2

}  // namespace awlmark::shower
