#include "reckon/topic.hpp"
#include "takeoff/quantities.hpp"

namespace awlmark::reckon {
namespace grout_topic {

struct GroutIn {
  std::vector<double> tile_in;
  double joint_in = 0;
  double depth_in = 0;
  double area_ft2 = 0;
};
BOOST_DESCRIBE_STRUCT(GroutIn, (), (tile_in, joint_in, depth_in, area_ft2))

doc::FieldRules field_rules(const GroutIn*) {
  return {{.name = "tile_in", .text = "[length, width] of one tile", .required = true, .min = 0, .max = 240, .above_min = true, .min_items = 2, .max_items = 2},
          {.name = "joint_in", .text = "width of the joint", .required = true, .min = 0, .max = 4},
          {.name = "depth_in", .text = "of the joint, the tile's thickness where it is filled", .required = true, .min = 0, .max = 10},
          {.name = "area_ft2", .required = true, .min = 0, .max = 1e7}};
}

struct GroutOut {
  double volume_in3 = 0;
  double rough_volume_in3 = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(GroutOut, (), (volume_in3, rough_volume_in3, reason))

doc::FieldRules field_rules(const GroutOut*) {
  return {{.name = "volume_in3", .text = "exact, without waste"},
          {.name = "rough_volume_in3", .text = "by the makers' formula w d (L + W) / (L W), which counts crossings twice and the joint as tile"}};
}

Outcome<GroutOut> answer(const GroutIn& in) {
  const auto grout = takeoff::grout_volume(in.tile_in[0], in.tile_in[1], in.joint_in, in.depth_in, in.area_ft2);
  GroutOut out{grout.volume_in3, grout.rough_in3, {}};
  out.reason.compares = "volume of the joints";
  out.reason.rule = "d A (1 - L W / ((L + w)(W + w)))";
  out.reason.source = "plain geometry";
  out.reason.edition = "2026";
  out.reason.status = SourceStatus::derived;
  out.reason.unit = "in3";
  return answered(std::move(out));
}

}  // namespace grout_topic

Topic grout() {
  using namespace grout_topic;
  return make_topic<GroutIn, GroutOut>({.id = "grout",
                                        .asks = "How much grout do the joints hold?",
                                        .sources = {"Plane geometry: joint volume for a tile and its share of joints"},
                                        .example = R"({"tile_in": [12, 12], "joint_in": 0.125, "depth_in": 0.375, "area_ft2": 63})"},
                                       answer);
}

}  // namespace awlmark::reckon
