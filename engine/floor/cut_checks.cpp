// Notches and holes in members: what the code allows without reckoning (IRC R502.8.1), and shear at a
// notched end (NDS 3.4.3.2).
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/combinations.hpp"
#include "floor/member_checks.hpp"
#include "mechanics/cuts.hpp"
#include "mechanics/factors.hpp"

namespace awlmark::floor {
namespace {

struct Span {
  double from_in = 0;
  double to_in = 0;
};
Span span_at(const Member& member, double along_in) {
  Span span{0, member.length_in()};
  for (const auto& rest : member.rests) {
    if (rest.along_in <= along_in) span.from_in = rest.along_in;
    if (rest.along_in > along_in) {
      span.to_in = rest.along_in;
      break;
    }
  }
  return span;
}

void take(const Member& member, const MemberCut& cut, const mechanics::Verdict& verdict, const std::string& what, const std::string& prefix, FloorChecks& out) {
  for (auto check : verdict.checks) {
    check.id = prefix + "." + check.kind;
    check.member = member.id;
    add_for(out, member, check);
  }
  if (verdict.ok) return;
  out.words.push_back(member_words(member) + ", " + what + " at " + format_inches(cut.along_in) + ": " + verdict.why);
  if (std::any_of(verdict.checks.begin(), verdict.checks.end(), [](const Check& check) { return !check.ok; })) return;
  // Refused for its place, not its size: no figure compares, so the check fails outright.
  Reason reason = mechanics::cut_limits(member.section.d_in).reason;
  reason.compares = what + " in " + member_words(member) + " against where the code allows one: " + verdict.why;
  add_for(out, member, forbidden_check(prefix + ".place", member.id, "cut_place", cut.along_in, reason));
}

double half_length_in(const MemberCut& cut) { return (cut.hole_diameter_in ? *cut.hole_diameter_in : cut.notch_length_in.value_or(2.0)) / 2; }

// At least 2 in. of wood between a hole and the next hole or notch (IRC R502.8.1).
void check_apart(const Member& member, std::size_t index, FloorChecks& out) {
  const auto& cut = member.cuts[index];
  double least = 1e300;
  for (std::size_t k = 0; k < member.cuts.size(); ++k) {
    if (k == index || (!cut.hole_diameter_in && !member.cuts[k].hole_diameter_in)) continue;
    if (k < index && cut.hole_diameter_in && member.cuts[k].hole_diameter_in) continue;  // a pair counts once
    least = std::min(least, std::fabs(member.cuts[k].along_in - cut.along_in) - half_length_in(cut) - half_length_in(member.cuts[k]));
  }
  if (least > 1e299 || !cut.hole_diameter_in) return;
  Reason reason = mechanics::cut_limits(member.section.d_in).reason;
  reason.compares = "wood that the code asks for between a hole in " + member_words(member) + " and the next hole or notch, against what is there";
  reason.unit = "in";
  const double asked = mechanics::cut_limits(member.section.d_in).hole_edge_in;
  add_for(out, member, make_check(member.id + ".hole" + std::to_string(index + 1) + ".apart", member.id, "hole_apart", asked, std::max(0.0, least), reason));
}

// A notch within the depth of a rest carries that rest's shear through what is left.
void check_notched_end(const Member& member, const MemberForces& forces, std::size_t index, FloorChecks& out) {
  const auto& cut = member.cuts[index];
  const double d = member.section.d_in, depth = std::min(*cut.notch_depth_in, d);
  if (cut.face == Face::side || cut.face == Face::end) return;
  for (std::size_t r = 0; r < member.rests.size(); ++r) {
    const double half = half_length_in(cut), off = std::fabs(cut.along_in - member.rests[r].along_in);
    if (off - half > d || (r != 0 && r + 1 != member.rests.size())) continue;
    // Shear just beside the rest, on the span's side.
    double ratio = -1, demand = 0, capacity = 0;
    const char* words = "";
    for (const auto& c : kCombinations) {
      double shear = 0;
      for (const auto& station : forces.stations)
        if (std::fabs(station.along_in - member.rests[r].along_in) <= d)
          shear = std::max({shear, largest(station.shear_before_lb, c), largest(station.shear_after_lb, c)});
      mechanics::Conditions conditions;
      conditions.cd = c.cd;
      conditions.wet = member.wet;
      const double fv = mechanics::adjust(near_rot(member, cut.along_in) ? graded_down(member) : member.values, member.section, conditions).fv_psi;
      const double left = d - depth;
      const double allowed = cut.face == Face::bottom ? mechanics::notched_shear_lb(member.section.b_in, d, left, fv)
                                                      : mechanics::top_notched_shear_lb(member.section.b_in, d, left, std::max(0.0, off + half), fv);
      const double here = allowed > 0 ? shear / allowed : kNoRatio;
      if (here > ratio) ratio = here, demand = shear, capacity = allowed, words = c.words;
    }
    Reason reason;
    reason.compares = "shear at the notched end of " + member_words(member) + " against what the notch leaves";
    reason.unit = "lb";
    reason.rule = cut.face == Face::bottom ? "NDS 3.4.3.2(a): V' = 2/3 Fv' b dn (dn/d)^2" : "NDS 3.4.3.2(e): V' = 2/3 Fv' b (d - ((d - dn)/dn) e)";
    reason.source = "NDS";
    reason.edition = "2018";
    reason.status = SourceStatus::memory;
    reason.steps.push_back("notch " + format_inches(depth) + " deep in " + format_inches(d) + ", within its depth of the rest at " +
                           format_length(member.rests[r].along_in) + "; governs: " + words);
    add_for(out, member, make_check(member.id + ".notch" + std::to_string(index + 1) + ".end_shear", member.id, "notched_shear", demand, capacity, reason));
    return;
  }
}

}  // namespace

void check_cuts(const Member& whole, const MemberForces& forces, FloorChecks& out) {
  // A cut is damage: no member keeps it as its former strength.
  Member member = whole;
  member.was_damaged = member.was_damaged || !member.cuts.empty();
  member.as_it_was = false;
  for (std::size_t i = 0; i < member.cuts.size(); ++i) {
    const auto& cut = member.cuts[i];
    const Span span = span_at(member, cut.along_in);
    const std::string number = std::to_string(i + 1);
    if (cut.hole_diameter_in) {
      const double from_top = cut.hole_from_top_in.value_or(std::max(0.0, (member.section.d_in - *cut.hole_diameter_in) / 2));
      take(member, cut, mechanics::check_hole(member.section.b_in, member.section.d_in, *cut.hole_diameter_in, from_top), "hole", member.id + ".hole" + number,
           out);
      check_apart(member, i, out);
    }
    if (cut.notch_depth_in) {
      take(member, cut,
           mechanics::check_notch(member.section.b_in, member.section.d_in, *cut.notch_depth_in, cut.notch_length_in, cut.along_in - span.from_in,
                                  span.to_in - span.from_in, cut.face == Face::bottom),
           "notch", member.id + ".notch" + number, out);
      check_notched_end(member, forces, i, out);
    }
  }
}

}  // namespace awlmark::floor
