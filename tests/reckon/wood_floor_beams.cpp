// Published beam formulas (AWC Design Aid 6 and continuous beam tables), asked of `reckon beam`.
#include <algorithm>
#include <vector>

#include "reckon/ask.hpp"
#include "reckon/wood_floor_topics.hpp"

namespace awlmark::testing {
namespace {

bool says(const Case& c, const char* words) { return c.text("case").find(words) != std::string::npos; }

json uniform(double w, double from, double to) { return {{"kind", "uniform"}, {"w_pli", w}, {"from_in", from}, {"to_in", to}}; }
json point(double p, double at) { return {{"kind", "point"}, {"p_lb", p}, {"at_in", at}}; }

struct Question {
  std::vector<double> spans;
  std::string left = "pinned", right = "pinned";
  json loads = json::array();
  std::vector<double> stations;
};

// Which of the answer's moments a case's key means.
double support_moment(const json& out, std::size_t support) { return std::abs(out["support_moments_inlb"][support].get<double>()); }
double span_moment(const json& out, std::size_t span) { return out["spans"][span]["moment_max_inlb"]; }

json answer(const Case& c, const Question& q) {
  return ask("beam", {{"spans_in", q.spans},
                      {"e_psi", c.in("E_psi")},
                      {"i_in4", c.in("I_in4")},
                      {"ends", {q.left, q.right}},
                      {"loads", q.loads},
                      {"stations_in", q.stations}});
}

// Reactions by name; the last support of a case may be named as an uplift.
void reactions(Case& c, const json& out) {
  const auto& r = out["reactions_lb"];
  for (std::size_t i = 0; i < r.size(); ++i) {
    const std::string n = std::to_string(i + 1);
    c.near("R" + n + "_lb", r[i]);
    c.near("R" + n + "_uplift_lb", -r[i].get<double>());
    c.near("uplift_R" + n + "_lb", -r[i].get<double>());
  }
  c.near("R_lb", r[0]);
  c.near("V_max_lb", out["shear_max_lb"]);
}

void simple_span(Case& c) {
  Question q;
  const double length = c.in("span_in");
  q.spans = {length};
  if (says(c, "part of span"))
    q.loads = json::array({uniform(c.in("w_pli"), c.in("a_in"), c.in("a_in") + c.in("b_in"))});
  else if (says(c, "increasing to one end"))
    q.loads = json::array({{{"kind", "varying"}, {"w_from_pli", 0}, {"w_to_pli", 2 * c.in("total_load_lb") / length}, {"from_in", 0}, {"to_in", length}}});
  else if (says(c, "increasing")) {
    const double peak = 2 * c.in("total_load_lb") / length;
    q.loads = json::array({{{"kind", "varying"}, {"w_from_pli", 0}, {"w_to_pli", peak}, {"from_in", 0}, {"to_in", length / 2}},
                           {{"kind", "varying"}, {"w_from_pli", peak}, {"w_to_pli", 0}, {"from_in", length / 2}, {"to_in", length}}});
  } else if (says(c, "load at center"))
    q.loads = json::array({point(c.in("P_lb"), length / 2)});
  else if (says(c, "load anywhere")) {
    q.loads = json::array({point(c.in("P_lb"), c.in("a_in"))});
    q.stations = {c.in("a_in")};
  } else if (says(c, "equal point loads placed symmetrically"))
    q.loads = json::array({point(c.in("P_each_lb"), c.in("a_in")), point(c.in("P_each_lb"), length - c.in("a_in"))});
  else if (says(c, "unequal point loads")) {
    q.stations = {c.in("a_in"), length - c.in("b_from_right_in")};
    q.loads = json::array({point(c.in("P1_lb"), q.stations[0]), point(c.in("P2_lb"), q.stations[1])});
  } else if (says(c, "uniform"))
    q.loads = json::array({uniform(c.in("w_pli"), 0, length)});
  const auto out = answer(c, q);
  reactions(c, out);
  c.near("M_max_inlb", out["moment_max_inlb"]);
  c.near("x_Mmax_in", out["moment_max_at_in"]);
  c.near("deflection_max_in", out["deflection_max_in"]);
  if (!q.stations.empty()) {
    c.near("deflection_at_load_in", out["stations"][0]["deflection_in"]);
    c.near("M1_inlb", out["stations"][0]["moment_inlb"]);
    c.near("M2_inlb", out["stations"].back()["moment_inlb"]);
  }
}

void cantilever(Case& c) {
  Question q;
  const double length = c.in("length_in");
  q.spans = {length};
  q.left = "fixed";
  q.right = "free";
  if (c.gives("w_pli"))
    q.loads = json::array({uniform(c.in("w_pli"), 0, length)});
  else
    q.loads = json::array({point(c.in("P_lb"), c.in().value("b_from_support_in", length))});
  q.stations = {c.in().value("b_from_support_in", length)};
  const auto out = answer(c, q);
  reactions(c, out);
  c.near("M_max_inlb", -out["moment_min_inlb"].get<double>());
  c.near("deflection_free_end_in", out["deflection_right_in"]);
  c.near("deflection_at_load_in", out["stations"][0]["deflection_in"]);
}

// One end fixed and the other simple, or both fixed; the fixed end is put on the right.
void fixed_span(Case& c) {
  Question q;
  const double length = c.in("span_in");
  const bool both = says(c, "both ends fixed");
  q.spans = {length};
  q.left = both ? "fixed" : "pinned";
  q.right = "fixed";
  const double at = c.gives("a_from_simple_end_in") ? c.in("a_from_simple_end_in") : length / 2;
  if (c.gives("w_pli"))
    q.loads = json::array({uniform(c.in("w_pli"), 0, length)});
  else
    q.loads = json::array({point(c.in("P_lb"), at)});
  q.stations = {at};
  const auto out = answer(c, q);
  reactions(c, out);
  c.near("R_simple_lb", out["reactions_lb"][0]);
  c.near("R_fixed_lb", out["reactions_lb"][1]);
  c.near("M_fixed_inlb", support_moment(out, 1));
  c.near("M_end_inlb", support_moment(out, 1));
  c.near("M_load_inlb", out["stations"][0]["moment_inlb"]);
  c.near("M_center_inlb", out["stations"][0]["moment_inlb"]);
  c.near("M_span_inlb", out["moment_max_inlb"]);
  c.near("deflection_max_in", out["deflection_max_in"]);
}

void overhang_one_end(Case& c) {
  Question q;
  const double span = c.in("span_in"), over = c.in("overhang_in");
  q.spans = {span, over};
  q.right = "free";
  if (says(c, "uniform on overhang"))
    q.loads = json::array({uniform(c.in("w_pli"), span, span + over)});
  else if (says(c, "uniform on all"))
    q.loads = json::array({uniform(c.in("w_pli"), 0, span + over)});
  else if (says(c, "uniform"))
    q.loads = json::array({uniform(c.in("w_pli"), 0, span)});
  else if (says(c, "end of overhang"))
    q.loads = json::array({point(c.in("P_lb"), span + over)});
  else
    q.loads = json::array({point(c.in("P_lb"), c.in("a_in"))});
  const auto out = answer(c, q);
  reactions(c, out);
  c.near("M_span_inlb", span_moment(out, 0));
  c.near("M_support_inlb", support_moment(out, 1));
  c.near("deflection_free_end_in", out["deflection_right_in"]);
  c.near("upward_deflection_span_in", -out["spans"][0]["deflection_min_in"].get<double>());
  c.near("deflection_max_in", out["deflection_max_in"]);
}

void overhang_both_ends(Case& c) {
  Question q;
  q.spans = {c.in("left_overhang_in"), c.in("span_in"), c.in("right_overhang_in")};
  q.left = q.right = "free";
  q.loads = json::array({uniform(c.in("w_pli"), 0, q.spans[0] + q.spans[1] + q.spans[2])});
  const auto out = answer(c, q);
  reactions(c, out);
  c.near("M1_support_inlb", support_moment(out, 0));
  c.near("M2_support_inlb", support_moment(out, 1));
  c.near("M3_span_inlb", span_moment(out, 1));
}

void continuous(Case& c) {
  Question q;
  std::size_t spans = says(c, "four") ? 4 : says(c, "three") ? 3 : 2;
  if (c.gives("span_each_in"))
    q.spans.assign(spans, c.in("span_each_in"));
  else
    q.spans = {c.in("span_a_in"), c.in("span_b_in")};
  double length = 0;
  for (const double s : q.spans) length += s;
  const double first = q.spans[0];
  if (c.gives("w_pli")) {
    double to = length;
    if (says(c, "uniform on one span")) to = first;
    if (says(c, "two adjacent spans")) to = first + q.spans[1];
    q.loads = json::array({uniform(c.in("w_pli"), 0, to)});
    if (says(c, "on the two end spans") || says(c, "on both end spans"))
      q.loads = json::array({uniform(c.in("w_pli"), 0, first), uniform(c.in("w_pli"), length - q.spans.back(), length)});
  } else if (says(c, "center of each")) {
    q.loads = json::array({point(c.in("P1_lb"), first / 2), point(c.in("P2_lb"), first + q.spans[1] / 2)});
  } else {
    q.loads = json::array({point(c.in("P_lb"), c.in().value("a_in", first / 2))});
  }
  const auto out = answer(c, q);
  reactions(c, out);
  c.near("M_support_inlb", support_moment(out, 1));
  c.near("M_support2_inlb", support_moment(out, 1));
  if (spans >= 3) c.near("M_support3_inlb", support_moment(out, 2));
  for (const char* key : {"M_span_inlb", "M_first_span_inlb", "M_end_span_inlb"}) c.near(key, span_moment(out, 0));
  for (const char* key : {"M_second_span_inlb", "M_mid_span_inlb", "M_inner_span_inlb"}) c.near(key, span_moment(out, 1));
  c.near("deflection_max_in", out["deflection_max_in"]);
}

}  // namespace

void beam_formula(Case& c) {
  if (says(c, "cantilever")) return cantilever(c);
  if (says(c, "overhang one end")) return overhang_one_end(c);
  if (says(c, "overhang both ends")) return overhang_both_ends(c);
  if (says(c, "fixed")) return fixed_span(c);
  if (says(c, "spans")) return continuous(c);
  if (says(c, "simple")) return simple_span(c);
}

}  // namespace awlmark::testing
