// A grain frame: `along` the boards, `across` them from the wall at the low side, with the same
// counting as place_of() in the job room; and the geometry of rings that is done in such frames.
#pragma once

#include <vector>

#include "base/geometry.hpp"

namespace awlmark::plan {

struct Frame {
  Point along{1, 0};  // unit vectors
  Point across{0, 1};
  double along0_in = 0;  // taken off, so that the low corner of the outline is at 0, 0
  double across0_in = 0;

  double u(Point p) const { return p.x_in * along.x_in + p.y_in * along.y_in - along0_in; }
  double v(Point p) const { return p.x_in * across.x_in + p.y_in * across.y_in - across0_in; }
  Point at(double u_in, double v_in) const {
    const double a = u_in + along0_in, c = v_in + across0_in;
    return {a * along.x_in + c * across.x_in, a * along.y_in + c * across.y_in};
  }
};

// `degrees` counter-clockwise from x; `outline` sets the zero of both measures.
Frame grain_frame(double degrees, const Polygon& outline);
// The frame of panels: across the supports that run in `direction`.
Frame panel_frame(Point direction, const Polygon& outline);

// The quadrilateral between two lines across the frame at u0, u1 and v0, v1.
Polygon frame_box(const Frame& frame, double u0_in, double v0_in, double u1_in, double v1_in);

// Area of the part of the ring inside the box; exact for concave rings too, since the seams that
// clipping leaves cancel in the sum.
double area_in_box_in2(const Polygon& ring, const Box& box);
// Least distance between two rings; 0 where they touch or overlap.
double gap_in(const Polygon& a, const Polygon& b);
// Area that two rings share.
double shared_area_in2(const Polygon& a, const Polygon& b);

// The stretches that the edges of two rings share, running against each other within `slack_in`.
struct Stretch {
  Point from_in, to_in;
  double length_in = 0;
};
std::vector<Stretch> shared_edges(const Polygon& a, const Polygon& b, double slack_in);
// The part of segment p->q that lies along segment a->b within `slack_in`; length 0 when none does.
Stretch along_segment(Point p, Point q, Point a, Point b, double slack_in);

}  // namespace awlmark::plan
