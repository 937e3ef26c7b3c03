#include "papers/papers.hpp"
#include "papers/report_sections.hpp"

namespace awlmark::papers {

Paper condition_report(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Condition report");
  ReasonList reasons;
  const Report report{job, findings, sheet, reasons};
  write_facts(report);
  write_in_short(report);
  write_cause(report);
  write_unseen(report);
  write_extent(report);
  write_openings(report);
  write_gates(report);
  write_cut_back(report);
  write_floor(report);
  write_options(report);
  write_price(report);
  sheet.cautions(findings.floor ? findings.floor->cautions : std::vector<std::string>{});
  sheet.signatures({"Owner: I have read this report", "Contractor: this is what we found"});
  write_marks(report);
  write_members(report);
  write_protection(report);
  write_photos(report);
  write_warnings(report);
  if (!reasons.empty()) {
    sheet.section("Reasons behind the figures");
    sheet.say("Each number in brackets in the text leads here: what was compared, by which rule, from which source, and how that source is known.", "small");
    reasons.write(sheet.out());
  }
  return {"condition-report.html", "Condition report", sheet.html()};
}

}  // namespace awlmark::papers
