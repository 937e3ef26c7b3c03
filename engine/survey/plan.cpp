#include "survey/plan.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "survey/evidence.hpp"

namespace awlmark::survey {
namespace {

constexpr double kStation_in = 4;
constexpr int kSamples = 6;  // a side, of a cell that an edge may cross

GridFindings grid_over(const Polygon& outline, double cell_in) {
  const Box box = bounds(outline);
  GridFindings grid;
  grid.cell_in = cell_in;
  grid.nx = std::max(1, static_cast<int>(std::ceil(box.width_in() / cell_in - 1e-9)));
  grid.ny = std::max(1, static_cast<int>(std::ceil(box.height_in() / cell_in - 1e-9)));
  // What overhangs, overhangs alike on both sides: a mirrored job then has the mirrored cells.
  grid.origin_in = {box.x0_in - (grid.nx * cell_in - box.width_in()) / 2, box.y0_in - (grid.ny * cell_in - box.height_in()) / 2};
  return grid;
}

double edge_distance(const Polygon& ring, Point p) {
  double least = distance_to_segment_in(p, ring.back(), ring.front());
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) least = std::min(least, distance_to_segment_in(p, ring[i], ring[i + 1]));
  return least;
}

bool near_edge(const Job& job, const Layer& layer, Point p, double reach_in) {
  if (edge_distance(job.room.outline_in, p) < reach_in) return true;
  if (layer.outline_in && edge_distance(*layer.outline_in, p) < reach_in) return true;
  return std::any_of(layer.absent_in.begin(), layer.absent_in.end(),
                     [&](const Polygon& hole) { return hole.size() >= 3 && edge_distance(hole, p) < reach_in; });
}

bool present(const Job& job, const Layer& layer, Point p) { return contains(job.room.outline_in, p) && covers(job, layer, p); }

// Share of the cell that lies in the room and the layer.
double share_inside(const Job& job, const Layer& layer, Point centre, double cell_in) {
  if (!near_edge(job, layer, centre, 0.7072 * cell_in)) return 1;
  int inside = 0;
  for (int j = 0; j < kSamples; ++j)
    for (int i = 0; i < kSamples; ++i) {
      const Point p{centre.x_in + ((i + 0.5) / kSamples - 0.5) * cell_in, centre.y_in + ((j + 0.5) / kSamples - 0.5) * cell_in};
      inside += present(job, layer, p) ? 1 : 0;
    }
  return static_cast<double>(inside) / (kSamples * kSamples);
}

LayerCells cells_of(const Job& job, std::size_t index, const GridFindings& grid) {
  const Layer& layer = job.layers[index];
  LayerCells out;
  out.layer = layer.id;
  out.node = layer_node(index);
  out.can_decay = can_decay(layer.material);
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i) {
      const Point centre{grid.origin_in.x_in + (i + 0.5) * grid.cell_in, grid.origin_in.y_in + (j + 0.5) * grid.cell_in};
      if (!present(job, layer, centre)) continue;
      out.cells.push_back(j * grid.nx + i);
      out.centres.push_back(centre);
      out.area_sf.push_back(share_inside(job, layer, centre, grid.cell_in) * grid.cell_in * grid.cell_in / 144);
    }
  return out;
}

LineStations stations_of(const std::string& id, int node, bool wall, Point from, Point to) {
  LineStations line;
  line.id = id;
  line.node = node;
  line.wall = wall;
  const double length = distance_in(from, to);
  const int steps = std::max(1, static_cast<int>(std::ceil(length / kStation_in - 1e-9)));
  line.spacing_in = length / steps;
  for (int i = 0; i <= steps; ++i) {
    const double t = static_cast<double>(i) / steps;
    line.along_in.push_back(t * length);
    line.points.push_back({from.x_in + t * (to.x_in - from.x_in), from.y_in + t * (to.y_in - from.y_in)});
  }
  return line;
}

}  // namespace

SurveyPlan plan_survey(const Job& job, double cell_in) {
  SurveyPlan plan;
  if (job.room.outline_in.size() < 3) return plan;
  double cell = std::clamp(std::isfinite(cell_in) ? cell_in : 3.0, 1.0, 12.0);
  plan.grid = grid_over(job.room.outline_in, cell);
  while (static_cast<double>(plan.grid.nx) * plan.grid.ny > kMostCells) {
    cell *= 1.25;
    plan.grid = grid_over(job.room.outline_in, cell);
  }
  if (cell > cell_in + 1e-9) plan.notes.push_back("The room is large: its cells are " + format_number(cell, 1) + " in. wide.");
  for (std::size_t i = 0; i < job.layers.size(); ++i) plan.layers.push_back(cells_of(job, i, plan.grid));
  for (std::size_t i = 0; i < job.supports.size(); ++i)
    plan.supports.push_back(stations_of(job.supports[i].id, support_node(job, i), false, job.supports[i].from_in, job.supports[i].to_in));
  for (std::size_t i = 0; i < job.walls.size(); ++i)
    plan.walls.push_back(stations_of(job.walls[i].id, wall_node(job, i), true, job.walls[i].from_in, job.walls[i].to_in));
  return plan;
}

}  // namespace awlmark::survey
