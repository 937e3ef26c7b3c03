// Findings as plain text for a terminal.
#pragma once

#include <string>

#include "findings/findings.hpp"
#include "job/job.hpp"

namespace awlmark::cli {

std::string survey_text(const Job& job, const Findings& findings);
// Everything after the survey: hazards, cut-back, floor, take-off, work, price, cautions.
std::string assess_text(const Job& job, const Findings& findings);

}  // namespace awlmark::cli
