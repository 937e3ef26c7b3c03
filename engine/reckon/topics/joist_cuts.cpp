#include "mechanics/cuts.hpp"
#include "reckon/lumber_input.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace joist_cuts_topic {

struct HoleIn {
  double diameter_in = 0;
  double from_top_in = 0;
};
BOOST_DESCRIBE_STRUCT(HoleIn, (), (diameter_in, from_top_in))
doc::FieldRules field_rules(const HoleIn*) {
  return {{.name = "diameter_in", .required = true, .min = 0, .max = 40, .above_min = true},
          {.name = "from_top_in", .text = "top of the joist to the edge of the hole", .required = true, .min = 0, .max = 40}};
}

struct NotchIn {
  double depth_in = 0;
  std::optional<double> length_in;
  std::optional<double> at_in;
  std::optional<double> span_in;
  std::optional<bool> bottom;
};
BOOST_DESCRIBE_STRUCT(NotchIn, (), (depth_in, length_in, at_in, span_in, bottom))
doc::FieldRules field_rules(const NotchIn*) {
  return {{.name = "depth_in", .required = true, .min = 0, .max = 40, .above_min = true},
          {.name = "length_in", .text = "along the joist", .min = 0, .max = 1200, .above_min = true},
          {.name = "at_in", .text = "middle of the notch from a support; a notch that reaches the support is an end notch", .min = 0, .max = 1200},
          {.name = "span_in", .min = 0, .max = 1200, .above_min = true},
          {.name = "bottom", .text = "cut into the underside"}};
}

struct JoistCutsIn {
  SectionSize size;
  std::optional<HoleIn> hole;
  std::optional<NotchIn> notch;
};
BOOST_DESCRIBE_STRUCT(JoistCutsIn, (), (size, hole, notch))
doc::FieldRules field_rules(const JoistCutsIn*) {
  return {{.name = "size", .text = "nominal such as \"2x8\", or {\"b_in\", \"d_in\"} as measured", .required = true}};
}

struct JoistCutsOut {
  double hole_max_in = 0;
  double notch_max_in = 0;
  double end_notch_max_in = 0;
  double notch_length_max_in = 0;
  double hole_third_in = 0;
  double hole_edge_in = 0;
  std::optional<bool> ok;
  std::optional<std::string> why;
  std::vector<Check> checks;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(JoistCutsOut, (),
                      (hole_max_in, notch_max_in, end_notch_max_in, notch_length_max_in, hole_third_in, hole_edge_in, ok, why, checks, reason))
doc::FieldRules field_rules(const JoistCutsOut*) {
  return {{.name = "hole_max_in", .text = "diameter: d/3, or less where 2 in. would not be left above and below"},
          {.name = "hole_third_in", .text = "d/3 alone"},
          {.name = "hole_edge_in", .text = "to leave above, below and to other holes and notches"},
          {.name = "ok", .text = "of the hole or notch asked about"}};
}

void add(JoistCutsOut& out, const mechanics::Verdict& verdict) {
  out.ok = out.ok.value_or(true) && verdict.ok;
  out.why = out.why ? *out.why + "; " + verdict.why : verdict.why;
  out.checks.insert(out.checks.end(), verdict.checks.begin(), verdict.checks.end());
}

Outcome<JoistCutsOut> answer(const JoistCutsIn& in) {
  Problems problems;
  const auto section = check_size(in.size, problems);
  if (in.notch && in.notch->at_in && in.notch->span_in && *in.notch->at_in > *in.notch->span_in)
    problems.push_back({"notch.at_in", "is greater than notch.span_in", "measure from one end of the span"});
  if (!problems.empty()) return refused<JoistCutsOut>(problems);
  const auto limits = mechanics::cut_limits(section.d_in);
  JoistCutsOut out;
  out.hole_max_in = limits.hole_max_in;
  out.notch_max_in = limits.notch_max_in;
  out.end_notch_max_in = limits.end_notch_max_in;
  out.notch_length_max_in = limits.notch_length_max_in;
  out.hole_third_in = limits.hole_third_in;
  out.hole_edge_in = limits.hole_edge_in;
  out.reason = limits.reason;
  if (in.hole) add(out, mechanics::check_hole(section.b_in, section.d_in, in.hole->diameter_in, in.hole->from_top_in));
  if (in.notch)
    add(out, mechanics::check_notch(section.ply_b_in(), section.d_in, in.notch->depth_in, in.notch->length_in, in.notch->at_in, in.notch->span_in,
                                    in.notch->bottom.value_or(false)));
  return answered(std::move(out));
}

}  // namespace joist_cuts_topic

Topic joist_cuts() {
  using namespace joist_cuts_topic;
  return make_topic<JoistCutsIn, JoistCutsOut>(
      {.id = "joist-cuts",
       .asks = "What holes and notches may a sawn joist have, and is this one allowed?",
       .sources = {"IRC R502.8.1: cutting, drilling and notching of sawn lumber joists"},
       .example = R"({"size": "2x8", "hole": {"diameter_in": 2, "from_top_in": 2.5}, "notch": {"depth_in": 1, "length_in": 2, "at_in": 24, "span_in": 144}})"},
      answer);
}

}  // namespace awlmark::reckon
