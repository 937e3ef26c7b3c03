// The grain frame of every layer: which way its boards or sheets run, where they are counted from, how
// wide they are. Made once; survey, cut back, floor, take-off and papers read it and guess nothing.
//
// Boards are taken as laid from the wall at which the frame begins, full boards first: the last one is
// what is left, and a rest of half an inch or less belongs to the board before it (nobody lays it).
// People count planks and read the tape on their own drawing, from the wall at the low side; the plan
// may be turned against it (turn.hpp), so number_of and tape_in speak as they do.
#pragma once

#include <vector>

#include "plan/assumption.hpp"
#include "plan/frame.hpp"
#include "plan/ids.hpp"
#include "plan/turn.hpp"

namespace awlmark::plan {

// boards: planks and boards, one row each. panels: structural sheets. cover: all that lies above.
enum class Build { boards, panels, cover };

struct BoardRow {
  PlankRow row;
  PlankNo number;     // as people count it
  double low_in = 0;  // across the frame
  double high_in = 0;
};

struct LayerFrame {
  LayerIx layer;
  Build build = Build::cover;
  Frame frame;                  // along the boards; of sheets: across the supports, from the room's low corner
  double degrees = 0;           // of the boards or of a sheet's strong way, 0 up to 180
  bool known = false;           // said in the job or taken across the supports; else alike both ways
  double width_in = 0;          // of a board's face; 0 for sheets
  double length_in = 0;         // extent of the layer's outline along the frame ...
  double across_in = 0;         // ... and across it
  bool counts_down = false;     // people count from the far wall of the frame
  bool tape_runs_back = false;  // and read the tape from its far end
  std::vector<BoardRow> rows;   // empty for sheets

  // The row that holds a place across the frame; the first or last one beyond the walls.
  PlankRow row_at(double across_in) const;
  PlankNo number_of(PlankRow row) const;
  PlankRow row_of(PlankNo number) const;
  // What a tape reads at a place along the frame.
  double tape_in(double along_in) const;
};

// One frame a layer of a job that stands in its own frame (turned()); `turn` leads there from the
// drawing. Adds what it had to take for granted to `assumed`.
std::vector<LayerFrame> layer_frames(const Job& own, const Turn& turn, std::vector<Assumption>& assumed);

}  // namespace awlmark::plan
