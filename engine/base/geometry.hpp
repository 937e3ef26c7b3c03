// Plane geometry on the job's plan: inches, x to the right, y up, angles counter-clockwise.
//
// Polygons are simple rings without a repeated last point; area is positive counter-clockwise.
// Boolean operations are exact on a grid of 1/256 in. (Boost.Polygon, integers), so that the same
// job gives the same outlines on every target.
#pragma once

#include <cstddef>
#include <vector>

namespace awlmark {

struct Point {
  double x_in = 0;
  double y_in = 0;
  friend bool operator==(const Point&, const Point&) = default;
};

using Polygon = std::vector<Point>;

struct Box {
  double x0_in = 0, y0_in = 0, x1_in = 0, y1_in = 0;
  double width_in() const { return x1_in - x0_in; }
  double height_in() const { return y1_in - y0_in; }
};

struct PolygonWithHoles {
  Polygon outline;             // counter-clockwise
  std::vector<Polygon> holes;  // clockwise
};
using Region = std::vector<PolygonWithHoles>;

double distance_in(Point a, Point b);
double distance_to_segment_in(Point p, Point a, Point b);
// The place along a->b nearest to p, from 0 at a to the segment's length at b.
double along_segment_in(Point p, Point a, Point b);

// Direction of the line a->b, degrees counter-clockwise from x, 0 up to 180 (a line has no sense of
// direction); exact for lines along x and y, else to 1e-7, the same bits on every target.
double line_degrees(Point a, Point b);

double signed_area_in2(const Polygon& ring);
double area_in2(const Polygon& ring);
double area_in2(const Region& region);  // holes taken off
Box bounds(const Polygon& ring);
bool contains(const Polygon& ring, Point p);          // the edge counts as inside
double distance_to_in(const Polygon& ring, Point p);  // 0 inside
// True when no two edges cross or touch except neighbours at their shared corner.
bool is_simple(const Polygon& ring);
Point centroid(const Polygon& ring);
Polygon rectangle(double x0_in, double y0_in, double x1_in, double y1_in);

// The part of the ring on the left of the line a->b (Sutherland-Hodgman; exact for convex rings,
// may leave touching slivers along the line for others).
Polygon clip_left_of(const Polygon& ring, Point a, Point b);

Region unite(const std::vector<Polygon>& rings);
Region intersect(const Region& a, const Region& b);
Region subtract(const Region& a, const Region& b);
Region as_region(const Polygon& ring);

}  // namespace awlmark
