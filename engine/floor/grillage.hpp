// A deck of planks (or strips of a panel) over supports, as a grillage.
//
// Each plank is a beam along the span with bending stiffness EI and torsion stiffness GJ. Three
// movements at each station of a plank: down, slope along it, twist about it. Neighbouring edges are
// joined by their tongues: a shear link along the edge (down movement of the two edges), and for a
// strip of one panel also the panel's own cross bending. A plank that was cut in without its tongue
// has no link and shares nothing. A plank may be broken at a support (simple spans) or in the air.
//
// Guarantees: (1) `residual` is the largest of the force and moment imbalance of the whole deck,
// relative to the load; it is measured from the reactions, not from the solver; (2) with the strip
// width going to zero and cross bending given, the deck tends to the thin orthotropic plate
// (Kirchhoff, Poisson's ratio 0): D_x = EI/b, D_y = cross bending, twisting energy GJ/b = 4 D_xy;
// (3) without links each plank is the Euler beam. Not promised: contact (a plank may be held down by
// a link), shear deflection, supports that yield.
// Checked: tests/floor/grillage_test.cpp (closed forms, layup coefficients, CalculiX).
#pragma once

#include <string>
#include <vector>

namespace awlmark::floor {

struct DeckPlank {
  double width_in = 5.5;
  double ei_lbin2 = 0;
  double gj_lbin2 = 0;
  std::vector<double> breaks_in;  // where pieces of this plank meet: over a support, or in the air
  double from_in = 0;             // where this plank begins and ends; 0,0 is the whole deck
  double to_in = 0;
};

// Between plank i and plank i + 1.
struct DeckLink {
  double shear_psi = 0;               // lb per inch of edge for one inch of slip; 0: no tongue
  double bending_lbin_per_in = 0;     // cross moment per inch of edge for one radian; a panel's D_y / width
  std::vector<double> blocked_at_in;  // stations where a block ties the two edges together
};

struct DeckLoad {
  enum class Kind { uniform, point } kind = Kind::uniform;
  double psf = 0;  // uniform, over all planks between from_in and to_in
  double from_in = 0;
  double to_in = 0;  // 0, 0: the whole length
  double lb = 0;     // point
  double at_in = 0;  // along the planks
  int plank = 0;
  double patch_in = 0;  // length along the plank over which the point load is spread
};

struct Deck {
  double length_in = 0;             // stations run from 0 to here
  std::vector<double> supports_in;  // rigid, across all planks
  std::vector<DeckPlank> planks;
  std::vector<DeckLink> links;  // planks - 1
  std::vector<DeckLoad> loads;
  int elements_per_span = 10;
  bool twist_held_at_supports = true;  // two nails hold a plank's twist; false: free
};

struct PlankResult {
  double deflection_in = 0;  // largest downward
  double deflection_at_in = 0;
  double moment_max_inlb = 0;  // sagging positive
  double moment_min_inlb = 0;
  double shear_max_lb = 0;  // magnitude
  double share = 0;         // of the deck's bending moment at the first point load's station
};

struct DeckResult {
  bool stable = false;  // false: some plank can move freely; nothing else is then filled in
  std::vector<PlankResult> planks;
  std::vector<double> support_lb;  // reaction of each support, all planks, upward positive
  double deflection_in = 0;        // largest of all planks
  int deflection_plank = -1;
  double residual = 0;
  std::vector<double> stations_in;
  std::vector<std::vector<double>> down_in;  // [plank][station]
};

DeckResult solve_deck(const Deck& deck);

// Torsion constant of a rectangle (St. Venant), sides a >= t: a t^3 (1/3 - 0.21 t/a (1 - t^4/(12 a^4))).
double torsion_constant_in4(double side_in, double thickness_in);

// Edge stiffness of a wood tongue a third of the plank thick and a quarter inch long, in shear:
// G (t/3) / (1/4 in.). Stiff beside the plank's own bending, so the exact figure matters little.
double tongue_shear_psi(double shear_modulus_psi, double thickness_in);

}  // namespace awlmark::floor
