// Lumpy wood: value noise, the sum of two random lattices read off bilinearly. Deliberately not a
// Gaussian process with a Matern kernel, so that the survey is never tried on its own prior.
#pragma once

#include <vector>

#include "base/random.hpp"

namespace awlmark::simulator {

// nx * ny values, row by row, of mean 0 and standard deviation near 1; `lump_in` is the spacing of
// the coarse lattice (the fine one has a third of it and half the weight).
std::vector<double> lumps(Random& random, int nx, int ny, double cell_in, double lump_in);

}  // namespace awlmark::simulator
