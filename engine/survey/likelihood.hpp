// What one reading says about one latent value f, and the moments of "normal times likelihood" that
// expectation propagation needs.
//
//   ordinal (awl, eye):   P(low < f + noise <= high), a difference of normal integrals
//   gaussian (meter):     value = f + noise
// One-sided intervals (low or high infinite) are the probit and the censored reading. All are
// log-concave in f, so site precisions are never negative and EP is well behaved.
// Moments: Rasmussen and Williams 2006, section 3.9 (probit); Chu and Ghahramani 2005 for the
// ordinal interval; both from memory, checked in the tests against quadrature.
#pragma once

namespace awlmark::survey {

struct Likelihood {
  enum class Kind { interval, gaussian };
  Kind kind = Kind::interval;
  double low = 0;    // may be -infinity
  double high = 0;   // may be +infinity
  double value = 0;  // gaussian only
  double noise_sd = 1;

  static Likelihood below(double cut, double noise_sd);
  static Likelihood between(double low, double high, double noise_sd);
  static Likelihood above(double cut, double noise_sd);
  static Likelihood measured(double value, double noise_sd);
};

struct Tilted {
  double log_mass = 0;  // log of the integral of N(f; mean, variance) times the likelihood
  double mean = 0;
  double variance = 0;
};

Tilted tilt(const Likelihood& likelihood, double mean, double variance);

}  // namespace awlmark::survey
