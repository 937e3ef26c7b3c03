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

// For the owner: how far it goes, how sure that is, what has to happen next.
Paper condition_report(const Job& job, const Findings& findings);
// For the inspector: plan and section to scale, dimensioned; loads, members and checks with sources.
// Nothing when the findings hold no floor.
std::vector<Paper> all_papers(const Job& job, const Findings& findings);

}  // namespace awlmark::papers
