#include "base/length.hpp"
#include "mechanics/bearing.hpp"
#include "mechanics/member.hpp"
#include "reckon/lumber_input.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace joist_check_topic {

struct JoistCheckIn {
  Species species = Species::unknown;
  Grade grade = Grade::unknown;
  SectionSize size;
  double spacing_in = 0;
  std::vector<double> spans_in;
  double live_psf = 0;
  double dead_psf = 0;
  double live_over = 360;
  double total_over = 240;
  double bearing_length_in = 1.5;
  Edition edition;
  std::optional<bool> wet;
};
BOOST_DESCRIBE_STRUCT(JoistCheckIn, (),
                      (species, grade, size, spacing_in, spans_in, live_psf, dead_psf, live_over, total_over, bearing_length_in, edition, wet))

doc::FieldRules field_rules(const JoistCheckIn*) {
  return {{.name = "species", .text = "unknown takes the lowest values of all species"},
          {.name = "grade", .text = "unknown takes the lowest values of all grades"},
          {.name = "size", .text = "nominal such as \"2x8\", or {\"b_in\", \"d_in\"} as measured", .required = true},
          {.name = "spacing_in", .text = "centre to centre; over 24 in. no repetitive factor", .required = true, .min = 0, .max = 240, .above_min = true},
          {.name = "spans_in",
           .text = "one or several, the joist running through; live load in its worst pattern",
           .required = true,
           .min = 0,
           .max = 600,
           .above_min = true,
           .min_items = 1,
           .max_items = 20},
          {.name = "live_psf", .required = true, .min = 0, .max = 1000},
          {.name = "dead_psf", .text = "without adding the joist's own weight", .required = true, .min = 0, .max = 1000},
          {.name = "live_over", .min = 60, .max = 2000},
          {.name = "total_over", .text = "for 1.5 dead + live (2.0 where wet)", .min = 60, .max = 2000},
          {.name = "bearing_length_in", .text = "at each support", .min = 0, .max = 24, .above_min = true},
          {.name = "wet", .text = "moisture over 19 percent in service"}};
}

struct JoistCheckOut {
  bool ok = true;
  double w_total_pli = 0;
  double moment_inlb = 0;
  double fb_psi = 0;
  double fb_adj_psi = 0;
  double fv_psi = 0;
  double fv_adj_psi = 0;
  double live_deflection_in = 0;
  double total_deflection_in = 0;
  double long_term_deflection_in = 0;
  double span_over_live = 0;
  double bearing_needed_in = 0;
  std::vector<double> reactions_lb;
  std::vector<Check> checks;
  std::vector<std::string> assumed;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(JoistCheckOut, (),
                      (ok, w_total_pli, moment_inlb, fb_psi, fb_adj_psi, fv_psi, fv_adj_psi, live_deflection_in, total_deflection_in, long_term_deflection_in,
                       span_over_live, bearing_needed_in, reactions_lb, checks, assumed, reason))
doc::FieldRules field_rules(const JoistCheckOut*) {
  return {{.name = "moment_inlb", .text = "largest, sagging or hogging"},
          {.name = "total_deflection_in", .text = "dead and live at once"},
          {.name = "long_term_deflection_in", .text = "Kcr dead + live"},
          {.name = "span_over_live", .text = "span over the live deflection; the floor's L-over figure"},
          {.name = "bearing_needed_in", .text = "length by compression across the grain; IRC R502.6 asks 1.5 in. at least"},
          {.name = "reactions_lb", .text = "the largest at each support"},
          {.name = "reason", .text = "of the check that uses most of its limit"}};
}

Outcome<JoistCheckOut> answer(const JoistCheckIn& in) {
  Problems problems;
  const auto section = check_size(in.size, problems);
  check_grade(mechanics::use_of(section), in.grade, problems);
  if (!problems.empty()) return refused<JoistCheckOut>(problems);
  constexpr double kRepetitiveSpacing_in = 24, kIn2PerFt2 = 144;  // NDS 4.3.9
  const bool wet = in.wet.value_or(false);
  mechanics::MemberInput m;
  m.id = "joist";
  m.name = "joist " + section_text(in.size);
  m.section = section;
  m.values = mechanics::design_values(in.species, in.grade, section, in.edition.year);
  m.conditions.wet = wet;
  m.conditions.repetitive = in.spacing_in <= kRepetitiveSpacing_in;
  m.spans_in = in.spans_in;
  m.dead_pli = in.dead_psf * in.spacing_in / kIn2PerFt2;
  m.live_pli = in.live_psf * in.spacing_in / kIn2PerFt2;
  m.bearing_length_in = in.bearing_length_in;
  m.limits = mechanics::floor_limits(wet);
  m.limits.live_over = in.live_over;
  m.limits.total_over = in.total_over;
  const auto r = mechanics::check_member(m);
  JoistCheckOut out;
  out.ok = r.ok;
  out.w_total_pli = m.dead_pli + m.live_pli;
  out.moment_inlb = r.fb_psi * section.s_in3();
  out.fb_psi = r.fb_psi, out.fb_adj_psi = r.adjusted.fb_psi;
  out.fv_psi = r.fv_psi, out.fv_adj_psi = r.adjusted.fv_psi;
  out.live_deflection_in = r.live_deflection_in;
  out.total_deflection_in = r.total.deflection_max_in;
  out.long_term_deflection_in = r.long_term_deflection_in;
  const Check* live = nullptr;
  const Check* worst = &r.checks.front();
  for (const auto& check : r.checks) {
    if (check.kind == "deflection_live") live = &check;
    if (check.ratio > worst->ratio + 1e-12) worst = &check;
  }
  out.span_over_live = live != nullptr && live->ratio > 0 ? in.live_over / live->ratio : 0;
  out.bearing_needed_in = r.bearing_needed_in;
  out.reactions_lb = r.total.reactions_max_lb;
  out.checks = r.checks;
  out.assumed = m.values.assumed;
  out.reason = worst->reason;
  return answered(std::move(out));
}

}  // namespace joist_check_topic

Topic joist_check() {
  using namespace joist_check_topic;
  return make_topic<JoistCheckIn, JoistCheckOut>(
      {.id = "joist-check",
       .asks = "Is this joist strong and stiff enough on these spans?",
       .sources = {"NDS 3.3, 3.4, 3.5, 3.10 and Supplement Tables 4A, 4B, 4D", "IRC Table R301.7, IBC Table 1604.3: deflection limits"},
       .example = R"({"species": "hem_fir", "grade": "no_2", "size": "2x8", "spacing_in": 16, "spans_in": [132], "live_psf": 40, "dead_psf": 15})"},
      answer);
}

}  // namespace awlmark::reckon
