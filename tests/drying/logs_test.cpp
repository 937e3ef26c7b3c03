// Two hundred simulated drying logs against the forecast's band. The truth here shares nothing with the
// model but the sorption equation: unknowns sit on nodes with one at the face, steps are
// Crank-Nicolson, free water is part of the profile and moves on its own, diffusivity follows one of
// three laws with a level that is drawn log-uniform, the film is drawn from published surface emission
// coefficients, the room has a day and a night and a wandering humidity, boards are not as thick, as
// dense or as sealed as the job says, and the meter has a bias of its own beside its noise.
// Levels: transverse diffusivity of softwoods near 15 percent and 20 C 3e-7 to 3e-6 cm2/s (Siau 1984
// gives 1e-6 for a gravity of 0.5; measured woods scatter threefold), surface emission 1e-5 to 1e-4 cm/s
// (from memory, of the literature on drying below saturation). Nothing was fitted to this simulator.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

#include "drying/air.hpp"
#include "drying/forecast.hpp"
#include "support/property.hpp"

namespace awlmark::drying {
namespace {

constexpr double kIn2_day = 86400 / 6.4516;  // of cm2/s
constexpr double kIn_day = 86400 / 2.54;     // of cm/s

enum class Law { even, rising, bent };

class Board {
 public:
  Board(Random& random, double told_thickness_in, int told_faces, double start_percent) {
    const double law = random.uniform(), level = random.uniform(), film = random.uniform();
    law_ = law < 0.25 ? Law::even : (law < 0.7 ? Law::rising : Law::bent);
    d15_ = kIn2_day * 3e-7 * std::pow(10.0, level);
    film_ = kIn_day * 1e-5 * std::pow(10.0, film);
    const double thick = random.normal(), saturation = random.normal(), leak = random.uniform(), shift = random.normal();
    const double thickness = told_thickness_in * (1 + 0.04 * thick);
    depth_ = told_faces == 2 ? thickness / 2 : thickness;
    saturation_ = 28.5 + 1.2 * saturation;
    leak_ = told_faces == 2 ? 0 : 0.15 * leak;  // of the film, through a face that is not quite shut
    shift_ = 0.8 * shift;
    // Wetter at the face that the leak reached, or within: a slope that keeps the mean.
    const double slope = 0.25 * (random.uniform() - 0.5);
    for (int i = 0; i < kNodes; ++i) m_[i] = start_percent * (1 + slope * (1 - 2.0 * i / (kNodes - 1)));
  }

  void step(double days, double temp_f, double rh_percent) {
    const double end = std::max(2.0, emc_percent(temp_f, rh_percent) + shift_);
    for (double left = days; left > 1e-9; left -= kStep) crank(std::min(left, kStep), end);
  }
  double mean() const {
    double sum = (m_[0] + m_[kNodes - 1]) / 2;
    for (int i = 1; i + 1 < kNodes; ++i) sum += m_[i];
    return sum / (kNodes - 1);
  }

 private:
  static constexpr int kNodes = 25;
  static constexpr double kStep = 1.0 / 24;

  double d(double mc) const {
    const double bound = std::min(mc, saturation_);
    const double shape = law_ == Law::even ? 1 : (law_ == Law::rising ? std::exp(0.08 * (bound - 15)) : 0.4 + 0.6 * bound * bound / 225);
    return d15_ * shape * (mc > saturation_ ? 3 : 1);  // free water is drawn along the cells
  }
  // A face gives off no more than a wet one does, however wet it is.
  double drive(double face, double end) const { return std::min(face, saturation_) - end; }

  void crank(double dt, double end) {
    const double dx = depth_ / (kNodes - 1);
    double low[kNodes], mid[kNodes], up[kNodes], right[kNodes], k[kNodes - 1];
    for (int i = 0; i + 1 < kNodes; ++i) k[i] = d((m_[i] + m_[i + 1]) / 2) / (dx * dx);
    for (int i = 0; i < kNodes; ++i) {
      const double half = i == 0 || i + 1 == kNodes ? 2 : 1;  // half a cell at the faces
      const double before = i > 0 ? half * k[i - 1] : 0, after = i + 1 < kNodes ? half * k[i] : 0;
      low[i] = -dt / 2 * before;
      up[i] = -dt / 2 * after;
      mid[i] = 1 + dt / 2 * (before + after);
      right[i] = m_[i] - dt / 2 * ((i > 0 ? before * (m_[i] - m_[i - 1]) : 0) + (i + 1 < kNodes ? after * (m_[i] - m_[i + 1]) : 0));
    }
    face(0, film_, dt, dx, end, mid, right);
    face(kNodes - 1, film_ * leak_, dt, dx, end, mid, right);
    for (int i = 1; i < kNodes; ++i) {
      const double f = low[i] / mid[i - 1];
      mid[i] -= f * up[i - 1];
      right[i] -= f * right[i - 1];
    }
    for (int i = kNodes - 1; i >= 0; --i) m_[i] = (right[i] - (i + 1 < kNodes ? up[i] * m_[i + 1] : 0)) / mid[i];
  }
  void face(int i, double film, double dt, double dx, double end, double* mid, double* right) {
    const double rate = 2 * film / dx;
    if (m_[i] > saturation_) {
      right[i] -= dt * rate * drive(m_[i], end);
    } else {
      mid[i] += dt * rate;
      right[i] += dt * rate * end;
    }
  }

  Law law_ = Law::rising;
  double d15_ = 0, film_ = 0, depth_ = 0, saturation_ = 28.5, leak_ = 0, shift_ = 0;
  double m_[kNodes]{};
};

struct Room {
  double temp_f, rh_percent, sway_f, sway_percent, drift = 0;
  void step(Board& board, Random& random, double from, double days) {
    for (double t = 0; t < days; t += 0.25) {
      const double kick = random.normal();
      drift = 0.9 * drift + 1.2 * kick;
      const double phase = std::sin(6.283185307 * (from + t));
      board.step(std::min(0.25, days - t), temp_f + sway_f * phase, std::clamp(rh_percent + drift - sway_percent * phase, 20.0, 85.0));
    }
  }
};

struct Held {
  int logs = 0, one = 0, five = 0, below = 0, above = 0;
  double wide_one = 0, wide_five = 0;
  std::vector<double> closing;  // days between the closing day at 50 and at 90 percent, after five readings against after one
};

void one_log(Random& random, Held& held) {
  const double thick[] = {0.71875, 0.75, 1.5};
  Question q;
  const auto kind = static_cast<std::size_t>(random.below(3));
  const int faces = random.below(3) == 0 ? 2 : 1;
  q.slab = {thick[kind], faces, testing::between(random, 0.42, 0.55)};
  q.draws = 250;
  const double start = testing::between(random, 19, 36);
  Board board(random, q.slab.thickness_in, faces, start);
  Room room{testing::between(random, 60, 74), testing::between(random, 35, 55), testing::between(random, 0, 4), testing::between(random, 0, 6)};
  const double bias_z = random.normal(), bias = 0.5 * bias_z;
  double now = 0;
  const auto read = [&] {
    const double a = random.normal(), b = random.normal(), c = random.normal();
    q.readings.push_back({now, std::max(4.0, board.mean() + bias + 0.9 * a)});
    const double phase = std::sin(6.283185307 * now);
    q.airs.push_back(
        {now, {room.temp_f + room.sway_f * phase + 0.5 * b, std::clamp(room.rh_percent + room.drift - room.sway_percent * phase + 2 * c, 5.0, 95.0)}});
  };
  read();
  const Forecast first = forecast(q);
  const auto one = ahead_percents(q, first, 8);
  const auto first50 = first.quantile_below(0.5), first90 = first.quantile_below(0.9);
  for (int k = 1; k <= 4; ++k) {
    const double days = testing::between(random, 0.85, 1.15);
    room.step(board, random, now, days);
    now += days;
    read();
  }
  const Forecast fifth = forecast(q);
  const auto five = ahead_percents(q, fifth, 8);
  room.step(board, random, now, 8 - now);
  const double truth = board.mean();
  ++held.logs;
  held.one += truth >= one.p10 && truth <= one.p90;
  held.five += truth >= five.p10 && truth <= five.p90;
  held.below += truth < five.p10;
  held.above += truth > five.p90;
  const auto fifth50 = fifth.quantile_below(0.5), fifth90 = fifth.quantile_below(0.9);
  if (first90 && fifth90) {
    const double after_five = *fifth90 - std::max(*fifth50, fifth.last_day);
    held.closing.push_back(after_five / std::max(1e-9, *first90 - *first50));
  }
  held.wide_one += one.p90 - one.p10;
  held.wide_five += five.p90 - five.p10;
}

TEST(DryingLogs, BandHoldsAndNarrows) {
  Held held;
  testing::for_each_seed(200, [&](Random& random) { one_log(random, held); });
  std::printf("band of day 8 holds %d of %d after one reading, %d after five (%d below, %d above); width %.2f, then %.2f points\n", held.one, held.logs,
              held.five, held.below, held.above, held.wide_one / held.logs, held.wide_five / held.logs);
  std::sort(held.closing.begin(), held.closing.end());
  const double half_of_logs = held.closing.at(held.closing.size() / 2);
  std::printf("between the day at 50 and at 90 percent: after five readings %.2f of what it was after one (median of %d logs)\n", half_of_logs,
              static_cast<int>(held.closing.size()));
  EXPECT_LE(half_of_logs, 0.5);
  EXPECT_GE(held.five, 0.75 * held.logs);
  EXPECT_LE(held.five, 0.90 * held.logs);
  EXPECT_LE(held.wide_five, 0.5 * held.wide_one);
}

}  // namespace
}  // namespace awlmark::drying
