// Medians of processor time: on a shared machine the wall clock measures the neighbours.
#pragma once

#include <algorithm>
#include <ctime>
#include <vector>

namespace awlmark::bench {

struct Timed {
  double median_ms = 0, least_ms = 0, most_ms = 0;
};

template <class Body>
Timed timed(int repeats, Body body) {
  body();  // warms tables and caches; not counted
  std::vector<double> ms;
  for (int i = 0; i < repeats; ++i) {
    const std::clock_t start = std::clock();
    body();
    ms.push_back(1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
  }
  std::sort(ms.begin(), ms.end());
  return {ms[ms.size() / 2], ms.front(), ms.back()};
}

}  // namespace awlmark::bench
