// Load combinations for floors (ASCE 7-16 2.4.1, allowable stress): D; D + L; D + S; D + 0.75 L + 0.75 S.
// Each with the load-duration factor of its shortest load (NDS Table 2.3.2): 0.9 for dead load alone,
// 1.0 with live load, 1.15 with snow. The factor never touches E or bearing across the grain.
#pragma once

#include <algorithm>
#include <array>

#include "floor/member_forces.hpp"

namespace awlmark::floor {

struct Combination {
  const char* words;
  double live;
  double snow;
  double cd;
};
inline constexpr std::array<Combination, 4> kCombinations{{
    {"D (CD 0.9)", 0, 0, 0.9},
    {"D + L (CD 1.0)", 1, 0, 1.0},
    {"D + S (CD 1.15)", 0, 1, 1.15},
    {"D + 0.75 L + 0.75 S (CD 1.15)", 0.75, 0.75, 1.15},
}};

inline double most(const Effect& effect, const Combination& c) { return effect.dead + c.live * effect.live_most + c.snow * effect.snow_most; }
inline double least(const Effect& effect, const Combination& c) { return effect.dead + c.live * effect.live_least + c.snow * effect.snow_least; }
inline double largest(const Effect& effect, const Combination& c) { return std::max(most(effect, c), -least(effect, c)); }
// The largest of all combinations, where no duration factor plays a part (bearing, posts, footings, shores).
inline double largest(const Effect& effect) {
  double out = 0;
  for (const auto& c : kCombinations) out = std::max(out, largest(effect, c));
  return out;
}

}  // namespace awlmark::floor
