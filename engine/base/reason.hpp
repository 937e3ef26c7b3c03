// A reason: the comparison, the rule and the source behind a figure that a person may have to defend.
//
// Guarantees: (1) `ratio` is demand over capacity; at most 1 passes. (2) `status` says how the source
// is known: `read` in a copy of the document, from `memory`, or `common_practice` without a source.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <vector>

namespace awlmark {

enum class SourceStatus { read, memory, common_practice, derived };
BOOST_DESCRIBE_ENUM(SourceStatus, read, memory, common_practice, derived)

struct Reason {
  std::string compares;            // "bending stress in joist j1 against its adjusted design value"
  std::optional<double> demand;    // in `unit`
  std::optional<double> capacity;  // in `unit`
  std::optional<double> ratio;     // demand / capacity
  std::string unit;                // "psi", "in", "lb"; empty when nothing is measured
  std::string rule;                // "NDS 3.3.1: fb = M/S <= Fb'"
  std::string source;              // "NDS"
  std::string edition;             // "2018"
  SourceStatus status = SourceStatus::common_practice;
  std::vector<std::string> steps;  // factors and intermediate figures, one a line, in the order used
};
BOOST_DESCRIBE_STRUCT(Reason, (), (compares, demand, capacity, ratio, unit, rule, source, edition, status, steps))

// How a check ends. Two ends have no ratio: `nothing_left`, where something is asked for and what should
// give it is gone, and `not_allowed`, where the rule forbids the thing whatever its size. `stands`: past
// today's limit, and allowed to stay because it is old, sound and not loaded more than before.
enum class CheckState { passes, fails, nothing_left, not_allowed, stands };
BOOST_DESCRIBE_ENUM(CheckState, passes, fails, nothing_left, not_allowed, stands)

// Stands in `Check::ratio` where there is no ratio, so that readers who only sort by it find the check
// last. Whoever says a check in words or figures asks `state` first.
inline constexpr double kNoRatio = 1e9;

// One pass-or-fail comparison. `ok` is `state == passes`; whether a check
// fails what it belongs to says failing().
struct Check {
  std::string id;      // unique among its siblings: "j1.bending"
  std::string member;  // what is checked, in words or the job's id
  std::string kind;    // "bending", "shear", "deflection_live", ...
  double demand = 0;
  double capacity = 0;
  double ratio = 0;  // demand / capacity; kNoRatio where `state` says that there is none
  bool ok = true;
  CheckState state = CheckState::passes;
  Reason reason;
  std::optional<std::string> case_;     // "low" or "high" where a load that nobody knows is run at both; the key is `case`
  std::optional<std::string> standing;  // of a member: "damaged", "newly_loaded", "old", "new_wood"
};
BOOST_DESCRIBE_STRUCT(Check, (), (id, member, kind, case_, standing, demand, capacity, ratio, ok, state, reason))

// Past its limit, and not one that may stand as it was.
inline bool failing(const Check& check) { return !check.ok && check.state != CheckState::stands; }

// Demand against capacity, with the reason's figures filled in from the same two numbers.
// Something asked of a capacity of zero or less is `nothing_left`; its reason has no ratio.
Check make_check(std::string id, std::string member, std::string kind, double demand, double capacity, Reason reason);
// Forbidden by the rule in `reason`: no size of it would pass, so only what is there is shown.
Check forbidden_check(std::string id, std::string member, std::string kind, double found, Reason reason);

}  // namespace awlmark
