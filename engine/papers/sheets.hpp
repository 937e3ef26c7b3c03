// For the inspector: plan and sections to scale, schedule of members, loads, checks and shores.
#pragma once

#include "papers/papers.hpp"

namespace awlmark::papers {

// The findings must hold a floor.
Paper framing_sheet(const Job& job, const Findings& findings);
// For the crew: pieces and saw lines.
Paper cut_back_sheet(const Job& job, const Findings& findings);
// What the price is made of.
Paper price_sheet(const Job& job, const Findings& findings);

}  // namespace awlmark::papers
