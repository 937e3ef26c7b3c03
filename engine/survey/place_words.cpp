// The one way in which a place is said.
#include <cmath>

#include "base/length.hpp"
#include "survey/survey.hpp"

namespace awlmark::survey {
namespace {

constexpr double kBeside_in = 6;  // a wall this near the edge of the room is the wall at that side

Point on_drawing(const std::optional<plan::Turn>& turn, Point p) { return turn ? turn->drawn(p) : p; }

// The wall of the job that stands along this side of the drawn room: the left one, or the front.
const Wall* wall_along(const Job& job, const std::optional<plan::Turn>& turn, bool left, double edge_in) {
  for (const Wall& wall : job.walls) {
    const Point from = on_drawing(turn, wall.from_in), to = on_drawing(turn, wall.to_in);
    const double a = left ? from.x_in : from.y_in, b = left ? to.x_in : to.y_in;
    if (std::fabs(a - edge_in) <= kBeside_in && std::fabs(b - edge_in) <= kBeside_in && !wall.id.empty()) return &wall;
  }
  return nullptr;
}

}  // namespace

std::string place_in_words(const Job& job, const std::optional<plan::Turn>& turn, Point at_in) {
  Polygon room;
  for (const Point p : job.room.outline_in) room.push_back(on_drawing(turn, p));
  const Box box = bounds(room);
  const Point at = on_drawing(turn, at_in);
  const auto inches = [](double d) { return format_length(std::floor(d * 2 + 0.5) / 2); };
  const Wall* left = wall_along(job, turn, true, box.x0_in);
  const Wall* front = wall_along(job, turn, false, box.y0_in);
  return inches(at.x_in - box.x0_in) + " from " + (left != nullptr ? "wall " + left->id : "the left wall") + " and " + inches(at.y_in - box.y0_in) + " from " +
         (front != nullptr ? "wall " + front->id : "the front wall");
}

}  // namespace awlmark::survey
