#include "papers/reasons.hpp"

#include <cmath>
#include <string>

#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

bool same(const Reason& a, const Reason& b) {
  return a.compares == b.compares && a.rule == b.rule && a.source == b.source && a.edition == b.edition && a.demand == b.demand && a.capacity == b.capacity &&
         a.steps == b.steps;
}

std::string measured(const Reason& reason) {
  const std::string unit = reason.unit.empty() ? "" : " " + reason.unit;
  std::string out;
  if (reason.demand) out += "asked " + figure(*reason.demand) + unit;
  if (reason.capacity) out += (out.empty() ? "" : ", ") + std::string("has ") + figure(*reason.capacity) + unit;
  if (reason.ratio && std::isfinite(*reason.ratio)) out += (out.empty() ? "" : ", ") + std::string("ratio ") + figure(*reason.ratio);
  return out;
}

// A check that passes with a third to spare is not worth a page of factors; the findings hold them.
bool wants_steps(const Reason& reason) { return !reason.ratio || *reason.ratio > 2.0 / 3; }

std::string steps_text(const Reason& reason) {
  std::string text = "Worked:";
  for (const auto& step : reason.steps) text += (text.back() == ':' ? " " : "; ") + step;
  return text + ".";
}

}  // namespace

int ReasonList::number_of(const Reason& reason) {
  if (reason.compares.empty() && reason.rule.empty() && reason.source.empty()) return 0;
  for (std::size_t i = 0; i < reasons_.size(); ++i)
    if (same(reasons_[i], reason)) return static_cast<int>(i) + 1;
  reasons_.push_back(reason);
  return static_cast<int>(reasons_.size());
}

void ReasonList::write(Markup& out) const {
  out.open("ol", {{"class", "reasons"}});
  int number = 0;
  for (const auto& reason : reasons_) {
    out.open("li", {{"id", "reason-" + std::to_string(++number)}});
    if (!reason.compares.empty()) out.element("b", sentence_case(reason.compares) + ". ");
    const auto figures = measured(reason);
    if (!figures.empty()) out.text(sentence_case(figures) + ". ");
    if (!reason.rule.empty()) out.text(reason.rule + (reason.rule.back() == '.' ? " " : ". "));
    out.text("Source: " + source_words(reason) + ".");
    if (!reason.steps.empty() && wants_steps(reason)) out.element("p", steps_text(reason), {{"class", "steps"}});
    out.close();
  }
  out.close();
}

}  // namespace awlmark::papers
