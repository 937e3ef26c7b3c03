// The plan of the condition field: how likely unsound wood is, cell by cell, with what was read there.
#pragma once

#include <string>

#include "findings/findings.hpp"
#include "job/job.hpp"
#include "papers/drawing/canvas.hpp"

namespace awlmark::papers {

struct ConditionPlanStyle {
  std::string name = "plan";  // unique on the paper
  double width_in = 7.2;      // of paper
  double height_in = 6.4;
  double at_most_per_ft = 0.75;
  bool marks = true;                           // marks, openings, photos, dimensions; a small plan shows the field alone
  const cutback::CutBack* cut_back = nullptr;  // with the line of what comes out of the layer
};

// `layer` is the id of a layer with a usable field.
Drawing condition_plan(const Job& job, const survey::Survey& survey, const survey::LayerField& field, const ConditionPlanStyle& style);
// The legend of all plans of this kind, with the signs that the job uses.
Markup condition_legend(const Job& job, const survey::Survey& survey, bool cut = false);

}  // namespace awlmark::papers
