// Papers: self-contained, print-ready HTML with its drawings inline, from the job and its findings
// alone. The same text on every door.
//
// Guarantees: (1) one file, no outside address, drawings as <svg>, print rules in @media print;
// (2) every text that came from the job is escaped; (3) cautions and reasons stand on the paper.
#pragma once

#include <string>
#include <vector>

#include "findings/findings.hpp"
#include "job/job.hpp"

namespace awlmark::papers {

struct Paper {
  std::string file;  // "condition-report.html"
  std::string title;
  std::string html;
};

struct Options {
  std::string only;              // a paper's name ("crew-sheet"); empty for all
  std::string paper = "letter";  // or "a4"
};

// Names of the papers, in their order: condition-report, price-sheet, framing-sheet, engineer-question,
// scope-of-work, crew-sheet, crew-sheet-es, change-order, inspection-sheet, drying-log, flood-test,
// photo-record, insurer-estimate, handover, annex.
std::vector<std::string> paper_names();

// For the owner, in three pages; pages 2 and 3 carry no money.
Paper condition_report(const Job& job, const Findings& findings);
// Every paper that the findings have something for.
std::vector<Paper> all_papers(const Job& job, const Findings& findings, const Options& options = {});

}  // namespace awlmark::papers
