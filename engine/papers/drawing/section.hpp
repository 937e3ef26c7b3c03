// Sections through the floor, across the members: as found, and as rebuilt by the chosen option.
//
// Heights are measured from the top of the framing. Thicknesses are drawn true; a layer too thin to
// see is drawn as a line. The finish is named but not given a thickness that nobody has chosen.
#pragma once

#include "findings/findings.hpp"
#include "job/job.hpp"
#include "papers/drawing/canvas.hpp"
#include "papers/drawing/framing_lines.hpp"
#include "papers/drawing/section_cut.hpp"

namespace awlmark::papers {

Drawing section_as_found(const Job& job, const Framing& framing, const SectionCut& cut);
// The chosen option must exist.
Drawing section_as_rebuilt(const Job& job, const Findings& findings, const Framing& framing, const SectionCut& cut);

}  // namespace awlmark::papers
