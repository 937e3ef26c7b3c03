#include "mechanics/factors.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "base/special.hpp"
#include "tables/table.hpp"

namespace awlmark::mechanics {
namespace {

const tables::Table& factors() { return tables::table("lumber_factors.csv"); }

const tables::Row& factor_row(const std::string& factor, const std::string& use) { return *factors().find("factor", factor, "use", use); }

// The row of that use and width whose thickness reaches ours; nothing where the table has none.
const tables::Row* by_size(const std::string& factor, const std::string& use, int thickness, int width) {
  for (const auto& row : factors().rows()) {
    if (row.text("factor") != factor || row.text("use") != use || thickness > row.number("thickness_to")) continue;
    const auto listed = row.maybe_number("width");
    if (!listed || static_cast<int>(*listed) == width) return &row;
  }
  return nullptr;
}

std::string f2(double v) { return format_number(v, v == std::floor(v * 100) / 100 ? 2 : 4); }
std::string psi(double v) { return format_number(v, std::fabs(v - std::round(v)) < 5e-5 ? 0 : 1) + " psi"; }

struct Temperature {
  double strength = 1, ft = 1, e = 1;
};
Temperature temperature_factors(double temp_f, bool wet) {
  const std::string band = temp_f <= 100 ? "100" : temp_f <= 125 ? "125" : "150";
  const auto& row = factor_row("temperature", (wet ? "wet_to_" : "dry_to_") + band);
  return {row.number("fb"), row.number("ft"), row.number("e")};
}

// "Fb' = 900 psi x CD 1.00 x CF 1.10 = 990 psi"
class Product {
 public:
  Product(std::string name, double base) : text_(std::move(name) + " = " + psi(base)), value_(base) {}
  Product& times(const char* factor, double value) {
    text_ += std::string(" x ") + factor + " " + f2(value);
    value_ *= value;
    return *this;
  }
  double end(std::vector<std::string>& steps) {
    steps.push_back(text_ + " = " + psi(value_));
    return value_;
  }

 private:
  std::string text_;
  double value_;
};

std::string use_words(const DesignValues& values, const Section& section) {
  if (values.use == Use::decking) return "decking " + std::to_string(nominal_thickness(section)) + " in. thick, laid flat";
  if (values.use != Use::dimension) return "timber " + section_words(section);
  return std::to_string(nominal_thickness(section)) + " in. thick, " + std::to_string(nominal_width(section)) + " in. wide (nominal)";
}

double repetitive_factor(const DesignValues& values, const Conditions& conditions, std::vector<std::string>& steps) {
  if (!conditions.repetitive) {
    steps.push_back("Cr 1.00: not a repetitive member");
    return 1;
  }
  if (values.use == Use::decking) {
    steps.push_back("Cr 1.00: already in the repetitive column of Table 4E");
    return 1;
  }
  if (values.use != Use::dimension) {
    steps.push_back("Cr 1.00: NDS 4.3.9 allows it for dimension lumber only");
    return 1;
  }
  const double cr = factor_row("repetitive", "dimension").number("fb");
  steps.push_back("Cr " + f2(cr) + ": three or more members at 24 in. or closer under a deck that joins them (NDS 4.3.9)");
  return cr;
}

void size_step(const DesignValues& values, const Section& section, const Size& size, std::vector<std::string>& steps) {
  std::string why = use_words(values, section);
  if (values.size_included && size.fb == 1) why += "; already in the values of Table 4B";
  steps.push_back("CF " + f2(size.fb) + " for Fb: " + why);
}

void service_step(const DesignValues& values, const Conditions& conditions, const Wet& wet, double fb_cf, std::vector<std::string>& steps) {
  if (!conditions.wet) return steps.push_back("CM 1.00: dry service, moisture at most 19 percent");
  std::string why = "wet service (" + std::string(values.use == Use::dimension ? "Table 4A/4B" : values.use == Use::decking ? "Table 4E" : "Table 4D") + ")";
  if (wet.fb == 1 && values.use != Use::beam_stringer && values.use != Use::post_timber) why += "; Fb CF = " + psi(fb_cf) + " is at most 1150 psi";
  steps.push_back("CM Fb " + f2(wet.fb) + ", Fv " + f2(wet.fv) + ", Fc_perp " + f2(wet.fc_perp) + ", E " + f2(wet.e) + ": " + why);
}

// CL, and the lines that show how it came about.
double lateral_factor(const Conditions& conditions, const Section& section, double emin_psi, double fb_star_psi, Adjusted& out) {
  if (!conditions.effective_unbraced_in || section.d_in <= section.b_in) {
    out.steps.push_back(section.d_in <= section.b_in ? "CL 1.00: not deeper than wide (NDS 3.3.3.1)"
                                                     : "CL 1.00: the deck holds the compression edge (NDS 3.3.3.3)");
    return 1;
  }
  const double le = *conditions.effective_unbraced_in;
  const double rb = slenderness_rb(le, section);
  const double cl = beam_stability_factor(emin_psi, fb_star_psi, le, section);
  out.steps.push_back("CL " + format_number(cl, 4) + ": le " + format_number(le, 1) + " in., RB " + format_number(rb, 2) + ", FbE " +
                      psi(1.2 * emin_psi / (rb * rb)) + " (NDS 3.3.3)");
  if (rb > 50) out.not_allowed.push_back("slenderness RB " + format_number(rb, 1) + " is over 50 (NDS 3.3.3.7): hold the compression edge");
  return cl;
}

}  // namespace

double cd_of(Duration duration) {
  static const char* const names[] = {"permanent", "ten_years", "two_months", "seven_days", "ten_minutes", "impact"};
  return factor_row("duration", names[static_cast<int>(duration)]).number("fb");
}

Wet wet_factors(const DesignValues& values, double fb_cf_psi, double fc_cf_psi) {
  const bool timber = values.use == Use::beam_stringer || values.use == Use::post_timber;
  const auto& row = factor_row(
      "wet", timber ? (values.species == Species::southern_pine ? "southern_pine_timber" : "timber") : (values.use == Use::decking ? "decking" : "dimension"));
  Wet wet{row.number("fb"), row.number("ft"), row.number("fv"), row.number("fc_perp"), row.number("fc"), row.number("e")};
  constexpr double kFbUnchanged_psi = 1150, kFcUnchanged_psi = 750;  // footnotes of the wet service tables
  if (!timber && fb_cf_psi <= kFbUnchanged_psi + 1e-9) wet.fb = 1;
  if (!timber && fc_cf_psi <= kFcUnchanged_psi + 1e-9) wet.fc = 1;
  return wet;
}

Size size_factors(const DesignValues& values, const Section& section) {
  if (values.use == Use::decking) {
    const auto* row = by_size("size", "decking", std::max(2, std::min(4, nominal_thickness(section))), 0);
    return {row->number("fb"), 1, 1};
  }
  if (values.use != Use::dimension) {
    constexpr double kDeep_in = 12;
    // NDS Supplement Table 4D: for loads on the narrow face of pieces deeper than 12 in.
    const double cf = section.d_in > kDeep_in ? det_pow(kDeep_in / section.d_in, 1.0 / 9) : 1.0;
    return {cf, cf, 1};
  }
  const int thickness = nominal_thickness(section), width = nominal_width(section);
  std::string use = "dimension";
  if (values.size_included) use = thickness == 4 && width >= 8 ? "southern_pine_thick" : "southern_pine";
  const auto* row = by_size("size", use, thickness, width);
  if (row == nullptr) return {};
  return {row->number("fb"), row->number("ft"), row->number("fc")};
}

double flat_use_factor(const DesignValues& values, const Section& section) {
  if (values.use != Use::dimension) return 1;
  const auto* row = by_size("flat", "dimension", nominal_thickness(section), nominal_width(section));
  return row == nullptr ? 1 : row->number("fb");
}

double slenderness_rb(double effective_length_in, const Section& section) { return std::sqrt(effective_length_in * section.d_in) / section.b_in; }

double beam_stability_factor(double emin_psi, double fb_star_psi, double effective_length_in, const Section& section) {
  const double rb = slenderness_rb(effective_length_in, section);
  if (rb <= 0) return 1;
  const double ratio = 1.2 * emin_psi / (rb * rb) / fb_star_psi;
  const double half = (1 + ratio) / 1.9;
  return half - std::sqrt(std::max(0.0, half * half - ratio / 0.95));
}

double effective_unbraced_uniform_in(double unbraced_in, double d_in) {
  if (unbraced_in < 7 * d_in) return 2.06 * unbraced_in;
  return 1.63 * unbraced_in + 3 * d_in;
}

double column_stability_factor(double fc_star_psi, double fce_psi, double c) {
  const double ratio = fce_psi / fc_star_psi;
  const double half = (1 + ratio) / (2 * c);
  return half - std::sqrt(std::max(0.0, half * half - ratio / c));
}

double bearing_area_factor(double bearing_length_in, double distance_to_end_in) {
  constexpr double kLong_in = 6, kFromEnd_in = 3;
  if (bearing_length_in <= 0 || bearing_length_in >= kLong_in || distance_to_end_in < kFromEnd_in) return 1;
  return (bearing_length_in + 0.375) / bearing_length_in;
}

double incised_e(const DesignValues& values) { return values.incised && values.use == Use::dimension ? factor_row("incised", "dimension").number("e") : 1; }

Adjusted adjust(const DesignValues& values, const Section& section, const Conditions& conditions) {
  Adjusted out;
  out.reason = values.reason;
  const Size size = size_factors(values, section);
  const double fb_base = values.use == Use::decking && !conditions.repetitive ? values.fb_single_psi : values.fb_psi;
  const Wet wet = conditions.wet ? wet_factors(values, fb_base * size.fb, values.fc_psi * size.fc) : Wet{};
  const Temperature t = temperature_factors(conditions.temp_f, conditions.wet);
  const bool incised = (conditions.incised || values.incised) && values.use == Use::dimension;
  const double ci = incised ? factor_row("incised", "dimension").number("fb") : 1, ci_e = incised ? factor_row("incised", "dimension").number("e") : 1;
  out.cf = size.fb;
  out.cm_fb = wet.fb;
  out.cfu = conditions.flat ? flat_use_factor(values, section) : 1;
  for (const auto& line : values.assumed) out.steps.push_back(line);
  size_step(values, section, size, out.steps);
  service_step(values, conditions, wet, fb_base * size.fb, out.steps);
  out.cr = repetitive_factor(values, conditions, out.steps);

  out.emin_psi = Product("Emin'", values.emin_psi).times("CM", wet.e).times("Ct", t.e).times("Ci", ci_e).end(out.steps);
  const double fb_star = fb_base * conditions.cd * wet.fb * t.strength * size.fb * ci * out.cr;  // Cfu and CL left out (NDS 3.3.3.8)
  out.cl = lateral_factor(conditions, section, out.emin_psi, fb_star, out);
  out.fb_psi = Product("Fb'", fb_base)
                   .times("CD", conditions.cd)
                   .times("CM", wet.fb)
                   .times("Ct", t.strength)
                   .times("CL", out.cl)
                   .times("CF", size.fb)
                   .times("Cfu", out.cfu)
                   .times("Ci", ci)
                   .times("Cr", out.cr)
                   .end(out.steps);
  out.fv_psi = Product("Fv'", values.fv_psi).times("CD", conditions.cd).times("CM", wet.fv).times("Ct", t.strength).times("Ci", ci).end(out.steps);
  out.fc_perp_psi = Product("Fc_perp'", values.fc_perp_psi).times("CM", wet.fc_perp).times("Ct", t.strength).end(out.steps);
  out.e_psi = Product("E'", values.e_psi).times("CM", wet.e).times("Ct", t.e).times("Ci", ci_e).end(out.steps);
  if (values.fc_psi > 0)
    out.fc_star_psi = Product("Fc*", values.fc_psi)
                          .times("CD", conditions.cd)
                          .times("CM", wet.fc)
                          .times("Ct", t.strength)
                          .times("CF", size.fc)
                          .times("Ci", ci)
                          .end(out.steps);
  if (values.ft_psi > 0)
    out.ft_psi =
        Product("Ft'", values.ft_psi).times("CD", conditions.cd).times("CM", wet.ft).times("Ct", t.ft).times("CF", size.ft).times("Ci", ci).end(out.steps);
  out.reason.steps = out.steps;
  return out;
}

}  // namespace awlmark::mechanics
