#include "base/reason.hpp"

#include <utility>

namespace awlmark {

Check make_check(std::string id, std::string member, std::string kind, double demand, double capacity, Reason reason) {
  constexpr double kNoCapacity = 1e9;
  const double ratio = capacity > 0 ? demand / capacity : (demand > 0 ? kNoCapacity : 0.0);
  reason.demand = demand;
  reason.capacity = capacity;
  reason.ratio = ratio;
  // A hair of slack, so that a figure exactly at its limit is not failed by rounding.
  const bool ok = ratio <= 1.0 + 1e-9;
  return {std::move(id), std::move(member), std::move(kind), demand, capacity, ratio, ok, std::move(reason)};
}

}  // namespace awlmark
