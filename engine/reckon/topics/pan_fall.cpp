#include "job/job.hpp"
#include "reckon/topic.hpp"
#include "shower/pan.hpp"

namespace awlmark::reckon {
namespace pan_fall_topic {

struct PanFallIn {
  Polygon outline_in;
  Drain drain;
  double least_fall_in_per_ft = 0.25;
  double least_thickness_in = 0;
};
BOOST_DESCRIBE_STRUCT(PanFallIn, (), (outline_in, drain, least_fall_in_per_ft, least_thickness_in))

doc::FieldRules field_rules(const PanFallIn*) {
  return {{.name = "outline_in", .text = "corners of the shower floor, in order", .required = true, .min_items = 3, .max_items = 200},
          {.name = "drain", .text = "{kind: point, at_in} or {kind: line, from_in, to_in}", .required = true},
          {.name = "least_fall_in_per_ft", .text = "along the flattest way to the drain", .min = 0, .max = 12, .above_min = true},
          {.name = "least_thickness_in", .text = "of the bed, at the drain", .min = 0, .max = 24}};
}

struct PlaneOut {
  Polygon outline_in;
  double slope_in_per_ft = 0;
};
BOOST_DESCRIBE_STRUCT(PlaneOut, (), (outline_in, slope_in_per_ft))

struct PanFallOut {
  double edge_height_in = 0;
  double edge_thickness_in = 0;
  double steepest_in_per_ft = 0;
  double flattest_in_per_ft = 0;
  double flattest_plane_in_per_ft = 0;
  double longest_run_in = 0;
  double bed_volume_ft3 = 0;
  double area_sf = 0;
  bool within_half_inch_per_ft = false;
  std::vector<PlaneOut> planes;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(PanFallOut, (),
                      (edge_height_in, edge_thickness_in, steepest_in_per_ft, flattest_in_per_ft, flattest_plane_in_per_ft, longest_run_in, bed_volume_ft3,
                       area_sf, within_half_inch_per_ft, planes, reason))

doc::FieldRules field_rules(const PanFallOut*) {
  return {{.name = "edge_height_in", .text = "of the level edge above the drain"},
          {.name = "flattest_in_per_ft", .text = "along the longest valley, corner to drain"},
          {.name = "flattest_plane_in_per_ft", .text = "of the flattest plane, straight down it"},
          {.name = "within_half_inch_per_ft", .text = "whether the steepest plane keeps the usual upper limit"}};
}

Outcome<PanFallOut> answer(const PanFallIn& in) {
  shower::PanQuestion question;
  question.outline_in = in.outline_in;
  question.least_fall_in_per_ft = in.least_fall_in_per_ft;
  question.least_thickness_in = in.least_thickness_in;
  Problems problems;
  const auto need = [&](const std::optional<Point>& p, const char* key) {
    if (!p) problems.push_back({std::string("drain.") + key, "is missing", "give a point on the plan"});
    return p.value_or(Point{});
  };
  if (in.drain.kind == DrainKind::point) {
    question.drain_from_in = question.drain_to_in = need(in.drain.at_in, "at_in");
  } else {
    question.drain_from_in = need(in.drain.from_in, "from_in");
    question.drain_to_in = need(in.drain.to_in, "to_in");
    if (problems.empty() && question.drain_from_in == question.drain_to_in)
      problems.push_back({"drain.to_in", "is the same point as from_in", "give the other end, or kind point"});
  }
  if (!problems.empty()) return refused<PanFallOut>(problems);
  const auto pan = shower::pan_fall(question);
  if (!pan) return refused<PanFallOut>(pan.problems);
  const auto& p = *pan.value;
  PanFallOut out{p.edge_height_in,
                 p.edge_height_in + in.least_thickness_in,
                 p.steepest_in_per_ft,
                 p.flattest_in_per_ft,
                 p.flattest_plane_in_per_ft,
                 p.longest_run_in,
                 p.bed_volume_ft3,
                 p.area_sf,
                 p.steepest_in_per_ft <= shower::kSteepestAllowed_in_per_ft + 1e-9,
                 {},
                 {}};
  for (const auto& plane : p.planes) out.planes.push_back({plane.outline_in, plane.slope_in_per_ft});
  out.reason.compares = "steepest plane of the pan against the usual upper limit of 1/2 in. a foot";
  out.reason.demand = p.steepest_in_per_ft;
  out.reason.capacity = shower::kSteepestAllowed_in_per_ft;
  out.reason.ratio = p.steepest_in_per_ft / shower::kSteepestAllowed_in_per_ft;
  out.reason.unit = "in/ft";
  out.reason.rule = "IRC P2709.1: 1/4 to 1/2 in. a foot; plane geometry, least fall kept along the longest valley";
  out.reason.source = "International Residential Code; plain geometry";
  out.reason.edition = "2009 text";
  out.reason.status = SourceStatus::read;
  return answered(std::move(out));
}

}  // namespace pan_fall_topic

Topic pan_fall() {
  using namespace pan_fall_topic;
  return make_topic<PanFallIn, PanFallOut>(
      {.id = "pan-fall",
       .asks = "How high is the level edge of a shower pan, and how steep does it get?",
       .sources = {"Plane geometry: planes from the level edge to the drain", "IRC P2709.1: falls of 1/4 to 1/2 in. a foot"},
       .example =
           R"({"outline_in": [[0,0],[60,0],[60,36],[0,36]], "drain": {"kind": "point", "at_in": [30, 18]}, "least_fall_in_per_ft": 0.25, "least_thickness_in": 1.25})"},
      answer);
}

}  // namespace awlmark::reckon
