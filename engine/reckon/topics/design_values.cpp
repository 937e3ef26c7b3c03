#include "mechanics/design_values.hpp"

#include "mechanics/factors.hpp"
#include "reckon/lumber_input.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace design_values_topic {

using mechanics::Use;

struct DesignValuesIn {
  Species species = Species::unknown;
  Grade grade = Grade::unknown;
  SectionSize size;
  std::optional<Use> use;
  Edition edition;
  double cd = 1;
  std::optional<bool> wet;
  std::optional<bool> repetitive;
  std::optional<bool> flat;
  std::optional<bool> incised;
  double temp_f = 70;
  std::optional<double> effective_unbraced_in;
};
BOOST_DESCRIBE_STRUCT(DesignValuesIn, (), (species, grade, size, use, edition, cd, wet, repetitive, flat, incised, temp_f, effective_unbraced_in))
doc::FieldRules field_rules(const DesignValuesIn*) {
  return {{.name = "size", .text = "nominal such as \"2x8\", or {\"b_in\", \"d_in\"} as measured", .required = true},
          {.name = "use", .text = "the table; from the size when left out"},
          {.name = "cd", .text = "load duration", .min = 0.5, .max = 2},
          {.name = "wet", .text = "moisture over 19 percent in service"},
          {.name = "repetitive", .text = "three or more at 24 in. or closer under a deck that joins them"},
          {.name = "flat", .text = "loaded on the wide face"},
          {.name = "temp_f", .text = "sustained", .min = -60, .max = 150},
          {.name = "effective_unbraced_in", .text = "le of NDS 3.3.3, where nothing holds the compression edge", .min = 0, .max = 4800, .above_min = true}};
}

struct Reference {
  double fb_psi = 0;
  double fb_single_psi = 0;
  double ft_psi = 0;
  double fv_psi = 0;
  double fc_perp_psi = 0;
  double fc_psi = 0;
  double e_psi = 0;
  double emin_psi = 0;
  double specific_gravity = 0;
};
BOOST_DESCRIBE_STRUCT(Reference, (), (fb_psi, fb_single_psi, ft_psi, fv_psi, fc_perp_psi, fc_psi, e_psi, emin_psi, specific_gravity))
doc::FieldRules field_rules(const Reference*) {
  return {{.name = "fb_psi", .text = "of decking the repetitive column"},
          {.name = "ft_psi", .text = "0 where the table has none"},
          {.name = "fc_psi", .text = "0 where the table has none"}};
}

struct AdjustedOut {
  double fb_psi = 0;
  double ft_psi = 0;
  double fv_psi = 0;
  double fc_perp_psi = 0;
  double fc_star_psi = 0;
  double e_psi = 0;
  double emin_psi = 0;
  double cf = 1;
  double cm_fb = 1;
  double cr = 1;
  double cfu = 1;
  double cl = 1;
};
BOOST_DESCRIBE_STRUCT(AdjustedOut, (), (fb_psi, ft_psi, fv_psi, fc_perp_psi, fc_star_psi, e_psi, emin_psi, cf, cm_fb, cr, cfu, cl))
doc::FieldRules field_rules(const AdjustedOut*) { return {{.name = "fc_perp_psi", .text = "without Cb"}, {.name = "fc_star_psi", .text = "without CP"}}; }

struct DesignValuesOut {
  Use use = Use::dimension;
  Reference reference;
  AdjustedOut adjusted;
  double area_in2 = 0;
  double s_in3 = 0;
  double i_in4 = 0;
  double weight_plf = 0;
  std::vector<std::string> assumed;
  std::vector<std::string> not_allowed;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(DesignValuesOut, (), (use, reference, adjusted, area_in2, s_in3, i_in4, weight_plf, assumed, not_allowed, reason))
doc::FieldRules field_rules(const DesignValuesOut*) { return {{.name = "weight_plf", .text = "at 15 percent moisture"}}; }

Outcome<DesignValuesOut> answer(const DesignValuesIn& in) {
  Problems problems;
  auto section = check_size(in.size, problems);
  const Use use = in.use.value_or(mechanics::has_grade(Use::decking, in.grade) ? Use::decking : mechanics::use_of(section));
  check_grade(use, in.grade, problems);
  if (!problems.empty()) return refused<DesignValuesOut>(problems);
  const bool flat = in.flat.value_or(use == Use::decking);
  if (flat) section = mechanics::flatwise(section);
  const auto v = mechanics::design_values(in.species, in.grade, use, section, in.edition.year);
  mechanics::Conditions conditions;
  conditions.cd = in.cd;
  conditions.wet = in.wet.value_or(false);
  conditions.temp_f = in.temp_f;
  conditions.incised = in.incised.value_or(false);
  conditions.repetitive = in.repetitive.value_or(use == Use::decking);
  conditions.flat = flat;
  conditions.effective_unbraced_in = in.effective_unbraced_in;
  const auto a = mechanics::adjust(v, section, conditions);
  DesignValuesOut out;
  out.use = use;
  out.reference = {v.fb_psi, v.fb_single_psi, v.ft_psi, v.fv_psi, v.fc_perp_psi, v.fc_psi, v.e_psi, v.emin_psi, v.specific_gravity};
  out.adjusted = {a.fb_psi, a.ft_psi, a.fv_psi, a.fc_perp_psi, a.fc_star_psi, a.e_psi, a.emin_psi, a.cf, a.cm_fb, a.cr, a.cfu, a.cl};
  out.area_in2 = section.area_in2(), out.s_in3 = section.s_in3(), out.i_in4 = section.i_in4();
  out.weight_plf = mechanics::weight_plf(v, section);
  out.assumed = v.assumed;
  out.not_allowed = a.not_allowed;
  out.reason = a.reason;
  out.reason.compares = "nothing: design values of the tables and what the conditions make of them";
  return answered(std::move(out));
}

}  // namespace design_values_topic

Topic design_values() {
  using namespace design_values_topic;
  return make_topic<DesignValuesIn, DesignValuesOut>({.id = "design-values",
                                                      .asks = "What are the design values of this lumber, and after adjustment?",
                                                      .sources = {"NDS Supplement Tables 4A, 4B, 4D, 4E; NDS 4.3"},
                                                      .example = R"({"species": "hem_fir", "grade": "no_2", "size": "2x10", "cd": 1.15, "repetitive": true})"},
                                                     answer);
}

}  // namespace awlmark::reckon
