// Design values, factors, sections and weights: the published cases asked of `reckon design-values`,
// and of the kernels where no topic gives the figure.
#include <map>

#include "mechanics/factors.hpp"
#include "reckon/wood_floor_topics.hpp"
#include "reckon/wood_floor_words.hpp"

namespace awlmark::testing {
namespace {

double ratio(const json& out, const json& against, const char* key) { return out["adjusted"][key].get<double>() / against[key].get<double>(); }

// "8 in", "2 to 4 in", "10 in and wider", "2 and 3 in": the last number of the words is the width asked for.
int nominal_of(const std::string& words, bool last) {
  int number = 0;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] < '0' || words[i] > '9') continue;
    number = 0;
    while (i < words.size() && words[i] >= '0' && words[i] <= '9') number = 10 * number + (words[i++] - '0');
    if (!last) return number;
  }
  return number;
}

json nominal_size(int thickness, int width) {
  if (width == 5) return size_in(thickness - 0.5, 4.5);
  return std::to_string(thickness) + "x" + std::to_string(width);
}

void size_and_flat(Case& c) {
  const int width = nominal_of(c.text("width_nominal"), true);
  json in = {{"species", "douglas_fir_larch"}, {"grade", "no_2"}};
  if (c.text("use") == "flatwise") {
    for (const auto& [key, thickness] : std::map<std::string, int>{{"Cfu_2_and_3_in_thick", 2}, {"Cfu_4_in_thick", 4}}) {
      if (!c.has(key)) continue;
      in["size"] = nominal_size(thickness, width);
      in["flat"] = true;
      c.near(key, ask("design-values", in)["adjusted"]["cfu"]);
    }
    return;
  }
  const int thickness = c.gives("thickness_nominal") ? nominal_of(c.text("thickness_nominal"), false) : 2;
  in["size"] = nominal_size(thickness, width);
  const auto out = ask("design-values", in);
  c.near("CF_Fb", ratio(out, out["reference"], "fb_psi"));
  c.near("CF_Ft", ratio(out, out["reference"], "ft_psi"));
  c.near("CF_Fc", out["adjusted"]["fc_star_psi"].get<double>() / out["reference"]["fc_psi"].get<double>());
}

void wet_service(Case& c) {
  const bool timber = c.text("table") == "4D";
  json in = {{"species", "douglas_fir_larch"}, {"grade", "select_structural"}, {"size", timber ? "6x12" : "2x6"}};
  const auto dry = ask("design-values", in)["adjusted"];
  in["wet"] = true;
  const auto wet = ask("design-values", in);
  for (const auto& [key, name] : std::map<std::string, const char*>{
           {"CM_Fb", "fb_psi"}, {"CM_Fv", "fv_psi"}, {"CM_E", "e_psi"}, {"CM_Ft", "ft_psi"}, {"CM_Fc_perp", "fc_perp_psi"}, {"CM_Fc", "fc_star_psi"}})
    c.near(key, ratio(wet, dry, name));
  mechanics::DesignValues v;
  if (c.has("CM_Fb_is_1_when_FbCF_at_or_below_psi")) {
    const double limit = c.expected("CM_Fb_is_1_when_FbCF_at_or_below_psi");
    EXPECT_EQ(mechanics::wet_factors(v, limit, 0).fb, 1.0);
    EXPECT_LT(mechanics::wet_factors(v, limit + 1, 0).fb, 1.0);
  }
  if (c.has("CM_Fc_is_1_when_FcCF_at_or_below_psi")) {
    const double limit = c.expected("CM_Fc_is_1_when_FcCF_at_or_below_psi");
    EXPECT_EQ(mechanics::wet_factors(v, 0, limit).fc, 1.0);
    EXPECT_LT(mechanics::wet_factors(v, 0, limit + 1).fc, 1.0);
  }
}

void duration(Case& c) {
  const std::string load = c.text("load");
  using mechanics::Duration;
  for (const auto& [word, d] : std::map<std::string, Duration>{{"permanent", Duration::permanent},
                                                               {"ten years", Duration::ten_years},
                                                               {"two months", Duration::two_months},
                                                               {"seven days", Duration::seven_days},
                                                               {"ten minutes", Duration::ten_minutes},
                                                               {"impact", Duration::impact}})
    if (load.find(word) == 0) c.near("CD", mechanics::cd_of(d));
}

void incised(Case& c) {
  json in = {{"species", "hem_fir"}, {"grade", "no_2"}, {"size", "2x12"}, {"incised", true}};
  const auto out = ask("design-values", in);  // 2x12: CF is 1 throughout
  for (const auto& [key, name] : std::map<std::string, const char*>{
           {"Ci_E", "e_psi"}, {"Ci_Emin", "emin_psi"}, {"Ci_Fb", "fb_psi"}, {"Ci_Ft", "ft_psi"}, {"Ci_Fv", "fv_psi"}, {"Ci_Fc_perp", "fc_perp_psi"}})
    c.near(key, ratio(out, out["reference"], name));
  c.near("Ci_Fc", out["adjusted"]["fc_star_psi"].get<double>() / out["reference"]["fc_psi"].get<double>());
}

}  // namespace

void reference_values(Case& c) {
  const std::string use = c.text("use");
  json in = {{"species", species_id(c.text("species"))}, {"grade", grade_id(c.text("grade"))}, {"edition", "2018"}, {"size", "2x8"}};
  if (use.find("beams and stringers") != std::string::npos)
    in["size"] = "6x12";
  else if (use.find("timbers") != std::string::npos)
    in["size"] = "6x6";
  if (c.text("grade").find("decking") != std::string::npos) in["size"] = "4x6";
  auto compare = [&](const std::string& before) {
    const auto v = ask("design-values", in)["reference"];
    c.near(before + "Fb_psi", v["fb_psi"]);
    c.near(before + "Ft_psi", v["ft_psi"]);
    c.near(before + "Fc_psi", v["fc_psi"]);
    if (!before.empty()) return;
    for (const auto& [key, name] : std::map<std::string, std::string>{{"Fb_single_psi", "fb_single_psi"},
                                                                      {"Fb_repetitive_psi", "fb_psi"},
                                                                      {"Fv_psi", "fv_psi"},
                                                                      {"Fc_perp_psi", "fc_perp_psi"},
                                                                      {"E_psi", "e_psi"},
                                                                      {"Emin_psi", "emin_psi"}})
      c.near(key, v[name]);
  };
  compare("");
  for (const char* size : {"2x4", "2x6", "2x8", "2x10", "2x12"}) {
    if (!c.has(std::string(size) + "_Fb_psi")) continue;
    in["size"] = size;
    compare(std::string(size) + "_");
  }
}

void factors(Case& c) {
  if (c.gives("width_nominal")) return size_and_flat(c);
  if (c.gives("condition")) return wet_service(c);
  if (c.has("CD")) return duration(c);
  if (c.gives("treatment")) return incised(c);
  if (c.gives("depth_in")) {
    const auto out = ask("design-values", {{"species", "hem_fir"}, {"grade", "no_2"}, {"size", size_in(5.5, c.in("depth_in"))}});
    c.near("CF_Fb", out["adjusted"]["cf"], 5e-4);  // printed to three figures
  }
  if (c.has("Cr")) c.near("Cr", ask("design-values", {{"species", "hem_fir"}, {"grade", "no_2"}, {"size", "2x10"}, {"repetitive", true}})["adjusted"]["cr"]);
  if (c.has("Cb"))
    c.near(
        "Cb",
        ask("bearing",
            {{"b_in", 1.5}, {"fc_perp_psi", 405}, {"bearing_length_in", c.in("bearing_length_in")}, {"distance_to_end_in", c.in("distance_to_end_in")}})["cb"]);
  if (c.has("RB") && c.gives("le_over_lu")) {
    const double le = c.in("lu_in") * c.in("le_over_lu");
    c.near("le_in", le);
    c.near("RB", mechanics::slenderness_rb(le, mechanics::rectangle(c.in("b_in"), c.in("d_in"))));
  }
  if (c.has("CL")) {
    // A unit square has RB = sqrt(le).
    const double rb = c.in("RB"), emin = c.in("Emin_psi");
    c.near("FbE_psi", 1.2 * emin / (rb * rb));
    c.near("CL", mechanics::beam_stability_factor(emin, c.in("Fb_star_psi"), rb * rb, mechanics::rectangle(1, 1)));
  }
  if (c.has("fv_over_V_over_A")) {
    const auto out = ask("member", {{"b_in", 2}, {"d_in", 5}, {"span_in", 100}, {"fb_psi", 1000}, {"fv_psi", 100}, {"e_psi", 1e6}, {"w_live_pli", 2}});
    c.near("fv_over_V_over_A", out["fv"].get<double>() / (100.0 / 10.0));
  }
}

void sections(Case& c) {
  if (c.gives("nominal")) {
    const auto out = ask("design-values", {{"size", c.text("nominal")}});
    c.near("A_in2", out["area_in2"]);
    c.near("Sx_in3", out["s_in3"]);
    c.near("Ix_in4", out["i_in4"]);
    return;
  }
  const auto loss = [](const char* size, double nominal) { return nominal - section_of(size)->d_in; };
  c.near("nominal_minus_actual_up_to_6_in", loss("2x6", 6));
  c.near("nominal_minus_actual_over_6_in", loss("2x8", 8));
  c.near("timbers_5_in_and_larger_minus", loss("6x12", 12));
  c.near("one_inch_board_actual_in", section_of("1x6")->b_in);
}

void wood(Case& c) {
  if (c.has("density_pcf")) c.near("density_pcf", mechanics::density_pcf(c.in("G"), c.in("moisture_content_pct")));
  if (!c.has("weight_pcf")) return;
  const double g = c.expected("specific_gravity_oven_dry");
  c.near("weight_pcf", mechanics::density_pcf(g, 15));
  const std::string species = species_id(c.text("species"));
  if (!species.empty()) {
    EXPECT_EQ(ask("design-values", {{"species", species}, {"grade", "no_2"}, {"size", "2x8"}})["reference"]["specific_gravity"].get<double>(), g) << c.id();
  }
}

}  // namespace awlmark::testing
