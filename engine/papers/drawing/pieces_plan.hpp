// The crew's plan of one layer: what comes out, piece by piece, and every saw line by its kind.
#pragma once

#include <string>
#include <vector>

#include "findings/findings.hpp"
#include "job/job.hpp"
#include "papers/drawing/canvas.hpp"

namespace awlmark::papers {

struct PiecesPlanStyle {
  std::string name = "pieces";  // unique on the paper
  double width_in = 7.3;        // of paper
  double height_in = 6.6;
  double at_most_per_ft = 0.75;
  bool saw_lines = true;  // named C1, C2, ... as sawn_edges has them
  Language language = Language::english;
};

// The findings must hold a cut-back.
Drawing pieces_plan(const Job& job, const Findings& findings, const std::string& layer, const PiecesPlanStyle& style);
// What a saw goes along: neither a wall nor a joint that is there already.
std::vector<const cutback::Edge*> sawn_edges(const cutback::CutBack& cut, const std::string& layer);
Markup pieces_legend(Language language = Language::english);
std::string edge_words(cutback::EdgeKind kind);

}  // namespace awlmark::papers
