// Drying: how wet each layer and member is, when it may be closed, and what would help.
//
// In: the job with its drying log and its meter marks. Out, for every place with a reading: a
// forecast as a band. Each place is a slab of its thickness, open faces and species (drying/wood.hpp)
// whose diffusivity, evaporation and equilibrium are uncertain: some hundred seeded draws, weighted by
// the readings of the log, so that a reading narrows the band. Readings are corrected for the wood's
// temperature.
//
// Guarantees: (1) a forecast plans, it never releases: `released` is set only by the log's two last
// readings below the limit, at least a day apart; (2) times are those written in the log, days at the
// place; (3) the same log gives the same band on every target.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/geometry.hpp"
#include "base/reason.hpp"
#include "job/job.hpp"

namespace awlmark::drying {

struct BandPoint {
  std::string date;
  double p10_percent = 0, p50_percent = 0, p90_percent = 0;
};
BOOST_DESCRIBE_STRUCT(BandPoint, (), (date, p10_percent, p50_percent, p90_percent))

struct LoggedReading {
  std::string time;
  double mc_percent = 0;         // as read
  double corrected_percent = 0;  // for the wood's temperature
};
BOOST_DESCRIBE_STRUCT(LoggedReading, (), (time, mc_percent, corrected_percent))

struct WhatIf {
  std::string what;  // "fans over the wood", "10 F warmer", "the other face open"
  std::optional<std::string> close_p50;
  std::optional<double> days_sooner;  // of the p50; negative when it takes longer
};
BOOST_DESCRIBE_STRUCT(WhatIf, (), (what, close_p50, days_sooner))

// The wettest place of a layer or a member: it decides when the layer may be closed.
struct DryingLayer {
  std::string layer;                   // empty for a member
  std::optional<std::string> support;  // a member's id
  std::optional<Point> at_in;
  double limit_percent = 0;
  double now_percent = 0;  // at the last reading, by log and forecast together
  double now_low_percent = 0, now_high_percent = 0;
  double equilibrium_percent = 0;        // where this air would leave it
  std::optional<std::string> close_p50;  // absent where this air never dries it below the limit
  std::optional<std::string> close_p90;
  std::optional<double> days_p50;  // from the last reading
  std::optional<double> days_p90;
  bool released = false;
  std::string needs;  // "one more reading below 16 percent, a day after 2026-05-12"
  int places = 1;     // places of this layer with readings
  double thickness_in = 0;
  int faces_open = 1;
  std::vector<LoggedReading> readings;
  std::vector<BandPoint> band;
  std::vector<WhatIf> what_if;
  std::vector<std::string> assumed;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(DryingLayer, (),
                      (layer, support, at_in, limit_percent, now_percent, now_low_percent, now_high_percent, equilibrium_percent, close_p50, close_p90,
                       days_p50, days_p90, released, needs, places, thickness_in, faces_open, readings, band, what_if, assumed, reason))

struct Drying {
  std::vector<DryingLayer> layers;
  bool released = false;                 // everything with a reading may be closed
  std::optional<std::string> close_p50;  // of the last layer
  std::optional<std::string> close_p90;
  double outdoor_dew_limit_f = 0;  // outdoor air dries only while its dew point is below this
  std::optional<bool> outdoor_helps;
  std::vector<std::string> words;
  std::vector<std::string> asks;  // what would sharpen the forecast; each names its key in the job
};
BOOST_DESCRIBE_STRUCT(Drying, (), (layers, released, close_p50, close_p90, outdoor_dew_limit_f, outdoor_helps, words, asks))

// Whether there is anything to dry: a log, or a meter mark above its limit.
bool asked(const Job& job);
Drying drying(const Job& job, std::uint64_t seed = 1954);

}  // namespace awlmark::drying
