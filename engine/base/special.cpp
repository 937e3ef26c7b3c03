#include "base/special.hpp"

#include <cmath>
#include <limits>

namespace awlmark {
namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
constexpr double kLn2High = 6.93147180369123816490e-01;  // 33 leading bits of ln 2, so k * kLn2High is exact
constexpr double kLn2Low = 1.90821492927058770002e-10;
constexpr double kSqrtHalf = 0.70710678118654752440;
constexpr double kInvSqrtPi = 0.56418958354775628695;
constexpr double kInvSqrt2Pi = 0.39894228040143267794;
constexpr double kHalfLog2Pi = 0.91893853320467274178;

// Rational Chebyshev approximations of erf and erfc: W. J. Cody, Mathematics of Computation 23
// (1969) 631-637; coefficients from memory, checked against published values in the tests.
double erf_small(double x) {
  constexpr double a[] = {1.85777706184603153e-1, 3.16112374387056560e0, 1.13864154151050156e2, 3.77485237685302021e2, 3.20937758913846947e3};
  constexpr double b[] = {1.0, 2.36012909523441209e1, 2.44024637934444173e2, 1.28261652607737228e3, 2.84423683343917062e3};
  const double y = x * x;
  double above = a[0];
  double below = b[0];
  for (int i = 1; i < 5; ++i) {
    above = above * y + a[i];
    below = below * y + b[i];
  }
  return x * above / below;
}

// erfc(x) * exp(x * x), for x >= 0.46875.
double erfc_scaled(double x) {
  if (x <= 4) {
    constexpr double c[] = {2.15311535474403846e-8, 5.64188496988670089e-1, 8.88314979438837594e0, 6.61191906371416295e1, 2.98635138197400131e2,
                            8.81952221241769090e2,  1.71204761263407058e3,  2.05107837782607147e3, 1.23033935479799725e3};
    constexpr double d[] = {1.0,
                            1.57449261107098347e1,
                            1.17693950891312499e2,
                            5.37181101862009858e2,
                            1.62138957456669019e3,
                            3.29079923573345963e3,
                            4.36261909014324716e3,
                            3.43936767414372164e3,
                            1.23033935480374942e3};
    double above = c[0];
    double below = d[0];
    for (int i = 1; i < 9; ++i) {
      above = above * x + c[i];
      below = below * x + d[i];
    }
    return above / below;
  }
  constexpr double p[] = {1.63153871373020978e-2, 3.05326634961232344e-1, 3.60344899949804439e-1,
                          1.25781726111229246e-1, 1.60837851487422766e-2, 6.58749161529837803e-4};
  constexpr double q[] = {1.0, 2.56852019228982242e0, 1.87295284992346725e0, 5.27905102951428412e-1, 6.05183413124413191e-2, 2.33520497626869185e-3};
  const double y = 1 / (x * x);
  double above = p[0];
  double below = q[0];
  for (int i = 1; i < 6; ++i) {
    above = above * y + p[i];
    below = below * y + q[i];
  }
  return (kInvSqrtPi - y * above / below) / x;
}

// exp(-z * z / 2) for z >= 0, split so that the square of the leading part is exact.
double exp_minus_half_square(double z) {
  const double lead = std::floor(z * 16) / 16;
  return det_exp(-0.5 * lead * lead) * det_exp(-0.5 * (z - lead) * (z + lead));
}

double sin_reduced(double x) {  // |x| <= pi/4
  const double y = x * x;
  double sum = 1;
  for (int n = 17; n >= 3; n -= 2) sum = 1 - y / (n * (n - 1)) * sum;
  return x * sum;
}

double cos_reduced(double x) {
  const double y = x * x;
  double sum = 1;
  for (int n = 18; n >= 2; n -= 2) sum = 1 - y / (n * (n - 1)) * sum;
  return sum;
}

struct Quarter {
  double rest;
  int turns;  // quarter turns, 0..3
};

Quarter reduce_angle(double x) {
  constexpr double kHalfPiHigh = 1.57079632673412561417e+00;  // 33 leading bits of pi/2
  constexpr double kHalfPiLow = 6.07710050650619224932e-11;
  const double k = std::floor(x / 1.57079632679489661923 + 0.5);
  return {(x - k * kHalfPiHigh) - k * kHalfPiLow, static_cast<int>(k - 4 * std::floor(k / 4))};
}

}  // namespace

double det_exp(double x) {
  if (std::isnan(x)) return x;
  if (x > 709.782712893384) return kInf;
  if (x < -745.2) return 0;
  const double k = std::floor(x * 1.44269504088896340736 + 0.5);
  const double r = (x - k * kLn2High) - k * kLn2Low;
  double sum = 1;  // Taylor, |r| <= 0.3466: the term left out is below 1e-17
  for (int n = 13; n >= 1; --n) sum = 1 + sum * r / n;
  const int exponent = static_cast<int>(k);
  return std::ldexp(sum, exponent);
}

double det_log(double x) {
  if (std::isnan(x) || x < 0) return std::numeric_limits<double>::quiet_NaN();
  if (x == 0) return -kInf;
  if (std::isinf(x)) return x;
  int exponent = 0;
  double m = std::frexp(x, &exponent);
  if (m < kSqrtHalf) {
    m *= 2;
    --exponent;
  }
  const double s = (m - 1) / (m + 1);
  const double y = s * s;
  double sum = 0;  // atanh series, |s| <= 0.1716
  for (int n = 25; n >= 3; n -= 2) sum = (sum + 1.0 / n) * y;
  return exponent * kLn2High + (exponent * kLn2Low + 2 * s * (sum + 1));
}

double det_pow(double base, double power) { return det_exp(power * det_log(base)); }

double det_sin(double x) {
  const Quarter q = reduce_angle(x);
  switch (q.turns) {
    case 0:
      return sin_reduced(q.rest);
    case 1:
      return cos_reduced(q.rest);
    case 2:
      return -sin_reduced(q.rest);
    default:
      return -cos_reduced(q.rest);
  }
}

double det_cos(double x) {
  const Quarter q = reduce_angle(x);
  switch (q.turns) {
    case 0:
      return cos_reduced(q.rest);
    case 1:
      return -sin_reduced(q.rest);
    case 2:
      return -cos_reduced(q.rest);
    default:
      return sin_reduced(q.rest);
  }
}

double normal_pdf(double z) { return kInvSqrt2Pi * exp_minus_half_square(std::fabs(z)); }

double normal_cdf(double z) {
  const double x = std::fabs(z) * kSqrtHalf;
  if (x < 0.46875) return 0.5 + 0.5 * erf_small(z * kSqrtHalf);
  const double tail = x > 38 ? 0 : 0.5 * exp_minus_half_square(std::fabs(z)) * erfc_scaled(x);
  return z < 0 ? tail : 1 - tail;
}

double log_normal_cdf(double z) {
  if (z > 2) {  // log(1 - tail) by its series: the tail is below 0.0228
    const double tail = normal_cdf(-z);
    double sum = 0;
    for (int n = 10; n >= 1; --n) sum = (sum + 1.0 / n) * tail;
    return -sum;
  }
  const double x = -z * kSqrtHalf;
  if (x < 0.46875) return det_log(normal_cdf(z));
  return -0.5 * z * z + det_log(0.5 * erfc_scaled(x));
}

double normal_quantile(double p) {
  if (!(p > 0)) return p == 0 ? -kInf : std::numeric_limits<double>::quiet_NaN();
  if (!(p < 1)) return p == 1 ? kInf : std::numeric_limits<double>::quiet_NaN();
  if (p > 0.5) return -normal_quantile(1 - p);
  // First guess: Abramowitz and Stegun 26.2.23 (error below 4.5e-4); then Newton steps with
  // Halley's correction, on the logarithm of the probability so that far tails converge too.
  const double t = std::sqrt(-2 * det_log(p));
  double z = -(t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))));
  const double goal = det_log(p);
  for (int i = 0; i < 4; ++i) {
    const double log_cdf = log_normal_cdf(z);
    const double hazard = det_exp(-0.5 * z * z - kHalfLog2Pi - log_cdf);  // pdf / cdf
    const double gap = log_cdf - goal;
    const double step = gap / hazard;
    z -= step / (1 + 0.5 * step * (z + hazard));  // second derivative of log cdf is -hazard (z + hazard)
  }
  return z;
}

}  // namespace awlmark
