// Points that stand in rows and columns, as a room's cells do: what depends on one coordinate alone is then
// worked out once for each row and once for each column.
#pragma once

#include <cstddef>
#include <vector>

#include "base/geometry.hpp"

namespace awlmark::survey {

struct PlanLattice {
  std::vector<double> x, y;              // the distinct coordinates
  std::vector<std::size_t> column, row;  // of each point
  bool pays = false;                     // rows and columns together are fewer than half the points
};
PlanLattice lattice_of(const std::vector<Point>& points);

}  // namespace awlmark::survey
