#include "simulator/noise.hpp"

#include <cmath>
#include <cstddef>

namespace awlmark::simulator {
namespace {

// Bilinear reading of one lattice averages up to four nodes: over a cell the variance falls to
// (2/3)^2 of a node's, which the scale below undoes.
constexpr double kBilinearScale = 1.5;

void add_octave(Random& random, int nx, int ny, double cell_in, double lump_in, double weight, std::vector<double>& field) {
  const int lattice_x = static_cast<int>(nx * cell_in / lump_in) + 3;
  const int lattice_y = static_cast<int>(ny * cell_in / lump_in) + 3;
  const double shift_x = random.uniform();
  const double shift_y = random.uniform();
  std::vector<double> node(static_cast<std::size_t>(lattice_x) * lattice_y);
  for (auto& value : node) value = random.normal();
  for (int j = 0; j < ny; ++j) {
    for (int i = 0; i < nx; ++i) {
      const double x = (i + 0.5) * cell_in / lump_in + shift_x;
      const double y = (j + 0.5) * cell_in / lump_in + shift_y;
      const int a = static_cast<int>(x);
      const int b = static_cast<int>(y);
      const double u = x - a;
      const double v = y - b;
      const auto at = [&](int p, int q) { return node[static_cast<std::size_t>(q) * lattice_x + p]; };
      const double low = (1 - u) * at(a, b) + u * at(a + 1, b);
      const double high = (1 - u) * at(a, b + 1) + u * at(a + 1, b + 1);
      field[static_cast<std::size_t>(j) * nx + i] += weight * kBilinearScale * ((1 - v) * low + v * high);
    }
  }
}

}  // namespace

std::vector<double> lumps(Random& random, int nx, int ny, double cell_in, double lump_in) {
  std::vector<double> field(static_cast<std::size_t>(nx) * ny, 0.0);
  const double norm = 1 / std::sqrt(1.25);
  add_octave(random, nx, ny, cell_in, lump_in, norm, field);
  add_octave(random, nx, ny, cell_in, lump_in / 3, 0.5 * norm, field);
  return field;
}

}  // namespace awlmark::simulator
