// Ways to choose where to open next, all shown the same thing: the marks so far and the spot that
// was noticed first. Only `guided` uses the survey to choose; what to cut is decided from the same
// survey for all, so the study compares the places, not the reckoning.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "simulator/leak.hpp"

namespace awlmark::study {

struct Opening {
  Point at_in;
  bool unsound = false;  // some awl there read soft or gone
};

struct SoFar {
  const simulator::Leak* leak = nullptr;  // strategies may read its room and job, never its truth
  Job job;                                // with the marks so far
  std::vector<Opening> openings;
};

// Opens there and writes down what awl and meter read; `noise` is the readings' own randomness.
void open_at(SoFar& so_far, Point at_in, Random& noise);

// Nothing when the strategy says to stop.
using Strategy = std::optional<Point> (*)(const SoFar& so_far, Random& random);

std::optional<Point> guided(const SoFar& so_far, Random& random);  // the survey's best next opening; may stop
std::optional<Point> grid(const SoFar& so_far, Random& random);    // 12-in. grid, outwards from the noticed spot
std::optional<Point> spread(const SoFar& so_far, Random& random);  // 12-in. grid, always the point farthest from all openings
std::optional<Point> chase(const SoFar& so_far, Random& random);   // out from the noticed spot until sound, then halve the edge
std::optional<Point> anywhere(const SoFar& so_far, Random& random);

struct Named {
  std::string name;
  Strategy next;
};
const std::vector<Named>& strategies();

}  // namespace awlmark::study
