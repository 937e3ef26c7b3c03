// Published values of tests/outside/wood_floor.json against the topics of reckon, driven from the
// file: further cases of the same kinds are picked up without a change here.
#include <algorithm>
#include <functional>
#include <map>

#include "mechanics/cuts.hpp"
#include "mechanics/member.hpp"
#include "mechanics/panel.hpp"
#include "reckon/ask.hpp"
#include "reckon/wood_floor_topics.hpp"
#include "reckon/wood_floor_unusable.hpp"
#include "reckon/wood_floor_words.hpp"
#include "support/outside.hpp"

namespace awlmark::testing {
namespace {

void joist_rows(Case& c) {
  for (const char* size : {"2x4", "2x6", "2x8", "2x10", "2x12"}) {
    const std::string key = std::string("span_") + size + "_in";
    if (!c.has(key)) continue;
    const auto out = ask("joist-span", {{"species", species_id(c.text("species"))},
                                        {"grade", grade_id(c.text("grade"))},
                                        {"size", size},
                                        {"spacing_in", c.in("spacing_in")},
                                        {"live_psf", c.in("live_psf")},
                                        {"dead_psf", c.in("dead_psf")},
                                        {"deflection_over", c.in("live_deflection_limit_L_over")},
                                        {"edition", edition_id(c.edition())}});
    // Tables round to the nearest inch: one inch either way, as the notes to the file say.
    c.near(key, out.value("span_in", 0.0), 1.0 / c.expected(key).get<double>());
  }
}

void joist_rules(Case& c) {
  json in = {{"species", "hem_fir"}, {"grade", "no_2"}, {"size", "2x8"}, {"spacing_in", 16}, {"live_psf", 40}, {"dead_psf", 10}};
  if (c.has("span_ratio")) {
    in["deflection_over"] = c.in("limit_from_L_over");
    const double from = ask("joist-span", in)["deflection_in"];
    in["deflection_over"] = c.in("limit_to_L_over");
    c.near("span_ratio", ask("joist-span", in)["deflection_in"].get<double>() / from);
  }
  if (c.has("max_live_psf")) {
    const auto within = [&](double live, double dead) {
      in["live_psf"] = live;
      in["dead_psf"] = dead;
      return ask("joist-span", in)["within_table_loads"].get<bool>();
    };
    const double live = c.expected("max_live_psf"), dead = c.expected("max_dead_psf");
    EXPECT_TRUE(within(live, dead));
    EXPECT_FALSE(within(live + 1, dead));
    EXPECT_FALSE(within(live, dead + 1));
  }
  if (c.has("span_before_june_2013_in")) {
    in = {{"species", species_id(c.text("species"))}, {"grade", grade_id(c.text("grade"))}, {"size", c.text("size")},
          {"spacing_in", c.in("spacing_in")},         {"live_psf", c.in("live_psf")},       {"dead_psf", c.in("dead_psf")}};
    in["edition"] = "2012";
    c.near("span_before_june_2013_in", ask("joist-span", in)["span_in"]);
    in["edition"] = "2015";
    c.near("span_after_june_2013_in", ask("joist-span", in)["span_in"]);
  }
}

void board_subfloors(Case& c) {
  if (!c.gives("support_spacing_in")) return;
  const auto out = ask("sheathing", {{"support_spacing_in", c.in("support_spacing_in")}});
  c.near("min_net_thickness_perpendicular_in", out["min_thickness_in"]);
  if (c.has("min_net_thickness_diagonal_in")) c.near("min_net_thickness_diagonal_in", out.at("min_thickness_diagonal_in"));
  c.same("tongue_and_groove_required", out["tongue_and_groove_required"]);
  c.same("diagonal_allowed", out["diagonal_allowed"]);
  if (c.has("min_Fb_psi")) c.near("min_Fb_psi", out.at("min_fb_psi"));
  if (c.has("min_E_psi")) c.near("min_E_psi", out.at("min_e_psi"));
}

std::string panel_kind(const std::string& product) { return product.find("single floor") != std::string::npos ? "single_floor" : "sheathing"; }

void panels(Case& c) {
  if (c.has("span_ratings_in")) {
    json ratings = json::array();
    for (const auto& row : mechanics::panel_rows())
      if (row.kind == mechanics::PanelKind::single_floor && (ratings.empty() || ratings.back() != json(row.floor_span_in)))
        ratings.push_back(row.floor_span_in);
    const auto want = c.expected("span_ratings_in");
    ASSERT_EQ(ratings.size(), want.size());
    for (std::size_t i = 0; i < want.size(); ++i) EXPECT_EQ(ratings[i].get<double>(), want[i].get<double>());
    return;
  }
  if (c.gives("performance_category")) {
    const auto out = ask("panel", {{"kind", panel_kind(c.text("product"))}, {"category", c.text("performance_category")}});
    c.near("thickness_min_in", out["thickness_min_in"]);
    c.near("thickness_max_in", out["thickness_max_in"]);
    c.near("roof_support_in", out["roof_span_in"]);
    c.near("subfloor_support_in", out["floor_span_in"]);
    if (c.has("span_rating_in")) {
      auto ratings = out["other_ratings"];
      ratings.push_back(out["rating"]);
      const std::string wanted = std::to_string(c.expected("span_rating_in").get<int>()) + " oc";
      EXPECT_NE(std::find(ratings.begin(), ratings.end(), json(wanted)), ratings.end()) << c.id();
    }
  } else if (c.gives("span_rating")) {
    const auto out = ask("panel", {{"kind", panel_kind(c.text("product"))}, {"rating", c.text("span_rating")}});
    c.near("max_subfloor_span_in", out["floor_span_in"]);
    c.near("max_floor_span_in", out["floor_span_in"]);
    c.near("total_load_psf", out["total_load_psf"]);
    EXPECT_EQ(out["category"], c.text("min_category")) << c.id();
  }
}

void decking(Case& c) {
  const std::string pattern = c.text("pattern");
  if (pattern.empty()) return;
  std::string layup = "random";
  if (pattern.find("simple span") == 0)
    layup = "simple";
  else if (pattern.find("two-span") == 0)
    layup = "two_span";
  else if (pattern.find("combination") == 0)
    layup = "mixed";
  else if (pattern.find("cantilever") == 0)
    layup = "cantilevered";
  const double thickness = c.in().value("thickness_in", pattern.find("3- and 4-inch") != std::string::npos ? 2.5 : 1.5);
  const auto out = ask("decking", {{"fb_psi", c.in().value("Fb_adj_psi", 1000.0)},
                                   {"e_psi", c.in().value("E_psi", 1.0e6)},
                                   {"thickness_in", thickness},
                                   {"span_in", c.in().value("span_in", 48.0)},
                                   {"layup", layup},
                                   {"deflection_over", c.in().value("deflection_limit_L_over", 360.0)}});
  c.near("k_flexure", out["k_bending"]);
  c.near("k_deflection", out["k_deflection"]);
  c.near("w_flexure_psf", out["bending_psf"]);
  c.near("w_deflection_psf", out["deflection_psf"]);
  c.near("capacity_psf", out["capacity_psf"]);
  if (c.has("governs")) {
    EXPECT_EQ(out["governs"], c.expected("governs") == "deflection" ? "deflection" : "bending");
  }
}

void creep(Case& c) {
  if (c.has("Kcr")) return c.near("Kcr", mechanics::floor_limits(c.text("material").find("wet") != std::string::npos).creep);
  // A member whose deflection under 1 lb/in. is known gives the loads that make the case's deflections.
  json in = {{"b_in", 1.5},   {"d_in", 9.25},   {"span_in", 144},  {"fb_psi", 1000},
             {"fv_psi", 180}, {"e_psi", 1.6e6}, {"w_live_pli", 1}, {"creep", c.in().value("Kcr", 1.5)}};
  const double unit = ask("member", in)["deflections"]["live_in"];
  in["w_dead_pli"] = c.in("immediate_dead_deflection_in") / unit;
  in["w_live_pli"] = c.in("immediate_live_deflection_in") / unit;
  const auto out = ask("member", in)["deflections"];
  c.near("total_deflection_in", out["long_term_in"]);
  c.near("deflection_to_compare_with_L_over_240_in", out["ibc_total_in"]);
}

void deflection_limits(Case& c) {
  const auto limits = mechanics::floor_limits();
  if (c.text("member") == "floor") c.near("limit_L_over", c.text("load").find("dead") != std::string::npos ? limits.total_over : limits.live_over);
  if (c.gives("span_in")) c.near("allowable_in", mechanics::check_deflection("a", "a", "live", 0.1, c.in("span_in"), c.in("limit_L_over"), {}).capacity);
  if (!c.gives("cantilever_in")) return;
  // The member check counts an overhang with twice its length: the load stands on it alone.
  mechanics::MemberInput m;
  m.id = m.name = "cantilever";
  m.section = mechanics::rectangle(1.5, 9.25);
  m.values = mechanics::design_values(Species::hem_fir, Grade::no_2, m.section);
  m.spans_in = {120, c.in("cantilever_in")};
  m.right = mechanics::End::free;
  m.live.points = {{100, 120 + c.in("cantilever_in")}};
  m.limits = mechanics::floor_limits();
  for (const auto& check : mechanics::check_member(m).checks) {
    if (check.kind != "deflection_live") continue;
    c.near("L_for_limit_in", check.capacity * m.limits.live_over);
    c.near("allowable_in", check.capacity);
  }
}

void cuts(Case& c) {
  if (c.has("V_adj_lb")) {
    const double b = c.in("b_in"), d = c.in("d_in"), dn = c.in("dn_in"), fv = c.in("Fv_adj_psi");
    c.near("V_adj_lb", mechanics::notched_shear_lb(b, d, dn, fv));
    c.near("ratio_to_unnotched", mechanics::notched_shear_lb(b, d, dn, fv) / (fv * b * d / 1.5));
    return;
  }
  if (!c.gives("nominal")) return;
  const auto out = ask("joist-cuts", {{"size", c.text("nominal")}});
  c.near("max_notch_depth_in", out["notch_max_in"]);
  c.near("max_notch_length_in", out["notch_length_max_in"]);
  c.near("max_end_notch_depth_in", out["end_notch_max_in"]);
  c.near("max_hole_d_over_3_in", out["hole_third_in"]);
  c.near("max_hole_with_2in_edges_in", out["hole_max_in"]);
}

void bearings(Case& c) {
  json in = {{"b_in", c.in().value("b_in", 1.5)},
             {"fc_perp_psi", c.in().value("Fc_perp_psi", 405.0)},
             {"cm_fc_perp", c.in().value("wet_CM", 1.0)},
             {"bearing_length_in", c.in().value("bearing_in", 1.5)}};
  const auto out = ask("bearing", in);
  c.near("allowable_reaction_lb", out["capacity_lb"]);
  if (c.gives("support")) c.near("min_bearing_in", out[c.text("support").find("masonry") != std::string::npos ? "least_on_masonry_in" : "least_on_wood_in"]);
}

void girders(Case& c) {
  if (c.gives("tributary_ft")) {
    const auto out = ask("joist-check", {{"species", "hem_fir"},
                                         {"grade", "no_2"},
                                         {"size", "3-2x10"},
                                         {"spacing_in", 12 * c.in("tributary_ft")},
                                         {"spans_in", {72}},
                                         {"live_psf", c.in("floor_psf")},
                                         {"dead_psf", 0}});
    c.near("line_load_pli", out["w_total_pli"]);
    c.near("line_load_plf", 12 * out["w_total_pli"].get<double>());
    return;
  }
  if (c.text("supports").find("interior") != 0) return;
  // As the notes found: No. 2 hem-fir, 50 psf on half the building's width, no repetitive factor.
  for (const int width_ft : {20, 28, 36}) {
    const auto out =
        ask("joist-span",
            {{"species", "hem_fir"}, {"grade", "no_2"}, {"size", c.text("size")}, {"spacing_in", 6.0 * width_ft}, {"live_psf", 40}, {"dead_psf", 10}});
    c.near("span_" + std::to_string(width_ft) + "ft_wide_in", out["span_in"]);
  }
}

void posts(Case& c) {
  if (c.has("max_le_over_d")) {
    const double most = c.expected("max_le_over_d");
    const auto slender = [](double le_over_d) {
      return ask("post", {{"b_in", 2}, {"d_in", 2}, {"length_in", 2 * le_over_d}, {"fc_psi", 1000}, {"emin_psi", 5e5}})["slender_ok"].get<bool>();
    };
    EXPECT_TRUE(slender(most));
    EXPECT_FALSE(slender(most + 0.1));
    return;
  }
  json in = {{"b_in", c.in("b_in")},         {"d_in", c.in("d_in")}, {"length_in", c.in("length_in")}, {"ke", c.in("Ke")}, {"fc_psi", c.in("Fc_psi")},
             {"emin_psi", c.in("Emin_psi")}, {"cd", c.in("CD")},     {"cm_fc", c.in("CM_Fc")},         {"cf", c.in("CF")}, {"cm_emin", c.in("CM_Emin")}};
  if (c.gives("length_b_in")) in["length_b_in"] = c.in("length_b_in");
  const auto out = ask("post", in);
  c.near("Fc_star_psi", out["fc_star_psi"]);
  c.near("FcE_psi", out["fce_psi"]);
  c.near("CP", out["cp"]);
  c.near("capacity_lb", out["capacity_lb"]);
}

void soils(Case& c) {
  const std::string soil = c.text("soil");
  std::string id = "unknown";
  for (const auto& [words, word] : std::vector<std::pair<std::string, std::string>>{
           {"crystalline", "bedrock"}, {"sedimentary", "sedimentary_rock"}, {"sandy gravel", "gravel"}, {"sand,", "sand"}, {"clay,", "clay"}})
    if (soil.find(words) == 0) id = word;
  c.near("bearing_psf", ask("footing", {{"load_lb", 1000}, {"soil", id}})["soil_psf"]);
}

void footings(Case& c) {
  if (!c.gives("post_load_lb")) return;
  const auto out = ask("footing", {{"load_lb", c.in("post_load_lb")}, {"soil_psf", c.in("soil_psf")}});
  c.near("area_ft2", out["area_ft2"]);
  c.near("square_side_in", out["square_side_in"]);
  c.near("round_diameter_in", out["round_diameter_in"]);
}

void member_example(Case& c) {
  json in = {{"b_in", 3.5},
             {"d_in", 7.25},
             {"span_in", c.in("span_in")},
             {"fb_psi", c.in("Fb_psi")},
             {"fv_psi", c.in("Fv_psi")},
             {"e_psi", c.in("E_psi")},
             {"cd", c.in("CD")},
             {"cf", c.in("CF")},
             {"cm_fb", c.in("CM_Fb")},
             {"cm_fv", c.in("CM_Fv")},
             {"cm_e", c.in("CM_E")},
             {"loads", {{{"kind", "point"}, {"p_lb", c.in("P_total_lb")}, {"at_in", c.in("span_in") / 2}}}}};
  const auto out = ask("member", in);
  c.near("fb_psi", out["fb"]);
  c.near("Fb_adj_psi", out["fb_adj"]);
  c.near("fv_psi", out["fv"]);
  c.near("Fv_adj_psi", out["fv_adj"]);
  c.near("E_adj_psi", out["e_adj"]);
  c.same("bending_passes", out["passes"]["bending"]);
  c.same("shear_passes", out["passes"]["shear"]);
}

void joist_example(Case& c) {
  const auto out = ask("joist-check", {{"species", species_id(c.text("species"))},
                                       {"grade", grade_id(c.text("grade"))},
                                       {"size", c.text("size")},
                                       {"spacing_in", c.in("spacing_in")},
                                       {"spans_in", {c.in("span_in")}},
                                       {"live_psf", c.in("live_psf")},
                                       {"dead_psf", c.in("dead_psf")},
                                       {"edition", "2018"}});
  for (const auto& [key, name] : std::map<std::string, std::string>{{"w_total_pli", "w_total_pli"},
                                                                    {"M_inlb", "moment_inlb"},
                                                                    {"fb_psi", "fb_psi"},
                                                                    {"Fb_adj_psi", "fb_adj_psi"},
                                                                    {"fv_psi", "fv_psi"},
                                                                    {"Fv_adj_psi", "fv_adj_psi"},
                                                                    {"live_deflection_in", "live_deflection_in"},
                                                                    {"total_deflection_in", "total_deflection_in"},
                                                                    {"L_over_live", "span_over_live"},
                                                                    {"bearing_needed_in", "bearing_needed_in"}})
    c.near(key, out[name]);
}

void worked_examples(Case& c) {
  if (c.gives("spacing_in") && c.gives("live_psf")) return joist_example(c);
  if (c.gives("P_total_lb") && c.gives("CM_Fb")) return member_example(c);
  if (c.has("required_bearing_in"))
    return c.near("required_bearing_in", ask("bearing", {{"b_in", c.in("width_in")},
                                                         {"fc_perp_psi", c.in("Fc_perp_psi")},
                                                         {"cm_fc_perp", c.in("CM_Fc_perp")},
                                                         {"reaction_lb", c.in("P_lb")}})["bearing_needed_in"]);
  if (c.has("max_notch_in")) {
    const auto out = ask("joist-cuts", {{"size", "2x10"}});
    c.near("max_notch_in", out["notch_max_in"]);
    c.near("max_notch_length_in", out["notch_length_max_in"]);
    c.near("max_end_notch_in", out["end_notch_max_in"]);
    c.near("max_hole_in", out["hole_max_in"]);
  } else if (c.has("w_pli")) {
    c.near("w_pli", ask("joist-check", {{"species", "hem_fir"},
                                        {"grade", "no_2"},
                                        {"size", "3-2x10"},
                                        {"spacing_in", 120},
                                        {"spans_in", {72}},
                                        {"live_psf", 40},
                                        {"dead_psf", 0}})["w_total_pli"]);
  } else if (c.has("Ft_adj_psi")) {
    const auto a = ask("design-values", {{"species", "hem_fir"}, {"grade", "no_2"}, {"size", "2x10"}, {"cd", c.in("CD")}, {"repetitive", true}})["adjusted"];
    for (const auto& [key, name] : std::map<std::string, std::string>{{"Fb_adj_psi", "fb_psi"},
                                                                      {"Ft_adj_psi", "ft_psi"},
                                                                      {"Fv_adj_psi", "fv_psi"},
                                                                      {"Fc_perp_adj_psi", "fc_perp_psi"},
                                                                      {"Fc_adj_psi", "fc_star_psi"},
                                                                      {"E_adj_psi", "e_psi"}})
      c.near(key, a[name]);
  } else if (c.gives("depth_in") && c.has("CF")) {
    const auto a = ask("design-values", {{"species", "hem_fir"}, {"grade", "no_2"}, {"size", size_in(5.5, c.in("depth_in"))}, {"cd", c.in("CD")}})["adjusted"];
    c.near("CF", a["cf"]);
    c.near("Fb_adj_psi", a["fb_psi"]);
  }
}

const std::map<std::string, std::function<void(Case&)>>& topics() {
  static const std::map<std::string, std::function<void(Case&)>> map = {{"joist_span", joist_rows},
                                                                        {"joist_math_crosscheck", joist_rows},
                                                                        {"joist_span_rule", joist_rules},
                                                                        {"lumber_floor_sheathing", board_subfloors},
                                                                        {"panel_floor", panels},
                                                                        {"decking_ibc", decking},
                                                                        {"nds_reference", reference_values},
                                                                        {"nds_factor", factors},
                                                                        {"section_properties", sections},
                                                                        {"wood_property", wood},
                                                                        {"creep", creep},
                                                                        {"deflection_limit", deflection_limits},
                                                                        {"notch_hole", cuts},
                                                                        {"bearing", bearings},
                                                                        {"girder", girders},
                                                                        {"post", posts},
                                                                        {"soil_bearing", soils},
                                                                        {"footing", footings},
                                                                        {"worked_example", worked_examples},
                                                                        {"beam_formula", beam_formula}};
  return map;
}

}  // namespace

TEST(WoodFloor, EveryPublishedCaseIsTestedOrListed) {
  const auto file = outside_file("wood_floor.json");
  int tested = 0, figures = 0;
  for (const auto& [topic, cases] : file.items()) {
    const auto test = topics().find(topic);
    for (const auto& one : cases) {
      Case c(one);
      SCOPED_TRACE(c.id());
      if (test != topics().end() && !is_unusable(c.id(), "")) test->second(c);
      if (c.touched()) ++tested;
      figures += static_cast<int>(one["expected"].size() - c.left().size());
      for (const auto& key : c.left())
        EXPECT_TRUE(is_unusable(c.id(), key)) << c.id() << "." << key << " is neither compared nor listed in wood_floor_unusable.hpp";
    }
  }
  EXPECT_GE(tested, 200);
  RecordProperty("cases", tested);
  RecordProperty("figures", figures);
}

// A listed case that does not exist (any more) hides a mistake.
TEST(WoodFloor, TheListNamesOnlyCasesThatExist) {
  const auto file = outside_file("wood_floor.json");
  for (const auto& [entry, why] : wood_floor_unusable()) {
    const std::string id = entry.substr(0, entry.find_first_of(".*"));
    bool found = false;
    for (const auto& [topic, cases] : file.items())
      for (const auto& one : cases) {
        const std::string name = one["id"];
        found = found || name == id || (entry.back() == '*' && name.compare(0, id.size(), id) == 0);
      }
    EXPECT_TRUE(found) << entry;
    EXPECT_FALSE(why.empty());
  }
}

}  // namespace awlmark::testing
