// A slab of wood that dries: free water first, limited by its surface, then bound water by diffusion
// that grows with moisture, to the equilibrium of the air.
//
// Diffusivity across the grain: bound water 0.07 exp(-(9200 - 70 M)/RT) cm2/s and the cell model of
// Siau, Transport Processes in Wood (1984). Evaporation from a wet surface: film coefficient of still
// indoor air (3 W/m2K, judgement) by the Lewis relation, a third of the surface wet (judgement). Both
// carry a spread; the log narrows it. Units: in., days, percent of ovendry mass, Fahrenheit.
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
  double drying_ratio = 0;               // humidity ratio at saturation less the air's
  double log_d_low = 0, log_d_high = 0;  // ln of the diffusivity, cm2/s, at 8 and 26 percent
};
Climate climate(const AirState& air, double specific_gravity);

// What is uncertain: factors on diffusivity and evaporation, points on the equilibrium.
struct Spread {
  double diffusivity = 1;
  double evaporation = 1;
  double equilibrium_points = 0;
};

// Steps the slab forward; the profile is kept between calls.
class DryingSlab {
 public:
  DryingSlab(const Slab& slab, double mc_percent);
  // `air_factor`: evaporation against still air (fans).
  void advance(double days, const Climate& climate, const Spread& spread, double air_factor);
  double mean_percent() const;
  double free_percent() const { return free_; }

 private:
  static constexpr int kCells = 8;
  void diffuse(double days, double surface_percent, const Climate& climate, const Spread& spread, double air_factor);
  Slab slab_;
  std::array<double, kCells> cells_{};  // bound water, percent; from the open face inward
  double free_ = 0;                     // water above fibre saturation, percent, mean of the slab
};

}  // namespace awlmark::drying
