// Reference design values of sawn lumber by species, grade, size and edition (NDS Supplement
// Tables 4A, 4B, 4D, 4E; data/lumber_values.csv, each row with its source and status).
//
// Guarantees: (1) An unknown species or grade takes the worst value of the tables, property by
// property (lowest strength and stiffness; for weight the highest), and `assumed` says so.
// (2) A grade that a table does not hold (a decking grade for a joist) counts as unknown, and says so.
// (3) Editions up to 2012 give the values behind the older span tables: Douglas fir-larch No. 2 875
// psi, hem-fir No. 1 950 psi, southern pine before June 2013; from 2015 on the present values.
#pragma once

#include <string>
#include <vector>

#include "base/reason.hpp"
#include "job/words.hpp"
#include "mechanics/section.hpp"

namespace awlmark::mechanics {

// Which table a piece is looked up in.
enum class Use {
  dimension,      // 2 to 4 in. thick: Table 4A, and 4B for southern pine
  beam_stringer,  // 5 in. and thicker, width more than 2 in. greater than thickness: Table 4D
  post_timber,    // 5 in. and thicker, width not more than 2 in. greater: Table 4D
  decking         // 2 to 4 in. thick, laid flat: Table 4E
};
BOOST_DESCRIBE_ENUM(Use, dimension, beam_stringer, post_timber, decking)

inline constexpr int kEdition = 2018;  // where no edition is asked for

struct DesignValues {
  double fb_psi = 0;         // bending; of decking: the repetitive column, for 4-in. thickness
  double fb_single_psi = 0;  // of decking: the single-member column; else the same as fb_psi
  double ft_psi = 0;         // tension; 0 where the table has none (decking)
  double fv_psi = 0;         // shear
  double fc_perp_psi = 0;    // bearing across the grain
  double fc_psi = 0;         // compression along the grain; 0 where the table has none (decking)
  double e_psi = 0;
  double emin_psi = 0;          // for stability
  double specific_gravity = 0;  // oven-dry; the least of the tables where unknown (fasteners)
  double heavy_gravity = 0;     // the greatest where unknown (weight); else the same
  Use use = Use::dimension;
  bool incised = false;        // treated, of a species that takes the preservative through cuts (NDS 4.3.8)
  bool size_included = false;  // southern pine dimension lumber to 12 in.: CF is already in the values
  Species species = Species::unknown;
  Grade grade = Grade::unknown;
  int edition = kEdition;
  std::vector<std::string> assumed;  // what was not known and what was taken instead
  Reason reason;                     // table, edition, status
};

Use use_of(const Section& section);
// Whether the tables of that use hold the grade.
bool has_grade(Use use, Grade grade);
DesignValues design_values(Species species, Grade grade, const Section& section, int edition = kEdition);
DesignValues design_values(Species species, Grade grade, Use use, const Section& section, int edition = kEdition);
// Decking laid flat (Table 4E). Values are for 4-in. decking: size_factor() gives 1.10 and 1.04.
DesignValues decking_values(Species species, Grade grade, int edition = kEdition);

// Weight in pounds a cubic foot at a moisture content: 62.4 G / (1 + 0.009 G MC) (1 + MC/100)
// (NDS Supplement 3.1.3).
double density_pcf(double specific_gravity, double mc_percent);
double weight_plf(const DesignValues& values, const Section& section, double mc_percent = 15);

}  // namespace awlmark::mechanics
