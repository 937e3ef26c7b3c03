#include "mechanics/bearing.hpp"

#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace bearing_topic {

struct BearingIn {
  double b_in = 0;
  double fc_perp_psi = 0;
  double cm_fc_perp = 1;
  std::optional<double> reaction_lb;
  std::optional<double> bearing_length_in;
  double distance_to_end_in = 0;
};
BOOST_DESCRIBE_STRUCT(BearingIn, (), (b_in, fc_perp_psi, cm_fc_perp, reaction_lb, bearing_length_in, distance_to_end_in))
doc::FieldRules field_rules(const BearingIn*) {
  return {{.name = "b_in", .text = "width that bears", .required = true, .min = 0, .max = 40, .above_min = true},
          {.name = "fc_perp_psi", .text = "compression across the grain, of the tables", .required = true, .min = 0, .max = 5000, .above_min = true},
          {.name = "cm_fc_perp", .text = "wet service", .min = 0, .max = 1, .above_min = true},
          {.name = "reaction_lb", .text = "then bearing_needed_in, and with bearing_length_in ok", .min = 0, .max = 1e6, .above_min = true},
          {.name = "bearing_length_in", .text = "then capacity_lb", .min = 0, .max = 120, .above_min = true},
          {.name = "distance_to_end_in",
           .text = "from the bearing to the member's end; from 3 in. on a bearing under 6 in. may carry more (Cb)",
           .min = 0,
           .max = 1200}};
}

struct BearingOut {
  std::optional<double> bearing_needed_in;
  std::optional<double> capacity_lb;
  std::optional<double> cb;
  std::optional<bool> ok;
  double fc_perp_adj_psi = 0;
  double least_on_wood_in = 0;
  double least_on_masonry_in = 0;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(BearingOut, (), (bearing_needed_in, capacity_lb, cb, ok, fc_perp_adj_psi, least_on_wood_in, least_on_masonry_in, reason))
doc::FieldRules field_rules(const BearingOut*) {
  return {{.name = "bearing_needed_in", .text = "length, without Cb"},
          {.name = "fc_perp_adj_psi", .text = "without Cb"},
          {.name = "least_on_wood_in", .text = "IRC R502.6"},
          {.name = "least_on_masonry_in", .text = "IRC R502.6"}};
}

Outcome<BearingOut> answer(const BearingIn& in) {
  if (!in.reaction_lb && !in.bearing_length_in)
    return refused<BearingOut>({{"reaction_lb", "is missing", "give reaction_lb for the length, bearing_length_in for the capacity, or both"}});
  BearingOut out;
  mechanics::Adjusted adjusted;
  adjusted.fc_perp_psi = in.fc_perp_psi * in.cm_fc_perp;
  adjusted.reason.rule = "Fc_perp and CM as given";
  adjusted.reason.source = "NDS";
  adjusted.reason.edition = "2018";
  adjusted.reason.status = SourceStatus::memory;
  out.fc_perp_adj_psi = adjusted.fc_perp_psi;
  out.least_on_wood_in = mechanics::least_bearing_in(mechanics::Seat::wood_or_metal);
  out.least_on_masonry_in = mechanics::least_bearing_in(mechanics::Seat::masonry);
  if (in.reaction_lb) out.bearing_needed_in = mechanics::bearing_needed_in(*in.reaction_lb, in.b_in, adjusted.fc_perp_psi);
  if (in.bearing_length_in) {
    out.cb = mechanics::bearing_area_factor(*in.bearing_length_in, in.distance_to_end_in);
    out.capacity_lb = mechanics::bearing_capacity_lb(in.b_in, *in.bearing_length_in, adjusted.fc_perp_psi, in.distance_to_end_in);
  }
  const double length = in.bearing_length_in.value_or(out.bearing_needed_in.value_or(0)), reaction = in.reaction_lb.value_or(out.capacity_lb.value_or(0));
  const auto check = mechanics::check_bearing("bearing", "the member", reaction, in.b_in, length, adjusted, in.distance_to_end_in);
  if (in.reaction_lb && in.bearing_length_in) out.ok = check.ok;
  out.reason = check.reason;
  return answered(std::move(out));
}

}  // namespace bearing_topic

Topic bearing() {
  using namespace bearing_topic;
  return make_topic<BearingIn, BearingOut>(
      {.id = "bearing",
       .asks = "How long must a member bear, or what does a bearing carry?",
       .sources = {"NDS 3.10.2 and 3.10.4: compression across the grain, bearing area factor", "IRC R502.6: least bearing"},
       .example = R"({"b_in": 1.5, "fc_perp_psi": 405, "cm_fc_perp": 0.67, "bearing_length_in": 1.5})"},
      answer);
}

}  // namespace awlmark::reckon
