#include "base/dollars.hpp"

#include <cmath>

#include "base/length.hpp"

namespace awlmark {

std::string format_dollars(double dollars) {
  if (!std::isfinite(dollars)) return "not known";
  std::string digits = format_number(std::fabs(dollars), 0);
  for (auto at = static_cast<long>(digits.size()) - 3; at > 0; at -= 3) digits.insert(static_cast<std::size_t>(at), ",");
  return (dollars <= -0.5 ? "-$" : "$") + digits;
}

std::string rough_dollars(double dollars) {
  const double size = std::fabs(dollars);
  const double step = size >= 1000 ? 100 : size >= 200 ? 10 : size >= 50 ? 5 : 1;
  return format_dollars(std::floor(dollars / step + 0.5) * step);
}

}  // namespace awlmark
