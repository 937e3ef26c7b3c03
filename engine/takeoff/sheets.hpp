// How many sheets a cut-out takes when it is laid out, not guessed from its area. Private to the room.
#pragma once

#include <vector>

#include "base/geometry.hpp"

namespace awlmark::takeoff {

struct SheetSize {
  double along_in = 96;  // the strong way, laid across the supports
  double across_in = 48;
};

struct SheetCount {
  int sheets = 0;
  int pieces = 0;
  double area_sf = 0;  // of the pieces
};

// Courses of one sheet's width from the low side of each outline, each course cut to sheet lengths;
// pieces are then taken from sheets and their offcuts, largest first, never turned. Exact for what
// it lays out; not promised: the fewest sheets that any layout could need.
SheetCount lay_sheets(const std::vector<Polygon>& outlines_in, double runs_degrees, SheetSize size = {}, double kerf_in = 0.125);

}  // namespace awlmark::takeoff
