// Seeded property tests that run alike natively and under Node: for_each_seed runs the body once a
// seed and names the seed in every failure. Seeds that once failed are kept in `also`.
#pragma once

#include <gtest/gtest.h>

#include <cstdint>
#include <initializer_list>
#include <string>

#include "base/random.hpp"

namespace awlmark::testing {

template <class Body>
void for_each_seed(int count, Body body, std::initializer_list<std::uint64_t> also = {}) {
  const auto run = [&](std::uint64_t seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Random random(stream_seed(20260511, seed));
    body(random);
  };
  for (const auto seed : also) run(seed);
  for (int i = 0; i < count && !::testing::Test::HasFatalFailure(); ++i) run(static_cast<std::uint64_t>(i));
}

// A number in [low, high).
inline double between(Random& random, double low, double high) { return low + (high - low) * random.uniform(); }

}  // namespace awlmark::testing
