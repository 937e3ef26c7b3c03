// From the drawing somebody made to the floor's own frame and back: quarter turns, mirrors, a shift.
//
// A floor is the same floor however it is drawn. Everything is reckoned in its own frame, which hangs
// only on what the floor is (own_turn), and the findings are turned back. So a job drawn turned or
// mirrored gets the same findings, to the last bits of a double.
#pragma once

#include <boost/describe.hpp>

#include "job/job.hpp"

namespace awlmark::plan {

struct Turn {
  bool swap = false;    // x and y change places, first
  bool flip_x = false;  // then x runs the other way
  bool flip_y = false;  // and y
  Point drawn_low_in;   // low corner of the room as drawn ...
  double width_in = 0;  // ... and the room's extent along x and y as drawn
  double height_in = 0;

  bool mirrors() const { return swap != (flip_x != flip_y); }  // left becomes right
  bool turns() const { return swap || flip_x || flip_y; }

  Point own(Point drawn) const;  // on a grid of 2^-30 in., so that every drawing gives the same bits
  Point drawn(Point own) const;
  // Direction of a line, degrees counter-clockwise from x, 0 up to 180.
  double own_degrees(double drawn) const;
  double drawn_degrees(double own) const;
};

// The turn into the floor's own frame: its room begins at 0, 0; its supports run up the plan, in the
// sense in which they are measured, and are listed from left to right; where that does not settle it,
// boards, walls, sources, fixtures, doors, marks and outlines do, in the order of the document.
// A floor drawn in the usual way (from the low corner, listed from the low side) is not turned.
Turn own_turn(const Job& job);

// Counter-clockwise, from the lowest corner (the leftmost of them).
void settle_ring(Polygon& ring);

// The same job in the frame that `turn` leads to: marks counted out by plank get their place first,
// outlines run counter-clockwise from their lowest corner.
Job turned(const Job& job, const Turn& turn);

}  // namespace awlmark::plan
