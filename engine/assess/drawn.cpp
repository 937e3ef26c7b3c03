#include "assess/drawn.hpp"

#include "base/described.hpp"
#include "plan/redraw.hpp"

namespace awlmark {
namespace {

// The survey's cells, row by row as drawn.
std::vector<double> cells_drawn(const std::vector<double>& own, const survey::GridFindings& grid, const plan::Turn& turn) {
  if (own.size() != static_cast<std::size_t>(grid.nx) * static_cast<std::size_t>(grid.ny)) return own;
  const int nx = turn.swap ? grid.ny : grid.nx;
  std::vector<double> drawn(own.size());
  for (int b = 0; b < grid.ny; ++b)
    for (int a = 0; a < grid.nx; ++a) {
      const int i = turn.flip_x ? grid.nx - 1 - a : a, j = turn.flip_y ? grid.ny - 1 - b : b;
      const int at = turn.swap ? i * nx + j : j * nx + i;
      drawn[static_cast<std::size_t>(at)] = own[static_cast<std::size_t>(b * grid.nx + a)];
    }
  return drawn;
}

void turn_cells(survey::Survey& survey, const plan::Turn& turn) {
  for (auto& field : survey.layers)
    boost::mp11::mp_for_each<boost::describe::describe_members<survey::LayerField, boost::describe::mod_any_access>>([&](auto d) {
      auto& member = field.*d.pointer;
      if constexpr (std::is_same_v<std::decay_t<decltype(member)>, std::vector<double>>) member = cells_drawn(member, survey.grid, turn);
    });
  auto& grid = survey.grid;
  const Point a = turn.drawn(grid.origin_in), b = turn.drawn({grid.origin_in.x_in + grid.nx * grid.cell_in, grid.origin_in.y_in + grid.ny * grid.cell_in});
  if (turn.swap) std::swap(grid.nx, grid.ny);
  // redraw() moves the corner as any point: what it moves has to lie there already.
  grid.origin_in = turn.own({std::min(a.x_in, b.x_in), std::min(a.y_in, b.y_in)});
}

}  // namespace

void turn_back(Findings& findings, const plan::Turn& turn) {
  if (findings.survey.grid.nx > 0) turn_cells(findings.survey, turn);
  plan::redraw(findings, plan::ToDrawn{turn});
}

}  // namespace awlmark
