#include "floor/member_checks.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "floor/limits.hpp"
#include "floor/rest_checks.hpp"
#include "mechanics/bearing.hpp"
#include "mechanics/cuts.hpp"
#include "mechanics/factors.hpp"
#include "mechanics/member.hpp"

namespace awlmark::floor {
namespace {

using mechanics::Adjusted;
using mechanics::Section;

// The design values property by property no better than No. 3 of the same species.
mechanics::DesignValues graded_down(const Member& member) {
  auto values = member.values;
  const auto low = mechanics::design_values(member.species, Grade::no_3, member.section);
  values.fb_psi = std::min(values.fb_psi, low.fb_psi);
  values.fb_single_psi = std::min(values.fb_single_psi, low.fb_single_psi);
  values.fv_psi = std::min(values.fv_psi, low.fv_psi);
  values.fc_perp_psi = std::min(values.fc_perp_psi, low.fc_perp_psi);
  values.e_psi = std::min(values.e_psi, low.e_psi);
  values.emin_psi = std::min(values.emin_psi, low.emin_psi);
  return values;
}

bool near_rot(const Member& member, double along_in) {
  for (const auto& zone : member.decay)
    if (zone.rot && along_in >= zone.from_in - kGradedDown_in && along_in <= zone.to_in + kGradedDown_in) return true;
  return false;
}

// The three sets of adjusted values that a member may need.
struct Values {
  Adjusted sagging;      // compression edge held by the deck
  Adjusted hogging;      // lower edge free over half of a span
  Adjusted low_sagging;  // the same, graded down
  Adjusted low_hogging;
  Adjusted sister_sagging;
  Adjusted sister_hogging;
};

Values values_of(const Member& member, double longest_span_in) {
  mechanics::Conditions held;
  held.wet = member.wet;
  held.repetitive = member.repetitive;
  auto free = held;
  free.effective_unbraced_in = mechanics::effective_unbraced_uniform_in(std::max(1.0, longest_span_in / 2), member.section.d_in);
  Values out;
  out.sagging = mechanics::adjust(member.values, member.section, held);
  out.hogging = mechanics::adjust(member.values, member.section, free);
  const auto low = graded_down(member);
  out.low_sagging = mechanics::adjust(low, member.section, held);
  out.low_hogging = mechanics::adjust(low, member.section, free);
  if (member.sister) {
    const auto& values = member.sister_values ? *member.sister_values : member.values;
    held.wet = free.wet = false;
    out.sister_sagging = mechanics::adjust(values, *member.sister, held);
    out.sister_hogging = mechanics::adjust(values, *member.sister, free);
  }
  return out;
}

// One part of the member (itself or its sister) at one station.
struct Part {
  double share = 1;
  std::optional<Section> left;
  const Adjusted* sagging = nullptr;
  const Adjusted* hogging = nullptr;
};

std::vector<Part> parts_at(const Member& member, const Values& values, double along_in) {
  const bool low = near_rot(member, along_in);
  Part own{1, section_at(member, along_in), low ? &values.low_sagging : &values.sagging, low ? &values.low_hogging : &values.hogging};
  if (!member.sister) return {own};
  const double own_ei = own.left ? own.sagging->e_psi * own.left->i_in4() : 0;
  Part sister{1, member.sister, &values.sister_sagging, &values.sister_hogging};
  const double sister_ei = sister.sagging->e_psi * member.sister->i_in4();
  own.share = own_ei / (own_ei + sister_ei);
  sister.share = sister_ei / (own_ei + sister_ei);
  if (!own.left) return {sister};
  return {own, sister};
}

struct Worst {
  double ratio = -1;
  double demand = 0;
  double capacity = 0;
  double at_in = 0;
  const Adjusted* adjusted = nullptr;
  std::optional<Section> left;
  void offer(double d, double c, double at, const Adjusted* a, const std::optional<Section>& s) {
    const double r = c > 0 ? d / c : (d > 0 ? kNoRatio : 0.0);
    if (r > ratio + 1e-12) ratio = r, demand = d, capacity = c, at_in = at, adjusted = a, left = s;
  }
};

struct WorstOf {
  Worst bending, shear;
};

void offer_station(const ForceStation& station, const std::vector<Part>& parts, WorstOf& out) {
  for (const auto& part : parts) {
    if (!part.left) {
      // Nothing is left: any force at all is too much. Stress has no meaning, so the force itself stands.
      const double moment = std::max(station.moment_max_inlb, -station.moment_min_inlb);
      if (moment > 1) out.bending.offer(moment, 0, station.along_in, part.sagging, part.left);
      if (station.shear_lb > 1) out.shear.offer(station.shear_lb, 0, station.along_in, part.sagging, part.left);
      continue;
    }
    const double s = part.left->s_in3();
    out.bending.offer(part.share * std::max(0.0, station.moment_max_inlb) / s, part.sagging->fb_psi, station.along_in, part.sagging, part.left);
    out.bending.offer(part.share * std::max(0.0, -station.moment_min_inlb) / s, part.hogging->fb_psi, station.along_in, part.hogging, part.left);
    out.shear.offer(part.share * 1.5 * station.shear_lb / part.left->area_in2(), part.sagging->fv_psi, station.along_in, part.sagging, part.left);
  }
}

Check strength_check(const Member& member, const std::string& kind, const Worst& worst, const std::string& rule, const std::string& place) {
  Reason reason = worst.adjusted ? worst.adjusted->reason : Reason{};
  reason.compares = kind + " stress in " + member_words(member) + place + " against its adjusted design value";
  reason.unit = worst.left ? "psi" : (kind.find("shear") == 0 ? "lb" : "in-lb");
  reason.rule = rule;
  std::string what = "worst at " + format_inches(worst.at_in) + " along it";
  if (worst.left)
    what += ", where " + mechanics::section_words(*worst.left) + " counts";
  else
    what += ", where nothing of it is left";
  reason.steps.insert(reason.steps.begin(), what);
  return make_check("", member.id, kind, worst.demand, worst.capacity, reason);
}

void check_strength(const Member& member, const MemberForces& forces, const Values& values, FloorChecks& out) {
  WorstOf sound, rot;
  for (const auto& station : forces.stations) {
    const bool weak = near_rot(member, station.along_in) || zone_at(member, station.along_in) != nullptr;
    offer_station(station, parts_at(member, values, station.along_in), weak ? rot : sound);
  }
  const auto put = [&](const Worst& worst, const std::string& kind, const std::string& suffix, const std::string& rule, const std::string& place) {
    if (worst.ratio < 0) return;
    auto check = strength_check(member, kind, worst, rule, place);
    check.id = member.id + "." + kind + suffix;
    add(out, check);
  };
  put(sound.bending, "bending", "", "NDS 3.3.1: fb = M / S <= Fb'", "");
  put(sound.shear, "shear", "", "NDS 3.4.1: fv = 3 V / (2 b d) <= Fv'", "");
  const std::string place = " at and near what is gone";
  put(rot.bending, "bending", "_at_rot", "NDS 3.3.1 on what is left; rotten wood counts for nothing, wood within 12 in. of it as No. 3", place);
  put(rot.shear, "shear", "_at_rot", "NDS 3.4.1 on what is left; rotten wood counts for nothing, wood within 12 in. of it as No. 3", place);
}

void check_stiffness(const Model& model, const Member& member, const MemberForces& forces, FloorChecks& out) {
  const auto live = live_limit(model.finish, model.deflection_over);
  const auto total = total_limit();
  const ForceSpan* worst = nullptr;
  const ForceSpan* worst_total = nullptr;
  // A cantilever's span counts twice (IRC Table R301.7 note b).
  const auto length = [](const ForceSpan& span) { return (span.cantilever ? 2 : 1) * (span.to_in - span.from_in); };
  for (const auto& span : forces.spans) {
    if (!worst || span.live_in / length(span) > worst->live_in / length(*worst) + 1e-12) worst = &span;
    if (!worst_total || span.total_in / length(span) > worst_total->total_in / length(*worst_total) + 1e-12) worst_total = &span;
  }
  if (!worst || !worst_total) return;
  const auto put = [&](const std::string& kind, double down, const ForceSpan& span, const Limit& limit, const std::string& what, const std::string& step) {
    Reason reason = limit.reason;
    reason.compares = what + " of " + member_words(member) + " against its limit";
    reason.unit = "in";
    reason.steps.push_back("span " + format_inches(length(span)) + (span.cantilever ? " (twice the overhang)" : "") + ", limit span / " +
                           format_number(limit.over, 0));
    reason.steps.push_back(step);
    add(out, make_check(member.id + "." + kind, member.id, kind, down, length(span) / limit.over, reason));
  };
  put("deflection_live", worst->live_in, *worst, live, "deflection under live load", "the worst pattern of live load over the spans; E' I of what is left");
  put("deflection_total", worst_total->total_in, *worst_total, total, "long-term deflection",
      std::string("Kcr dead + live, NDS 3.5.2, Kcr = ") + (member.wet ? "2.0 wet" : "1.5 dry"));
}

// Depth against breadth: how the compression edge must be held (NDS 4.4.1).
void check_slenderness(const Member& member, FloorChecks& out) {
  const double ratio =
      mechanics::nominal_width(member.section) / std::max(1.0, static_cast<double>(mechanics::nominal_thickness(member.section)) * member.section.plies);
  Reason reason;
  reason.compares = "nominal depth over breadth of " + member_words(member) + " against what a deck on one edge holds";
  reason.rule = "NDS 4.4.1.2: up to 5 to 1 with the compression edge held by the deck and the ends against turning; 6 to 1 with bridging every 8 ft";
  reason.source = "NDS";
  reason.edition = "2018";
  reason.status = SourceStatus::memory;
  add(out, make_check(member.id + ".lateral", member.id, "lateral", ratio, 6, reason));
  if (ratio > 5 && ratio <= 6) out.words.push_back(member_words(member) + " needs bridging or blocking every 8 ft.");
}

void check_cuts(const Member& member, FloorChecks& out) {
  for (std::size_t i = 0; i < member.cuts.size(); ++i) {
    const auto& cut = member.cuts[i];
    double before = 0, after = member.length_in();
    for (const double rest : member.rests_in) {
      if (rest <= cut.along_in) before = rest;
      if (rest > cut.along_in) {
        after = rest;
        break;
      }
    }
    const auto take = [&](const mechanics::Verdict& verdict, const std::string& what) {
      const std::string prefix = member.id + "." + what + std::to_string(i + 1);
      for (auto check : verdict.checks) {
        check.id = prefix + "." + check.kind;
        check.member = member.id;
        add(out, check);
      }
      if (verdict.ok) return;
      out.words.push_back(member_words(member) + ", " + what + " at " + format_inches(cut.along_in) + ": " + verdict.why);
      if (std::any_of(verdict.checks.begin(), verdict.checks.end(), [](const Check& check) { return !check.ok; })) return;
      // Refused for its place, not its size: no figure compares, so the check fails outright.
      Reason reason = mechanics::cut_limits(member.section.d_in).reason;
      reason.compares = what + " in " + member_words(member) + " against where the code allows one: " + verdict.why;
      add(out, forbidden_check(prefix + ".place", member.id, "cut_place", cut.along_in, reason));
    };
    if (cut.hole_diameter_in)
      take(mechanics::check_hole(member.section.b_in, member.section.d_in, *cut.hole_diameter_in,
                                 cut.hole_from_top_in.value_or(std::max(0.0, (member.section.d_in - *cut.hole_diameter_in) / 2))),
           "hole");
    if (cut.notch_depth_in)
      take(mechanics::check_notch(member.section.b_in, member.section.d_in, *cut.notch_depth_in, cut.notch_length_in, cut.along_in - before, after - before,
                                  cut.face == Face::bottom),
           "notch");
  }
}

}  // namespace

void add(FloorChecks& out, Check check) {
  out.ok = out.ok && check.ok;
  out.checks.push_back(std::move(check));
}

std::string member_words(const Member& member) {
  std::string words = doc::word_of(member.role) + " " + member.id + ", " + mechanics::section_words(member.section);
  if (member.sister) words += " with a sister " + mechanics::section_words(*member.sister);
  return words;
}

void check_one_member(const Model& model, const Member& member, const MemberLoads& loads, FloorChecks& out) {
  const auto forces = member_forces(member, loads, member.wet ? 2.0 : 1.5);
  if (!forces.solved) {
    out.words.push_back(member_words(member) + " could not be reckoned: its rests make no beam.");
    out.ok = false;
    return;
  }
  double longest = 0;
  for (const auto& span : forces.spans) longest = std::max(longest, span.to_in - span.from_in);
  check_strength(member, forces, values_of(member, longest), out);
  check_rests(member, forces, out);
  check_stiffness(model, member, forces, out);
  check_slenderness(member, out);
  check_cuts(member, out);
}

FloorChecks check_members(const Model& model) {
  FloorChecks out;
  const auto loads = member_loads(model);
  for (std::size_t i = 0; i < model.members.size(); ++i) {
    // A ledger or a wall's framing lies on what is behind it: its own bending is not ours to check.
    if (model.members[i].role == SupportRole::ledger || model.members[i].role == SupportRole::wall) continue;
    check_one_member(model, model.members[i], loads[i], out);
  }
  return out;
}

}  // namespace awlmark::floor
