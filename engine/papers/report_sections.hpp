// The sections of the condition report, in their order on the paper. Each writes nothing, or says
// what is missing, when the findings do not hold its part.
#pragma once

#include "findings/findings.hpp"
#include "papers/reasons.hpp"
#include "papers/sheet.hpp"

namespace awlmark::papers {

struct Report {
  const Job& job;
  const Findings& findings;
  Sheet& sheet;
  ReasonList& reasons;
};

// report_summary.cpp
void write_facts(const Report& report);
// What was read, how far it goes and what comes out: sentences without money.
std::vector<std::string> found_words(const Job& job, const Findings& findings);
// report_extent.cpp
void write_extent(const Report& report);
void write_unseen(const Report& report);
std::vector<std::string> unseen_items(const Report& report);
void write_openings(const Report& report);
void write_cause(const Report& report);
// report_decisions.cpp
void write_gates(const Report& report);
void write_cut_back(const Report& report);
void write_floor(const Report& report);
void write_options(const Report& report);
void write_price(const Report& report);
// report_records.cpp
void write_marks(const Report& report);
void write_members(const Report& report);
void write_protection(const Report& report);
void write_photos(const Report& report);
void write_warnings(const Report& report);
// Everything that the job does not say, and what was taken instead: once, here.
void write_assumed(const Report& report);

}  // namespace awlmark::papers
