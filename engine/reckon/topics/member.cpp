#include "mechanics/member.hpp"

#include "base/length.hpp"
#include "reckon/beam_input.hpp"
#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace member_topic {

struct MemberIn {
  double b_in = 0;
  double d_in = 0;
  double span_in = 0;
  double fb_psi = 0;
  double fv_psi = 0;
  double e_psi = 0;
  double cd = 1;
  double cm_fb = 1;
  double cm_fv = 1;
  double cm_e = 1;
  double cf = 1;
  double cr = 1;
  double cl = 1;
  double cfu = 1;
  double w_live_pli = 0;
  double w_dead_pli = 0;
  std::vector<LoadItem> loads;
  double live_over = 360;
  double total_over = 240;
  double creep = 1.5;
};
BOOST_DESCRIBE_STRUCT(MemberIn, (),
                      (b_in, d_in, span_in, fb_psi, fv_psi, e_psi, cd, cm_fb, cm_fv, cm_e, cf, cr, cl, cfu, w_live_pli, w_dead_pli, loads, live_over,
                       total_over, creep))

doc::FieldRule factor(std::string_view name, std::string_view text, double max) {
  return {.name = name, .text = text, .min = 0, .max = max, .above_min = true};
}

doc::FieldRules field_rules(const MemberIn*) {
  return {{.name = "b_in", .required = true, .min = 0, .max = 40, .above_min = true},
          {.name = "d_in", .text = "in the direction of the load", .required = true, .min = 0, .max = 60, .above_min = true},
          {.name = "span_in", .text = "simple span", .required = true, .min = 0, .max = 2400, .above_min = true},
          {.name = "fb_psi", .text = "bending, of the tables", .required = true, .min = 0, .max = 10000, .above_min = true},
          {.name = "fv_psi", .text = "shear, of the tables", .required = true, .min = 0, .max = 2000, .above_min = true},
          {.name = "e_psi", .required = true, .min = 0, .max = 1e7, .above_min = true},
          factor("cd", "load duration: on Fb and Fv", 2),
          factor("cm_fb", "wet service, on Fb", 1),
          factor("cm_fv", "wet service, on Fv", 1),
          factor("cm_e", "wet service, on E", 1),
          factor("cf", "size, on Fb", 2),
          factor("cr", "repetitive members, on Fb", 1.5),
          factor("cl", "lateral stability, on Fb", 1),
          factor("cfu", "flat use, on Fb", 1.5),
          {.name = "w_live_pli", .text = "over the whole span", .min = 0, .max = 1e5},
          {.name = "w_dead_pli", .text = "over the whole span; the member's own weight is not added", .min = 0, .max = 1e5},
          {.name = "loads", .text = "as in beam; live unless of is dead"},
          {.name = "live_over", .text = "limit of the live deflection: span over this", .min = 60, .max = 2000},
          {.name = "total_over", .text = "limit of the deflection under dead and live load", .min = 60, .max = 2000},
          {.name = "creep", .text = "Kcr: 1.5 seasoned and dry, 2.0 green or wet", .min = 1, .max = 3}};
}

struct Deflections {
  double live_in = 0;
  double dead_in = 0;
  double total_in = 0;
  double long_term_in = 0;
  double ibc_total_in = 0;
};
BOOST_DESCRIBE_STRUCT(Deflections, (), (live_in, dead_in, total_in, long_term_in, ibc_total_in))
doc::FieldRules field_rules(const Deflections*) {
  return {{.name = "total_in", .text = "dead and live at once"},
          {.name = "long_term_in", .text = "Kcr dead + live (NDS 3.5.2)"},
          {.name = "ibc_total_in", .text = "0.5 dead + live (IBC Table 1604.3 footnote d, dry wood)"}};
}

struct Ratios {
  double bending = 0;
  double shear = 0;
  double deflection = 0;
  double deflection_total = 0;
};
BOOST_DESCRIBE_STRUCT(Ratios, (), (bending, shear, deflection, deflection_total))
doc::FieldRules field_rules(const Ratios*) {
  return {{.name = "deflection", .text = "of live load"}, {.name = "deflection_total", .text = "of dead and live load at once"}};
}

struct Passes {
  bool bending = true;
  bool shear = true;
  bool deflection = true;
  bool deflection_total = true;
};
BOOST_DESCRIBE_STRUCT(Passes, (), (bending, shear, deflection, deflection_total))

struct MemberOut {
  double fb = 0;
  double fb_adj = 0;
  double fv = 0;
  double fv_adj = 0;
  double e_adj = 0;
  double moment_inlb = 0;
  double shear_lb = 0;
  std::vector<double> reactions_lb;
  Deflections deflections;
  Ratios ratios;
  Passes passes;
  bool ok = true;
  std::vector<Check> checks;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(MemberOut, (), (fb, fb_adj, fv, fv_adj, e_adj, moment_inlb, shear_lb, reactions_lb, deflections, ratios, passes, ok, checks, reason))
doc::FieldRules field_rules(const MemberOut*) {
  return {{.name = "fb", .text = "bending stress, psi"},
          {.name = "fb_adj", .text = "adjusted design value Fb', psi"},
          {.name = "fv", .text = "shear stress at the support, psi"},
          {.name = "fv_adj", .text = "Fv', psi"},
          {.name = "e_adj", .text = "E', psi"},
          {.name = "ok", .text = "every check passes"}};
}

mechanics::Adjusted adjusted_of(const MemberIn& in) {
  mechanics::Adjusted a;
  a.fb_psi = in.fb_psi * in.cd * in.cm_fb * in.cf * in.cr * in.cl * in.cfu;
  a.fv_psi = in.fv_psi * in.cd * in.cm_fv;
  a.e_psi = in.e_psi * in.cm_e;
  const auto n = [](double v) { return format_number(v, 4); };
  a.steps.push_back("Fb' = " + n(in.fb_psi) + " psi x CD " + n(in.cd) + " x CM " + n(in.cm_fb) + " x CL " + n(in.cl) + " x CF " + n(in.cf) + " x Cfu " +
                    n(in.cfu) + " x Cr " + n(in.cr) + " = " + format_number(a.fb_psi, 1) + " psi");
  a.steps.push_back("Fv' = " + n(in.fv_psi) + " psi x CD " + n(in.cd) + " x CM " + n(in.cm_fv) + " = " + format_number(a.fv_psi, 1) + " psi");
  a.steps.push_back("E' = " + n(in.e_psi) + " psi x CM " + n(in.cm_e) + " = " + format_number(a.e_psi, 0) + " psi");
  a.reason = {.compares = {},
              .demand = {},
              .capacity = {},
              .ratio = {},
              .unit = {},
              .rule = "design values and factors as given",
              .source = "NDS Table 4.3.1",
              .edition = "2018",
              .status = SourceStatus::read,
              .steps = a.steps};
  return a;
}

// Loads on the span that are live, or dead.
std::vector<LoadItem> items_of(const std::vector<LoadItem>& items, LoadOf of) {
  std::vector<LoadItem> kept;
  for (const auto& item : items)
    if (item.of.value_or(LoadOf::live) == of) kept.push_back(item);
  return kept;
}

mechanics::BeamResult solve_with(const MemberIn& in, double e_psi, mechanics::Loads loads, double w_pli) {
  if (w_pli != 0) loads.lines.push_back(mechanics::uniform(w_pli, 0, in.span_in));
  return mechanics::solve(mechanics::prismatic({in.span_in}, e_psi, mechanics::rectangle(in.b_in, in.d_in).i_in4(), std::move(loads)));
}

mechanics::Loads joined(mechanics::Loads a, const mechanics::Loads& b) {
  a.lines.insert(a.lines.end(), b.lines.begin(), b.lines.end());
  a.points.insert(a.points.end(), b.points.begin(), b.points.end());
  return a;
}

void add_checks(MemberOut& out, const MemberIn& in, const mechanics::Section& section, const mechanics::Adjusted& adjusted) {
  const std::string name = "member " + mechanics::section_words(section);
  const auto limits = mechanics::floor_limits();
  out.checks.push_back(mechanics::check_bending("member", name, out.moment_inlb, section, adjusted));
  out.checks.push_back(mechanics::check_shear("member", name, out.shear_lb, section, adjusted));
  out.checks.push_back(mechanics::check_deflection("member", name, "deflection_live", out.deflections.live_in, in.span_in, in.live_over, limits.live_reason));
  out.checks.push_back(
      mechanics::check_deflection("member", name, "deflection_total", out.deflections.total_in, in.span_in, in.total_over, limits.total_reason));
  out.ratios = {out.checks[0].ratio, out.checks[1].ratio, out.checks[2].ratio, out.checks[3].ratio};
  out.passes = {out.checks[0].ok, out.checks[1].ok, out.checks[2].ok, out.checks[3].ok};
  for (const auto& check : out.checks) out.ok = out.ok && check.ok;
  const Check* worst = &out.checks[0];
  for (const auto& check : out.checks)
    if (check.ratio > worst->ratio + 1e-12) worst = &check;
  out.reason = worst->reason;
}

Outcome<MemberOut> answer(const MemberIn& in) {
  Problems problems;
  (void)to_loads(in.loads, in.span_in, problems);  // all of them first, so that problems keep their index
  if (!problems.empty()) return refused<MemberOut>(problems);
  const auto dead = to_loads(items_of(in.loads, LoadOf::dead), in.span_in, problems), live = to_loads(items_of(in.loads, LoadOf::live), in.span_in, problems);
  const auto section = mechanics::rectangle(in.b_in, in.d_in);
  const auto adjusted = adjusted_of(in);
  const auto total_result = solve_with(in, adjusted.e_psi, joined(dead, live), in.w_dead_pli + in.w_live_pli);
  const auto live_result = solve_with(in, adjusted.e_psi, live, in.w_live_pli), dead_result = solve_with(in, adjusted.e_psi, dead, in.w_dead_pli);
  MemberOut out;
  out.moment_inlb = std::max(total_result.moment_max_inlb, -total_result.moment_min_inlb);
  out.shear_lb = total_result.shear_max_lb;
  out.reactions_lb = total_result.reactions_lb;
  out.fb = out.moment_inlb / section.s_in3();
  out.fb_adj = adjusted.fb_psi;
  out.fv = 1.5 * out.shear_lb / section.area_in2();
  out.fv_adj = adjusted.fv_psi;
  out.e_adj = adjusted.e_psi;
  const double d = dead_result.deflection_max_in, l = live_result.deflection_max_in;
  // Long-term figures add the two maxima, which is exact where both lie at the same place and safe elsewhere.
  out.deflections = {l, d, total_result.deflection_max_in, in.creep * d + l, 0.5 * d + l};
  add_checks(out, in, section, adjusted);
  return answered(std::move(out));
}

}  // namespace member_topic

Topic member() {
  using namespace member_topic;
  return make_topic<MemberIn, MemberOut>(
      {.id = "member",
       .asks = "Is a simply supported member strong and stiff enough, with these factors?",
       .sources = {"NDS 3.3 bending, 3.4 shear, 3.5 deflection, Table 4.3.1 factors", "IBC Table 1604.3, IRC Table R301.7: deflection limits"},
       .example = R"({"b_in": 3.5, "d_in": 7.25, "span_in": 96, "fb_psi": 1000, "fv_psi": 180, "e_psi": 1700000,
 "cd": 1.25, "cm_fb": 0.85, "cm_fv": 0.97, "cm_e": 0.9, "cf": 1.3,
 "loads": [{"kind": "point", "p_lb": 1600, "at_in": 48}, {"kind": "point", "p_lb": 400, "at_in": 48, "of": "dead"}]})"},
      answer);
}

}  // namespace awlmark::reckon
