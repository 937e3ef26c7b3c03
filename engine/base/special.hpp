// exp, log, erfc and the normal distribution, written here so that native and WebAssembly give the
// same bits: glibc and musl differ in the last places, and an inference that iterates would carry
// that into choices. Only +, -, *, / and sqrt of the hardware are used, which agree everywhere.
//
// Accuracy, checked in tests/base/special_test.cpp against published values: exp and log 2 ulp,
// erfc and normal_cdf 1e-14 relative down to z = -37, log_normal_cdf 1e-13, quantile 1e-12.
#pragma once

namespace awlmark {

inline constexpr double kPi = 3.14159265358979323846;

double det_exp(double x);                   // exp; 0 below -745.2, +inf above 709.8
double det_log(double x);                   // natural logarithm of x > 0; -inf at 0, NaN below
double det_pow(double base, double power);  // base > 0
double det_sin(double x);                   // |x| <= 1e4
double det_cos(double x);

double normal_pdf(double z);
double normal_cdf(double z);       // P(Z <= z)
double log_normal_cdf(double z);   // finite for every finite z
double normal_quantile(double p);  // p in (0, 1); -inf and +inf at the ends

}  // namespace awlmark
