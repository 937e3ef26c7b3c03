#include "drying/forecast.hpp"

#include <algorithm>
#include <cmath>

#include "base/random.hpp"
#include "base/special.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::drying {
namespace {

constexpr double kDiffusivitySpread = 0.7;  // of ln: measured woods scatter by a factor of two or more
constexpr double kEvaporationSpread = 0.8;  // of ln: air over a floor is nobody's laboratory
constexpr double kAheadSpread = 0.35;       // of ln: days to come against days gone, and the slab against the floor
constexpr double kMostCapillary_ln = 2.3;   // free water: 1 to 10 times bound water at saturation
constexpr double kEquilibriumSpread = 1.0;  // points: sorption and desorption, corners without air

double meter_sd(double percent) {
  static const double below = tables::table("closing_rules.csv").find("id", "meter_sd")->number("value");
  return percent <= tables::fibre_saturation_percent() ? below : below + 0.25 * (percent - tables::fibre_saturation_percent());
}

AirState air_at(const Question& q, double day) {
  AirState air = q.usual;
  for (const auto& timed : q.airs)
    if (timed.day <= day + 1e-9) air = timed.air;
  if (!q.airs.empty() && day < q.airs.front().day) air = q.airs.front().air;
  return air;
}

// Climate at each reading but the last: what the wood dries in until the next.
std::vector<Climate> climates_of(const Question& q) {
  std::vector<Climate> out;
  for (const auto& reading : q.readings) out.push_back(climate(air_at(q, reading.day), q.slab.specific_gravity));
  return out;
}

// Through the log, from the first reading to the last: the weight of its later readings.
DryingSlab through_log(const Question& q, const std::vector<Climate>& climates, Draw& draw) {
  DryingSlab slab(q.slab, draw.start_percent);
  double log_weight = 0, day = q.readings.front().day;
  for (std::size_t i = 1; i < q.readings.size(); ++i) {
    const auto& reading = q.readings[i];
    slab.advance(reading.day - day, climates[i - 1], draw.spread, q.air_factor);
    day = reading.day;
    const double z = (reading.percent - slab.mean_percent()) / meter_sd(reading.percent);
    // Readings of one spot err together and now and then wildly: Student's law with 4 degrees.
    log_weight += -2.5 * det_log(1 + z * z / 4);
  }
  draw.weight = log_weight;
  draw.now_percent = slab.mean_percent();
  return slab;
}

std::optional<double> first_below(DryingSlab slab, const Climate& air, const Spread& spread, double air_factor, double from, double limit, double horizon) {
  double day = from, before = slab.mean_percent(), step = 0.5;
  if (before <= limit) return day;
  while (day < from + horizon) {
    slab.advance(step, air, spread, air_factor);
    const double now = slab.mean_percent();
    if (now <= limit) return day + step * (before - limit) / std::max(1e-9, before - now);
    if (before - now < 1e-5 * step && slab.free_percent() <= 0) return std::nullopt;
    before = now;
    day += step;
    if (day - from > 8) step = 1;
    if (day - from > 60) step = 4;
  }
  return std::nullopt;
}

void normalise(std::vector<Draw>& draws) {
  double most = -1e300, sum = 0;
  for (const auto& d : draws) most = std::max(most, d.weight);
  for (auto& d : draws) sum += d.weight = det_exp(d.weight - most);
  for (auto& d : draws) d.weight /= sum;
}

double weighted_quantile(std::vector<std::pair<double, double>> values, double p) {
  std::sort(values.begin(), values.end());
  double sum = 0;
  for (const auto& [value, weight] : values) {
    sum += weight;
    if (sum >= p - 1e-12) return value;
  }
  return values.empty() ? 0 : values.back().first;
}

constexpr double kNever = 1e12;
std::optional<double> day_or_never(double day) { return day >= kNever ? std::nullopt : std::optional<double>(day); }

}  // namespace

double Forecast::quantile_now(double p) const {
  std::vector<std::pair<double, double>> values;
  for (const auto& d : draws) values.push_back({d.now_percent, d.weight});
  return weighted_quantile(std::move(values), p);
}

std::optional<double> Forecast::quantile_below(double p) const {
  std::vector<std::pair<double, double>> values;
  for (const auto& d : draws) values.push_back({d.below_day.value_or(kNever), d.weight});
  return day_or_never(weighted_quantile(std::move(values), p));
}

Forecast forecast(const Question& q) {
  Forecast out;
  out.last_day = q.readings.back().day;
  out.air_ahead = q.kept.value_or(air_at(q, out.last_day));
  const auto climates = climates_of(q);
  const Climate ahead = climate(out.air_ahead, q.slab.specific_gravity);
  Random random(stream_seed(q.seed, 977));
  for (int i = 0; i < q.draws; ++i) {
    Draw draw;
    const double a = random.normal(), b = random.normal(), c = random.normal(), d = random.normal();
    draw.spread.diffusivity = det_exp(kDiffusivitySpread * a);
    draw.spread.evaporation = det_exp(kEvaporationSpread * b);
    draw.spread.equilibrium_points = kEquilibriumSpread * c;
    const double shut = random.uniform();
    draw.spread.shut_share = q.shut_share_most * shut * shut;  // more often nearly shut than not
    const double wick = random.uniform();
    draw.spread.capillary = det_exp(kMostCapillary_ln * wick);
    const double e = random.normal();
    draw.ahead = draw.spread;
    draw.ahead.diffusivity *= det_exp(kAheadSpread * e);
    draw.ahead.evaporation *= det_exp(kAheadSpread * e);
    draw.start_percent = std::max(1.0, q.readings.front().percent + meter_sd(q.readings.front().percent) * d);
    DryingSlab slab = through_log(q, climates, draw);
    // Draws that the log has ruled out need no future.
    if (draw.weight > -40) draw.below_day = first_below(slab, ahead, draw.ahead, q.air_factor, out.last_day, q.limit_percent, q.horizon_days);
    out.draws.push_back(draw);
  }
  normalise(out.draws);
  return out;
}

Ahead ahead_percents(const Question& q, const Forecast& found, double day) {
  const auto climates = climates_of(q);
  const Climate ahead = climate(found.air_ahead, q.slab.specific_gravity);
  std::vector<std::pair<double, double>> values;
  double sum = 0;
  for (const auto& d : found.draws) {
    if (d.weight < 1e-2 / static_cast<double>(found.draws.size())) continue;
    Draw copy = d;
    DryingSlab slab = through_log(q, climates, copy);
    slab.advance(std::max(0.0, day - found.last_day), ahead, d.ahead, q.air_factor);
    values.push_back({slab.mean_percent(), d.weight});
    sum += d.weight;
  }
  for (auto& value : values) value.second /= sum;
  return {weighted_quantile(values, 0.1), weighted_quantile(values, 0.5), weighted_quantile(values, 0.9)};
}

std::optional<double> what_if_below(const Question& q, const Forecast& found, const AirState& air, double air_factor, int faces_open, double p) {
  const auto climates = climates_of(q);
  const Climate other = climate(air, q.slab.specific_gravity);
  std::vector<std::pair<double, double>> values;
  for (const auto& d : found.draws) {
    if (d.weight < 0.02 / static_cast<double>(found.draws.size())) continue;
    Draw copy = d;
    const DryingSlab slab = through_log(q, climates, copy);
    Spread spread = d.ahead;
    if (faces_open > q.slab.faces_open) spread.shut_share = 1;
    const auto day = first_below(slab, other, spread, air_factor, found.last_day, q.limit_percent, q.horizon_days);
    values.push_back({day.value_or(kNever), d.weight});
  }
  return day_or_never(weighted_quantile(std::move(values), p));
}

}  // namespace awlmark::drying
