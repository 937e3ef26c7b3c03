// Invented leaks whose truth is known, for the opening study and the calibration of the survey.
//
// In: a seed. Out: a job without marks and, for every layer and cell, how far the wood has truly
// gone and how wet it is today. `open_here` then answers what an opening there would show, with the
// reading errors of awl, meter and eye. Nothing here uses the survey's model: water runs and wicks
// (wicking.hpp), decay is exposure past a random threshold (leak.cpp), readings err (readings.cpp).
//
// The same seed gives the same leak on every target.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/geometry.hpp"
#include "base/random.hpp"
#include "job/job.hpp"

namespace awlmark::simulator {

struct LeakOptions {
  double cell_in = 3;
  // Room sides are drawn between these, in whole feet.
  double least_side_in = 72;
  double most_side_in = 132;
  int layers = 2;  // 2: underlayment on a deck; 3: a second underlayment in between
  double longest_leak_days = 1500;
};

struct LayerTruth {
  std::string layer;
  std::vector<std::uint8_t> degree;  // 0 sound, 1 soft, 2 gone; cells row by row from the low y
  std::vector<double> severity;      // log of exposure over the cell's own softening exposure
  std::vector<double> moisture;      // today, a fraction
};

struct Leak {
  Job job;  // room, layers, sources, rates; no marks
  double cell_in = 3;
  int nx = 0;
  int ny = 0;
  std::vector<LayerTruth> layers;  // in the job's order
  Point noticed_in;                // the soft spot that made someone call
  std::vector<Point> water_in;     // every place where water truly came out
  double wet_days = 0;
  double dry_days = 0;
};

Leak make_leak(std::uint64_t seed, const LeakOptions& options = {});

int cell_at(const Leak& leak, Point at_in);  // nearest cell of the grid
Point centre_of(const Leak& leak, int cell);
double unsound_sf(const Leak& leak, const LayerTruth& layer);

struct Tools {
  bool awl = true;    // on every layer
  bool meter = true;  // on the lowest layer, the one it can reach from an opening's edge
  bool eye = false;   // on every layer
};

// The marks of one opening, `name` prefixing their ids; times rise with `minute`.
std::vector<Mark> open_here(const Leak& leak, Point at_in, const Tools& tools, Random& random, const std::string& name, int minute);

struct Costs {
  double leave_unsound_per_sf = 90;
  double tear_out_sound_per_sf = 30;
};

// What deciding by this field costs in truth: every cell is taken out where that is expected to be
// cheaper. `p_unsound` per layer in the order of the truth; NaN counts as left alone.
double decision_loss(const Leak& leak, const std::vector<std::vector<double>>& p_unsound, const Costs& costs = {});

}  // namespace awlmark::simulator
