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
Paper crew_sheet_spanish(const Job& job, const Findings& findings);
// What is done, in which order, and what is not. The findings must hold a take-off.
Paper scope_of_work(const Job& job, const Findings& findings);
// One page; the chosen option must exist.
Paper engineer_question(const Job& job, const Findings& findings);
// Repair apart from betterment, weights, readings, notice before tear-out.
Paper insurer_estimate(const Job& job, const Findings& findings);
// Photographs taken, and those to take before anything is covered.
Paper photo_record(const Job& job, const Findings& findings);
// What was done, what is handed over, how to live with it.
Paper handover(const Job& job, const Findings& findings);
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
// What people sign, and where the figures come from; the findings must hold a price.
Paper price_sheet(const Job& job, const Findings& findings);

}  // namespace awlmark::papers
