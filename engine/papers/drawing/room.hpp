// The room as every plan shows it: outline, walls, doors, fixtures, water, the corner that tapes are
// read from.
#pragma once

#include <vector>

#include "job/job.hpp"
#include "papers/drawing/canvas.hpp"

namespace awlmark::papers {

// What a plan has to hold: outline, walls, and whatever else lies within reach of them.
Box plan_bounds(const Job& job, const std::vector<Point>& more = {});

struct RoomStyle {
  bool fixtures = true;
  bool fixture_names = true;
  bool sources = true;
  bool datum = true;
};

void draw_room(Canvas& canvas, const Job& job, const RoomStyle& style);
// Words of the room go in after the marks, so that marks keep the best places.
void name_room(Canvas& canvas, const Job& job, const RoomStyle& style);

}  // namespace awlmark::papers
