// The crew's plan of one layer: what comes out, piece by piece, and every saw line by its kind.
#pragma once

#include <string>

#include "findings/findings.hpp"
#include "job/job.hpp"
#include "papers/drawing/canvas.hpp"

namespace awlmark::papers {

// The findings must hold a cut-back. `name` is unique on the paper.
Drawing pieces_plan(const Job& job, const Findings& findings, const std::string& layer, const std::string& name);
Markup pieces_legend();
std::string edge_words(cutback::EdgeKind kind);

}  // namespace awlmark::papers
