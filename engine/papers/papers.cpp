#include "papers/papers.hpp"

#include <functional>

#include "papers/sheets.hpp"

namespace awlmark::papers {
namespace {

struct Kind {
  std::string name;
  bool asked;
  Paper (*write)(const Job&, const Findings&);
};

std::vector<Kind> kinds(const Findings& findings) {
  return {{"condition-report", true, condition_report},
          {"price-sheet", findings.price.has_value(), price_sheet},
          {"framing-sheet", findings.floor.has_value(), framing_sheet},
          {"crew-sheet", findings.cut_back.has_value(), crew_sheet},
          {"change-order", findings.cut_back.has_value(), change_order},
          {"inspection-sheet", findings.floor.has_value(), inspection_sheet},
          {"drying-log", findings.drying.has_value(), drying_log},
          {"flood-test", findings.shower && findings.shower->pan && findings.shower->flood_test, flood_test_sheet},
          {"annex", true, annex}};
}

void replace(std::string& text, const std::string& from, const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size()) text.replace(at, from.size(), to);
}

// The drawings fit both: A4 is narrower by 0.23 in., which its margins give.
void set_paper(Paper& paper, const std::string& size) {
  if (size != "a4") return;
  replace(paper.html, "@page{size:letter;margin:.65in .6in .65in", "@page{size:a4;margin:.65in .45in .65in");
  replace(paper.html, "when printed at 100 % on letter paper.", "when printed at 100 % on A4 paper.");
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
