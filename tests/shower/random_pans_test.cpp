// Two hundred random pans through the stage, against quadrature and drops of water.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "shower/bath.hpp"
#include "shower/pan.hpp"
#include "support/property.hpp"

namespace awlmark::shower {
namespace {

struct Sample {
  double volume_in3 = 0, steepest = 0;
};

// Heights on a fine grid: volume by quadrature, slope by differences within one plane.
Sample sample(const Pan& pan, const Polygon& ring, double bed_in) {
  Sample out;
  constexpr double step = 0.75;
  const Box box = bounds(ring);
  for (double x = box.x0_in + step / 2; x < box.x1_in; x += step)
    for (double y = box.y0_in + step / 2; y < box.y1_in; y += step) {
      if (!contains(ring, {x, y})) continue;
      const double h = pan_height_in(pan, {x, y});
      out.volume_in3 += (h + bed_in) * step * step;
      if (!contains(ring, {x + 0.01, y}) || !contains(ring, {x, y + 0.01})) continue;
      out.steepest = std::max(out.steepest, 1200 * std::hypot(pan_height_in(pan, {x + 0.01, y}) - h, pan_height_in(pan, {x, y + 0.01}) - h));
    }
  return out;
}

// A drop set down here runs to the drain: always to the lowest spot around it, never up, never caught.
bool runs_to_drain(const Pan& pan, const Polygon& ring, Point drop, Point drain) {
  double height = pan_height_in(pan, drop);
  for (int k = 0; k < 400 && distance_in(drop, drain) > 1.5; ++k) {
    Point best = drop;
    double lowest = height;
    for (int d = 0; d < 24; ++d) {
      const Point next{drop.x_in + std::cos(d * 0.2617993878), drop.y_in + std::sin(d * 0.2617993878)};
      if (!contains(ring, next)) continue;
      const double here = pan_height_in(pan, next);
      if (here < lowest - 1e-9) lowest = here, best = next;
    }
    if (lowest >= height - 1e-9) return false;
    drop = best;
    height = lowest;
  }
  return distance_in(drop, drain) <= 1.5;
}

bool seen_whole(const Polygon& ring, Point p) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i], b = ring[(i + 1) % ring.size()];
    if ((b.x_in - a.x_in) * (p.y_in - a.y_in) - (b.y_in - a.y_in) * (p.x_in - a.x_in) <= 1e-7) return false;
  }
  return true;
}

// 200 random pans: laid if and only if the drain sees the floor whole; water runs everywhere to the drain;
// volume by quadrature; limits as said.
TEST(Shower, RandomPans) {
  int laid = 0, refused = 0;
  testing::for_each_seed(200, [&](Random& random) {
    Job job = tiled_bath();
    const int corners = 3 + static_cast<int>(random.below(6));
    Polygon ring;
    for (int i = 0; i < corners; ++i) {
      const double radius = testing::between(random, 20, 44), turn = random.uniform(), angle = 6.283185307 * (i + 0.8 * turn) / corners;
      ring.push_back({48 + radius * std::cos(angle), 42 + radius * std::sin(angle)});
    }
    if (!is_simple(ring)) return;
    job.shower->outline_in = ring;
    const double x = testing::between(random, 40, 56), y = testing::between(random, 34, 50);
    job.shower->drain->at_in = Point{x, y};
    job.shower->least_fall_in_per_ft = testing::between(random, 0.25, 0.4);
    const auto floor = joists(16);
    const auto found = shower(job, &floor);
    EXPECT_EQ(found.pan.has_value(), seen_whole(ring, {x, y}));
    if (!found.pan) {
      ++refused;
      EXPECT_TRUE(says(found.conflicts, "cannot be laid"));
      return;
    }
    ++laid;
    const auto& pan = *found.pan;
    PanQuestion q;
    q.outline_in = ring;
    q.drain_from_in = q.drain_to_in = {x, y};
    q.least_fall_in_per_ft = *job.shower->least_fall_in_per_ft;
    const auto kernel = *pan_fall(q).value;
    const auto grid = sample(kernel, ring, pan.bed_at_drain_in);
    EXPECT_NEAR(grid.volume_in3 / 1728, pan.bed_volume_ft3, 0.01 * pan.bed_volume_ft3);
    EXPECT_LE(grid.steepest, pan.steepest_in_per_ft * 1.42 + 1e-6);  // a valley between two samples
    EXPECT_GE(grid.steepest, pan.steepest_in_per_ft * 0.6);
    const Box box = bounds(ring);
    for (double px = box.x0_in + 3; px < box.x1_in; px += 11)
      for (double py = box.y0_in + 3; py < box.y1_in; py += 11)
        if (contains(ring, {px, py})) {
          EXPECT_TRUE(runs_to_drain(kernel, ring, {px, py}, {x, y})) << px << ", " << py;
        }
    EXPECT_NEAR(pan.flattest_in_per_ft, *job.shower->least_fall_in_per_ft, 1e-9);
    EXPECT_EQ(pan.steepest_in_per_ft > 0.5 + 1e-9, says(found.conflicts, "keep both limits"));
    for (const auto& corner : ring) EXPECT_NEAR(pan_height_in(kernel, corner), pan.edge_height_in, 1e-6);
    for (const auto& line : pan.contours)
      for (const auto& cut : line.lines_in)
        for (const Point p : cut) EXPECT_NEAR(pan_height_in(kernel, p), line.height_in, 1e-6);
  });
  EXPECT_GT(laid, 60);
  EXPECT_GT(refused, 5);
}

}  // namespace
}  // namespace awlmark::shower
