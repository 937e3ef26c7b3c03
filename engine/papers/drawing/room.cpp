#include "papers/drawing/room.hpp"

#include <algorithm>
#include <cmath>

#include "papers/drawing/symbols.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

constexpr double kWallDrawn_in = 4.5;  // a framed wall with board on both sides, near enough for a plan

bool drawable(Point p) { return std::isfinite(p.x_in) && std::isfinite(p.y_in); }

void take(Box& box, Point p, bool& any) {
  if (!drawable(p)) return;
  if (!any) box = {p.x_in, p.y_in, p.x_in, p.y_in};
  any = true;
  box.x0_in = std::min(box.x0_in, p.x_in);
  box.y0_in = std::min(box.y0_in, p.y_in);
  box.x1_in = std::max(box.x1_in, p.x_in);
  box.y1_in = std::max(box.y1_in, p.y_in);
}

// A strip of the given width along a->b, on the side away from the room's middle when it lies on the
// outline, else centred.
Polygon strip(const Job& job, Point a, Point b, double width_in) {
  const double length = distance_in(a, b);
  if (length <= 0) return {};
  const double nx = -(b.y_in - a.y_in) / length, ny = (b.x_in - a.x_in) / length;
  double low = -width_in / 2, high = width_in / 2;
  const Point middle{(a.x_in + b.x_in) / 2, (a.y_in + b.y_in) / 2};
  const auto inside = [&](double out) {
    return !job.room.outline_in.empty() && contains(job.room.outline_in, {middle.x_in + nx * out, middle.y_in + ny * out});
  };
  const bool left = inside(1.0), right = inside(-1.0);
  if (left && !right) low = -width_in, high = 0;
  if (right && !left) low = 0, high = width_in;
  const auto off = [&](Point p, double out) { return Point{p.x_in + nx * out, p.y_in + ny * out}; };
  return {off(a, low), off(b, low), off(b, high), off(a, high)};
}

void draw_door(Canvas& canvas, const Job& job, const Door& door) {
  const auto gap = strip(job, door.from_in, door.to_in, kWallDrawn_in);
  if (gap.empty()) return;
  canvas.ring(gap, "dopening");
  canvas.line(canvas.at(gap[0]), canvas.at(gap[3]), "dl");
  canvas.line(canvas.at(gap[1]), canvas.at(gap[2]), "dl");
}

void draw_source(Canvas& canvas, Point at_in) {
  const auto p = canvas.at(at_in);
  const auto c = [](double v) { return coordinate(v); };
  const double h = 6;
  canvas.path("M" + c(p.x) + " " + c(p.y - h * 1.3) + "C" + c(p.x + h * 0.4) + " " + c(p.y - h * 0.5) + " " + c(p.x + h * 0.85) + " " + c(p.y - h * 0.1) + " " +
                  c(p.x + h * 0.85) + " " + c(p.y + h * 0.3) + "A" + c(h * 0.85) + " " + c(h * 0.85) + " 0 0 1 " + c(p.x - h * 0.85) + " " + c(p.y + h * 0.3) +
                  "C" + c(p.x - h * 0.85) + " " + c(p.y - h * 0.1) + " " + c(p.x - h * 0.4) + " " + c(p.y - h * 0.5) + " " + c(p.x) + " " + c(p.y - h * 1.3) +
                  "Z",
              "dsource");
  canvas.space().keep_clear(box_around(p, h * 1.7, h * 2.4));
}

}  // namespace

Box plan_bounds(const Job& job, const std::vector<Point>& more) {
  Box box;
  bool any = false;
  for (const auto& corner : job.room.outline_in) take(box, corner, any);
  Box room = box;
  const bool has_room = any;
  const auto near = [&](Point p) {
    return !has_room || (p.x_in > room.x0_in - kMarkReach_in - 1 && p.x_in < room.x1_in + kMarkReach_in + 1 && p.y_in > room.y0_in - kMarkReach_in - 1 &&
                         p.y_in < room.y1_in + kMarkReach_in + 1);
  };
  const auto take_near = [&](Point p) {
    if (near(p)) take(box, p, any);
  };
  for (const auto& wall : job.walls) take_near(wall.from_in), take_near(wall.to_in);
  for (const auto& p : more) take_near(p);
  if (!any) box = {0, 0, 12, 12};
  // Walls are drawn outside the outline.
  return {box.x0_in - kWallDrawn_in - 1, box.y0_in - kWallDrawn_in - 1, box.x1_in + kWallDrawn_in + 1, box.y1_in + kWallDrawn_in + 1};
}

void draw_room(Canvas& canvas, const Job& job, const RoomStyle& style) {
  for (const auto& wall : job.walls) canvas.ring(strip(job, wall.from_in, wall.to_in, kWallDrawn_in), wall.bearing.value_or(true) ? "dwall dbearing" : "dwall");
  canvas.ring(job.room.outline_in, "doutline");
  for (const auto& door : job.room.doors) draw_door(canvas, job, door);
  if (style.fixtures)
    for (const auto& fixture : job.fixtures) canvas.ring(fixture.outline_in, "dfixture");
  if (job.shower && style.fixtures) canvas.ring(job.shower->outline_in, "dshower");
  if (style.sources)
    for (const auto& source : job.sources)
      if (source.at_in && drawable(*source.at_in)) draw_source(canvas, *source.at_in);
  if (style.datum && !job.room.outline_in.empty()) {
    const auto p = canvas.at({0, 0});
    canvas.circle(p, 4.5, "dpaper");
    canvas.path("M" + coordinate(p.x) + " " + coordinate(p.y) + "h4.5a4.5 4.5 0 0 0 -4.5 -4.5z M" + coordinate(p.x) + " " + coordinate(p.y) +
                    "h-4.5a4.5 4.5 0 0 0 4.5 4.5z",
                "dink");
    canvas.space().keep_clear(box_around(p, 10, 10));
  }
}

void name_room(Canvas& canvas, const Job& job, const RoomStyle& style) {
  for (const auto& door : job.room.doors) {
    const Point middle{(door.from_in.x_in + door.to_in.x_in) / 2, (door.from_in.y_in + door.to_in.y_in) / 2};
    if (drawable(middle)) canvas.words_near(canvas.at(middle), canvas.pt(kWallDrawn_in / 2), canvas.said("door"));
  }
  if (style.fixtures && style.fixture_names) {
    for (const auto& fixture : job.fixtures) {
      if (fixture.outline_in.size() < 3 || !fixture.stands) continue;  // what is out already only leaves its trace
      const auto name = canvas.said(fixture_words(fixture.kind));
      const auto middle = canvas.at(centroid(fixture.outline_in));
      if (!canvas.words_at(middle, name, kLeastType_pt, "di")) canvas.words_near(middle, 4, name, kLeastType_pt, "di", 60);
    }
    if (job.shower && job.shower->outline_in.size() >= 3)
      canvas.words_near(canvas.at(centroid(job.shower->outline_in)), 4, canvas.said("new shower"), kLeastType_pt, "di", 80);
  }
  if (style.datum && !job.room.outline_in.empty()) canvas.words_near(canvas.at({0, 0}), 5, "0, 0", kLeastType_pt, "db");
}

}  // namespace awlmark::papers
