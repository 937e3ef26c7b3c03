// Structural panels as floors: by span rating (IRC Tables R503.2.1.1, PS 1 / PS 2) and by mechanics
// (stiffness and strength a foot of width).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/reason.hpp"

namespace awlmark::mechanics {

enum class PanelKind { sheathing, single_floor };
BOOST_DESCRIBE_ENUM(PanelKind, sheathing, single_floor)

struct PanelRow {
  PanelKind kind = PanelKind::sheathing;
  std::string rating;    // "24/16", "20 oc"
  std::string category;  // least performance category, "19/32"
  double category_in = 0;
  double roof_span_in = 0;
  double floor_span_in = 0;    // 0: not a floor panel
  double total_load_psf = 0;   // that the rating stands for
  double ei_lbin2_per_ft = 0;  // strength axis across the supports
  double fbs_inlb_per_ft = 0;
  Reason reason;            // of the rating
  Reason mechanics_reason;  // of EI and FbS
};
const std::vector<PanelRow>& panel_rows();
const PanelRow* panel_by_rating(PanelKind kind, const std::string& rating);
// The row of that performance category; of several, the one with the shortest span.
const PanelRow* panel_by_category(PanelKind kind, double category_in);
// Lightest row whose floor span reaches the spacing; nothing when none does.
const PanelRow* panel_for_span(PanelKind kind, double spacing_in);

struct ThicknessRange {
  double least_in = 0, most_in = 0;
};
ThicknessRange panel_thickness(double category_in);  // what may be measured on a panel of that category

struct PanelCapacity {
  double bending_psf = 0;
  double deflection_psf = 0;
  double capacity_psf = 0;
  double point_deflection_in = 0;  // under 300 lb between supports, see panel.cpp
  std::string governs;
  Reason reason;
};
// Spans: 1, 2 or 3 and more equal spans; `wet` takes 0.75 on strength and 0.85 on stiffness.
PanelCapacity panel_capacity(const PanelRow& row, double spacing_in, int spans, double deflection_over = 360, bool wet = false);

}  // namespace awlmark::mechanics
