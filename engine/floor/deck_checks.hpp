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

// Adjusted stiffness and strength of one plank laid flat, with the reason.
struct PlankValues {
  double fb_psi = 0;         // repetitive: loads shared with its neighbours
  double fb_single_psi = 0;  // a plank that shares nothing
  double e_psi = 0;
  Reason reason;
  std::vector<std::string> assumed;
};
PlankValues plank_values(const DeckModel& deck);

}  // namespace awlmark::floor
