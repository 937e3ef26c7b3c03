// Findings as plain text for a terminal.
#pragma once

#include <string>
#include <vector>

#include "findings/findings.hpp"
#include "job/job.hpp"
#include "price/change.hpp"

namespace awlmark::cli {

std::string survey_text(const Job& job, const Findings& findings);
// One screen: what comes out, price, date, what is due now, what to do next.
std::string assess_text(const Job& job, const Findings& findings);
// One stage in full; empty when the findings have none.
const std::vector<std::string>& stage_names();
std::string stage_text(const std::string& stage, const Job& job, const Findings& findings);

// What is due now, one card a hazard.
std::string due_text(const hazards::Hazards& hazards);

// A change order, as it is read out and signed.
std::string change_text(const price::ChangeOrder& order);

}  // namespace awlmark::cli
