// The annex: every reading, reason, check, protection and way behind the short papers, in one file.
#include "papers/papers.hpp"
#include "papers/report_sections.hpp"
#include "papers/sheets.hpp"

namespace awlmark::papers {

Paper annex(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Annex: readings, reasons, checks");
  ReasonList reasons;
  const Report report{job, findings, sheet, reasons};
  write_cause(report);
  write_unseen(report);
  write_assumed(report);
  write_extent(report);
  write_openings(report);
  write_gates(report);
  write_cut_back(report);
  write_floor(report);
  write_options(report);
  write_price(report);
  sheet.cautions(findings.floor ? findings.floor->cautions : std::vector<std::string>{});
  write_marks(report);
  write_members(report);
  write_protection(report);
  write_warnings(report);
  if (!reasons.empty()) {
    sheet.section("Reasons behind the figures");
    sheet.say("Each number in brackets in the text leads here: what was compared, by which rule, from which source, and how that source is known.", "small");
    reasons.write(sheet.out());
  }
  if (findings.floor) write_framing_records(job, findings, sheet, reasons.count());
  return {"annex.html", "Annex", sheet.html()};
}

}  // namespace awlmark::papers
