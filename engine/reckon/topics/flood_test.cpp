#include "job/job.hpp"
#include "reckon/topic.hpp"
#include "shower/pan.hpp"
#include "tables/table.hpp"

namespace awlmark::reckon {
namespace flood_test_topic {

struct FloodIn {
  Polygon outline_in;
  Drain drain;
  double least_fall_in_per_ft = 0.25;
  std::optional<double> depth_in;
  PlumbingCode code = PlumbingCode::irc;
};
BOOST_DESCRIBE_STRUCT(FloodIn, (), (outline_in, drain, least_fall_in_per_ft, depth_in, code))

doc::FieldRules field_rules(const FloodIn*) {
  return {{.name = "outline_in", .text = "corners of the shower floor, in order", .required = true, .min_items = 3, .max_items = 200},
          {.name = "drain", .text = "{kind: point, at_in} or {kind: line, from_in, to_in}", .required = true},
          {.name = "least_fall_in_per_ft", .min = 0, .max = 12, .above_min = true},
          {.name = "depth_in", .text = "of water at the level edge; the code's where it is left out", .min = 0, .max = 12, .above_min = true}};
}

struct FloodOut {
  double depth_in = 0;
  double volume_ft3 = 0;
  double volume_gal = 0;
  double weight_lb = 0;
  double mean_load_psf = 0;
  double hours = 0;
  double legal_hours = 0;
  double trade_hours = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(FloodOut, (), (depth_in, volume_ft3, volume_gal, weight_lb, mean_load_psf, hours, legal_hours, trade_hours, reason))
doc::FieldRules field_rules(const FloodOut*) { return {{.name = "hours", .text = "the longer of what the code and the tile trade hold"}}; }

double rule(const std::string& id, PlumbingCode code) {
  const auto& table = tables::table("shower_rules.csv");
  const auto* row = table.find("id", id, "code", code == PlumbingCode::upc ? "upc" : "irc");
  if (!row) row = table.find("id", id, "code", "any");
  return row->number("value");
}

Outcome<FloodOut> answer(const FloodIn& in) {
  shower::PanQuestion question;
  question.outline_in = in.outline_in;
  question.least_fall_in_per_ft = in.least_fall_in_per_ft;
  const bool point = in.drain.kind == DrainKind::point;
  if (point ? !in.drain.at_in : !in.drain.from_in || !in.drain.to_in)
    return refused<FloodOut>({{point ? "drain.at_in" : "drain.from_in", "is missing", point ? "give a point on the plan" : "give both ends of the drain"}});
  question.drain_from_in = point ? *in.drain.at_in : *in.drain.from_in;
  question.drain_to_in = point ? *in.drain.at_in : *in.drain.to_in;
  const auto pan = shower::pan_fall(question);
  if (!pan) return refused<FloodOut>(pan.problems);
  FloodOut out;
  out.depth_in = in.depth_in.value_or(rule("flood_depth", in.code));
  out.volume_ft3 = shower::pan_water_ft3(*pan.value, out.depth_in);
  out.volume_gal = out.volume_ft3 * 1728 / 231;
  out.weight_lb = out.volume_ft3 * rule("water_weight", in.code);
  out.mean_load_psf = out.weight_lb / pan.value->area_sf;
  out.legal_hours = rule("flood_legal", in.code);
  out.trade_hours = rule("flood_trade", in.code);
  out.hours = std::max(out.legal_hours, out.trade_hours);
  out.reason = tables::table("shower_rules.csv").find("id", "flood_depth", "code", "any")->reason();
  out.reason.compares = "depth of the flood test at the threshold, in.";
  out.reason.steps = {"water over the level edge, and the pan below it by its planes", "62.3 lb/ft3 (ASTM D5957 note 1)"};
  return answered(std::move(out));
}

}  // namespace flood_test_topic

Topic flood_test() {
  using namespace flood_test_topic;
  return make_topic<FloodIn, FloodOut>(
      {.id = "flood-test",
       .asks = "How much water does a shower pan hold in its flood test, and what does it weigh?",
       .sources = {"IPC 312.9; IRC P2503.6: 2 in. at the threshold, 15 minutes", "common practice of the tile trade: 24 hours"},
       .example = R"({"outline_in": [[0,0],[60,0],[60,36],[0,36]], "drain": {"kind": "point", "at_in": [30, 18]}})"},
      answer);
}

}  // namespace awlmark::reckon
