#include "mechanics/member.hpp"
#include "reckon/lumber_input.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace joist_span_topic {

struct JoistSpanIn {
  Species species = Species::unknown;
  Grade grade = Grade::unknown;
  SectionSize size;
  double spacing_in = 0;
  double live_psf = 0;
  double dead_psf = 0;
  double deflection_over = 360;
  Edition edition;
  std::optional<bool> wet;
};
BOOST_DESCRIBE_STRUCT(JoistSpanIn, (), (species, grade, size, spacing_in, live_psf, dead_psf, deflection_over, edition, wet))

doc::FieldRules field_rules(const JoistSpanIn*) {
  return {{.name = "species", .text = "unknown takes the lowest values of all species"},
          {.name = "grade", .text = "unknown takes the lowest values of all grades"},
          {.name = "size", .text = "nominal such as \"2x8\", or {\"b_in\", \"d_in\"} as measured", .required = true},
          {.name = "spacing_in", .text = "centre to centre; over 24 in. no repetitive factor", .required = true, .min = 0, .max = 240, .above_min = true},
          {.name = "live_psf", .required = true, .min = 0, .max = 1000},
          {.name = "dead_psf", .text = "without adding the joist's own weight", .required = true, .min = 0, .max = 1000},
          {.name = "deflection_over", .text = "live load may bend the joist by its span over this", .min = 60, .max = 2000},
          {.name = "wet", .text = "moisture over 19 percent in service"}};
}

struct JoistSpanOut {
  double span_in = 0;
  std::string governs;
  double bending_in = 0;
  double deflection_in = 0;
  double fb_adj_psi = 0;
  double e_adj_psi = 0;
  bool within_table_loads = true;
  std::vector<std::string> assumed;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(JoistSpanOut, (), (span_in, governs, bending_in, deflection_in, fb_adj_psi, e_adj_psi, within_table_loads, assumed, reason))

doc::FieldRules field_rules(const JoistSpanOut*) {
  return {{.name = "span_in", .text = "unrounded; the tables round to the nearest inch"},
          {.name = "governs", .text = "bending or deflection"},
          {.name = "within_table_loads",
           .text = "at most 40 psf live and 20 psf dead, for which the printed tables hold (R502.3.2); beyond, the member is engineered"},
          {.name = "assumed", .text = "what was not known, and what was taken instead"}};
}

Outcome<JoistSpanOut> answer(const JoistSpanIn& in) {
  Problems problems;
  const auto section = check_size(in.size, problems);
  check_grade(mechanics::use_of(section), in.grade, problems);
  if (in.live_psf + in.dead_psf <= 0) problems.push_back({"live_psf", "and dead_psf are both 0: without load no span is too long", "give the loads"});
  if (!problems.empty()) return refused<JoistSpanOut>(problems);
  constexpr double kRepetitiveSpacing_in = 24;  // NDS 4.3.9
  const auto values = mechanics::design_values(in.species, in.grade, section, in.edition.year);
  const mechanics::Conditions conditions{.wet = in.wet.value_or(false), .repetitive = in.spacing_in <= kRepetitiveSpacing_in};
  const auto span = mechanics::joist_span(values, section, in.spacing_in, in.live_psf, in.dead_psf, in.deflection_over, conditions);
  constexpr double kTableLive_psf = 40, kTableDead_psf = 20;  // IRC R502.3.2
  const bool within = in.live_psf <= kTableLive_psf && in.dead_psf <= kTableDead_psf;
  return answered<JoistSpanOut>(
      {span.span_in, span.governs, span.bending_in, span.deflection_in, span.adjusted.fb_psi, span.adjusted.e_psi, within, values.assumed, span.reason});
}

}  // namespace joist_span_topic

Topic joist_span() {
  using namespace joist_span_topic;
  return make_topic<JoistSpanIn, JoistSpanOut>(
      {.id = "joist-span",
       .asks = "How far may evenly loaded floor joists span?",
       .sources = {"NDS Supplement Tables 4A, 4B, 4D: design values; NDS 4.3: adjustment factors",
                   "IRC Tables R502.3.1(1) and (2): the rows that these spans reproduce within an inch (live 40, dead 20 psf at most; beyond: engineer it)"},
       .example = R"({"species": "douglas_fir_larch", "grade": "no_2", "size": "2x10", "spacing_in": 16, "live_psf": 40, "dead_psf": 10})"},
      answer);
}

}  // namespace awlmark::reckon
