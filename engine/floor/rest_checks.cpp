#include "floor/rest_checks.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/combinations.hpp"
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
constexpr double kSill_in = 3.5;       // breadth of a 2x4 plate: what may lie there where nobody measured

// The seat's breadth that rot leaves at a rest, and whether rot lies near.
double seat_b_in(const Member& member, double along_in, bool& near) {
  double b = member.section.b_in;
  for (const auto& zone : member.decay) {
    if (!zone.rot || along_in < zone.from_in - kGradedDown_in || along_in > zone.to_in + kGradedDown_in) continue;
    near = true;
    if (along_in < zone.from_in || along_in > zone.to_in) continue;
    // Rot from above leaves the seat whole until it is through; from below it takes its own breadth.
    if (zone.bottom_depth_in > kSeatRot_in) b = std::max(0.0, b - zone.bottom_width_in);
    if (zone.bottom_depth_in <= 0 && zone.top_depth_in <= 0) b = std::max(0.0, b - zone.loss.side_in);
    if (zone.top_depth_in >= member.section.d_in) b = std::max(0.0, b - zone.top_width_in);
  }
  return b;
}

Check bearing_at(const Member& member, const plan::Rest& rest, const ForceRest& force, FloorChecks& out) {
  mechanics::Conditions conditions;
  conditions.wet = member.wet;
  bool near = false;
  double b = seat_b_in(member, rest.along_in, near);
  if (rest.cap_in) b = std::min(b, *rest.cap_in);
  const auto adjusted = mechanics::adjust(near ? graded_down(member) : member.values, member.section, conditions);
  const double to_end = std::max(0.0, std::min(rest.along_in, member.length_in() - rest.along_in));
  const double reaction = largest(force.reaction_lb);
  const auto capacity_at = [&](double length_in) {
    double sum = mechanics::bearing_capacity_lb(b, length_in, adjusted.fc_perp_psi, to_end);
    if (member.sister) {
      const auto sister = mechanics::adjust(member.sister_values.value_or(member.values), *member.sister, {});
      sum += mechanics::bearing_capacity_lb(sister_bearing_in(member, rest), length_in, sister.fc_perp_psi, to_end);
    }
    return sum;
  };
  double length = rest.bearing_in;
  Reason reason = adjusted.reason;
  reason.compares = "reaction of " + member_words(member) + " at " + format_inches(rest.along_in) + " against its bearing across the grain";
  reason.unit = "lb";
  reason.rule = "NDS 3.10.2: R <= Fc_perp' b lb; IRC R502.6: at least 1 1/2\" on wood, 3\" on masonry";
  if (!rest.bearing_known && reaction > capacity_at(length) && b > 0) {
    // Nobody measured it: asked for, not failed, as long as a plate's breadth would do.
    const double needed = length * reaction / std::max(1.0, capacity_at(length));
    out.asks.push_back("Measure the bearing of " + member.id + " at " + format_length(rest.along_in) + ": it needs " +
                       format_inches(std::ceil(needed * 8) / 8) + ".");
    length = std::max(length, std::min(kSill_in, std::ceil(needed * 8) / 8));
    reason.steps.push_back("bearing not measured: " + format_inches(length) + " is needed and asked for");
  }
  reason.steps.push_back("bearing length " + format_inches(length) + (rest.bearing_known ? "" : " (not measured)") + ", breadth " + format_inches(b));
  if (member.sister) reason.steps.push_back("of the sister " + format_inches(sister_bearing_in(member, rest)) + " bear there");
  reason.steps.push_back("dead " + format_number(force.reaction_lb.dead, 0) + " lb, live " + format_number(force.reaction_lb.live_most, 0) + " lb, snow " +
                         format_number(force.reaction_lb.snow_most, 0) + " lb");
  return make_check(member.id + ".bearing", member.id, "bearing", reaction, capacity_at(length), reason);
}

// Bearing at the worst rest.
void check_bearing(const Member& member, const MemberForces& forces, FloorChecks& out) {
  std::optional<Check> worst;
  for (std::size_t r = 0; r < forces.rests.size(); ++r) {
    auto check = bearing_at(member, member.rests[r], forces.rests[r], out);
    if (!worst || check.ratio > worst->ratio + 1e-12) worst = std::move(check);
  }
  if (worst) add_for(out, member, *worst);
}

// Where the worst pattern would lift it most; said once for all members.
void say_uplift(const Member& member, const MemberForces& forces, FloorChecks& out) {
  const ForceRest* most_lifted = nullptr;
  double lift = 1;
  for (const auto& rest : forces.rests) {
    const auto& r = rest.reaction_lb;
    const double up = -(r.dead + r.live_least + r.snow_least);
    if (up > lift) lift = up, most_lifted = &rest;
  }
  if (most_lifted) out.lifts.push_back({member.id, lift});
}

void check_post(const Model& model, const Member& member, const plan::Rest& rest, const ForceRest& force, FloorChecks& out) {
  const double load = largest(force.reaction_lb);
  const double length = rest.post_length_in.value_or(model.below == Below::basement ? 96.0 : 36.0);
  const auto section = mechanics::section_from(*rest.post_size);
  const auto values = mechanics::design_values(Species::unknown, Grade::unknown, section);
  const auto post = mechanics::post_capacity(section, values, {}, length, length);
  Reason reason = post.reason;
  reason.compares = "load on the post under " + member.id + " at " + format_inches(rest.along_in) + " against its buckling strength";
  reason.unit = "lb";
  reason.rule = "NDS 3.7.1: P <= Fc' A with Fc' = Fc* CP";
  if (!rest.post_length_in) reason.steps.push_back("length not measured: " + format_inches(length) + " taken");
  reason.steps.push_back("species and grade of the post not recorded: the worst of the tables taken");
  add_for(out, member,
          post.slender_ok ? make_check(member.id + ".post", member.id, "post", load, post.capacity_lb, reason)
                          : forbidden_check(member.id + ".post", member.id, "post", load, reason));
  const auto soil = mechanics::soil_bearing(model.soil);
  if (rest.pad_in) {
    Reason pad = soil.reason;
    pad.compares = "load of the post under " + member.id + " against the soil under its footing, " + format_inches(*rest.pad_in) + " square";
    pad.unit = "lb";
    add_for(out, member, make_check(member.id + ".footing", member.id, "footing", load, soil.bearing_psf * *rest.pad_in * *rest.pad_in / 144, pad));
  } else {
    out.words.push_back("The post under " + member.id + " at " + format_inches(rest.along_in) + " brings " + format_number(load, 0) + " lb: on soil of " +
                        format_number(soil.bearing_psf, 0) + " psf it needs a pad " +
                        format_inches(std::ceil(mechanics::pad_for(load, soil.bearing_psf).square_side_in)) + " square. Measure what is there.");
  }
}

void check_posts(const Model& model, const Member& member, const MemberForces& forces, FloorChecks& out) {
  std::size_t worst = forces.rests.size();
  for (std::size_t r = 0; r < forces.rests.size(); ++r) {
    const auto& rest = member.rests[r];
    if (!rest.post_size || rest.carrier.known() || rest.on == RestOn::wall || rest.on == RestOn::foundation) continue;
    if (worst == forces.rests.size() || largest(forces.rests[r].reaction_lb) > largest(forces.rests[worst].reaction_lb) + 1e-9) worst = r;
  }
  if (worst < forces.rests.size()) check_post(model, member, member.rests[worst], forces.rests[worst], out);
}

// Boards and nails on a rotten top edge.
void check_top(const Member& member, FloorChecks& out) {
  const DecayZone* worst = nullptr;
  for (const auto& zone : member.decay)
    if (zone.rot && zone.top_depth_in > 0 && (!worst || zone.top_width_in > worst->top_width_in)) worst = &zone;
  if (!worst || member.sister || member.cleated) return;
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
  add_for(out, member, make_check(member.id + ".top_seat", member.id, "top_seat", needs_in, seat_in, seat));
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
  add_for(out, member, make_check(member.id + ".nail_holding", member.id, "nail_holding", 10 * kNail_in, into, nails));
}

}  // namespace

double sister_bearing_in(const Member& member, const plan::Rest& rest) {
  if (!member.sister) return 0;
  if (!rest.cap_in) return member.sister->b_in;
  // The old member sits in the middle of the post; the sister has what is left on its own side.
  return std::clamp((*rest.cap_in - member.section.b_in) / 2, 0.0, member.sister->b_in);
}

void check_rests(const Model& model, const Member& member, const MemberForces& forces, Unsaid how, FloorChecks& out) {
  FloorChecks own;
  check_bearing(member, forces, own);
  check_posts(model, member, forces, own);
  if (how == Unsaid::continuous) {
    say_uplift(member, forces, own);
    check_top(member, own);
  }
  // Both ways of running over a rest: the worse figure of each check is the one that stands.
  for (auto& check : own.checks) {
    const auto same =
        std::find_if(out.checks.begin(), out.checks.end(), [&](const Check& other) { return other.id == check.id && other.member == check.member; });
    if (same == out.checks.end()) {
      add(out, std::move(check));
    } else if (check.ratio > same->ratio) {
      out.ok = out.ok && !failing(check);
      *same = std::move(check);
    }
  }
  const auto once = [](std::vector<std::string>& to, const std::vector<std::string>& from) {
    for (const auto& line : from)
      if (std::find(to.begin(), to.end(), line) == to.end()) to.push_back(line);
  };
  if (how == Unsaid::continuous) {
    once(out.words, own.words);
    out.lifts.insert(out.lifts.end(), own.lifts.begin(), own.lifts.end());
  }
  once(out.asks, own.asks);
}

}  // namespace awlmark::floor
