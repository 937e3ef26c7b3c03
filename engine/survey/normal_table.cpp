#include "survey/normal_table.hpp"

#include "base/special.hpp"

namespace awlmark::survey {

NormalTable::NormalTable() {
  const int steps = static_cast<int>(2 * kReach * kPerUnit);
  const double h = 1 / kPerUnit;
  for (int i = 0; i <= steps; ++i) {
    const double z = -kReach + i * h;
    const double v0 = normal_cdf(z), v1 = normal_cdf(z + h);
    const double d0 = normal_pdf(z) * h, d1 = normal_pdf(z + h) * h;
    // Hermite: value and slope at both ends.
    coefficients_.push_back(v0);
    coefficients_.push_back(d0);
    coefficients_.push_back(3 * (v1 - v0) - 2 * d0 - d1);
    coefficients_.push_back(2 * (v0 - v1) + d0 + d1);
  }
}

const NormalTable& normal_table() {
  static const NormalTable table;
  return table;
}

}  // namespace awlmark::survey
