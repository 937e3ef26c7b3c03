#include "mechanics/polynomial.hpp"

#include <cmath>

namespace awlmark::mechanics {
namespace {

int degree(const Polynomial& p) {
  for (int i = static_cast<int>(p.size()) - 1; i > 0; --i)
    if (p[static_cast<std::size_t>(i)] != 0) return i;
  return 0;
}

// p changes its sign once between low and high. Halving 100 times reaches the last bit of any double.
double bisect(const Polynomial& p, double low, double high) {
  const bool rises = value(p, low) < 0;
  for (int i = 0; i < 100; ++i) {
    const double middle = 0.5 * (low + high);
    if (middle <= low || middle >= high) break;
    if ((value(p, middle) < 0) == rises)
      low = middle;
    else
      high = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace

double value(const Polynomial& p, double t) {
  double sum = 0;
  for (std::size_t i = p.size(); i-- > 0;) sum = sum * t + p[i];
  return sum;
}

Polynomial derivative(const Polynomial& p) {
  Polynomial d{};
  for (std::size_t i = 1; i < p.size(); ++i) d[i - 1] = p[i] * static_cast<double>(i);
  return d;
}

std::vector<double> roots_between(const Polynomial& p, double low, double high) {
  const int n = degree(p);
  if (n == 0 || !(high > low)) return {};
  if (n == 1) {
    const double root = -p[0] / p[1];
    if (root > low && root < high) return {root};
    return {};
  }
  std::vector<double> edges{low};
  for (const double turn : roots_between(derivative(p), low, high)) edges.push_back(turn);
  edges.push_back(high);
  std::vector<double> roots;
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    const double a = value(p, edges[i]), b = value(p, edges[i + 1]);
    if ((a < 0 && b > 0) || (a > 0 && b < 0))
      roots.push_back(bisect(p, edges[i], edges[i + 1]));
    else if (b == 0 && i + 2 < edges.size())
      roots.push_back(edges[i + 1]);  // touches at a turning point
  }
  return roots;
}

}  // namespace awlmark::mechanics
