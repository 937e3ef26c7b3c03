// Whether chances mean what they say: cells sorted into tenths by the chance they were given, and
// how many of each tenth were truly unsound.
#pragma once

#include <array>
#include <vector>

namespace awlmark::simulator {

struct Tenth {
  double cells = 0;
  double sum_of_chances = 0;
  double unsound = 0;
  double said() const { return cells > 0 ? sum_of_chances / cells : 0; }
  double was() const { return cells > 0 ? unsound / cells : 0; }
};

struct Reliability {
  std::array<Tenth, 10> tenths;
  Tenth called_80;  // chances from 0.75 to 0.85
  double squared_error = 0;
  double cells = 0;

  void add(double p, bool unsound) {
    if (!(p >= 0 && p <= 1)) return;  // NaN: the layer is absent there
    const int k = p < 1 ? static_cast<int>(p * 10) : 9;
    count(tenths[static_cast<std::size_t>(k)], p, unsound);
    if (p >= 0.75 && p < 0.85) count(called_80, p, unsound);
    squared_error += (p - (unsound ? 1 : 0)) * (p - (unsound ? 1 : 0));
    cells += 1;
  }
  double brier() const { return cells > 0 ? squared_error / cells : 0; }

 private:
  static void count(Tenth& tenth, double p, bool unsound) {
    tenth.cells += 1;
    tenth.sum_of_chances += p;
    tenth.unsound += unsound ? 1 : 0;
  }
};

}  // namespace awlmark::simulator
