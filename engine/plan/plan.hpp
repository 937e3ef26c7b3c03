// The plan: the floor as drawn, in its own frame, with every guess made once and said once.
//
// In: a valid job. Out: the job in the floor's own frame (turn.hpp), which all stages that follow
// read; a grain frame a layer; members, rests and walls with what stands under them (framing.hpp).
// Guarantees: (1) a job drawn turned by quarter turns, mirrored or shifted has the same plan, to the
// bits of a double; (2) names decide nothing; (3) what was not known is in `assumed`, once.
// Stages keep to own places; a text that names a place on the drawing asks `drawn` first.
#pragma once

#include <vector>

#include "plan/assumption.hpp"
#include "plan/frames.hpp"
#include "plan/ids.hpp"
#include "plan/turn.hpp"

namespace awlmark::plan {

struct Plan {
  Job job;                         // in the floor's own frame
  Turn turn;                       // from the drawing to that frame
  std::vector<LayerFrame> layers;  // of Job::layers
  std::vector<Assumption> assumed;

  const LayerFrame& of(LayerIx layer) const { return layers[layer.of()]; }
  LayerIx layer(const std::string& id) const;  // nowhere when there is none
  LayerIx deck() const;                        // the structural deck
  Point drawn(Point own) const { return turn.drawn(own); }
  Point drawn_low() const { return turn.drawn_low_in; }  // low corner of the room as drawn
};

// The plan in the floor's own frame.
Plan plan_of(const Job& drawn);
// The plan as drawn, without turning it: for a stage called by itself.
Plan as_drawn(const Job& drawn);

}  // namespace awlmark::plan
