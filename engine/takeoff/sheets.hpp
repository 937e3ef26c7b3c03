// How many sheets a cut-out takes when it is laid out, not guessed from its area. Private to the room.
#pragma once

#include <vector>

#include "base/geometry.hpp"
#include "job/job.hpp"

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

// How the ends of sheets may fall: on these places along the strong way, every second course half a
// sheet on. Without places ends fall where sheets end.
struct SheetJoints {
  std::vector<double> on_in;  // positions along the strong way, in the turned plan
  bool stagger = false;
};

// The lines that carry a deck of this job, for sheets with their strong way across them: the angle of
// the strong way and where the lines cross it.
struct AcrossSupports {
  double runs_degrees = 0;
  SheetJoints joints;
};
AcrossSupports across_supports(const Job& job);

// Courses of one sheet's width from the low side of each outline, each course cut to sheet lengths;
// pieces are then taken from sheets and their offcuts, largest first, never turned. Exact for what
// it lays out; not promised: the fewest sheets that any layout could need.
SheetCount lay_sheets(const std::vector<Polygon>& outlines_in, double runs_degrees, SheetSize size = {}, double kerf_in = 0.125,
                      const SheetJoints& joints = {});

}  // namespace awlmark::takeoff
