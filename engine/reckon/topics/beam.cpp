#include "mechanics/beam.hpp"

#include "base/length.hpp"
#include "reckon/beam_input.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace beam_topic {

using mechanics::End;

struct BeamIn {
  std::vector<double> spans_in;
  double e_psi = 0;
  double i_in4 = 0;
  std::vector<End> ends;
  std::vector<LoadItem> loads;
  std::vector<double> stations_in;
};
BOOST_DESCRIBE_STRUCT(BeamIn, (), (spans_in, e_psi, i_in4, ends, loads, stations_in))

doc::FieldRules field_rules(const BeamIn*) {
  return {{.name = "spans_in", .text = "left to right", .required = true, .min = 0, .max = 1e5, .above_min = true, .min_items = 1, .max_items = 60},
          {.name = "e_psi", .required = true, .min = 0, .max = 1e9, .above_min = true},
          {.name = "i_in4", .required = true, .min = 0, .max = 1e9, .above_min = true},
          {.name = "ends", .text = "left and right; free makes the first or last span a cantilever; both pinned when left out", .max_items = 2},
          {.name = "loads", .text = "none: every answer is 0", .max_items = 500},
          {.name = "stations_in", .text = "places at which shear, moment and deflection are wanted", .min = 0, .max = 1e5, .max_items = 500}};
}

struct StationOut {
  double at_in = 0;
  double shear_lb = 0;
  double moment_inlb = 0;
  double deflection_in = 0;
};
BOOST_DESCRIBE_STRUCT(StationOut, (), (at_in, shear_lb, moment_inlb, deflection_in))

struct SpanOut {
  double shear_max_lb = 0;
  double moment_max_inlb = 0;
  double moment_max_at_in = 0;
  double moment_min_inlb = 0;
  double moment_min_at_in = 0;
  double deflection_max_in = 0;
  double deflection_max_at_in = 0;
  double deflection_min_in = 0;
};
BOOST_DESCRIBE_STRUCT(SpanOut, (),
                      (shear_max_lb, moment_max_inlb, moment_max_at_in, moment_min_inlb, moment_min_at_in, deflection_max_in, deflection_max_at_in,
                       deflection_min_in))

struct BeamOut {
  std::vector<double> reactions_lb;
  double shear_max_lb = 0;
  double moment_max_inlb = 0;
  double moment_max_at_in = 0;
  double moment_min_inlb = 0;
  double moment_min_at_in = 0;
  double deflection_max_in = 0;
  double deflection_max_at_in = 0;
  double deflection_min_in = 0;
  std::vector<double> supports_in;
  std::vector<double> support_moments_inlb;
  std::optional<double> deflection_left_in;
  std::optional<double> deflection_right_in;
  bool uplift = false;
  std::vector<SpanOut> spans;
  std::vector<StationOut> stations;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(BeamOut, (),
                      (reactions_lb, shear_max_lb, moment_max_inlb, moment_max_at_in, moment_min_inlb, moment_min_at_in, deflection_max_in,
                       deflection_max_at_in, deflection_min_in, supports_in, support_moments_inlb, deflection_left_in, deflection_right_in, uplift, spans,
                       stations, reason))

doc::FieldRules field_rules(const BeamOut*) {
  return {{.name = "reactions_lb", .text = "one a support, upwards; none at a free end"},
          {.name = "shear_max_lb", .text = "largest size of the shear"},
          {.name = "moment_max_inlb", .text = "largest sagging moment"},
          {.name = "moment_min_inlb", .text = "largest hogging moment, negative"},
          {.name = "deflection_max_in", .text = "largest downward deflection"},
          {.name = "deflection_min_in", .text = "largest upward deflection, negative"},
          {.name = "support_moments_inlb", .text = "sagging positive, one a support"},
          {.name = "deflection_left_in", .text = "at a free left end, downwards"},
          {.name = "deflection_right_in", .text = "at a free right end, downwards"},
          {.name = "uplift", .text = "a support would have to hold the beam down"}};
}

BeamOut to_out(const BeamIn& in, const mechanics::BeamResult& r, const mechanics::Beam& beam) {
  BeamOut out;
  out.reactions_lb = r.reactions_lb;
  out.shear_max_lb = r.shear_max_lb;
  out.moment_max_inlb = r.moment_max_inlb, out.moment_max_at_in = r.moment_max_at_in;
  out.moment_min_inlb = r.moment_min_inlb, out.moment_min_at_in = r.moment_min_at_in;
  out.deflection_max_in = r.deflection_max_in, out.deflection_max_at_in = r.deflection_max_at_in;
  out.deflection_min_in = r.deflection_min_in;
  out.supports_in = r.supports_in;
  for (const double at : r.supports_in) out.support_moments_inlb.push_back(r.at(at).moment_inlb);
  if (beam.left == End::free) out.deflection_left_in = r.deflection_left_in;
  if (beam.right == End::free) out.deflection_right_in = r.deflection_right_in;
  out.uplift = r.uplift;
  for (const auto& s : r.spans)
    out.spans.push_back({s.shear_max_lb, s.moment_max_inlb, s.moment_max_at_in, s.moment_min_inlb, s.moment_min_at_in, s.deflection_max_in,
                         s.deflection_max_at_in, s.deflection_min_in});
  for (const double x : in.stations_in) {
    const auto s = r.at(x);
    out.stations.push_back({s.at_in, s.shear_lb, s.moment_inlb, s.deflection_in});
  }
  Reason& reason = out.reason;
  reason.compares = "nothing: forces and deflections of a straight beam under given loads";
  reason.rule = "three-moment equations, then statics; extremes at the roots of the derivatives; bending only, no shear deformation";
  reason.source = "beam theory";
  reason.edition = "-";
  reason.status = SourceStatus::derived;
  double load = 0, reactions = 0;
  for (const auto& l : beam.loads.lines) load += 0.5 * (l.w_from_pli + l.w_to_pli) * (l.to_in - l.from_in);
  for (const auto& p : beam.loads.points) load += p.p_lb;
  for (const double reaction : r.reactions_lb) reactions += reaction;
  reason.steps.push_back("loads " + format_number(load, 3) + " lb, reactions together " + format_number(reactions, 3) + " lb");
  return out;
}

Outcome<BeamOut> answer(const BeamIn& in) {
  Problems problems;
  if (in.ends.size() == 1) problems.push_back({"ends", "names one end only", "give both, left then right"});
  mechanics::Beam beam = mechanics::prismatic(in.spans_in, in.e_psi, in.i_in4);
  if (in.ends.size() == 2) beam.left = in.ends[0], beam.right = in.ends[1];
  beam.loads = to_loads(in.loads, beam.length_in(), problems);
  for (std::size_t i = 0; i < in.stations_in.size(); ++i)
    if (in.stations_in[i] > beam.length_in() + 1e-6)
      problems.push_back({"stations_in[" + std::to_string(i) + "]", "lies past the end of the beam", "measure from the left end"});
  if (problems.empty()) problems = mechanics::check(beam);
  if (!problems.empty()) return refused<BeamOut>(problems);
  return answered(to_out(in, mechanics::solve(beam), beam));
}

}  // namespace beam_topic

Topic beam() {
  using namespace beam_topic;
  return make_topic<BeamIn, BeamOut>(
      {.id = "beam",
       .asks = "What are the reactions, shear, moments and deflection of a beam?",
       .sources = {"beam theory (three-moment equations); checked against AWC Design Aid 6, Beam Formulas with Shear and Moment Diagrams"},
       .example = R"({"spans_in": [96, 96], "e_psi": 1600000, "i_in4": 98.93, "ends": ["pinned", "pinned"],
 "loads": [{"kind": "uniform", "w_pli": 5.5556, "from_in": 0, "to_in": 192}, {"kind": "point", "p_lb": 300, "at_in": 48}]})"},
      answer);
}

}  // namespace awlmark::reckon
