// The one way in which a place is said.
#include "survey/place_words.hpp"

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

Box drawn_room(const Job& job, const std::optional<plan::Turn>& turn) {
  Polygon room;
  for (const Point p : job.room.outline_in) room.push_back(on_drawing(turn, p));
  return bounds(room);
}

}  // namespace

MeasuredFrom measured_from(const Job& job, const std::optional<plan::Turn>& turn) {
  const Box box = drawn_room(job, turn);
  const Wall* left = wall_along(job, turn, true, box.x0_in);
  const Wall* front = wall_along(job, turn, false, box.y0_in);
  return {left != nullptr ? "wall " + left->id : "the left wall", front != nullptr ? "wall " + front->id : "the front wall"};
}

std::string place_in_words(const Job& job, const std::optional<plan::Turn>& turn, Point at_in) {
  const Box box = drawn_room(job, turn);
  const Point at = on_drawing(turn, at_in);
  const auto inches = [](double d) { return format_length(std::floor(d * 2 + 0.5) / 2); };
  const auto from = measured_from(job, turn);
  // Members and marks may lie beyond the wall that the tape starts from.
  const auto off = [&](double d, const std::string& wall) { return inches(std::fabs(d)) + (d < -0.25 ? " beyond " : " from ") + wall; };
  return off(at.x_in - box.x0_in, from.left) + " and " + off(at.y_in - box.y0_in, from.front);
}

}  // namespace awlmark::survey
