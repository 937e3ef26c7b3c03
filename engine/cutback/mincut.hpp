// Exact minimum cut over yes-or-no pieces: which pieces go out, so that the sum of prices is least.
//
// In: whole cents (integers, so that the optimum is exact and the same on every target). Out: the
// smallest optimal set of pieces (pieces that every optimal answer with the fewest removals shares),
// its price, and the flow that proves it: `flow_cents == price_cents` is checked before returning.
// Method: s-t minimum cut (Ford and Fulkerson 1956; Picard and Queyranne 1980 on the smallest one),
// Boykov-Kolmogorov augmentation of Boost.Graph. Internal to the room.
#pragma once

#include <cstdint>
#include <vector>

namespace awlmark::cutback {

struct CutProblem {
  // Two pieces side by side: paid when one goes and the other stays.
  struct Pair {
    int a = 0;
    int b = 0;
    std::int64_t cents = 0;
  };
  // Whoever takes out `lower` takes out `upper`.
  struct Implies {
    int lower = 0;
    int upper = 0;
  };
  std::vector<std::int64_t> out_cents;   // price of taking the piece out, >= 0
  std::vector<std::int64_t> stay_cents;  // expected price of leaving it, >= 0
  std::vector<char> must_go;             // a constraint, never a price
  std::vector<char> must_stay;           // gives way to must_go and to what must_go implies
  std::vector<Pair> pairs;
  std::vector<Implies> implies;
  int size() const { return static_cast<int>(out_cents.size()); }
};

struct CutSolution {
  std::vector<char> out;
  std::int64_t price_cents = 0;  // of the labels, summed apart from the solver
  std::int64_t flow_cents = 0;   // of the maximum flow: the certificate
};

// The price of any set of labels; nothing is said about constraints.
std::int64_t price_of(const CutProblem& problem, const std::vector<char>& out);
// Whether the labels keep every constraint.
bool allowed(const CutProblem& problem, const std::vector<char>& out);
// Throws std::logic_error when flow and price differ (a fault of the program, never of a job).
CutSolution least_cut(const CutProblem& problem);

}  // namespace awlmark::cutback
