#include "mechanics/member.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "mechanics/bearing.hpp"
#include "tables/table.hpp"

namespace awlmark::mechanics {
namespace {

struct Case {
  BeamResult live, total, long_term;
};

void append(Loads& to, const Loads& from, double scale = 1) {
  for (auto l : from.lines) {
    l.w_from_pli *= scale;
    l.w_to_pli *= scale;
    to.lines.push_back(l);
  }
  for (auto p : from.points) {
    p.p_lb *= scale;
    to.points.push_back(p);
  }
}

BeamResult solve_with(Beam beam, Loads loads) {
  beam.loads = std::move(loads);
  return solve(beam);
}

// Largest shear at d or more from every support that holds by bearing (NDS 3.4.3.1).
double shear_beyond_d(const BeamResult& r, double d_in) {
  const double length = r.pieces.back().to_in;
  const auto near_support = [&](double x) {
    return std::any_of(r.supports_in.begin(), r.supports_in.end(), [&](double s) { return std::fabs(x - s) < d_in - 1e-6; });
  };
  double most = 0;
  const auto look = [&](double x) {
    if (x < 0 || x > length || near_support(x)) return;
    const auto before = r.at(std::max(0.0, x - 1e-9)), after = r.at(x);
    most = std::max({most, std::fabs(before.shear_lb), std::fabs(after.shear_lb)});
  };
  for (const auto& p : r.pieces) look(p.from_in);
  look(length);
  for (const double s : r.supports_in) look(s - d_in), look(s + d_in);
  return most;
}

double most_moment(const Envelope& e) { return std::max(e.moment_max_inlb, -e.moment_min_inlb); }

// Span whose deflection uses most of its limit; a cantilever counts with twice its length (IBC Table
// 1604.3 footnote i).
struct Worst {
  double deflection_in = 0, span_in = 1;
};
Worst worst_span(const MemberInput& input, const std::vector<BeamResult>& cases) {
  Worst worst;
  const std::size_t n = input.spans_in.size();
  for (const auto& c : cases) {
    for (std::size_t i = 0; i < n; ++i) {
      const bool overhang = (i == 0 && input.left == End::free) || (i + 1 == n && input.right == End::free);
      const double span = input.spans_in[i] * (overhang ? 2 : 1), deflection = c.spans[i].deflection_max_in;
      if (deflection * worst.span_in > worst.deflection_in * span || worst.span_in == 1) worst = {deflection, span};
    }
  }
  return worst;
}

Beam beam_of(const MemberInput& input, const Adjusted& adjusted) {
  Beam beam = prismatic(input.spans_in, adjusted.e_psi, input.section.i_in4(), {}, input.left, input.right);
  if (!input.stiffness.empty()) beam.stiffness = input.stiffness;
  return beam;
}

}  // namespace

Limits floor_limits(bool wet) {
  Limits limits;
  const auto& table = tables::table("deflection.csv");
  if (const auto* row = table.find("load", "live", "finish", "any")) limits.live_over = row->number("over"), limits.live_reason = row->reason();
  if (const auto* row = table.find("load", "total", "finish", "any")) limits.total_over = row->number("over"), limits.total_reason = row->reason();
  limits.creep = wet ? 2.0 : 1.5;
  return limits;
}

Check check_bending(const std::string& id, const std::string& name, double moment_inlb, const Section& section, const Adjusted& adjusted) {
  Reason r = adjusted.reason;
  r.compares = "bending stress in " + name + " against its adjusted design value";
  r.unit = "psi";
  r.rule = "NDS 3.3.1: fb = M/S <= Fb'; design values: " + adjusted.reason.source + " " + adjusted.reason.rule;
  r.steps.push_back("M " + format_number(std::fabs(moment_inlb), 0) + " in.-lb / S " + format_number(section.s_in3(), 3) + " cu in.");
  for (const auto& line : adjusted.not_allowed) r.steps.push_back(line);
  Check check = make_check(id + ".bending", name, "bending", std::fabs(moment_inlb) / section.s_in3(), adjusted.fb_psi, r);
  if (!adjusted.not_allowed.empty()) check.ok = false;
  return check;
}

Check check_shear(const std::string& id, const std::string& name, double shear_lb, const Section& section, const Adjusted& adjusted) {
  Reason r = adjusted.reason;
  r.compares = "shear stress in " + name + " against its adjusted design value";
  r.unit = "psi";
  r.rule = "NDS 3.4.2: fv = 3V/(2bd) <= Fv'; design values: " + adjusted.reason.source + " " + adjusted.reason.rule;
  r.steps.push_back("V " + format_number(std::fabs(shear_lb), 1) + " lb, b d " + format_number(section.area_in2(), 3) + " sq in.");
  return make_check(id + ".shear", name, "shear", 1.5 * std::fabs(shear_lb) / section.area_in2(), adjusted.fv_psi, r);
}

Check check_deflection(const std::string& id, const std::string& name, const std::string& kind, double deflection_in, double span_in, double over,
                       Reason rule) {
  rule.compares = "deflection of " + name + " (" + kind + ") against span / " + format_number(over, 0);
  rule.unit = "in";
  rule.steps.push_back("span " + format_number(span_in, 2) + " in. / " + format_number(over, 0) + " = " + format_number(span_in / over, 4) + " in.");
  if (deflection_in > 0) rule.steps.push_back("bends " + format_number(deflection_in, 4) + " in.: span / " + format_number(span_in / deflection_in, 0));
  return make_check(id + "." + kind, name, kind, deflection_in, span_in / over, std::move(rule));
}

MemberResult check_member(const MemberInput& input) {
  MemberResult out;
  out.adjusted = adjust(input.values, input.section, input.conditions);
  const Beam beam = beam_of(input, out.adjusted);

  Loads dead = input.dead;
  const double length = beam.length_in();
  if (input.dead_pli != 0) dead.lines.push_back(uniform(input.dead_pli, 0, length));
  std::vector<Loads> live = input.live_pli != 0 ? pattern_loads(beam, input.live_pli) : std::vector<Loads>(1);
  for (auto& one : live) append(one, input.live);

  const BeamResult dead_result = solve_with(beam, dead);
  std::vector<BeamResult> live_results, totals{dead_result}, long_terms;
  for (const auto& one : live) {
    Loads total = dead, long_term = one;
    append(total, one);
    append(long_term, dead, input.limits.creep);
    live_results.push_back(solve_with(beam, one));
    totals.push_back(solve_with(beam, total));
    long_terms.push_back(solve_with(beam, long_term));
  }
  out.dead = envelope({dead_result});
  out.live = envelope(live_results);
  out.total = envelope(totals);

  double shear = out.total.shear_max_lb;
  if (input.shear_at_d) {
    shear = 0;
    for (const auto& r : totals) shear = std::max(shear, shear_beyond_d(r, input.section.d_in));
  }
  const Worst live_worst = worst_span(input, live_results), long_worst = worst_span(input, long_terms);
  out.fb_psi = most_moment(out.total) / input.section.s_in3();
  out.fv_psi = 1.5 * shear / input.section.area_in2();
  out.dead_deflection_in = dead_result.deflection_max_in;
  out.live_deflection_in = live_worst.deflection_in;
  out.long_term_deflection_in = long_worst.deflection_in;

  out.checks.push_back(check_bending(input.id, input.name, most_moment(out.total), input.section, out.adjusted));
  out.checks.push_back(check_shear(input.id, input.name, shear, input.section, out.adjusted));
  if (input.shear_at_d) out.checks.back().reason.steps.push_back("loads within d of a support left out (NDS 3.4.3.1)");
  const auto with_stiffness = [&](Reason r) {
    r.steps.push_back("E' " + format_number(out.adjusted.e_psi, 0) + " psi, I " + format_number(input.section.i_in4(), 2) + " in.^4");
    return r;
  };
  if (input.limits.live_over > 0)
    out.checks.push_back(check_deflection(input.id, input.name, "deflection_live", live_worst.deflection_in, live_worst.span_in, input.limits.live_over,
                                          with_stiffness(input.limits.live_reason)));
  if (input.limits.total_over > 0) {
    Reason r = with_stiffness(input.limits.total_reason);
    r.steps.push_back("long term: Kcr " + format_number(input.limits.creep, 1) + " x dead + live (NDS 3.5.2)");
    out.checks.push_back(
        check_deflection(input.id, input.name, "deflection_total", long_worst.deflection_in, long_worst.span_in, input.limits.total_over, std::move(r)));
  }
  double reaction = 0;
  for (const double one : out.total.reactions_max_lb) reaction = std::max(reaction, one);
  out.bearing_needed_in = bearing_needed_in(reaction, input.section.b_in, out.adjusted.fc_perp_psi);
  if (input.bearing_length_in > 0)
    out.checks.push_back(check_bearing(input.id, input.name, reaction, input.section.b_in, input.bearing_length_in, out.adjusted));
  for (const auto& check : out.checks) out.ok = out.ok && check.ok;
  return out;
}

}  // namespace awlmark::mechanics
