// Bottom plates and the strip of wallboard above them, in pieces of one stud space along each wall.
#include <algorithm>
#include <cmath>

#include "cutback/model.hpp"
#include "cutback/settings.hpp"

namespace awlmark::cutback {
namespace {

constexpr double kBoard_in = 0.5;  // thickness of wallboard, as drawn
constexpr double kDoorReach_in = 8;

struct Line {
  Point from, along, inward;  // unit vectors
  double length_in = 0;
  bool partition = false;  // the room lies on both sides
};

Point step(const Line& line, double along_in, double inward_in) {
  return {line.from.x_in + along_in * line.along.x_in + inward_in * line.inward.x_in,
          line.from.y_in + along_in * line.along.y_in + inward_in * line.inward.y_in};
}

Line line_of(const Job& job, const Wall& wall) {
  Line line;
  line.from = wall.from_in;
  line.length_in = distance_in(wall.from_in, wall.to_in);
  if (line.length_in <= 0) return line;
  line.along = {(wall.to_in.x_in - wall.from_in.x_in) / line.length_in, (wall.to_in.y_in - wall.from_in.y_in) / line.length_in};
  line.inward = {0 - line.along.y_in, line.along.x_in};
  const bool left = contains(job.room.outline_in, step(line, line.length_in / 2, 4));
  const bool right = contains(job.room.outline_in, step(line, line.length_in / 2, -4));
  line.partition = left && right;
  if (right && !left) line.inward = {line.along.y_in, 0 - line.along.x_in};
  return line;
}

// Stretches of the wall that no door takes.
std::vector<std::pair<double, double>> solid_stretches(const Job& job, const Line& line) {
  std::vector<std::pair<double, double>> doors;
  for (const auto& door : job.room.doors) {
    const Point end = step(line, line.length_in, 0);
    const auto stretch = along_segment(line.from, end, door.from_in, door.to_in, kDoorReach_in);
    if (stretch.length_in > 1) doors.emplace_back(distance_in(line.from, stretch.from_in), distance_in(line.from, stretch.to_in));
  }
  std::sort(doors.begin(), doors.end());
  std::vector<std::pair<double, double>> solid;
  double at = 0;
  for (const auto& [from, to] : doors) {
    if (from - at > 0.5) solid.emplace_back(at, from);
    at = std::max(at, to);
  }
  if (line.length_in - at > 0.5) solid.emplace_back(at, line.length_in);
  return solid;
}

Polygon strip(const Line& line, double from_in, double to_in, double near_in, double far_in) {
  Polygon ring{step(line, from_in, near_in), step(line, to_in, near_in), step(line, to_in, far_in), step(line, from_in, far_in)};
  if (signed_area_in2(ring) < 0) std::reverse(ring.begin(), ring.end());
  return ring;
}

Block wall_block(int sheet, int wall, int row, int bay, double from_in, double to_in, Polygon ring) {
  Block block;
  block.sheet = sheet;
  block.row = row;
  block.bay = bay;
  block.outline_in = std::move(ring);
  block.box = bounds(block.outline_in);
  block.area_in2 = area_in2(block.outline_in);
  block.wall = wall;
  block.wall_from_in = block.low_in = from_in;
  block.wall_to_in = block.high_in = to_in;
  return block;
}

Sheet wall_sheet(const Wall& wall, std::size_t index, Build build, int order) {
  Sheet sheet;
  sheet.id = "wall:" + wall.id;
  sheet.wall = {static_cast<int>(index)};
  sheet.spoken = build == Build::plate ? "bottom plate" : "wallboard";
  sheet.build = build;
  sheet.order = order;
  sheet.share = figure(build == Build::plate ? "share_wall" : "share_wallboard");
  return sheet;
}

}  // namespace

void divide_walls(const Job& job, Model& model) {
  const double piece = figure("plate_piece"), width = figure("plate_width");
  for (std::size_t w = 0; w < job.walls.size(); ++w) {
    const Line line = line_of(job, job.walls[w]);
    if (line.length_in <= 0) continue;
    const int wall = static_cast<int>(w), plates = static_cast<int>(model.sheets.size());
    model.sheets.push_back(wall_sheet(job.walls[w], w, Build::plate, static_cast<int>(job.layers.size() + w)));
    model.sheets.push_back(wall_sheet(job.walls[w], w, Build::wallboard, static_cast<int>(job.layers.size() + w)));
    // A wall on the outline is drawn by its room face, a partition by its middle.
    const double near = line.partition ? width / 2 : 0, far = near - width;
    int bay = 0;
    for (const auto& [from, to] : solid_stretches(job, line)) {
      // Whole pieces from the start of the wall, as one lays out studs; a stub joins the last of them.
      const int parts = std::max(1, static_cast<int>(std::floor((to - from) / piece + 0.75)));
      for (int k = 0; k < parts; ++k) {
        ++bay;
        const double a = from + piece * k, b = k + 1 < parts ? from + piece * (k + 1) : to;
        const int plate = static_cast<int>(model.blocks.size());
        model.blocks.push_back(wall_block(plates, wall, 1, bay, a, b, strip(line, a, b, near, far)));
        const int faces = line.partition ? 2 : 1;
        for (int face = 0; face < faces; ++face) {
          const double skin = face == 0 ? near : far;
          const int board = static_cast<int>(model.blocks.size());
          model.blocks.push_back(wall_block(plates + 1, wall, face + 1, bay, a, b, strip(line, a, b, skin, face == 0 ? skin + kBoard_in : skin - kBoard_in)));
          model.above.push_back({plate, board});
        }
      }
    }
  }
}

}  // namespace awlmark::cutback
