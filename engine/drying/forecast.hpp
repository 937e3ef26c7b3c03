// The forecast of one place: weighted draws of a drying slab. Private, but for its tests.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "drying/wood.hpp"

namespace awlmark::drying {

struct TimedReading {
  double day = 0;  // days since 1970-01-01, local
  double percent = 0;
};
struct TimedAir {
  double day = 0;
  AirState air;
};

struct Question {
  Slab slab;
  std::vector<TimedReading> readings;  // in order of time; at least one
  std::vector<TimedAir> airs;          // in order of time; the last holds on
  AirState usual;                      // where the log has none
  std::optional<AirState> kept;        // by machines, from the last reading on
  double air_factor = 1;
  double shut_share_most = 0.3;  // of an open face, through the one that counts as shut (drying/wood.hpp)
  double limit_percent = 16;
  int draws = 400;
  std::uint64_t seed = 1954;
  double horizon_days = 365;
};

struct Draw {
  Spread spread;
  double start_percent = 0;
  Spread ahead;  // from the last reading on: days to come differ from those gone
  double weight = 1;
  double now_percent = 0;
  std::optional<double> below_day;  // first day below the limit, after the last reading or before
};

struct Forecast {
  std::vector<Draw> draws;
  double last_day = 0;
  AirState air_ahead;
  double quantile_now(double p) const;
  // Day of the p-quantile of being below the limit; nothing when that share never gets there.
  std::optional<double> quantile_below(double p) const;
};

Forecast forecast(const Question& question);
struct Ahead {
  double p10 = 0, p50 = 0, p90 = 0;
};
// Moisture content of the draws on a later day.
Ahead ahead_percents(const Question& question, const Forecast& forecast, double day);
// The forecast's draws with other air, faces or factor from the last reading on: the median day.
std::optional<double> what_if_below(const Question& question, const Forecast& forecast, const AirState& air, double air_factor, int faces_open, double p);

}  // namespace awlmark::drying
