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

// One pass-or-fail comparison. `ok` is ratio <= 1 unless the rule is not a ratio.
struct Check {
  std::string id;      // unique among its siblings: "j1.bending"
  std::string member;  // what is checked, in words or the job's id
  std::string kind;    // "bending", "shear", "deflection_live", ...
  double demand = 0;
  double capacity = 0;
  double ratio = 0;
  bool ok = true;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(Check, (), (id, member, kind, demand, capacity, ratio, ok, reason))

// Demand against capacity, with the reason's figures filled in from the same two numbers.
// A capacity of zero or less fails with ratio 1e9 (JSON has no infinity).
Check make_check(std::string id, std::string member, std::string kind, double demand, double capacity, Reason reason);

}  // namespace awlmark
