// Dimension chains in feet and inches: one line, a tick at every stop, a label for every gap.
//
// A label that is wider than its gap moves to a second or third row with a leader; equal gaps that
// are too narrow share one label ("5 x 16" = 6' 8""). What finds no room at all is said in the
// canvas's notes, never drawn over something else.
#pragma once

#include <string>
#include <vector>

#include "papers/drawing/canvas.hpp"

namespace awlmark::papers {

struct Chain {
  bool level = true;             // along x; otherwise along y
  double at_pt = 0;              // paper y of a level chain's line, paper x of an upright one
  double from_pt = 0;            // where the extension lines start, on the side of the drawing
  std::vector<double> stops_in;  // places on the plan along the chain's axis, in any order
  std::string what;              // for the note when a label finds no room
};

void draw_chain(Canvas& canvas, const Chain& chain);

// Paper taken by one chain beside the drawing, its rows of labels included.
inline constexpr double kChainDepth_pt = 36;

// A bar of round length with its figures, and what it must measure in print.
void draw_scale_bar(Canvas& canvas, PaperPoint left, double room_pt);

}  // namespace awlmark::papers
