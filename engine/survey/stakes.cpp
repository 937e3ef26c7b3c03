// What there is to decide, in blocks.
#include <algorithm>
#include <cmath>

#include "survey/candidates.hpp"

namespace awlmark::survey {
namespace {

// Blocks of cells: which block a cell falls in, counted over the room.
struct Block {
  double area_sf = 0, x = 0, y = 0;
};

void layer_stakes(const LayerCells& layer, const GridFindings& grid, const money::Stakes& rates, double block_in, std::vector<Stake>& stakes) {
  const int per = std::max(1, static_cast<int>(std::floor(block_in / grid.cell_in + 0.5)));
  const int nx = (grid.nx + per - 1) / per, ny = (grid.ny + per - 1) / per;
  std::vector<Block> blocks(static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny));
  for (std::size_t c = 0; c < layer.cells.size(); ++c) {
    Block& b = blocks[static_cast<std::size_t>((layer.cells[c] / grid.nx / per) * nx + (layer.cells[c] % grid.nx) / per)];
    b.area_sf += layer.area_sf[c];
    b.x += layer.area_sf[c] * layer.centres[c].x_in;
    b.y += layer.area_sf[c] * layer.centres[c].y_in;
  }
  for (const Block& b : blocks)
    if (b.area_sf > 1e-9)
      stakes.push_back(
          {layer.node, {b.x / b.area_sf, b.y / b.area_sf}, b.area_sf, b.area_sf * rates.leave_unsound_per_sf, b.area_sf * rates.tear_out_sound_per_sf});
}

void line_stakes(const LineStations& line, const money::Stakes& rates, double block_in, std::vector<Stake>& stakes) {
  const int per = std::max(1, static_cast<int>(std::floor(block_in / std::max(1e-9, line.spacing_in) + 0.5)));
  for (std::size_t i = 0; i < line.points.size(); i += static_cast<std::size_t>(per)) {
    const double feet = std::min(static_cast<double>(per), static_cast<double>(line.points.size() - i)) * line.spacing_in / 12;
    stakes.push_back({line.node, line.points[i], feet, feet * rates.leave_unsound_per_sf, feet * rates.tear_out_sound_per_sf});
  }
}

}  // namespace

std::vector<Stake> stakes_of(const Job& job, const SurveyPlan& plan, const money::Stakes& rates, double block_in) {
  std::vector<Stake> stakes;
  for (const LayerCells& layer : plan.layers)
    if (layer.can_decay && !job.layers[static_cast<std::size_t>(layer.node)].goes.value_or(false)) layer_stakes(layer, plan.grid, rates, block_in, stakes);
  for (const LineStations& line : plan.supports) line_stakes(line, rates, block_in, stakes);
  for (const LineStations& line : plan.walls) line_stakes(line, rates, block_in, stakes);
  return stakes;
}

}  // namespace awlmark::survey
