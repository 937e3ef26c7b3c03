// Seeded random numbers that are the same on every target. std::mt19937_64 and Boost's normal
// distribution agree bit for bit between g++/libstdc++ and clang/libc++ (std::normal_distribution
// does not). Never draw twice in one expression: the order of evaluation is not fixed.
#pragma once

#include <boost/random/normal_distribution.hpp>
#include <cstdint>
#include <random>

namespace awlmark {

class Random {
 public:
  explicit Random(std::uint64_t seed) : engine_(seed) {}

  double normal() { return normal_(engine_); }
  // In [0, 1), 53 bits.
  double uniform() { return static_cast<double>(engine_() >> 11) * 0x1.0p-53; }
  // In [0, count). The bias is below count / 2^64.
  std::uint64_t below(std::uint64_t count) { return count == 0 ? 0 : engine_() % count; }

 private:
  std::mt19937_64 engine_;
  boost::random::normal_distribution<double> normal_;
};

// A seed for stream `index` of a run, well mixed (splitmix64), so that adding a stream moves no other.
inline std::uint64_t stream_seed(std::uint64_t seed, std::uint64_t index) {
  std::uint64_t z = seed + 0x9E3779B97F4A7C15ULL * (index + 1);
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31);
}

}  // namespace awlmark
