#include "papers/papers.hpp"

#include "papers/sheets.hpp"

namespace awlmark::papers {

std::vector<Paper> all_papers(const Job& job, const Findings& findings) {
  std::vector<Paper> papers = {condition_report(job, findings)};
  if (findings.floor) papers.push_back(framing_sheet(job, findings));
  if (findings.cut_back) papers.push_back(cut_back_sheet(job, findings));
  if (findings.price) papers.push_back(price_sheet(job, findings));
  return papers;
}

}  // namespace awlmark::papers
