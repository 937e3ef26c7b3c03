// The same job drawn otherwise: quarter turns, mirror images, a shift; and with other names. Written
// apart from engine/plan, so that the two check each other.
#pragma once

#include <functional>
#include <map>

#include "job/job.hpp"

namespace awlmark::testing {

inline constexpr int kDrawings = 8;

// 0 as it is; 1, 2, 3 turned by 90, 180, 270 degrees; 4 mirrored left to right, 5 top to bottom, 6 with
// x and y changing places, 7 with -x and -y changing places.
struct Drawing {
  int kind = 0;
  Point shift_in;

  Point of(Point p) const {
    const double x = p.x_in, y = p.y_in;
    const Point to[kDrawings] = {{x, y}, {-y, x}, {-x, -y}, {y, -x}, {-x, y}, {x, -y}, {y, x}, {-y, -x}};
    return {to[kind].x_in + shift_in.x_in, to[kind].y_in + shift_in.y_in};
  }
  double of_degrees(double d) const {
    const double to[kDrawings] = {d, d + 90, d + 180, d + 270, 180 - d, -d, 90 - d, 270 - d};
    return to[kind];
  }
};

inline Job drawn_so(Job job, const Drawing& drawing) {
  const auto move = [&](Point& p) { p = drawing.of(p); };
  const auto move_all = [&](Polygon& ring) {
    for (Point& p : ring) move(p);
  };
  for (Mark& mark : job.marks) {
    if (!mark.at_in && mark.plank) mark.at_in = place_of(job, mark);
    mark.plank.reset();
    mark.tape_in.reset();
  }
  move_all(job.room.outline_in);
  for (Door& door : job.room.doors) move(door.from_in), move(door.to_in);
  for (Layer& layer : job.layers) {
    if (layer.runs) layer.runs->degrees = drawing.of_degrees(layer.runs->degrees);
    if (layer.outline_in) move_all(*layer.outline_in);
    for (Polygon& hole : layer.absent_in) move_all(hole);
  }
  for (Wall& wall : job.walls) move(wall.from_in), move(wall.to_in);
  for (Support& support : job.supports) move(support.from_in), move(support.to_in);
  for (Fixture& fixture : job.fixtures) move_all(fixture.outline_in);
  for (Source& source : job.sources)
    if (source.at_in) move(*source.at_in);
  for (Mark& mark : job.marks)
    if (mark.at_in) move(*mark.at_in);
  for (Photo& photo : job.photos)
    if (photo.at_in) move(*photo.at_in);
  if (job.shower) {
    move_all(job.shower->outline_in);
    if (job.shower->drain)
      for (auto* p : {&job.shower->drain->at_in, &job.shower->drain->from_in, &job.shower->drain->to_in})
        if (*p) move(**p);
    if (job.shower->drain_run)
      for (auto* p : {&job.shower->drain_run->vent_in, &job.shower->drain_run->stack_in})
        if (*p) move(**p);
  }
  if (job.drying)
    for (DryingReading& reading : job.drying->readings)
      if (reading.at_in) move(*reading.at_in);
  return job;
}

}  // namespace awlmark::testing
