#include "base/reason.hpp"

#include <utility>

namespace awlmark {

Check make_check(std::string id, std::string member, std::string kind, double demand, double capacity, Reason reason) {
  Check check{std::move(id), std::move(member), std::move(kind), demand, capacity, 0, true, CheckState::passes, std::move(reason), std::nullopt, std::nullopt};
  check.reason.demand = demand;
  check.reason.capacity = capacity;
  if (capacity > 0 || !(demand > 0)) {
    check.ratio = capacity > 0 ? demand / capacity : 0.0;
    check.reason.ratio = check.ratio;
    // A hair of slack, so that a figure exactly at its limit is not failed by rounding.
    check.ok = check.ratio <= 1.0 + 1e-9;
    check.state = check.ok ? CheckState::passes : CheckState::fails;
    return check;
  }
  check.ratio = kNoRatio;
  check.reason.ratio.reset();
  check.ok = false;
  check.state = CheckState::nothing_left;
  return check;
}

Check forbidden_check(std::string id, std::string member, std::string kind, double found, Reason reason) {
  Check check{std::move(id), std::move(member),       std::move(kind),   found,        0,           kNoRatio,
              false,         CheckState::not_allowed, std::move(reason), std::nullopt, std::nullopt};
  check.reason.demand = found;
  check.reason.capacity.reset();
  check.reason.ratio.reset();
  return check;
}

}  // namespace awlmark
