// Inside of the beam solver: the beam cut into pieces at every support, load end, point load and
// change of stiffness, and the polynomials of one piece in t = x - from_in.
#pragma once

#include <vector>

#include "mechanics/beam.hpp"
#include "mechanics/polynomial.hpp"

namespace awlmark::mechanics {

// Breaks nearer than this are one break.
inline constexpr double kSame_in = 1e-7;

struct LaidOut {
  std::vector<BeamResult::Piece> pieces;
  std::vector<double> point_at_start;  // point load at the start of each piece
  double point_at_end = 0;             // and at the right end of the beam
};
LaidOut lay_out(const Beam& beam);

std::vector<double> support_places(const Beam& beam);

Polynomial shear_of(const BeamResult::Piece& piece);
Polynomial moment_of(const BeamResult::Piece& piece);
Polynomial slope_of(const BeamResult::Piece& piece);
Polynomial deflection_of(const BeamResult::Piece& piece);

// Fills the extremes of the result and of its spans from its pieces.
void find_extremes(const Beam& beam, BeamResult& result);

}  // namespace awlmark::mechanics
