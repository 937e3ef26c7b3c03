// Gates as cards with boxes to tick. No gate is left out, however many there are.
#pragma once

#include <string>
#include <vector>

#include "papers/sheet.hpp"

namespace awlmark::papers {

struct GateCard {
  std::string title;
  std::vector<const hazards::Gate*> gates;
};

// One card a subject, those with most gates first; with more than seven subjects the smallest share the last card.
std::vector<GateCard> cards_by_subject(const hazards::Hazards& hazards);
// One card a step of the work, in the order of the work; of the steps before covering, or of those from it on.
std::vector<GateCard> cards_by_step(const hazards::Hazards& hazards, bool covering);
// `step`: each gate also says what it stands before.
void write_gate_cards(Sheet& sheet, const std::vector<GateCard>& cards, bool step);
std::string before_words(hazards::Before before);  // "Before fixtures are lifted"

}  // namespace awlmark::papers
