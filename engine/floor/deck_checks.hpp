// Checks of the deck between its supports: even load and a 300 lb point, strength and stiffness.
//
// Boards and planks: along the board between supports, by the code's layup formula and as a grillage
// (grillage.hpp) in which the loaded plank shares through its tongues. Where joints were not recorded
// every other course counts as jointed over each support, and the load stands on a jointed one. A
// plank cut in has its real ends and no tongue until it is splined or blocked.
// Panels: by span rating and by mechanics (mechanics/panel.hpp).
#pragma once

#include "floor/member_checks.hpp"

namespace awlmark::floor {

FloorChecks check_deck(const Model& model);
// Walls and heavy fixtures on it, between its supports (deck_loads.cpp).
void check_deck_loads(const Model& model, Case which, FloorChecks& out);
void check_deck_fixtures(const Model& model, FloorChecks& out);
// A check of the deck, which may stand as it was (model.deck.as_it_was).
void add_deck(const Model& model, Check check, FloorChecks& out);
// The panel that lies there: its stamp, or the weakest that fits its thickness; null when none does.
const mechanics::PanelRow* panel_row(const DeckModel& deck);
// The dropped bay's own deck over its joists, with the tile trade's 300 lb.
void check_bay_deck(const Model& model, const mechanics::PanelRow& panel, double spacing_in, FloorChecks& out);

// Adjusted stiffness and strength of one plank laid flat, with the reason.
struct PlankValues {
  double fb_psi = 0;         // repetitive: loads shared with its neighbours
  double fb_single_psi = 0;  // a plank that shares nothing
  double fv_psi = 0;
  double e_psi = 0;
  Reason reason;
  std::vector<std::string> assumed;
};
PlankValues plank_values(const DeckModel& deck);

}  // namespace awlmark::floor
