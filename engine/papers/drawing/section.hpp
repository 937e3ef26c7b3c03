// Sections through the floor, across the members: as found, and as rebuilt by the chosen option.
//
// Heights are measured from the top of the framing. Thicknesses are drawn true; a layer too thin to
// see is drawn as a line. The finish is named but not given a thickness that nobody has chosen.
#pragma once

#include <optional>

#include "assess/findings.hpp"
#include "job/job.hpp"
#include "papers/drawing/canvas.hpp"
#include "papers/drawing/framing_lines.hpp"

namespace awlmark::papers {

// Where the section is cut and what part of it is shown.
struct SectionCut {
  double station_in = 0;   // along the members
  double from_in = 0;      // across them
  double to_in = 0;
};

// Through the middle of the cut-back (or the worst decay, or the room), wide enough for two members.
// Nothing when no member crosses it.
std::optional<SectionCut> section_cut(const Job& job, const Findings& findings, const Framing& framing);

Drawing section_as_found(const Job& job, const Framing& framing, const SectionCut& cut);
// The chosen option must exist.
Drawing section_as_rebuilt(const Job& job, const Findings& findings, const Framing& framing, const SectionCut& cut);
// "Cut at 6' 0" up, looking along the members".
std::string section_words(const Framing& framing, const SectionCut& cut);

}  // namespace awlmark::papers
