// Cut plan: which sticks to buy and how to cut each, at the least cost.
//
// Exact: column generation (Gilmore and Gomory 1961) gives a lower bound, dives through the relaxation
// and rounding give plans, and a depth-first search over the pattern of the next stick closes the gap. Lengths are compared as
// integers of a millionth of an inch, so that a plan that fits to the last kerf is found to fit.
// Guarantees: (1) every piece is cut, every stick holds its pieces with a kerf between any two (the
// last cut may vanish in the offcut), no stock is used beyond what is available; this is checked
// again on the finished plan; (2) `proven` is true only when no cheaper plan exists.
// Not promised: a proof on very large jobs. The search ends after so many steps, not seconds, so that
// it ends alike on every machine; then `proven` is false and `gap` says how far off the plan can be at most.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <vector>

#include "base/problem.hpp"

namespace awlmark::takeoff {

// A stretch of a stick on hand that no piece may use.
struct Defect {
  double from_in = 0;
  double to_in = 0;
};
BOOST_DESCRIBE_STRUCT(Defect, (), (from_in, to_in))

struct Stock {
  double length_in = 0;
  double price = 0;              // 0 for what is on hand: an offcut
  std::optional<int> available;  // no limit when absent; what costs nothing needs one
  std::vector<Defect> defects;   // of what is on hand: the sound stretches between are used
};
BOOST_DESCRIBE_STRUCT(Stock, (), (length_in, price, available, defects))

struct PieceNeed {
  double length_in = 0;
  int count = 0;
};
BOOST_DESCRIBE_STRUCT(PieceNeed, (), (length_in, count))

struct CutQuestion {
  std::vector<Stock> stock;
  std::vector<PieceNeed> pieces;
  double kerf_in = 0.125;
  long max_nodes = 200000;  // of the search
  double max_steps = 1e8;   // of all of it, about a second
};

struct Stick {
  double stock_in = 0;
  int times = 0;
  std::vector<double> cuts;  // lengths, longest first
  double offcut_in = 0;      // of each of these sticks
};
BOOST_DESCRIBE_STRUCT(Stick, (), (stock_in, times, cuts, offcut_in))

struct CutPlan {
  std::vector<Stick> sticks;
  double cost = 0;
  double lower_bound = 0;  // of the relaxation, rounded up to what the prices can add up to
  double gap = 0;          // (cost - lower_bound) / cost; 0 when proven
  bool proven = false;
  long nodes = 0;  // searched after the relaxation
};

Outcome<CutPlan> cut_plan(const CutQuestion& question);

}  // namespace awlmark::takeoff
