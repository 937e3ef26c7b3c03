// Roots of small polynomials in an interval, isolated one derivative at a time: between two
// neighbouring turning points a polynomial crosses zero at most once, and bisection finds it.
#pragma once

#include <array>
#include <vector>

namespace awlmark::mechanics {

// c[0] + c[1] t + ... + c[5] t^5
using Polynomial = std::array<double, 6>;

double value(const Polynomial& p, double t);
Polynomial derivative(const Polynomial& p);
// Ascending; a root at either end of the interval may be left out.
std::vector<double> roots_between(const Polynomial& p, double low, double high);

}  // namespace awlmark::mechanics
