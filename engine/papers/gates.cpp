#include "papers/gates.hpp"

#include <algorithm>
#include <utility>

#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

constexpr std::size_t kMostCards = 7;

void write_gate(Sheet& sheet, const hazards::Gate& gate, bool step) {
  auto& out = sheet.out();
  const auto language = sheet.language();
  out.open("p").open("span", {{"class", "box"}}).close().text(sentence_case(gate_said(language, gate)));
  std::string who = step ? before_words(gate.before) : "";
  if (!gate.who.empty()) who += (who.empty() ? "" : "; ") + said(language, gate.who);
  if (!who.empty()) out.element("span", " " + sentence_case(who) + ".", {{"class", "who"}});
  out.close();
}

}  // namespace

std::vector<GateCard> cards_by_subject(const hazards::Hazards& hazards) {
  std::vector<GateCard> out;
  for (const auto& gate : hazards.gates) {
    const auto title = sentence_case(spoken_id(gate.hazard));
    auto at = std::find_if(out.begin(), out.end(), [&](const GateCard& card) { return card.title == title; });
    if (at == out.end()) at = out.insert(out.end(), {title, {}});
    at->gates.push_back(&gate);
  }
  std::stable_sort(out.begin(), out.end(), [](const GateCard& a, const GateCard& b) { return a.gates.size() > b.gates.size(); });
  while (out.size() > kMostCards) {
    auto last = std::move(out.back());
    out.pop_back();
    out.back().title = "Other";
    out.back().gates.insert(out.back().gates.end(), last.gates.begin(), last.gates.end());
  }
  return out;
}

std::vector<GateCard> cards_by_step(const hazards::Hazards& hazards, bool covering) {
  std::vector<GateCard> out;
  for (const auto before : {hazards::Before::touching, hazards::Before::entering, hazards::Before::opening, hazards::Before::lifting, hazards::Before::cutting,
                            hazards::Before::drying, hazards::Before::covering, hazards::Before::finishing}) {
    if ((before >= hazards::Before::covering) != covering) continue;
    GateCard card{before_words(before), {}};
    for (const auto& gate : hazards.gates)
      if (gate.before == before) card.gates.push_back(&gate);
    if (!card.gates.empty()) out.push_back(std::move(card));
  }
  return out;
}

void write_gate_cards(Sheet& sheet, const std::vector<GateCard>& cards, bool step) {
  if (cards.empty()) return;
  auto& out = sheet.out();
  out.open("div", {{"class", "two"}});
  for (const auto& card : cards) {
    out.open("div", {{"class", "gate"}}).element("h3", sheet.said(card.title));
    for (const auto* gate : card.gates) write_gate(sheet, *gate, step);
    out.close();
  }
  out.close();
}

std::string before_words(hazards::Before before) {
  switch (before) {
    case hazards::Before::touching:
      return "Before anyone touches it";
    case hazards::Before::entering:
      return "Before anyone goes under the floor";
    case hazards::Before::opening:
      return "Before anything is opened";
    case hazards::Before::lifting:
      return "Before fixtures are lifted";
    case hazards::Before::cutting:
      return "Before anything is cut";
    case hazards::Before::drying:
      return "Before fans run";
    case hazards::Before::covering:
      return "Before anything is covered";
    case hazards::Before::finishing:
      return "Before the finish is laid";
  }
  return "";
}

}  // namespace awlmark::papers
