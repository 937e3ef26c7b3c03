// Cut plan: which sticks to buy and how to cut each, at the least cost.
//
// Exact: column generation (Gilmore and Gomory 1961) gives a lower bound, rounding gives a plan, and
// a depth-first search over the pattern of the next stick closes the gap. Lengths are compared as
// integers of a millionth of an inch, so that a plan that fits to the last kerf is found to fit.
// Guarantees: (1) every piece is cut, every stick holds its pieces with a kerf between any two (the
// last cut may vanish in the offcut), no stock is used beyond what is available; this is checked
// again on the finished plan; (2) `proven` is true only when no cheaper plan exists.
// Not promised: an end to the search on very large jobs; then `proven` is false and `lower_bound`
// says how far off the plan can be at most. Same plan on every target.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <vector>

#include "base/problem.hpp"

namespace awlmark::takeoff {

struct Stock {
  double length_in = 0;
  double price = 0;
  std::optional<int> available;  // no limit when absent
};
BOOST_DESCRIBE_STRUCT(Stock, (), (length_in, price, available))

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
  bool proven = false;
  long nodes = 0;  // searched after the relaxation
};

Outcome<CutPlan> cut_plan(const CutQuestion& question);

}  // namespace awlmark::takeoff
