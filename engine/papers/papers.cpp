#include "papers/papers.hpp"

#include <functional>

#include "papers/keys.hpp"
#include "papers/sheets.hpp"

namespace awlmark::papers {
namespace {

struct Kind {
  std::string name;
  bool asked;
  Paper (*write)(const Job&, const Findings&);
};

std::vector<Kind> kinds(const Findings& findings) {
  const auto* option = chosen_option(findings);
  return {{"condition-report", true, condition_report},
          {"price-sheet", findings.price.has_value(), price_sheet},
          {"framing-sheet", findings.floor.has_value(), framing_sheet},
          {"engineer-question", option != nullptr && option->needs_engineer, engineer_question},
          {"scope-of-work", findings.takeoff.has_value(), scope_of_work},
          {"crew-sheet", findings.cut_back.has_value(), crew_sheet},
          {"crew-sheet-es", findings.cut_back.has_value(), crew_sheet_spanish},
          {"change-order", findings.cut_back.has_value(), change_order},
          {"inspection-sheet", findings.floor.has_value(), inspection_sheet},
          {"drying-log", findings.drying.has_value(), drying_log},
          {"flood-test", findings.shower && findings.shower->pan && findings.shower->flood_test, flood_test_sheet},
          {"photo-record", true, photo_record},
          {"insurer-estimate", findings.takeoff.has_value(), insurer_estimate},
          {"handover", findings.cut_back.has_value(), handover},
          {"annex", true, annex}};
}

void replace(std::string& text, const std::string& from, const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size()) text.replace(at, from.size(), to);
}

// The drawings fit both: A4 is narrower by 0.23 in., which its margins give.
void set_paper(Paper& paper, const std::string& size) {
  if (size != "a4") return;
  replace(paper.html, "@page{size:letter;margin:.5in .6in .5in", "@page{size:a4;margin:.5in .45in .5in");
  replace(paper.html, "when printed at 100 % on letter paper.", "when printed at 100 % on A4 paper.");
  replace(paper.html, "al imprimir al 100 % en papel carta.", "al imprimir al 100 % en papel A4.");
}

}  // namespace

std::vector<std::string> paper_names() {
  std::vector<std::string> names;
  for (const auto& kind : kinds({})) names.push_back(kind.name);
  return names;
}

std::vector<Paper> all_papers(const Job& job, const Findings& findings, const Options& options) {
  std::vector<Paper> papers;
  for (const auto& kind : kinds(findings)) {
    if (!kind.asked || (!options.only.empty() && options.only != kind.name)) continue;
    papers.push_back(kind.write(job, findings));
    set_paper(papers.back(), options.paper);
  }
  return papers;
}

}  // namespace awlmark::papers
