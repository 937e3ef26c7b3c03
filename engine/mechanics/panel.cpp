#include "mechanics/panel.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "tables/table.hpp"

namespace awlmark::mechanics {
namespace {

std::vector<PanelRow> read_rows() {
  std::vector<PanelRow> rows;
  for (const auto& row : tables::table("panels.csv").rows()) {
    PanelRow p;
    p.kind = doc::from_word<PanelKind>(row.text("kind")).value();
    p.rating = row.text("rating");
    p.category = row.text("category");
    p.category_in = row.number("category_in");
    p.roof_span_in = row.number("roof_span_in");
    p.floor_span_in = row.number("floor_span_in");
    p.total_load_psf = row.number("total_load_psf");
    p.ei_lbin2_per_ft = row.number("ei_lbin2_per_ft");
    p.fbs_inlb_per_ft = row.number("fbs_inlb_per_ft");
    p.reason = row.reason();
    p.mechanics_reason = row.reason();
    p.mechanics_reason.source = row.text("mechanics_source");
    p.mechanics_reason.rule =
        "EI " + format_number(p.ei_lbin2_per_ft, 0) + " lb sq in. and FbS " + format_number(p.fbs_inlb_per_ft, 0) + " in.-lb a foot of width, strength axis";
    p.mechanics_reason.status = SourceStatus::memory;
    rows.push_back(std::move(p));
  }
  return rows;
}

// Coefficients of continuous panels: M = w l^2 / bending, deflection = w l^4 / (stiffness E I), and
// under a point load P in one span P l^3 / (point E I). Three spans: 10 and 145; two: 8 and 185; the
// point load of two and more spans stands in an end span (0.0150 P l^3 / EI).
struct SpanCoefficients {
  double bending, stiffness, point;
};
SpanCoefficients coefficients(int spans) {
  if (spans <= 1) return {8, 76.8, 48};
  if (spans == 2) return {8, 185, 66.7};
  return {10, 145, 66.7};
}

// A spot load is shared by a strip about as wide as this share of the span: an infinite plate held on
// two sides bends by 0.01695 P l^2 / D under it (isotropic), which is a strip 1.23 l wide; across the
// strength axis panels have about an eighth of the stiffness, and the width goes with its fourth root.
constexpr double kSpotWidthOfSpan = 1.23 * 0.59;
constexpr double kSpot_lb = 300;

}  // namespace

const std::vector<PanelRow>& panel_rows() {
  static const std::vector<PanelRow> rows = read_rows();
  return rows;
}

const PanelRow* panel_by_rating(PanelKind kind, const std::string& rating) {
  for (const auto& row : panel_rows())
    if (row.kind == kind && row.rating == rating) return &row;
  return nullptr;
}

const PanelRow* panel_by_category(PanelKind kind, double category_in) {
  constexpr double kSame_in = 1.0 / 128;
  const PanelRow* best = nullptr;
  for (const auto& row : panel_rows())
    if (row.kind == kind && std::fabs(row.category_in - category_in) <= kSame_in && (best == nullptr || row.floor_span_in < best->floor_span_in)) best = &row;
  return best;
}

const PanelRow* panel_for_span(PanelKind kind, double spacing_in) {
  const PanelRow* best = nullptr;
  for (const auto& row : panel_rows())
    if (row.kind == kind && row.floor_span_in >= spacing_in - 1e-6 && (best == nullptr || row.floor_span_in < best->floor_span_in)) best = &row;
  return best;
}

ThicknessRange panel_thickness(double category_in) {
  // PS 1: 1/32 in. either way up to 3/4 in., 5 percent beyond.
  const double tolerance = category_in <= 0.75 + 1e-9 ? 1.0 / 32 : 0.05 * category_in;
  return {category_in - tolerance, category_in + tolerance};
}

PanelCapacity panel_capacity(const PanelRow& row, double spacing_in, int spans, double deflection_over, bool wet) {
  const auto k = coefficients(spans);
  constexpr double kWetStrength = 0.75, kWetStiffness = 0.85;
  const double fbs = row.fbs_inlb_per_ft * (wet ? kWetStrength : 1), ei = row.ei_lbin2_per_ft * (wet ? kWetStiffness : 1);
  const double l2 = spacing_in * spacing_in;
  PanelCapacity out;
  out.bending_psf = 12 * k.bending * fbs / l2;
  out.deflection_psf = 12 * k.stiffness * ei / (deflection_over * l2 * spacing_in);
  out.point_deflection_in = kSpot_lb * l2 * spacing_in / (k.point * ei / 12 * kSpotWidthOfSpan * spacing_in);
  out.capacity_psf = std::min(out.bending_psf, out.deflection_psf);
  out.governs = out.bending_psf <= out.deflection_psf ? "bending" : "deflection";
  Reason& r = out.reason;
  r = row.mechanics_reason;
  r.compares = "uniform load on panels rated " + row.rating + ", strength axis across the supports, against bending and deflection";
  r.capacity = out.capacity_psf;
  r.unit = "psf";
  r.steps.push_back(std::to_string(spans) +
                    (spans == 1   ? " span"
                     : spans == 2 ? " spans"
                                  : " or more spans") +
                    " of " + format_number(spacing_in, 1) + " in.; M = w l^2/" + format_number(k.bending, 0) + ", deflection w l^4/(" +
                    format_number(k.stiffness, 1) + " E I)");
  if (wet) r.steps.push_back("wet: 0.75 on strength, 0.85 on stiffness");
  r.steps.push_back("bending " + format_number(out.bending_psf, 1) + " psf, deflection l/" + format_number(deflection_over, 0) + " " +
                    format_number(out.deflection_psf, 1) + " psf");
  r.steps.push_back("300 lb on one spot between supports bends it about " + format_number(out.point_deflection_in, 3) + " in.");
  return out;
}

}  // namespace awlmark::mechanics
