#include "drying/air.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace outdoor_air_topic {

struct OutdoorIn {
  double inside_temp_f = 0;
  double inside_rh_percent = 0;
  double outside_temp_f = 0;
  double outside_rh_percent = 0;
  double airflow_cfm = 100;
};
BOOST_DESCRIBE_STRUCT(OutdoorIn, (), (inside_temp_f, inside_rh_percent, outside_temp_f, outside_rh_percent, airflow_cfm))

doc::FieldRules field_rules(const OutdoorIn*) {
  return {{.name = "inside_temp_f", .required = true, .min = -60, .max = 160},
          {.name = "inside_rh_percent", .required = true, .min = 0, .max = 100},
          {.name = "outside_temp_f", .required = true, .min = -60, .max = 160},
          {.name = "outside_rh_percent", .required = true, .min = 0, .max = 100},
          {.name = "airflow_cfm", .min = 0, .max = 100000}};
}

struct OutdoorOut {
  bool helps = false;
  double inside_grains_per_lb = 0;
  double outside_grains_per_lb = 0;
  double dew_point_limit_f = 0;
  double water_removed_lb_per_h = 0;
  double water_removed_pints_per_day = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(OutdoorOut, (),
                      (helps, inside_grains_per_lb, outside_grains_per_lb, dew_point_limit_f, water_removed_lb_per_h, water_removed_pints_per_day, reason))
doc::FieldRules field_rules(const OutdoorOut*) {
  return {{.name = "dew_point_limit_f", .text = "outdoor air with a dew point above this wets"},
          {.name = "water_removed_lb_per_h", .text = "with that much air let through; negative where it brings water in"}};
}

Outcome<OutdoorOut> answer(const OutdoorIn& in) {
  constexpr double kLbPerPint = 1.043176;  // of water: 231/8 in3 at 62.4 lb/ft3
  const auto inside = drying::air(in.inside_temp_f, in.inside_rh_percent), outside = drying::air(in.outside_temp_f, in.outside_rh_percent);
  OutdoorOut out;
  out.helps = outside.humidity_ratio < inside.humidity_ratio;
  out.inside_grains_per_lb = inside.grains_per_lb;
  out.outside_grains_per_lb = outside.grains_per_lb;
  out.dew_point_limit_f = inside.dew_point_f;
  out.water_removed_lb_per_h = 60 * in.airflow_cfm / inside.volume_ft3_per_lb * (inside.humidity_ratio - outside.humidity_ratio);
  out.water_removed_pints_per_day = out.water_removed_lb_per_h * 24 / kLbPerPint;
  out.reason.compares = "water in the outdoor air against that inside, lb for a pound of dry air";
  out.reason.demand = outside.humidity_ratio;
  out.reason.capacity = inside.humidity_ratio;
  if (inside.humidity_ratio > 0) out.reason.ratio = outside.humidity_ratio / inside.humidity_ratio;
  out.reason.rule = "60 Q / v (Win - Wout); relative humidity alone does not tell";
  out.reason.source = "ASHRAE Handbook Fundamentals ch. 1";
  out.reason.edition = "2017";
  out.reason.status = SourceStatus::read;
  return answered(std::move(out));
}

}  // namespace outdoor_air_topic

Topic outdoor_air() {
  using namespace outdoor_air_topic;
  return make_topic<OutdoorIn, OutdoorOut>(
      {.id = "outdoor-air",
       .asks = "Does outdoor air dry the wood or wet it, and how much water does it carry away?",
       .sources = {"ASHRAE Handbook Fundamentals ch. 1: humidity ratio and volume of moist air"},
       .example = R"({"inside_temp_f": 68, "inside_rh_percent": 60, "outside_temp_f": 50, "outside_rh_percent": 80, "airflow_cfm": 100})"},
      answer);
}

}  // namespace awlmark::reckon
