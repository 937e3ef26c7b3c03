#include "mechanics/design_values.hpp"

#include <algorithm>

#include "base/described.hpp"
#include "tables/table.hpp"

namespace awlmark::mechanics {
namespace {

constexpr int kPresentFrom = 2015;  // first code edition with the present design values

struct Values {
  Species species;
  Grade grade;
  Use use;
  int width;  // 0: any
  bool old;   // behind the span tables up to 2012
  DesignValues values;
};

std::vector<Values> read_values() {
  std::vector<Values> all;
  for (const auto& row : tables::table("lumber_values.csv").rows()) {
    Values v{};
    v.species = doc::from_word<Species>(row.text("species")).value();
    v.grade = doc::from_word<Grade>(row.text("grade")).value();
    v.use = doc::from_word<Use>(row.text("use")).value();
    v.width = static_cast<int>(row.maybe_number("width").value_or(0));
    v.old = row.text("period") == "to_2012";
    auto& d = v.values;
    d.fb_psi = row.number("fb_psi");
    d.fb_single_psi = row.number("fb_single_psi");
    d.ft_psi = row.maybe_number("ft_psi").value_or(0);
    d.fv_psi = row.number("fv_psi");
    d.fc_perp_psi = row.number("fc_perp_psi");
    d.fc_psi = row.maybe_number("fc_psi").value_or(0);
    d.e_psi = row.number("e_psi");
    d.emin_psi = row.number("emin_psi");
    d.use = v.use;
    d.species = v.species;
    d.grade = v.grade;
    d.size_included = v.width > 0;
    d.reason = row.reason();
    all.push_back(std::move(v));
  }
  return all;
}

const std::vector<Values>& all_values() {
  static const std::vector<Values> all = read_values();
  return all;
}

// Table 4B lists widths 4 (and less), 6 (also 5), 8, 10, 12 (also wider, with its own CF).
int table_width(int nominal) {
  if (nominal <= 4) return 4;
  if (nominal <= 6) return 6;
  return std::min(nominal, 12);
}

// The rows that answer the question; a row of the old tables replaces the present one.
std::vector<const Values*> matching(Species species, Grade grade, Use use, int width, bool old) {
  std::vector<const Values*> found;
  for (const auto& v : all_values()) {
    if (v.use != use || (species != Species::unknown && v.species != species) || (grade != Grade::unknown && v.grade != grade)) continue;
    if (v.width != 0 && v.width != width) continue;
    if (v.old && !old) continue;
    const auto same = std::find_if(found.begin(), found.end(), [&](const Values* f) { return f->species == v.species && f->grade == v.grade; });
    if (same == found.end())
      found.push_back(&v);
    else if (v.old)
      *same = &v;
  }
  return found;
}

// Lowest of every property. A southern pine value that already holds its size factor may meet others
// that do not: the worst is then said to hold none, and the size factor (never below 0.9) is applied.
DesignValues worst_of(const std::vector<const Values*>& rows) {
  DesignValues worst = rows.front()->values;
  for (const auto* row : rows) {
    const auto& v = row->values;
    worst.fb_psi = std::min(worst.fb_psi, v.fb_psi);
    worst.fb_single_psi = std::min(worst.fb_single_psi, v.fb_single_psi);
    worst.ft_psi = std::min(worst.ft_psi, v.ft_psi);
    worst.fv_psi = std::min(worst.fv_psi, v.fv_psi);
    worst.fc_perp_psi = std::min(worst.fc_perp_psi, v.fc_perp_psi);
    worst.fc_psi = std::min(worst.fc_psi, v.fc_psi);
    worst.e_psi = std::min(worst.e_psi, v.e_psi);
    worst.emin_psi = std::min(worst.emin_psi, v.emin_psi);
    worst.size_included = worst.size_included && v.size_included;
    if (v.reason.status == SourceStatus::memory) worst.reason.status = SourceStatus::memory;
  }
  return worst;
}

void add_gravity(DesignValues& values, Species species) {
  bool first = true;
  for (const auto& row : tables::table("lumber_species.csv").rows()) {
    if (species != Species::unknown && row.text("species") != doc::word_of(species)) continue;
    const double g = row.number("specific_gravity");
    values.specific_gravity = first ? g : std::min(values.specific_gravity, g);
    values.heavy_gravity = first ? g : std::max(values.heavy_gravity, g);
    first = false;
  }
}

std::string table_name(Use use) {
  if (use == Use::dimension) return "Tables 4A and 4B";
  return use == Use::decking ? "Table 4E" : "Table 4D";
}

}  // namespace

Use use_of(const Section& section) {
  if (!is_timber(section)) return Use::dimension;
  // "Width more than 2 in. greater than thickness" is meant in nominal sizes; both lose the same 1/2 in.
  const double thickness = std::min(section.ply_b_in(), section.d_in), width = std::max(section.ply_b_in(), section.d_in);
  return width - thickness > 2 + 1e-6 ? Use::beam_stringer : Use::post_timber;
}

bool has_grade(Use use, Grade grade) {
  return std::any_of(all_values().begin(), all_values().end(), [&](const Values& v) { return v.use == use && v.grade == grade; });
}

DesignValues design_values(Species species, Grade grade, Use use, const Section& section, int edition) {
  std::vector<std::string> assumed;
  const bool old = edition < kPresentFrom;
  const int width = table_width(nominal_width(section));
  Grade asked_grade = grade;
  if (grade != Grade::unknown && !has_grade(use, grade)) {
    assumed.push_back(table_name(use) + " holds no grade " + doc::spoken(grade) +
                      ": the lowest listed value of each property is taken, and the piece must be graded again");
    asked_grade = Grade::unknown;
  }
  auto rows = matching(species, asked_grade, use, width, old);
  if (rows.empty() && asked_grade != Grade::unknown) {
    assumed.push_back("the table here holds no " + doc::spoken(species) + " of grade " + doc::spoken(grade) +
                      " for this size: the lowest listed value of each property is taken");
    rows = matching(species, Grade::unknown, use, width, old);
  }
  if (rows.empty()) {
    assumed.push_back("the table here holds no " + doc::spoken(species) + " for this size: the lowest value of all species is taken, property by property");
    rows = matching(Species::unknown, Grade::unknown, use, width, old);
  }
  if (species == Species::unknown)
    assumed.push_back("species not known: the lowest value of all species of " + table_name(use) + " is taken, property by property");
  if (grade == Grade::unknown) assumed.push_back("grade not known: the lowest listed value of each property is taken");
  if (use == Use::dimension && nominal_thickness(section) < 2)
    assumed.push_back("boards under 2 in. nominal have no design values of their own: those of 2-in. lumber are taken");
  DesignValues values = rows.size() == 1 ? rows.front()->values : worst_of(rows);
  values.species = species;
  values.grade = grade;
  values.edition = edition;
  values.assumed = std::move(assumed);
  if (rows.size() > 1) values.reason.rule = table_name(use) + ", lowest of " + std::to_string(rows.size()) + " rows, property by property";
  add_gravity(values, species);
  return values;
}

DesignValues design_values(Species species, Grade grade, const Section& section, int edition) {
  return design_values(species, grade, use_of(section), section, edition);
}

DesignValues decking_values(Species species, Grade grade, int edition) { return design_values(species, grade, Use::decking, rectangle(5.5, 3.5), edition); }

double density_pcf(double specific_gravity, double mc_percent) {
  constexpr double kWater_pcf = 62.4;
  return kWater_pcf * specific_gravity / (1 + 0.009 * specific_gravity * mc_percent) * (1 + mc_percent / 100);
}

double weight_plf(const DesignValues& values, const Section& section, double mc_percent) {
  return density_pcf(values.heavy_gravity, mc_percent) * section.area_in2() / 144;
}

}  // namespace awlmark::mechanics
