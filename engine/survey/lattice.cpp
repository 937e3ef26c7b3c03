#include "survey/lattice.hpp"

#include <algorithm>

namespace awlmark::survey {
namespace {

// `guess` is tried first: points come row by row.
std::size_t index_in(std::vector<double>& known, double value, std::size_t guess) {
  if (guess < known.size() && known[guess] == value) return guess;
  const auto found = std::find(known.begin(), known.end(), value);
  const std::size_t index = static_cast<std::size_t>(found - known.begin());
  if (found == known.end()) known.push_back(value);
  return index;
}

}  // namespace

PlanLattice lattice_of(const std::vector<Point>& points) {
  PlanLattice lattice;
  for (const Point p : points) {
    lattice.column.push_back(index_in(lattice.x, p.x_in, lattice.column.empty() ? 0 : lattice.column.back() + 1));
    lattice.row.push_back(index_in(lattice.y, p.y_in, lattice.row.empty() ? 0 : lattice.row.back()));
  }
  lattice.pays = !points.empty() && 2 * (lattice.x.size() + lattice.y.size()) <= points.size();
  return lattice;
}

}  // namespace awlmark::survey
