// A slab of wood that dries, by one balance over its depth: while a face is wetter than fibre saturation
// it gives off water as fast as its air film takes it, however wet it is (a stage of its own, limited by
// the surface); once the free water no longer reaches the face, the dry shell grows inward and bound
// water follows by diffusion that grows with moisture, to the equilibrium of the air.
//
// Diffusivity across the grain: bound water 0.07 exp(-(9200 - 70 M)/RT) cm2/s and the cell model of
// Siau, Transport Processes in Wood (1984). Film: 1.3 in. a day for a point of moisture at 68 F in still
// indoor air (from a film coefficient of 3 W/m2K by the Lewis relation and the slope of the sorption
// curve; judgement), in step with the saturation pressure. Free water moves along the cells some times
// faster than bound water at saturation (judgement). All carry a spread; the log narrows it.
// Units: in., days, percent of ovendry mass, Fahrenheit.
#pragma once

#include <array>

namespace awlmark::drying {

// cm2/s; temp_f 20 to 160, mc 0 to 30, specific gravity (ovendry) 0.25 to 0.9.
double bound_water_diffusivity_cm2_s(double temp_f, double mc_percent);
double transverse_diffusivity_cm2_s(double temp_f, double mc_percent, double specific_gravity);

struct Slab {
  double thickness_in = 0.75;
  int faces_open = 1;
  double specific_gravity = 0.5;
};

struct AirState {
  double temp_f = 68;
  double rh_percent = 45;
};

// What air does to a wood of that gravity, worked out once for many slabs.
struct Climate {
  double temp_f = 68;
  double equilibrium_percent = 8;
  double film_share = 1;                 // saturation pressure against that at 68 F
  double log_d_low = 0, log_d_high = 0;  // ln of the diffusivity, cm2/s, at 8 and 26 percent
};
Climate climate(const AirState& air, double specific_gravity);

// What is uncertain: factors on diffusivity and evaporation, points on the equilibrium, and what the
// face that counts as shut gives off all the same, as a share of an open one. No face of a floor is
// sealed: boards have joints, bays have air.
struct Spread {
  double diffusivity = 1;
  double evaporation = 1;
  double equilibrium_points = 0;
  double shut_share = 0;
  double capillary = 3;  // free water against bound water at saturation
};

// Steps the slab forward; the profile is kept between calls.
class DryingSlab {
 public:
  DryingSlab(const Slab& slab, double mc_percent);
  // `air_factor`: the film against still air (fans).
  void advance(double days, const Climate& climate, const Spread& spread, double air_factor);
  double mean_percent() const;
  double free_percent() const;  // mean water above fibre saturation

 private:
  static constexpr int kCells = 8;
  void diffuse(double days, double end_percent, const Climate& climate, const Spread& spread, double air_factor);
  Slab slab_;
  std::array<double, kCells> cells_{};  // percent; from the open face inward to the middle, or to the shut face
};

}  // namespace awlmark::drying
