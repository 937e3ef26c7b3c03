// What one reading says about one latent value f, and the moments of "normal times likelihood" that
// expectation propagation needs.
//
//   ordinal (awl, eye):   P(low < f + noise <= high), a difference of normal integrals
//   strayed (awl):        the same for one of three grades, and with a small chance the reading is
//                         one grade off (a knot, an old nail hole, the wrong ply)
//   gaussian (meter):     value = f + noise
// One-sided intervals (low or high infinite) are the probit and the censored reading. Ordinal and
// gaussian are log-concave in f, so their site precisions are never negative. A strayed reading is
// not: where everything around it says otherwise its site may want a negative precision, which ep.cpp
// holds at none, that is, the reading then counts for next to nothing.
// Moments: Rasmussen and Williams 2006, section 3.9 (probit); Chu and Ghahramani 2005 for the
// ordinal interval; both from memory, checked in the tests against quadrature.
#pragma once

#include <array>

namespace awlmark::survey {

// The chance that an awl's reading is one grade off whatever the wood: common practice, no source.
inline constexpr double kAwlStray = 0.01;

struct Likelihood {
  enum class Kind { interval, graded, gaussian };
  Kind kind = Kind::interval;
  double low = 0;    // interval: may be -infinity
  double high = 0;   // interval: may be +infinity
  double value = 0;  // gaussian only
  double noise_sd = 1;
  // graded only: the chance of this reading given that f + noise lies below low, between, above high.
  std::array<double, 3> given{0, 1, 0};

  static Likelihood below(double cut, double noise_sd);
  static Likelihood between(double low, double high, double noise_sd);
  static Likelihood above(double cut, double noise_sd);
  static Likelihood measured(double value, double noise_sd);
  // An awl's reading: grade 0 below 0 (sound), 1 up to `gap` (soft), 2 above it (gone).
  static Likelihood awl(int grade, double gap, double noise_sd, double stray);
};

struct Tilted {
  double log_mass = 0;  // log of the integral of N(f; mean, variance) times the likelihood
  double mean = 0;
  double variance = 0;
};

Tilted tilt(const Likelihood& likelihood, double mean, double variance);

}  // namespace awlmark::survey
