#include "mechanics/decking.hpp"

#include <algorithm>

#include "base/described.hpp"
#include "base/length.hpp"
#include "tables/table.hpp"

namespace awlmark::mechanics {

LayupRow layup_row(Layup layup, double thickness_in) {
  // Random layup: the row for 2-in. decking counts up to 2 in. actual (full-sawn), 3- and 4-in. beyond.
  const char* pieces = layup == Layup::random ? (thickness_in <= 2.0 + 1e-9 ? "2" : "3 and 4") : "any";
  const auto* row = tables::table("decking_layups.csv").find("layup", doc::word_of(layup), "pieces", pieces);
  return {row->number("k_bending"), row->number("k_deflection"), row->reason()};
}

DeckingCapacity decking_capacity(Layup layup, double fb_psi, double e_psi, double thickness_in, double span_in, double deflection_over) {
  const LayupRow row = layup_row(layup, thickness_in);
  constexpr double kWidth_in = 12;  // pounds an inch on one foot of width; x 12 in. of length = psf
  const double s = kWidth_in * thickness_in * thickness_in / 6, i = kWidth_in * thickness_in * thickness_in * thickness_in / 12;
  const double span2 = span_in * span_in, limit_in = span_in / deflection_over;
  DeckingCapacity out;
  out.bending_psf = 12 * row.k_bending * fb_psi * s / span2;
  out.deflection_psf = 12 * row.k_deflection * limit_in * e_psi * i / (span2 * span2);
  out.capacity_psf = std::min(out.bending_psf, out.deflection_psf);
  out.governs = out.bending_psf <= out.deflection_psf ? "bending" : "deflection";
  Reason& r = out.reason;
  r = row.reason;
  r.compares = "load on decking laid flat, " + doc::spoken(layup) + " layup, against bending and deflection";
  r.capacity = out.capacity_psf;
  r.unit = "psf";
  r.rule += ": w_b = k1 Fb' S / l^2, w_D = k2 (l/n) E' I / l^4";
  r.steps.push_back("k1 " + format_number(row.k_bending, 2) + ", k2 " + format_number(row.k_deflection, 1) + ", " + format_number(thickness_in, 3) +
                    " in. thick, span " + format_number(span_in, 1) + " in.");
  r.steps.push_back("Fb' " + format_number(fb_psi, 0) + " psi: " + format_number(out.bending_psf, 1) + " psf; E' " + format_number(e_psi, 0) + " psi at l/" +
                    format_number(deflection_over, 0) + ": " + format_number(out.deflection_psf, 1) + " psf");
  return out;
}

std::optional<BoardSubfloor> board_subfloor(double support_spacing_in) {
  const tables::Row* best = nullptr;
  for (const auto& row : tables::table("board_subfloors.csv").rows()) {
    const double spacing = row.number("support_spacing_in");
    if (spacing < support_spacing_in - 1e-6) continue;
    if (best == nullptr || spacing < best->number("support_spacing_in")) best = &row;
  }
  if (best == nullptr) return std::nullopt;
  BoardSubfloor out;
  out.support_spacing_in = best->number("support_spacing_in");
  out.thickness_in = best->number("thickness_in");
  out.diagonal_thickness_in = best->maybe_number("diagonal_thickness_in");
  out.tongue_and_groove = best->flag("tongue_and_groove");
  out.fb_psi = best->maybe_number("fb_psi");
  out.e_psi = best->maybe_number("e_psi");
  out.reason = best->reason();
  return out;
}

}  // namespace awlmark::mechanics
