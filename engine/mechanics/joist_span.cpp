// Spans of evenly loaded joists, as the span tables of the IRC reckon them.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "base/special.hpp"
#include "mechanics/member.hpp"

namespace awlmark::mechanics {

JoistSpan joist_span(const DesignValues& values, const Section& section, double spacing_in, double live_psf, double dead_psf, double deflection_over,
                     const Conditions& conditions) {
  JoistSpan out;
  out.adjusted = adjust(values, section, conditions);
  constexpr double kIn2PerFt2 = 144;
  const double w_total = (live_psf + dead_psf) * spacing_in / kIn2PerFt2, w_live = live_psf * spacing_in / kIn2PerFt2;
  constexpr double kNoLimit_in = 1e6;  // without load there is nothing to limit the span
  out.bending_in = w_total > 0 ? std::sqrt(8 * out.adjusted.fb_psi * section.s_in3() / w_total) : kNoLimit_in;
  // 5 w l^4 / (384 E I) = l / n  gives  l^3 = 384 E I / (5 w n)
  out.deflection_in =
      w_live > 0 && deflection_over > 0 ? det_pow(384 * out.adjusted.e_psi * section.i_in4() / (5 * w_live * deflection_over), 1.0 / 3) : kNoLimit_in;
  out.span_in = std::min(out.bending_in, out.deflection_in);
  out.governs = out.bending_in <= out.deflection_in ? "bending" : "deflection";
  Reason& r = out.reason;
  r = values.reason;
  r.compares = "span against bending under live and dead load and against deflection under live load alone";
  r.unit = "in";
  r.capacity = out.span_in;
  r.rule = "IRC R502.3.1 by mechanics: l = min(sqrt(8 Fb' S / w_total), (384 E' I / (5 w_live n))^(1/3)); design values: " + values.reason.source + " " +
           values.reason.rule;
  r.steps = out.adjusted.steps;
  r.steps.push_back("S " + format_number(section.s_in3(), 3) + " cu in., I " + format_number(section.i_in4(), 3) + " in.^4 (" + section_words(section) + ")");
  r.steps.push_back("w_total " + format_number(w_total, 4) + " lb/in., w_live " + format_number(w_live, 4) + " lb/in. at " + format_number(spacing_in, 1) +
                    " in. spacing");
  r.steps.push_back("bending: " + format_number(out.bending_in, 2) + " in.; deflection l/" + format_number(deflection_over, 0) + ": " +
                    format_number(out.deflection_in, 2) + " in.");
  return out;
}

}  // namespace awlmark::mechanics
