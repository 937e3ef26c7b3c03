// A slab that gives off moisture from its faces, below fibre saturation: the share of the moisture
// that is to leave that has left.
//
// Crank, The Mathematics of Diffusion, 2nd ed., pp. 47-48: uniform start, surface at its end value
// at once, constant diffusivity. Fo = D t / l^2, l HALF the thickness with both faces open and the
// FULL thickness with one face sealed: a sealed face takes four times as long.
#pragma once

namespace awlmark::drying {

struct SlabDrying {
  double fraction_mean = 0;    // of the whole slab, 0 to 1
  double fraction_centre = 0;  // at its middle, or at the sealed face
  double fourier = 0;
};

// By the long-time series past Fo 0.1 and the short-time series of error functions before: both good
// to 1e-12 where they are used. Negative arguments count as 0.
SlabDrying slab_by_fourier(double fourier);
SlabDrying slab_drying(double thickness_in, int faces_open, double diffusivity_in2_per_day, double days);
// Days until that share has left; 0 < fraction < 1.
double slab_days(double thickness_in, int faces_open, double diffusivity_in2_per_day, double fraction);

// The same with a surface that resists: Biot number B = alpha l / D (Crank p. 60).
double slab_mean_with_surface(double biot, double fourier);

}  // namespace awlmark::drying
