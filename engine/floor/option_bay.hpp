// What both ways of dropping a bay share: its panels, its weight, its joists' checks.
#pragma once

#include <string>

#include "floor/option_plan.hpp"

namespace awlmark::floor {

inline constexpr const char* kBayPanels[] = {"24 oc", "32 oc", "48 oc"};
const mechanics::PanelRow& bay_panel(const char* rating);
double bay_dead_psf(const OptionPlan& plan, const Site& site, double panel_in);
// Whether every joist of the bay passes; what is bought anyway is sized for the most that a wall may bring.
bool bay_passes(const Model& model);
double bay_spacing_in(const Model& model);

// Joists that run through the shower cut at its edges, headers hung between the joists on either side of it,
// lower joists between the headers. Sets `panel`; else says why there is no such bay.
std::string head_off_bay(OptionPlan& plan, const Site& site, double recess_in, const mechanics::PanelRow*& panel);

}  // namespace awlmark::floor
