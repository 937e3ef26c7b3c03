#include "mechanics/cuts.hpp"

#include <algorithm>

#include "base/length.hpp"

namespace awlmark::mechanics {
namespace {

Reason cut_reason(const std::string& rule, const std::string& compares) {
  Reason r;
  r.compares = compares;
  r.rule = rule;
  r.source = "IRC";
  r.edition = "2018";
  r.status = SourceStatus::read;
  r.unit = "in";
  return r;
}

void judge(Verdict& verdict, Check check, const std::string& why_not) {
  if (!check.ok) {
    verdict.ok = false;
    verdict.why += (verdict.why.empty() ? "" : "; ") + why_not;
  }
  verdict.checks.push_back(std::move(check));
}

void refuse(Verdict& verdict, const std::string& why) {
  verdict.ok = false;
  verdict.why += (verdict.why.empty() ? "" : "; ") + why;
}

std::string inches(double v) { return format_number(v, 3) + " in."; }

enum class Zone { end, outer, middle, unknown };

// A notch that reaches the support is an end notch; one that touches the middle third counts there.
Zone zone_of(std::optional<double> at_in, std::optional<double> span_in, double half_in) {
  if (!at_in) return Zone::unknown;
  double from_support = *at_in;
  if (span_in) from_support = std::min(*at_in, *span_in - *at_in);
  if (from_support - half_in <= 1e-9) return Zone::end;
  if (!span_in) return Zone::unknown;
  return from_support + half_in > *span_in / 3 + 1e-9 ? Zone::middle : Zone::outer;
}

}  // namespace

CutLimits cut_limits(double d_in) {
  CutLimits limits;
  limits.hole_third_in = d_in / 3;
  limits.hole_max_in = std::max(0.0, std::min(d_in / 3, d_in - 2 * limits.hole_edge_in));
  limits.notch_max_in = d_in / 6;
  limits.notch_length_max_in = d_in / 3;
  limits.end_notch_max_in = d_in / 4;
  limits.reason = cut_reason(
      "R502.8.1: holes to d/3, 2 in. from edges, other holes and notches; notches to d/6 deep and d/3 long, none in the middle third; at the ends d/4",
      "holes and notches of a sawn joist " + inches(d_in) + " deep");
  return limits;
}

Verdict check_hole(double b_in, double d_in, double diameter_in, double from_top_in) {
  (void)b_in;  // the rule looks at the depth alone
  const CutLimits limits = cut_limits(d_in);
  Verdict v;
  const double below = d_in - from_top_in - diameter_in;
  judge(v,
        make_check("hole.diameter", "hole", "hole", diameter_in, limits.hole_third_in,
                   cut_reason("R502.8.1: diameter at most d/3", "diameter of the hole against its limit")),
        "the hole is " + inches(diameter_in) + " wide, more than a third of the depth, " + inches(limits.hole_third_in));
  // Written as required over left, so that a ratio of at most 1 passes.
  judge(v,
        make_check("hole.above", "hole", "hole_edge", limits.hole_edge_in, from_top_in,
                   cut_reason("R502.8.1: 2 in. from the top of the joist", "wood needed above the hole against what is left")),
        "only " + inches(std::max(0.0, from_top_in)) + " is left above the hole; 2 in. is needed");
  judge(v,
        make_check("hole.below", "hole", "hole_edge", limits.hole_edge_in, below,
                   cut_reason("R502.8.1: 2 in. from the bottom of the joist", "wood needed below the hole against what is left")),
        below < 0 ? "the hole runs out of the bottom of the joist" : "only " + inches(below) + " is left below the hole; 2 in. is needed");
  if (v.ok) v.why = "the hole is at most a third of the depth and 2 in. from top and bottom; keep it 2 in. from other holes and notches too";
  return v;
}

Verdict check_notch(double b_in, double d_in, double depth_in, std::optional<double> length_in, std::optional<double> at_in, std::optional<double> span_in,
                    bool bottom) {
  const CutLimits limits = cut_limits(d_in);
  Verdict v;
  const Zone zone = zone_of(at_in, span_in, length_in.value_or(0) / 2);
  const bool end = zone == Zone::end;
  const double limit = end ? limits.end_notch_max_in : limits.notch_max_in;
  judge(v,
        make_check("notch.depth", "notch", "notch_depth", depth_in, limit,
                   cut_reason(end ? "R502.8.1: at the ends at most d/4 deep" : "R502.8.1: at most d/6 deep", "depth of the notch against its limit")),
        "the notch is " + inches(depth_in) + " deep, more than " + (end ? "a quarter" : "a sixth") + " of the depth, " + inches(limit));
  if (length_in && !end)
    judge(v,
          make_check("notch.length", "notch", "notch_length", *length_in, limits.notch_length_max_in,
                     cut_reason("R502.8.1: at most d/3 long", "length of the notch against its limit")),
          "the notch is " + inches(*length_in) + " long, more than a third of the depth, " + inches(limits.notch_length_max_in));
  if (!length_in && !end) refuse(v, "its length is not known: it must be at most " + inches(limits.notch_length_max_in));
  if (zone == Zone::middle) refuse(v, "it lies in the middle third of the span, where no notch is allowed");
  if (zone == Zone::unknown) refuse(v, "its place in the span is not known, so it counts as in the middle third, where no notch is allowed");
  constexpr double kThick_in = 3.5;  // 4 in. nominal
  if (bottom && !end && b_in >= kThick_in - 1e-9) refuse(v, "a joist 4 in. thick or more may be notched on its underside at the ends only");
  if (v.ok)
    v.why = end ? "an end notch of at most a quarter of the depth" : "outside the middle third, at most a sixth of the depth and a third of the depth long";
  return v;
}

double notched_shear_lb(double b_in, double d_in, double dn_in, double fv_psi) {
  const double left = dn_in / d_in;
  return 2.0 / 3 * fv_psi * b_in * dn_in * left * left;
}

double top_notched_shear_lb(double b_in, double d_in, double dn_in, double e_in, double fv_psi) {
  if (!(dn_in > 0)) return 0;
  const double depth = e_in > dn_in ? dn_in : d_in - (d_in - dn_in) / dn_in * e_in;
  return 2.0 / 3 * fv_psi * b_in * depth;
}

}  // namespace awlmark::mechanics
