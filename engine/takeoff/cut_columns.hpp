// The relaxation behind the cut plan: fractions of sticks allowed. Private to the room.
//
//   min  sum c_p x_p   so that  sum a_ip x_p >= d_i,  sum_{p of stock j} x_p <= u_j,  x >= 0
//
// over all patterns p that hold no more of a piece than is asked for. Solved by column generation:
// revised simplex over the columns found so far, bounded knapsacks to find the next.
#pragma once

#include <cstdint>
#include <vector>

namespace awlmark::takeoff::detail {

// Integers of a millionth of an inch; a kerf is added to every piece and to every stick, so that
// pieces fit when their sizes add up to at most the capacity.
struct CutData {
  std::vector<std::int64_t> size;      // of pieces, longest first
  std::vector<std::int64_t> capacity;  // of stocks
  std::vector<double> price;
  double dearest = 0;
};

struct Pattern {
  int stock = 0;
  std::vector<int> count;  // of each piece
};

// available[j] < 0: no limit.
struct Relaxed {
  bool feasible = false;
  double value = 0;
  std::vector<double> piece_price;  // dual of each demand, >= 0
  std::vector<double> stock_price;  // dual of each limit, <= 0
  std::vector<Pattern> used;        // patterns in the basis with a positive amount
  std::vector<double> amount;
};

class Columns {
 public:
  explicit Columns(const CutData& data) : data_(data) {}
  Relaxed solve(const std::vector<int>& demand, const std::vector<int>& available);
  // Steps taken so far, a measure of time that is the same on every machine.
  double steps() const { return steps_; }

 private:
  double steps_ = 0;
  const CutData& data_;
  std::vector<Pattern> pool_;  // found so far; those that hold too much of a piece are passed over
};

// The counts of the best filling of `capacity` by piece value, at most `most` of each; its worth.
double best_filling(const CutData& data, std::int64_t capacity, const std::vector<double>& value, const std::vector<int>& most, std::vector<int>& count,
                    double* steps = nullptr);

}  // namespace awlmark::takeoff::detail
