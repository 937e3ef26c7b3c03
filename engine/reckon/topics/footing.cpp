#include "mechanics/footing.hpp"

#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace footing_topic {

using mechanics::Soil;

struct FootingIn {
  double load_lb = 0;
  Soil soil = Soil::unknown;
  std::optional<double> soil_psf;
};
BOOST_DESCRIBE_STRUCT(FootingIn, (), (load_lb, soil, soil_psf))
doc::FieldRules field_rules(const FootingIn*) {
  return {{.name = "load_lb", .text = "of the post; the pad's own weight is not counted", .required = true, .min = 0, .max = 1e6, .above_min = true},
          {.name = "soil", .text = "presumptive value of the code; unknown is 1500 psf"},
          {.name = "soil_psf", .text = "instead of soil: from a soil report or the local office", .min = 100, .max = 50000}};
}

struct FootingOut {
  double area_ft2 = 0;
  double square_side_in = 0;
  double round_diameter_in = 0;
  double soil_psf = 0;
  Reason soil_reason;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(FootingOut, (), (area_ft2, square_side_in, round_diameter_in, soil_psf, soil_reason, reason))

Outcome<FootingOut> answer(const FootingIn& in) {
  if (in.soil_psf && in.soil != Soil::unknown) return refused<FootingOut>({{"soil_psf", "and soil are both given", "keep one of them"}});
  auto soil = mechanics::soil_bearing(in.soil);
  if (in.soil_psf) {
    soil.bearing_psf = *in.soil_psf;
    soil.reason = {};
    soil.reason.rule = "soil_psf as given";
    soil.reason.source = "the question";
    soil.reason.status = SourceStatus::derived;
  }
  const auto pad = mechanics::pad_for(in.load_lb, soil.bearing_psf);
  return answered<FootingOut>({pad.area_ft2, pad.square_side_in, pad.round_diameter_in, soil.bearing_psf, soil.reason, pad.reason});
}

}  // namespace footing_topic

Topic footing() {
  using namespace footing_topic;
  return make_topic<FootingIn, FootingOut>(
      {.id = "footing",
       .asks = "How large a pad does a post or a shore need on the soil?",
       .sources = {"IRC Table R401.4.1: presumptive bearing values; R403.1.1: area", "24 CFR 3285.202: 1500 psf where nothing is known"},
       .example = R"({"load_lb": 4500, "soil": "clay"})"},
      answer);
}

}  // namespace awlmark::reckon
