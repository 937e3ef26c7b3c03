// Cross-sections of sawn lumber: area, section modulus, moment of inertia, the nominal classes that
// the size factors ask for, and what is left of a section when decay is taken away.
//
// Symbols: b is the width (thickness of the piece), d the depth in the direction of load; inches.
// Guarantees: (1) area = b d, S = b d^2 / 6, I = b d^3 / 12 (NDS 3.1). (2) A nominal class is the
// smallest nominal size not below the actual one, so full-sawn and measured sections are classed too.
#pragma once

#include <optional>
#include <string>

#include "job/job.hpp"

namespace awlmark::mechanics {

struct Section {
  double b_in = 0;  // all plies together
  double d_in = 0;  // parallel to the load
  int plies = 1;
  double ply_b_in() const { return b_in / plies; }
  double area_in2() const { return b_in * d_in; }
  double s_in3() const { return b_in * d_in * d_in / 6; }
  double i_in4() const { return b_in * d_in * d_in * d_in / 12; }
};

Section rectangle(double b_in, double d_in, int plies = 1);
Section section_from(const SectionSize& size);
// The same piece turned on its flat: load on the wide face.
Section flatwise(const Section& section);
std::string section_words(const Section& section);  // "1 1/2" x 9 1/4"" or "2 plies 1 1/2" x 9 1/4""

// Nominal classes of one ply, whichever way it is turned: thickness 1, 2, 3, 4, 5 (and more), widths
// 2, 3, 4, 5, 6, 8, 10, 12, 14 (and more). The thickness is the smaller side, the width the greater.
int nominal_thickness(const Section& section);
int nominal_width(const Section& section);
// 5 in. nominal and thicker, least dimension.
bool is_timber(const Section& section);

// What decay or a cut has taken, from each face, over the whole length considered.
struct Loss {
  double top_in = 0;
  double bottom_in = 0;
  double side_in = 0;  // both sides together
};
// Rectangle that is left; nothing when nothing is left. Rotten wood counts for nothing (notes, DC-07).
std::optional<Section> residual(const Section& section, const Loss& loss);

}  // namespace awlmark::mechanics
