#include "shower/trap_arm.hpp"

#include "base/length.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace trap_arm_topic {

struct TrapArmIn {
  double pipe_in = 0;
  double length_ft = 0;
  double fall_in_per_ft = 0.25;
  PlumbingCode code = PlumbingCode::irc;
};
BOOST_DESCRIBE_STRUCT(TrapArmIn, (), (pipe_in, length_ft, fall_in_per_ft, code))

doc::FieldRules field_rules(const TrapArmIn*) {
  return {{.name = "pipe_in", .text = "nominal: 1.25, 1.5, 2, 3 or 4", .required = true, .min = 0, .max = 12, .above_min = true},
          {.name = "length_ft", .text = "along the centreline, from the weir to the vent fitting", .required = true, .min = 0, .max = 200},
          {.name = "fall_in_per_ft", .required = true, .min = 0, .max = 12},
          {.name = "code", .text = "irc or upc: they differ", .required = true}};
}

struct TrapArmOut {
  bool ok = false;
  double longest_ft = 0;
  double total_fall_in = 0;
  double table_ft = 0;
  double shortest_ft = 0;
  double least_fall_in_per_ft = 0;
  std::vector<std::string> why;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(TrapArmOut, (), (ok, longest_ft, total_fall_in, table_ft, shortest_ft, least_fall_in_per_ft, why, reason))

doc::FieldRules field_rules(const TrapArmOut*) {
  return {{.name = "longest_ft", .text = "at this fall: the table, or one pipe diameter of fall"}, {.name = "why", .text = "what fails; empty when all holds"}};
}

Outcome<TrapArmOut> answer(const TrapArmIn& in) {
  const auto arm = shower::trap_arm(in.pipe_in, in.length_ft, in.fall_in_per_ft, in.code);
  if (!arm) {
    std::string known;
    for (const double pipe : shower::trap_arm_pipes_in(in.code))
      known += (known.empty() ? "" : ", ") + format_number(pipe, pipe == static_cast<int>(pipe) ? 0 : 2);
    return refused<TrapArmOut>({{"pipe_in", "is not a size of the table", "give one of " + known}});
  }
  return answered<TrapArmOut>(
      {arm->ok, arm->longest_ft, arm->total_fall_in, arm->table_ft, arm->shortest_ft, arm->least_fall_in_per_ft, arm->why, arm->reason});
}

}  // namespace trap_arm_topic

Topic trap_arm() {
  using namespace trap_arm_topic;
  return make_topic<TrapArmIn, TrapArmOut>({.id = "trap-arm",
                                            .asks = "May the pipe from trap to vent be this long at this fall?",
                                            .sources = {"IRC P3105.1, P3105.2; IPC Table 909.1", "UPC Table 1002.2"},
                                            .example = R"({"pipe_in": 2, "length_ft": 5.5, "fall_in_per_ft": 0.25, "code": "irc"})"},
                                           answer);
}

}  // namespace awlmark::reckon
