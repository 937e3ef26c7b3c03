// The beam solver against closed forms (any handbook of beam formulas) and against what must hold of
// every beam: equilibrium, no movement at supports, smoothness, superposition.
#include "mechanics/beam.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "mechanics/polynomial.hpp"
#include "support/property.hpp"

namespace awlmark::mechanics {
namespace {

using awlmark::testing::between;
using awlmark::testing::for_each_seed;

constexpr double kE = 1.6e6, kI = 98.93, kEI = kE * kI;

Beam random_beam(Random& random) {
  Beam beam;
  const int spans = 1 + static_cast<int>(random.uniform() * 5);
  for (int i = 0; i < spans; ++i) beam.spans_in.push_back(between(random, 6, 200));
  const auto end = [&](bool may_be_free) {
    const double u = random.uniform();
    if (u < 0.3 && may_be_free) return End::free;
    return u < 0.6 ? End::fixed : End::pinned;
  };
  beam.left = end(spans >= 3);
  beam.right = end(spans >= 3);
  const double length = beam.length_in();
  double at = 0;
  while (at < length) {
    at += between(random, 5, 150);
    beam.stiffness.push_back({at, kEI * between(random, 0.1, 3)});
  }
  const int loads = 1 + static_cast<int>(random.uniform() * 6);
  for (int i = 0; i < loads; ++i) {
    const double a = between(random, 0, length * 0.9), b = between(random, a + 0.01 * length, length);
    if (random.uniform() < 0.5) {
      const double w = between(random, -5, 20), to = between(random, -5, 20);
      beam.loads.lines.push_back({w, to, a, b});
    } else {
      const double p = between(random, -100, 800);
      beam.loads.points.push_back({p, a});
    }
  }
  return beam;
}

struct Sums {
  double force = 0, moment = 0, size = 0;
};
Sums load_sums(const Beam& beam) {
  Sums s;
  for (const auto& l : beam.loads.lines) {
    const double h = l.to_in - l.from_in, total = 0.5 * (l.w_from_pli + l.w_to_pli) * h;
    s.force += total;
    s.moment += l.w_from_pli * h * (l.from_in + h / 2) + (l.w_to_pli - l.w_from_pli) * h / 2 * (l.from_in + 2 * h / 3);
    s.size += (std::fabs(l.w_from_pli) + std::fabs(l.w_to_pli)) * h;
  }
  for (const auto& p : beam.loads.points) {
    s.force += p.p_lb;
    s.moment += p.p_lb * p.at_in;
    s.size += std::fabs(p.p_lb);
  }
  return s;
}

}  // namespace

TEST(Beam, SimpleSpanUniform) {
  const auto r = solve(prismatic({144}, kE, kI, {{uniform(8, 0, 144)}, {}}));
  EXPECT_NEAR(r.reactions_lb[0], 576, 1e-9);
  EXPECT_NEAR(r.moment_max_inlb, 8 * 144.0 * 144 / 8, 1e-8);
  EXPECT_NEAR(r.moment_max_at_in, 72, 1e-6);
  EXPECT_NEAR(r.deflection_max_in, 5 * 8 * std::pow(144.0, 4) / (384 * kEI), 1e-12);
  EXPECT_FALSE(r.uplift);
}

TEST(Beam, FixedEndsUniform) {
  const auto r = solve(prismatic({144}, kE, kI, {{uniform(8, 0, 144)}, {}}, End::fixed, End::fixed));
  EXPECT_NEAR(r.fixing_left_inlb, -8 * 144.0 * 144 / 12, 1e-8);
  EXPECT_NEAR(r.moment_max_inlb, 8 * 144.0 * 144 / 24, 1e-8);
  EXPECT_NEAR(r.deflection_max_in, 8 * std::pow(144.0, 4) / (384 * kEI), 1e-12);
}

TEST(Beam, ProppedCantileverUniform) {
  const auto r = solve(prismatic({100}, kE, kI, {{uniform(6, 0, 100)}, {}}, End::fixed, End::pinned));
  EXPECT_NEAR(r.fixing_left_inlb, -6 * 1e4 / 8, 1e-8);
  EXPECT_NEAR(r.reactions_lb[1], 3.0 / 8 * 600, 1e-9);
  EXPECT_NEAR(r.moment_max_inlb, 9.0 / 128 * 6 * 1e4, 1e-8);
  // (39 + 55 sqrt(33)) / 65536, which handbooks print as 1/185.
  EXPECT_NEAR(r.deflection_max_in, (39 + 55 * std::sqrt(33.0)) / 65536 * 6e8 / kEI, 1e-12);
}

TEST(Beam, CantileverFromEitherSide) {
  const double tip = 200 * std::pow(24.0, 3) / (3 * kEI);
  const auto right = solve(prismatic({24}, kE, kI, {{}, {{200, 24}}}, End::fixed, End::free));
  const auto left = solve(prismatic({24}, kE, kI, {{}, {{200, 0}}}, End::free, End::fixed));
  EXPECT_NEAR(right.deflection_right_in, tip, 1e-14);
  EXPECT_NEAR(left.deflection_left_in, tip, 1e-14);
  EXPECT_NEAR(right.reactions_lb[0], 200, 1e-10);
  EXPECT_NEAR(left.reactions_lb[0], 200, 1e-10);
  EXPECT_NEAR(right.moment_min_inlb, -4800, 1e-9);
  EXPECT_NEAR(left.moment_min_inlb, -4800, 1e-9);
}

// A cantilever of two stiffnesses, by integrating by hand: tip deflection is the sum of x^2 / EI.
TEST(Beam, SteppedCantilever) {
  Beam beam = prismatic({40}, kE, kI, {{}, {{100, 40}}}, End::fixed, End::free);
  beam.stiffness = {{10, 2e8}, {40, 5e7}};
  const double near_root = 100 * (std::pow(40.0, 3) - std::pow(30.0, 3)) / 3 / 2e8, beyond = 100 * std::pow(30.0, 3) / 3 / 5e7;
  EXPECT_NEAR(solve(beam).deflection_right_in, near_root + beyond, 1e-12);
}

TEST(Beam, LoadOnASupportGoesStraightDown) {
  const auto r = solve(prismatic({96, 96}, kE, kI, {{}, {{500, 96}, {70, 0}, {30, 192}}}));
  EXPECT_NEAR(r.reactions_lb[0], 70, 1e-9);
  EXPECT_NEAR(r.reactions_lb[1], 500, 1e-9);
  EXPECT_NEAR(r.reactions_lb[2], 30, 1e-9);
  EXPECT_EQ(r.moment_max_inlb, 0);
  EXPECT_EQ(r.deflection_max_in, 0);
}

TEST(Beam, EveryRandomBeamIsInEquilibriumAndHeldWhereItRests) {
  for_each_seed(300, [](Random& random) {
    const Beam beam = random_beam(random);
    ASSERT_TRUE(check(beam).empty());
    const auto r = solve(beam);
    const Sums loads = load_sums(beam);
    const double length = beam.length_in();
    double force = 0, moment = 0;
    for (std::size_t i = 0; i < r.reactions_lb.size(); ++i) force += r.reactions_lb[i], moment += r.reactions_lb[i] * r.supports_in[i];
    EXPECT_NEAR(force, loads.force, 1e-9 * loads.size);
    // Moments about the left end: the fixings turn too (sagging positive at the left turns the other way).
    EXPECT_NEAR(moment - r.fixing_left_inlb + r.fixing_right_inlb, loads.moment, 1e-9 * loads.size * length);
    double scale = 0;
    for (const auto& p : r.pieces) scale = std::max({scale, std::fabs(p.deflection_in), std::fabs(p.slope) * 20});
    for (const double s : r.supports_in) EXPECT_NEAR(r.at(s).deflection_in, 0, 1e-9 * scale) << s;
    for (std::size_t i = 0; i + 1 < r.pieces.size(); ++i) {
      const auto before = r.at(r.pieces[i].to_in - 1e-7), after = r.at(r.pieces[i].to_in);
      EXPECT_NEAR(before.moment_inlb, after.moment_inlb, 1e-5 * loads.size + 1e-9 * loads.size * length);
      EXPECT_NEAR(before.slope, after.slope, 1e-7 * scale + 1e-12);
      EXPECT_NEAR(before.deflection_in, after.deflection_in, 1e-7 * scale + 1e-12);
    }
    if (beam.left == End::fixed) {
      EXPECT_NEAR(r.at(0).slope, 0, 1e-10 * scale);
    }
    if (beam.right == End::fixed) {
      EXPECT_NEAR(r.at(length).slope, 0, 1e-8 * scale);
    }
  });
}

TEST(Beam, ExtremesAreNotExceededAnywhere) {
  for_each_seed(60, [](Random& random) {
    const auto beam = random_beam(random);
    const auto r = solve(beam);
    const double length = beam.length_in();
    double most = -1e30, least = 1e30, down = -1e30, shear = 0;
    for (int i = 0; i <= 4000; ++i) {
      const auto s = r.at(length * i / 4000);
      most = std::max(most, s.moment_inlb), least = std::min(least, s.moment_inlb), down = std::max(down, s.deflection_in),
      shear = std::max(shear, std::fabs(s.shear_lb));
    }
    const double slack = 1e-9 * (std::fabs(most) + std::fabs(least)) + 1e-9;
    EXPECT_LE(most, r.moment_max_inlb + slack);
    EXPECT_GE(least, r.moment_min_inlb - slack);
    EXPECT_LE(down, r.deflection_max_in + 1e-12);
    EXPECT_LE(shear, r.shear_max_lb + slack);
    // And they are met: a 4000-part walk comes near them.
    EXPECT_GE(most, r.moment_max_inlb - 0.02 * (std::fabs(r.moment_max_inlb) + std::fabs(r.moment_min_inlb)) - 1);
  });
}

TEST(Beam, LoadsAddUp) {
  for_each_seed(60, [](Random& random) {
    Beam a = random_beam(random);
    Beam b = a, both = a;
    b.loads = {};
    b.loads.points = {{300, 0.37 * a.length_in()}};
    both.loads.points.push_back(b.loads.points[0]);
    const auto ra = solve(a), rb = solve(b), rc = solve(both);
    double size = 0;
    for (const double r : rc.reactions_lb) size += std::fabs(r);
    for (std::size_t i = 0; i < rc.reactions_lb.size(); ++i) EXPECT_NEAR(ra.reactions_lb[i] + rb.reactions_lb[i], rc.reactions_lb[i], 1e-9 * size);
    const double x = 0.61 * a.length_in();
    EXPECT_NEAR(ra.at(x).deflection_in + rb.at(x).deflection_in, rc.at(x).deflection_in, 1e-9 * (std::fabs(rc.at(x).deflection_in) + 1));
  });
}

// The deflection at x under a load at y is that at y under the same load at x (Maxwell).
TEST(Beam, DeflectionsAreReciprocal) {
  for_each_seed(60, [](Random& random) {
    Beam beam = random_beam(random);
    const double length = beam.length_in(), x = between(random, 0, length), y = between(random, 0, length);
    beam.loads = {{}, {{100, y}}};
    const double at_x = solve(beam).at(x).deflection_in;
    beam.loads = {{}, {{100, x}}};
    const double at_y = solve(beam).at(y).deflection_in;
    EXPECT_NEAR(at_x, at_y, 1e-9 * (std::fabs(at_x) + 1e-3));
  });
}

TEST(Beam, PatternsAreWorstOfAllLoadings) {
  // Against all 2^5 ways to load five unequal spans.
  Beam beam = prismatic({96, 120, 60, 144, 80}, kE, kI);
  std::vector<BeamResult> patterns, all;
  for (auto loads : pattern_loads(beam, 5)) {
    beam.loads = std::move(loads);
    patterns.push_back(solve(beam));
  }
  for (int mask = 1; mask < 32; ++mask) {
    beam.loads = {};
    double at = 0;
    for (std::size_t i = 0; i < 5; ++i) {
      if (mask >> i & 1) beam.loads.lines.push_back(uniform(5, at, at + beam.spans_in[i]));
      at += beam.spans_in[i];
    }
    all.push_back(solve(beam));
  }
  const auto few = envelope(patterns), many = envelope(all);
  EXPECT_NEAR(few.moment_max_inlb, many.moment_max_inlb, 1e-9 * many.moment_max_inlb);
  EXPECT_NEAR(few.moment_min_inlb, many.moment_min_inlb, 1e-9 * -many.moment_min_inlb);
  EXPECT_NEAR(few.shear_max_lb, many.shear_max_lb, 1e-9 * many.shear_max_lb);
  for (std::size_t i = 0; i < many.reactions_max_lb.size(); ++i)
    EXPECT_NEAR(few.reactions_max_lb[i], many.reactions_max_lb[i], 1e-9 * many.reactions_max_lb[i]);
  for (std::size_t i = 0; i < 5; ++i) EXPECT_NEAR(few.span_deflection_max_in[i], many.span_deflection_max_in[i], 1e-9);
}

TEST(Beam, WhatCannotStandIsRefused) {
  EXPECT_FALSE(check(prismatic({100}, kE, kI, {}, End::free, End::pinned)).empty());
  EXPECT_FALSE(check(prismatic({100}, kE, kI, {}, End::free, End::free)).empty());
  EXPECT_FALSE(check(prismatic({50, 50}, kE, kI, {}, End::free, End::free)).empty());
  EXPECT_TRUE(check(prismatic({50, 50, 50}, kE, kI, {}, End::free, End::free)).empty());
  EXPECT_FALSE(check(prismatic({}, kE, kI)).empty());
  EXPECT_FALSE(check(prismatic({-5}, kE, kI)).empty());
  EXPECT_FALSE(check(prismatic({100}, 0, kI)).empty());
  EXPECT_FALSE(check(prismatic({100}, kE, kI, {{}, {{10, 101}}})).empty());
  EXPECT_FALSE(check(prismatic({100}, kE, kI, {{uniform(1, 50, 50)}, {}})).empty());
  EXPECT_THROW(solve(prismatic({100}, kE, kI, {}, End::free, End::pinned)), std::invalid_argument);
}

TEST(Polynomial, FindsEveryRoot) {
  // (t-1)(t-2)(t-3)(t-4)
  const Polynomial p{24, -50, 35, -10, 1, 0};
  const auto roots = roots_between(p, 0, 10);
  ASSERT_EQ(roots.size(), 4u);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(roots[i], static_cast<double>(i + 1), 1e-12);
  EXPECT_TRUE(roots_between({1, 0, 1, 0, 0, 0}, -5, 5).empty());
}

}  // namespace awlmark::mechanics
