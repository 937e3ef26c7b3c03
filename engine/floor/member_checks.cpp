#include "floor/member_checks.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "floor/combinations.hpp"
#include "floor/limits.hpp"
#include "floor/rest_checks.hpp"
#include "mechanics/factors.hpp"
#include "mechanics/member.hpp"

namespace awlmark::floor {
namespace {

using mechanics::Adjusted;
using mechanics::Section;

// The three sets of adjusted values that a member may need.
struct Values {
  Adjusted sagging;      // compression edge held by the deck
  Adjusted hogging;      // lower edge free over half of a span
  Adjusted low_sagging;  // the same, graded down
  Adjusted low_hogging;
  Adjusted sister_sagging;
  Adjusted sister_hogging;
};

Values values_of(const Member& member, double longest_span_in, double cd) {
  mechanics::Conditions held;
  held.cd = cd;
  held.wet = member.wet;
  held.repetitive = member.repetitive;
  auto free = held;
  free.effective_unbraced_in = mechanics::effective_unbraced_uniform_in(std::max(1.0, longest_span_in / 2), member.section.d_in);
  Values out;
  out.sagging = mechanics::adjust(member.values, member.section, held);
  out.hogging = mechanics::adjust(member.values, member.section, free);
  if (member.decay.empty()) {
    out.low_sagging = out.sagging;
    out.low_hogging = out.hogging;
  } else {
    const auto low = graded_down(member);
    out.low_sagging = mechanics::adjust(low, member.section, held);
    out.low_hogging = mechanics::adjust(low, member.section, free);
  }
  if (member.sister) {
    const auto& values = member.sister_values ? *member.sister_values : member.values;
    held.wet = free.wet = false;
    out.sister_sagging = mechanics::adjust(values, *member.sister, held);
    out.sister_hogging = mechanics::adjust(values, *member.sister, free);
  }
  return out;
}

// One part of the member (itself or its sister) at one station.
struct Ply {
  double share = 1;
  std::optional<Section> left;
  const Adjusted* sagging = nullptr;
  const Adjusted* hogging = nullptr;
};

std::vector<Ply> parts_at(const Member& member, const Values& values, double along_in) {
  const bool low = near_rot(member, along_in);
  Ply own{1, section_at(member, along_in), low ? &values.low_sagging : &values.sagging, low ? &values.low_hogging : &values.hogging};
  if (!member.sister) return {own};
  const double own_ei = own.left ? own.sagging->e_psi * own.left->i_in4() : 0;
  Ply sister{1, member.sister, &values.sister_sagging, &values.sister_hogging};
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
  const char* combination = "";
  Unsaid unsaid = Unsaid::continuous;
  void offer(const Worst& other) {
    if (other.ratio > ratio + 1e-12) *this = other;
  }
  void offer(double d, double c, double at, const Adjusted* a, const std::optional<Section>& s, const char* words, Unsaid how) {
    const double r = c > 0 ? d / c : (d > 0 ? kNoRatio : 0.0);
    if (r > ratio + 1e-12) ratio = r, demand = d, capacity = c, at_in = at, adjusted = a, left = s, combination = words, unsaid = how;
  }
};

struct WorstOf {
  Worst bending, shear;
};

void offer_station(const ForceStation& station, const std::vector<Ply>& parts, const Combination& c, Unsaid how, WorstOf& out) {
  const double up = most(station.moment_inlb, c), down = -least(station.moment_inlb, c);
  const double shear = std::max(largest(station.shear_before_lb, c), largest(station.shear_after_lb, c));
  for (const auto& part : parts) {
    if (!part.left) {
      // Nothing is left: any force at all is too much. Stress has no meaning, so the force itself stands.
      const double moment = std::max(up, down);
      if (moment > 1) out.bending.offer(moment, 0, station.along_in, part.sagging, part.left, c.words, how);
      if (shear > 1) out.shear.offer(shear, 0, station.along_in, part.sagging, part.left, c.words, how);
      continue;
    }
    const double s = part.left->s_in3();
    out.bending.offer(part.share * std::max(0.0, up) / s, part.sagging->fb_psi, station.along_in, part.sagging, part.left, c.words, how);
    out.bending.offer(part.share * std::max(0.0, down) / s, part.hogging->fb_psi, station.along_in, part.hogging, part.left, c.words, how);
    out.shear.offer(part.share * 1.5 * shear / part.left->area_in2(), part.sagging->fv_psi, station.along_in, part.sagging, part.left, c.words, how);
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
  what += std::string("; governs: ") + worst.combination;
  if (worst.unsaid == Unsaid::spliced) what += ", taken as spliced over its inner rests: nobody said that it runs through";
  reason.steps.insert(reason.steps.begin(), what);
  return make_check("", member.id, kind, worst.demand, worst.capacity, reason);
}

// How the member may run over its rests: as recorded, and both ways where nobody said.
using Ways = std::vector<std::pair<Unsaid, MemberForces>>;

void check_strength(const Member& member, const Ways& ways, double longest_in, FloorChecks& out) {
  WorstOf sound, rot;
  std::vector<Values> values;  // one a combination, kept for the reasons
  values.reserve(kCombinations.size());
  for (const auto& c : kCombinations) {
    values.push_back(values_of(member, longest_in, c.cd));
    for (const auto& [how, forces] : ways)
      for (const auto& station : forces.stations) {
        const bool weak = near_rot(member, station.along_in) || zone_at(member, station.along_in) != nullptr;
        offer_station(station, parts_at(member, values.back(), station.along_in), c, how, weak ? rot : sound);
      }
  }
  const auto put = [&](const Worst& worst, const std::string& kind, const std::string& suffix, const std::string& rule, const std::string& place) {
    if (worst.ratio < 0) return;
    auto check = strength_check(member, kind, worst, rule, place);
    check.id = member.id + "." + kind + suffix;
    add_for(out, member, check);
  };
  put(sound.bending, "bending", "", "NDS 3.3.1: fb = M / S <= Fb'", "");
  put(sound.shear, "shear", "", "NDS 3.4.1: fv = 3 V / (2 b d) <= Fv'", "");
  const std::string place = " at and near what is gone";
  put(rot.bending, "bending", "_at_rot", "NDS 3.3.1 on what is left; rotten wood counts for nothing, wood within 12 in. of it as No. 3", place);
  put(rot.shear, "shear", "_at_rot", "NDS 3.4.1 on what is left; rotten wood counts for nothing, wood within 12 in. of it as No. 3", place);
}

void check_stiffness(const Model& model, const Member& member, const Ways& ways, FloorChecks& out) {
  const auto live = model.as_found ? live_limit(Finish::other, std::nullopt) : live_limit(model.finish, model.deflection_over);
  const auto total = total_limit();
  const ForceSpan* worst = nullptr;
  const ForceSpan* worst_total = nullptr;
  // A cantilever's span counts twice (IRC Table R301.7 note b).
  const auto length = [](const ForceSpan& span) { return (span.cantilever ? 2 : 1) * (span.to_in - span.from_in); };
  for (const auto& [how, forces] : ways)
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
    add_for(out, member, make_check(member.id + "." + kind, member.id, kind, down, length(span) / limit.over, reason));
  };
  put("deflection_live", worst->live_in, *worst, live, "deflection under live load",
      "the worst pattern of live load over the spans, no snow; E' I of what is left");
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
  add_for(out, member, make_check(member.id + ".lateral", member.id, "lateral", ratio, 6, reason));
  if (ratio > 5 && ratio <= 6) out.words.push_back(member_words(member) + " needs bridging or blocking every 8 ft.");
}

void check_supported(const Member& member, std::size_t rests, const std::string& why, FloorChecks& out) {
  Reason reason;
  reason.compares = "rests that hold " + member_words(member) + " against the two that a beam needs";
  reason.rule = "statics: " + why;
  reason.source = "statics";
  reason.status = SourceStatus::derived;
  auto check = make_check(member.id + ".rests", member.id, "rests", 2, static_cast<double>(rests), reason);
  if (check.ok) check.ok = false, check.state = CheckState::not_allowed;
  add(out, check);
}

bool stress(const std::string& kind) { return kind != "deflection_live" && kind != "deflection_total" && kind != "lateral"; }

}  // namespace

void add(FloorChecks& out, Check check) {
  out.ok = out.ok && !failing(check);
  out.checks.push_back(std::move(check));
}

void add_for(FloorChecks& out, const Member& member, Check check) {
  if (!check.ok && check.state == CheckState::fails && member.as_it_was && (!stress(check.kind) || check.ratio <= kDangerous)) {
    check.state = CheckState::stands;
    check.reason.steps.push_back(
        "old, sound and not loaded more than before: it keeps its former strength; a repair need not change that (existing-building rules)");
  }
  check.standing = doc::word_of(member.as_it_was     ? Standing::old
                                : member.was_damaged ? Standing::damaged
                                : member.new_wood    ? Standing::new_wood
                                                     : Standing::newly_loaded);
  add(out, std::move(check));
}

std::string member_words(const Member& member) {
  std::string words = doc::word_of(member.role) + " " + member.id + ", " + mechanics::section_words(member.section);
  if (member.sister) words += " with a sister " + mechanics::section_words(*member.sister);
  return words;
}

void check_one_member(const Model& model, const Member& member, const MemberLoads& loads, FloorChecks& out) {
  Ways ways;
  ways.emplace_back(Unsaid::continuous, member_forces(member, loads, creep_of(member)));
  if (!ways.front().second.solved) {
    check_supported(member, member.rests.size(),
                    member.rests.size() < 2 ? "with fewer than two rests it falls; an end that hangs free carries nothing" : "its rests make no beam", out);
    return;
  }
  if (splice_unsaid(member)) {
    ways.emplace_back(Unsaid::spliced, member_forces(member, loads, creep_of(member), Unsaid::spliced));
    if (!ways.back().second.solved) ways.pop_back();
  }
  double longest = 0;
  for (const auto& [how, forces] : ways)
    for (const auto& span : forces.spans) longest = std::max(longest, span.to_in - span.from_in);
  check_strength(member, ways, longest, out);
  for (const auto& [how, forces] : ways) check_rests(model, member, forces, how, out);
  check_stiffness(model, member, ways, out);
  check_slenderness(member, out);
  check_cuts(member, ways.front().second, out);
}

namespace {

void say_lifts(FloorChecks& out) {
  if (out.lifts.empty()) return;
  std::string names;
  double most = 0;
  for (const auto& lift : out.lifts) {
    names += (names.empty() ? "" : ", ") + lift.member;
    most = std::max(most, lift.lb);
  }
  out.words.push_back("Tied down at their ends: " + names + (out.lifts.size() == 1 ? " wants" : " want") + " to lift off a rest, by " +
                      format_number(std::ceil(most), 0) + " lb at most, when only some spans are loaded.");
}

}  // namespace

FloorChecks check_members(const Model& model, const Paths& paths) {
  FloorChecks out;
  for (std::size_t i = 0; i < model.members.size(); ++i) {
    // A ledger or a wall's framing lies on what is behind it: its own bending is not ours to check.
    if (model.members[i].lies_on) continue;
    if (paths.in_ring[i])
      check_supported(model.members[i], 0, "members that only carry each other in a ring hold nothing", out);
    else
      check_one_member(model, model.members[i], paths.loads[i], out);
  }
  say_lifts(out);
  return out;
}

bool member_passes(const Model& model, std::size_t index, Case which) {
  FloorChecks out;
  Member member = model.members[index];
  member.as_it_was = false;
  check_one_member(model, member, load_paths(model, which).loads[index], out);
  return out.ok;
}

}  // namespace awlmark::floor
