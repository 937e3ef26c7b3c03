// The framing plan for the inspector: members as found with their decay, the cut-back, what the
// chosen option adds, shores and blocking; dimensioned in feet and inches.
#pragma once

#include "findings/findings.hpp"
#include "job/job.hpp"
#include "papers/drawing/canvas.hpp"
#include "papers/drawing/framing_lines.hpp"

namespace awlmark::papers {

struct FramingPlanStyle {
  std::string name = "framing";
  double width_in = 7.3;
  double height_in = 8.2;
  bool rebuilt = true;  // with what the chosen option adds; otherwise as found with the cut-back
};

Drawing framing_plan(const Job& job, const Findings& findings, const Framing& framing, const FramingPlanStyle& style);
Markup framing_legend();

}  // namespace awlmark::papers
