#include "drying/air.hpp"

#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace air_topic {

struct AirIn {
  double temp_f = 0;
  double rh_percent = 0;
  std::optional<double> pressure_psi;
};
BOOST_DESCRIBE_STRUCT(AirIn, (), (temp_f, rh_percent, pressure_psi))

doc::FieldRules field_rules(const AirIn*) {
  return {{.name = "temp_f", .text = "dry bulb", .required = true, .min = -148, .max = 392},
          {.name = "rh_percent", .required = true, .min = 0, .max = 100},
          {.name = "pressure_psi", .text = "absolute; 14.696 at sea level when left out", .min = 1, .max = 100}};
}

struct AirOut {
  double vapour_pressure_psi = 0;
  double humidity_ratio = 0;
  double dew_point_f = 0;
  double wet_bulb_f = 0;
  double enthalpy_btu_per_lb = 0;
  double grains_per_lb = 0;
  double volume_ft3_per_lb = 0;
  double saturation_pressure_psi = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(AirOut, (),
                      (vapour_pressure_psi, humidity_ratio, dew_point_f, wet_bulb_f, enthalpy_btu_per_lb, grains_per_lb, volume_ft3_per_lb,
                       saturation_pressure_psi, reason))

doc::FieldRules field_rules(const AirOut*) {
  return {{.name = "humidity_ratio", .text = "pounds of water for a pound of dry air: compare this, or the dew point, when air is brought in"},
          {.name = "enthalpy_btu_per_lb", .text = "for a pound of dry air, 0 at 0 F"},
          {.name = "volume_ft3_per_lb", .text = "for a pound of dry air"}};
}

Outcome<AirOut> answer(const AirIn& in) {
  const double pressure = in.pressure_psi.value_or(drying::kStandardPressure_psi);
  const auto air = drying::air(in.temp_f, in.rh_percent, pressure);
  if (air.vapour_pressure_psi >= pressure)
    return refused<AirOut>({{"temp_f", "makes a vapour pressure above the pressure of the air", "give a lower temperature, or the pressure"}});
  AirOut out{air.vapour_pressure_psi, air.humidity_ratio,          air.dew_point_f,
             air.wet_bulb_f,          air.enthalpy_btu_per_lb,     air.grains_per_lb,
             air.volume_ft3_per_lb,   air.saturation_pressure_psi, {}};
  out.reason.compares = "state of moist air";
  out.reason.rule = "ideal gas; saturation over ice below the triple point, over water above; no enhancement factor";
  out.reason.source = "ASHRAE Handbook Fundamentals, chapter 1";
  out.reason.edition = "2017";
  out.reason.status = SourceStatus::read;
  return answered(std::move(out));
}

}  // namespace air_topic

Topic air() {
  using namespace air_topic;
  return make_topic<AirIn, AirOut>(
      {.id = "air",
       .asks = "How much water does this air hold, and at what temperature does it give it up?",
       .sources = {"ASHRAE Handbook Fundamentals (2017), chapter 1: Eq. 5, 6, 20, 30, 33, 35, as carried by the open library PsychroLib"},
       .example = R"({"temp_f": 70, "rh_percent": 45})"},
      answer);
}

}  // namespace awlmark::reckon
