#include "mechanics/decking.hpp"

#include "mechanics/factors.hpp"
#include "reckon/lumber_input.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace decking_topic {

using mechanics::Layup;

struct DeckingIn {
  std::optional<Species> species;
  std::optional<Grade> grade;
  std::optional<double> fb_psi;
  std::optional<double> e_psi;
  double thickness_in = 0;
  double span_in = 0;
  Layup layup = Layup::simple;
  double deflection_over = 360;
  std::optional<double> width_in;
  std::optional<bool> wet;
};
BOOST_DESCRIBE_STRUCT(DeckingIn, (), (species, grade, fb_psi, e_psi, thickness_in, span_in, layup, deflection_over, width_in, wet))

doc::FieldRules field_rules(const DeckingIn*) {
  return {{.name = "species", .text = "with grade, instead of fb_psi and e_psi; unknown takes the lowest values"},
          {.name = "grade", .text = "decking_select, decking_commercial; or a grade of dimension lumber laid flat, with width_in"},
          {.name = "fb_psi", .text = "adjusted: taken as it is", .min = 0, .max = 10000, .above_min = true},
          {.name = "e_psi", .text = "adjusted: taken as it is", .min = 0, .max = 1e7, .above_min = true},
          {.name = "thickness_in", .text = "actual", .required = true, .min = 0, .max = 12, .above_min = true},
          {.name = "span_in", .required = true, .min = 0, .max = 480, .above_min = true},
          {.name = "layup", .text = "how the pieces lie over the supports; random differs for 2-in. and for 3- and 4-in. decking", .required = true},
          {.name = "deflection_over", .text = "the load may bend the deck by its span over this", .min = 60, .max = 2000},
          {.name = "width_in", .text = "of a plank of dimension lumber laid flat", .min = 0, .max = 16, .above_min = true},
          {.name = "wet", .text = "moisture over 19 percent in service"}};
}

struct DeckingOut {
  double capacity_psf = 0;
  double bending_psf = 0;
  double deflection_psf = 0;
  std::string governs;
  double k_bending = 0;
  double k_deflection = 0;
  double fb_adj_psi = 0;
  double e_adj_psi = 0;
  std::vector<std::string> assumed;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(DeckingOut, (), (capacity_psf, bending_psf, deflection_psf, governs, k_bending, k_deflection, fb_adj_psi, e_adj_psi, assumed, reason))

doc::FieldRules field_rules(const DeckingOut*) {
  return {{.name = "governs", .text = "bending or deflection"}, {.name = "assumed", .text = "what was not known, and what was taken instead"}};
}

struct Strength {
  double fb_psi = 0, e_psi = 0;
  std::vector<std::string> assumed, steps;
};

// Values of the tables, laid flat; a decking grade from Table 4E, another grade from 4A or 4B.
Strength from_tables(const DeckingIn& in, Problems& problems) {
  const Grade grade = in.grade.value_or(Grade::unknown);
  const bool decking = grade == Grade::unknown || mechanics::has_grade(mechanics::Use::decking, grade);
  if (!decking && !in.width_in) {
    problems.push_back({"width_in", "is missing", "a plank of grade " + doc::word_of(grade) + " laid flat has factors that depend on its width: add it"});
    return {};
  }
  const auto section = mechanics::rectangle(decking ? in.width_in.value_or(5.5) : *in.width_in, in.thickness_in);
  const auto use = decking ? mechanics::Use::decking : mechanics::Use::dimension;
  const auto values = mechanics::design_values(in.species.value_or(Species::unknown), grade, use, section);
  const auto adjusted = mechanics::adjust(values, section, {.wet = in.wet.value_or(false), .repetitive = true, .flat = true});
  return {adjusted.fb_psi, adjusted.e_psi, values.assumed, adjusted.steps};
}

Outcome<DeckingOut> answer(const DeckingIn& in) {
  Problems problems;
  Strength strength;
  const bool given = in.fb_psi && in.e_psi;
  if (!given && !in.species && !in.grade) {
    const std::string mend = "give fb_psi and e_psi, or species and grade (unknown where nobody knows)";
    if (!in.fb_psi) problems.push_back({"fb_psi", "is missing", mend});
    if (!in.e_psi) problems.push_back({"e_psi", "is missing", mend});
  }
  if (given && in.wet.value_or(false))
    problems.push_back({"wet", "does not act on fb_psi and e_psi, which are taken as adjusted", "take it out, or give species and grade"});
  if (problems.empty() && !given) strength = from_tables(in, problems);
  if (!problems.empty()) return refused<DeckingOut>(problems);
  if (in.fb_psi) strength.fb_psi = *in.fb_psi;
  if (in.e_psi) strength.e_psi = *in.e_psi;
  const auto row = mechanics::layup_row(in.layup, in.thickness_in);
  auto c = mechanics::decking_capacity(in.layup, strength.fb_psi, strength.e_psi, in.thickness_in, in.span_in, in.deflection_over);
  c.reason.steps.insert(c.reason.steps.begin(), strength.steps.begin(), strength.steps.end());
  return answered<DeckingOut>({c.capacity_psf, c.bending_psf, c.deflection_psf, c.governs, row.k_bending, row.k_deflection, strength.fb_psi, strength.e_psi,
                               strength.assumed, c.reason});
}

}  // namespace decking_topic

Topic decking() {
  using namespace decking_topic;
  return make_topic<DeckingIn, DeckingOut>(
      {.id = "decking",
       .asks = "What load does a plank deck carry, by its layup?",
       .sources = {"IBC Table 2306.1.4 (up to 2015 2304.8): coefficients, from memory",
                   "NDS Supplement Table 4E: decking; 4A and 4B with CF and Cfu for planks laid flat"},
       .example =
           R"({"species": "douglas_fir_larch", "grade": "decking_commercial", "thickness_in": 1.5, "span_in": 60, "layup": "random", "deflection_over": 360})"},
      answer);
}

}  // namespace awlmark::reckon
