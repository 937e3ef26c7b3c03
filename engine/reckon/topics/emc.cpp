#include "drying/air.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace emc_topic {

struct EmcIn {
  double temp_f = 0;
  double rh_percent = 0;
};
BOOST_DESCRIBE_STRUCT(EmcIn, (), (temp_f, rh_percent))

doc::FieldRules field_rules(const EmcIn*) {
  return {{.name = "temp_f", .text = "of the air around the wood", .required = true, .min = -40, .max = 300},
          {.name = "rh_percent", .required = true, .min = 0, .max = 100}};
}

struct EmcOut {
  double emc_percent = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(EmcOut, (), (emc_percent, reason))

doc::FieldRules field_rules(const EmcOut*) { return {{.name = "emc_percent", .text = "moisture content that wood comes to, percent of its ovendry mass"}}; }

Outcome<EmcOut> answer(const EmcIn& in) {
  EmcOut out;
  out.emc_percent = drying::emc_percent(in.temp_f, in.rh_percent);
  out.reason.compares = "moisture content of wood in steady air";
  out.reason.unit = "percent";
  out.reason.rule = "Eq. 4-5, Fahrenheit coefficients; within 0.07 point of Table 4-2";
  out.reason.source = "Wood Handbook, FPL-GTR-282";
  out.reason.edition = "2021";
  out.reason.status = SourceStatus::read;
  auto outcome = answered(std::move(out));
  if (in.temp_f < 30 || in.temp_f > 270 || in.rh_percent > 95)
    outcome.warnings.push_back({"", "lies outside the table that the equation was fitted to (30 to 270 F, 5 to 95 percent)", "take the figure as rough"});
  return outcome;
}

}  // namespace emc_topic

Topic emc() {
  using namespace emc_topic;
  return make_topic<EmcIn, EmcOut>({.id = "emc",
                                    .asks = "What moisture content does wood come to in this air?",
                                    .sources = {"Wood Handbook, FPL-GTR-282 (2021), Eq. 4-5 and Table 4-2"},
                                    .example = R"({"temp_f": 70, "rh_percent": 50})"},
                                   answer);
}

}  // namespace awlmark::reckon
