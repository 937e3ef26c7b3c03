#include "base/length.hpp"
#include "mechanics/bearing.hpp"
#include "mechanics/design_values.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace withdrawal_topic {

enum class Fastener { nail, lag };
BOOST_DESCRIBE_ENUM(Fastener, nail, lag)

struct WithdrawalIn {
  Fastener fastener = Fastener::nail;
  std::optional<Species> species;
  std::optional<double> specific_gravity;
  double diameter_in = 0;
  double penetration_in = 0;
  double cd = 1;
  double cm = 1;
};
BOOST_DESCRIBE_STRUCT(WithdrawalIn, (), (fastener, species, specific_gravity, diameter_in, penetration_in, cd, cm))
doc::FieldRules field_rules(const WithdrawalIn*) {
  return {{.name = "fastener", .text = "smooth nail or spike; lag screw (thread)"},
          {.name = "species", .text = "or specific_gravity; unknown takes the lightest"},
          {.name = "specific_gravity", .text = "oven-dry", .min = 0.2, .max = 1.1},
          {.name = "diameter_in", .text = "of the shank", .required = true, .min = 0.05, .max = 1.5},
          {.name = "penetration_in", .text = "of the point or thread in the side grain", .required = true, .min = 0, .max = 24, .above_min = true},
          {.name = "cd", .text = "load duration", .min = 0.5, .max = 2},
          {.name = "cm", .text = "wet service: 0.25 for nails in wood that is wet at one time and dry at another", .min = 0, .max = 1, .above_min = true}};
}

struct WithdrawalOut {
  double w_lb_per_in = 0;
  double capacity_lb = 0;
  double specific_gravity = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(WithdrawalOut, (), (w_lb_per_in, capacity_lb, specific_gravity, reason))
doc::FieldRules field_rules(const WithdrawalOut*) {
  return {{.name = "w_lb_per_in", .text = "before CD and CM"}, {.name = "capacity_lb", .text = "of one fastener"}};
}

Outcome<WithdrawalOut> answer(const WithdrawalIn& in) {
  Problems problems;
  if (!in.species && !in.specific_gravity) problems.push_back({"species", "is missing", "give species (unknown where nobody knows) or specific_gravity"});
  if (in.species && in.specific_gravity) problems.push_back({"specific_gravity", "and species are both given", "keep one of them"});
  if (!problems.empty()) return refused<WithdrawalOut>(problems);
  const double g =
      in.specific_gravity ? *in.specific_gravity : mechanics::design_values(*in.species, Grade::unknown, mechanics::rectangle(1.5, 7.25)).specific_gravity;
  const bool nail = in.fastener == Fastener::nail;
  WithdrawalOut out;
  out.specific_gravity = g;
  out.w_lb_per_in = nail ? mechanics::nail_withdrawal_lb_per_in(g, in.diameter_in) : mechanics::lag_withdrawal_lb_per_in(g, in.diameter_in);
  out.capacity_lb = out.w_lb_per_in * in.penetration_in * in.cd * in.cm;
  Reason& r = out.reason;
  r.compares = "pull along a fastener against its withdrawal value in side grain";
  r.capacity = out.capacity_lb;
  r.unit = "lb";
  r.rule = nail ? "NDS 12.2.3: W = 1380 G^2.5 D" : "NDS 12.2.1: W = 1800 G^1.5 D^0.75";
  r.source = "NDS";
  r.edition = "2015 / 2018";
  r.status = SourceStatus::memory;
  r.steps.push_back("G " + format_number(g, 2) + ", D " + format_number(in.diameter_in, 3) + " in.: " + format_number(out.w_lb_per_in, 1) + " lb/in. x " +
                    format_number(in.penetration_in, 2) + " in. x CD " + format_number(in.cd, 2) + " x CM " + format_number(in.cm, 2));
  return answered(std::move(out));
}

}  // namespace withdrawal_topic

Topic withdrawal() {
  using namespace withdrawal_topic;
  return make_topic<WithdrawalIn, WithdrawalOut>({.id = "withdrawal",
                                                  .asks = "What pull does a nail or lag screw hold in side grain?",
                                                  .sources = {"NDS 12.2: withdrawal"},
                                                  .example = R"({"fastener": "nail", "species": "hem_fir", "diameter_in": 0.148, "penetration_in": 1.5})"},
                                                 answer);
}

}  // namespace awlmark::reckon
