// For the inspector: plan and sections to scale, schedule of members, loads, checks and shores.
#pragma once

#include "papers/papers.hpp"
#include "papers/sheet.hpp"

namespace awlmark::papers {

// The findings must hold a floor.
Paper framing_sheet(const Job& job, const Findings& findings);
// What the framing sheet leaves to the annex; its sources are numbered after `sources_before`.
void write_framing_records(const Job& job, const Findings& findings, Sheet& sheet, int sources_before);
// For the crew: gates, shores, pieces, saw lines, cut lists.
Paper crew_sheet(const Job& job, const Findings& findings);
// What is found, added and taken away, to be signed before that work.
Paper change_order(const Job& job, const Findings& findings);
// For the inspector, with room for what he measures.
Paper inspection_sheet(const Job& job, const Findings& findings);
// One line a day, with the forecast; the findings must hold drying.
Paper drying_log(const Job& job, const Findings& findings);
// The findings must hold a pan and its flood test.
Paper flood_test_sheet(const Job& job, const Findings& findings);
// Every reading, reason, check and protection.
Paper annex(const Job& job, const Findings& findings);
// What the price is made of.
Paper price_sheet(const Job& job, const Findings& findings);

}  // namespace awlmark::papers
