#include <cmath>

#include "drying/air.hpp"
#include "drying/forecast.hpp"
#include "job/words.hpp"
#include "reckon/topic.hpp"
#include "tables/table.hpp"

namespace awlmark::reckon {
namespace wood_drying_topic {

struct ReadingIn {
  double day = 0;
  double mc_percent = 0;
  std::optional<double> wood_temp_f;
  std::optional<double> air_temp_f;
  std::optional<double> air_rh_percent;
};
BOOST_DESCRIBE_STRUCT(ReadingIn, (), (day, mc_percent, wood_temp_f, air_temp_f, air_rh_percent))
doc::FieldRules field_rules(const ReadingIn*) {
  return {{.name = "day", .text = "days, from any start", .required = true, .min = 0, .max = 4000},
          {.name = "mc_percent", .required = true, .min = 0, .max = 250},
          {.name = "wood_temp_f", .text = "of the wood: the meter reads low in cold wood", .min = -60, .max = 220},
          {.name = "air_temp_f", .min = -60, .max = 160},
          {.name = "air_rh_percent", .min = 0, .max = 100}};
}

struct DryingIn {
  double thickness_in = 0;
  OpenFaces faces_open = OpenFaces::unknown;
  Species species = Species::unknown;
  double limit_percent = 16;
  std::vector<ReadingIn> readings;
};
BOOST_DESCRIBE_STRUCT(DryingIn, (), (thickness_in, faces_open, species, limit_percent, readings))
doc::FieldRules field_rules(const DryingIn*) {
  return {{.name = "thickness_in", .required = true, .min = 0.1, .max = 12},
          {.name = "faces_open", .text = "above, below, both; left out, the band allows for one and for both"},
          {.name = "limit_percent", .text = "to come below before it is closed", .min = 6, .max = 30},
          {.name = "readings", .text = "of one spot, in order of time", .required = true, .min_items = 1, .max_items = 200}};
}

struct DryingOut {
  double now_p10_percent = 0, now_p50_percent = 0, now_p90_percent = 0;
  double equilibrium_percent = 0;
  std::optional<double> days_p50;
  std::optional<double> days_p90;
  bool released = false;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(DryingOut, (), (now_p10_percent, now_p50_percent, now_p90_percent, equilibrium_percent, days_p50, days_p90, released, reason))
doc::FieldRules field_rules(const DryingOut*) {
  return {{.name = "days_p50", .text = "from the last reading to below the limit, as likely sooner as later; absent where this air never gets there"},
          {.name = "days_p90", .text = "nine in ten"},
          {.name = "released", .text = "the last two readings lie at or below the limit, a day apart: only this lets it be closed"}};
}

double gravity_of(Species species) {
  double densest = 0;
  for (const auto& row : tables::table("lumber_species.csv").rows()) {
    if (row.text("species") == doc::word_of(species)) return row.number("specific_gravity");
    densest = std::max(densest, row.number("specific_gravity"));
  }
  return densest;
}

Outcome<DryingOut> answer(const DryingIn& in) {
  drying::Question q;
  q.slab = {in.thickness_in, in.faces_open == OpenFaces::both ? 2 : 1, gravity_of(in.species)};
  if (in.faces_open == OpenFaces::unknown) q.shut_share_most = 1;
  q.limit_percent = in.limit_percent;
  const auto closing = [](const char* id) { return tables::table("closing_rules.csv").find("id", id); };
  Problems problems;
  for (std::size_t i = 0; i < in.readings.size(); ++i) {
    const auto& r = in.readings[i];
    if (i > 0 && r.day <= in.readings[i - 1].day)
      problems.push_back({"readings[" + std::to_string(i) + "].day", "is not after the reading before it", "give the readings in order of time"});
    const double corrected = r.wood_temp_f ? r.mc_percent + closing("meter_per_f")->number("value") * (70 - *r.wood_temp_f) : r.mc_percent;
    q.readings.push_back({r.day, std::max(1.0, corrected)});
    if (r.air_temp_f && r.air_rh_percent) q.airs.push_back({r.day, {*r.air_temp_f, *r.air_rh_percent}});
  }
  if (!problems.empty()) return refused<DryingOut>(problems);
  const auto found = drying::forecast(q);
  DryingOut out;
  out.now_p10_percent = found.quantile_now(0.1);
  out.now_p50_percent = found.quantile_now(0.5);
  out.now_p90_percent = found.quantile_now(0.9);
  out.equilibrium_percent = drying::emc_percent(found.air_ahead.temp_f, found.air_ahead.rh_percent);
  const auto left = [&](double p) -> std::optional<double> {
    const auto day = found.quantile_below(p);
    return day ? std::optional<double>(std::max(0.0, *day - found.last_day)) : std::nullopt;
  };
  out.days_p50 = left(0.5);
  out.days_p90 = left(0.9);
  const auto n = q.readings.size();
  const double apart = closing("readings_apart")->number("value") / 24 - 1.0 / 24;
  for (std::size_t i = n; i-- > 0 && q.readings[i].percent <= in.limit_percent;)
    if (q.readings[n - 1].day - q.readings[i].day >= apart) out.released = true;
  out.reason = closing("under_tight_finish")->reason();
  out.reason.compares = "moisture at the last reading, by log and forecast together, against the limit";
  out.reason.demand = out.now_p50_percent;
  out.reason.capacity = in.limit_percent;
  out.reason.ratio = out.now_p50_percent / in.limit_percent;
  out.reason.unit = "percent";
  return answered(std::move(out));
}

}  // namespace wood_drying_topic

Topic wood_drying() {
  using namespace wood_drying_topic;
  return make_topic<DryingIn, DryingOut>(
      {.id = "wood-drying",
       .asks = "When is this board dry enough to close, going by its readings?",
       .sources = {"Siau, Transport Processes in Wood (1984)", "Wood Handbook FPL-GTR-282, Eq. 4-5", "docs/drying.md: what is judgement"},
       .example =
           R"({"thickness_in": 0.75, "faces_open": "above", "species": "douglas_fir_larch", "limit_percent": 16, "readings": [{"day": 0, "mc_percent": 26, "air_temp_f": 68, "air_rh_percent": 42}, {"day": 1, "mc_percent": 24.5, "air_temp_f": 68, "air_rh_percent": 42}]})"},
      answer);
}

}  // namespace awlmark::reckon
