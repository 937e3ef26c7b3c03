// What varies from draw to draw beside the floor: the crew's pace, the market, each task's hours, each
// wait. Every factor takes each of `count` equal slices of its distribution once, in an order of its
// own (McKay, Beckman and Conover 1979), so that sums hardly move with the seed.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "work/three_point.hpp"

namespace awlmark::work {

// A slow crew is slow all over: one factor for all hours of a draw, lognormal, mean 1; goods of one yard move
// together. How far: data/usual.csv.

class Factors {
 public:
  Factors() = default;
  Factors(std::size_t count, std::uint64_t seed);
  std::size_t count() const { return pace_.size(); }
  double pace(std::size_t draw) const { return pace_[draw]; }
  double market(std::size_t draw) const { return market_[draw]; }
  // A value of the PERT law of `range` for every draw, as a share of its width from `low`. The name
  // gives the order: the same name, the same luck, whatever else is in the job.
  std::vector<double> shares(const std::string& name, const ThreePoint& range);

  std::vector<double> order(const std::string& name) const;  // probabilities, each slice once

 private:
  std::uint64_t seed_ = 0;
  std::vector<double> pace_, market_;
  std::map<std::int64_t, std::vector<double>> shapes_;  // quantiles of the slices, by the mode's place in millionths
};

}  // namespace awlmark::work
