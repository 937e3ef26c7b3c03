#include "floor/rest_checks.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "mechanics/bearing.hpp"
#include "mechanics/factors.hpp"
#include "mechanics/footing.hpp"
#include "mechanics/post.hpp"

namespace awlmark::floor {
namespace {

constexpr double kNail_in = 0.162;  // 16d common
constexpr double kNailLength_in = 3.5;
constexpr double kSeatRot_in = 0.25;   // shallower rot on a seat is dressed off
constexpr double kBoardSeat_in = 1.5;  // IRC R502.6: bearing on wood

double total_lb(const ForceRest& rest) { return rest.dead_lb + rest.live_lb; }

// Bearing of the rest that is worst, with rot at a rest taken off the length or the breadth.
void check_bearing(const Member& member, const MemberForces& forces, FloorChecks& out) {
  mechanics::Conditions conditions;
  conditions.wet = member.wet;
  auto values = member.values;
  std::optional<Check> worst;
  for (const auto& rest : forces.rests) {
    double b = member.section.b_in;
    for (const auto& zone : member.decay) {
      if (!zone.rot || rest.along_in < zone.from_in - kGradedDown_in || rest.along_in > zone.to_in + kGradedDown_in) continue;
      // Rot that reaches the seat takes its breadth; rot near it leaves the lowest grade's bearing value.
      values.fc_perp_psi = std::min(values.fc_perp_psi, mechanics::design_values(member.species, Grade::no_3, member.section).fc_perp_psi);
      if (rest.along_in < zone.from_in || rest.along_in > zone.to_in) continue;
      // Rot from above leaves the seat whole until it is through; from below it takes its own breadth.
      if (zone.bottom_depth_in > kSeatRot_in) b = std::max(0.0, b - zone.bottom_width_in);
      if (zone.bottom_depth_in <= 0 && zone.top_depth_in <= 0) b = std::max(0.0, b - zone.loss.side_in);
      if (zone.top_depth_in >= member.section.d_in) b = std::max(0.0, b - zone.top_width_in);
    }
    const auto adjusted = mechanics::adjust(values, member.section, conditions);
    const double to_end = std::max(0.0, std::min(rest.along_in, member.length_in() - rest.along_in));
    double capacity = mechanics::bearing_capacity_lb(b, member.bearing_length_in, adjusted.fc_perp_psi, to_end);
    if (member.sister) {
      const auto sister = mechanics::adjust(member.sister_values.value_or(member.values), *member.sister, {});
      capacity += mechanics::bearing_capacity_lb(member.sister->b_in, member.bearing_length_in, sister.fc_perp_psi, to_end);
    }
    Reason reason = adjusted.reason;
    reason.compares = "reaction of " + member_words(member) + " at " + format_inches(rest.along_in) + " against its bearing across the grain";
    reason.unit = "lb";
    reason.rule = "NDS 3.10.2: R <= Fc_perp' b lb; IRC R502.6: at least 1 1/2\" on wood, 3\" on masonry";
    reason.steps.push_back("bearing length " + format_inches(member.bearing_length_in) + ", breadth " + format_inches(b));
    reason.steps.push_back("dead " + format_number(rest.dead_lb, 0) + " lb, live " + format_number(rest.live_lb, 0) + " lb");
    auto check = make_check(member.id + ".bearing", member.id, "bearing", total_lb(rest), capacity, reason);
    if (!worst || check.ratio > worst->ratio + 1e-12) worst = std::move(check);
  }
  if (worst) add(out, *worst);
  for (const auto& rest : forces.rests)
    if (rest.uplift_lb > 1)
      out.words.push_back(member_words(member) + " wants to lift off its rest at " + format_inches(rest.along_in) + " by " + format_number(rest.uplift_lb, 0) +
                          " lb when only some spans are loaded: tie it down.");
}

void check_posts(const Member& member, const MemberForces& forces, FloorChecks& out) {
  if (!member.post || member.role != SupportRole::girder) return;
  const ForceRest* most = nullptr;
  for (const auto& rest : forces.rests)
    if (!most || total_lb(rest) > total_lb(*most) + 1e-9) most = &rest;
  if (!most) return;
  const auto values = mechanics::design_values(Species::unknown, Grade::unknown, *member.post);
  const auto post = mechanics::post_capacity(*member.post, values, {}, member.post_length_in, member.post_length_in);
  Reason reason = post.reason;
  reason.compares = "load on the post under " + member.id + " at " + format_inches(most->along_in) + " against its buckling strength";
  reason.unit = "lb";
  reason.rule = "NDS 3.7.1: P <= Fc' A with Fc' = Fc* CP";
  if (!member.post_length_known) reason.steps.push_back("length not measured: " + format_inches(member.post_length_in) + " taken");
  reason.steps.push_back("species and grade of the post not recorded: the worst of the tables taken");
  add(out, post.slender_ok ? make_check(member.id + ".post", member.id, "post", total_lb(*most), post.capacity_lb, reason)
                           : forbidden_check(member.id + ".post", member.id, "post", total_lb(*most), reason));
  const auto soil = mechanics::soil_bearing(mechanics::Soil::unknown);
  const auto pad = mechanics::pad_for(total_lb(*most), soil.bearing_psf);
  out.words.push_back("The post under " + member.id + " at " + format_inches(most->along_in) + " brings " + format_number(total_lb(*most), 0) +
                      " lb: on soil of " + format_number(soil.bearing_psf, 0) + " psf it needs a pad " + format_inches(std::ceil(pad.square_side_in)) +
                      " square. Measure what is there.");
}

// Boards and nails on a rotten top edge.
void check_top(const Member& member, FloorChecks& out) {
  const DecayZone* worst = nullptr;
  for (const auto& zone : member.decay)
    if (zone.rot && zone.top_depth_in > 0 && (!worst || zone.top_width_in > worst->top_width_in)) worst = &zone;
  if (!worst || member.sister) return;
  const double seat_in = std::max(0.0, member.section.b_in - worst->top_width_in);
  const double needs_in = std::min(kBoardSeat_in, member.section.b_in);
  Reason seat;
  seat.compares = "seat that boards need on top of " + member.id + " against the sound width left there";
  seat.unit = "in";
  seat.rule = "IRC R502.6: at least 1 1/2\" of bearing on wood, or the whole breadth of a thinner member";
  seat.source = "IRC";
  seat.edition = "2018";
  seat.status = SourceStatus::read;
  seat.steps.push_back("rot " + format_inches(worst->top_width_in) + " wide and " + format_inches(worst->top_depth_in) + " deep from " +
                       format_inches(worst->from_in) + " to " + format_inches(worst->to_in));
  add(out, make_check(member.id + ".top_seat", member.id, "top_seat", needs_in, seat_in, seat));
  if (seat_in >= needs_in) return;  // nails find the sound part
  double depth_in = 0;
  for (const auto& zone : member.decay)
    if (zone.rot) depth_in = std::max(depth_in, zone.top_depth_in);
  Reason nails;
  nails.compares = "nail in sound wood of " + member.id + " below the rot against what full holding needs";
  nails.unit = "in";
  nails.rule = "NDS 12.1.6: 10 diameters of penetration for full lateral value; rot holds nothing";
  nails.source = "NDS";
  nails.edition = "2018";
  nails.status = SourceStatus::memory;
  nails.steps.push_back("16d common, 3 1/2\" long, through 1 1/2\" of plank");
  const double into = std::max(0.0, kNailLength_in - 1.5 - depth_in);
  add(out, make_check(member.id + ".nail_holding", member.id, "nail_holding", 10 * kNail_in, into, nails));
}

}  // namespace

void check_rests(const Member& member, const MemberForces& forces, FloorChecks& out) {
  check_bearing(member, forces, out);
  check_posts(member, forces, out);
  check_top(member, out);
}

}  // namespace awlmark::floor
