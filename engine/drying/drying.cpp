#include "drying/drying.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "drying/air.hpp"
#include "drying/forecast.hpp"
#include "job/dates.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::drying {
namespace {

constexpr double kSamePlace_in = 6;
constexpr double kPanelGravity = 0.55;  // plywood; particleboard and OSB are heavier: 0.7

const tables::Row& closing(const std::string& id) {
  const auto* row = tables::table("closing_rules.csv").find("id", id);
  if (!row) throw std::logic_error("closing_rules.csv has no row " + id);
  return *row;
}

// "2026-05-06T08:30:00Z" in days since 1970, as written: the wall clock of the place.
std::optional<double> local_day(const std::string& time) {
  const auto day = day_of(time.substr(0, 10));
  if (!day) return std::nullopt;
  double hours = 12;
  if (time.size() >= 16) hours = std::atoi(time.substr(11, 2).c_str()) + std::atoi(time.substr(14, 2).c_str()) / 60.0;
  return static_cast<double>(*day) + hours / 24;
}

std::string date_at(double day) { return date_of(static_cast<long>(std::floor(day + 1e-9))); }

double corrected(double percent, const std::optional<double>& wood_temp_f) {
  return wood_temp_f ? percent + closing("meter_per_f").number("value") * (70 - *wood_temp_f) : percent;
}

struct Entry {
  std::string layer, support;
  std::optional<Point> at;
  double day = 0;
  LoggedReading reading;
};

// Readings of one place, in order of time.
struct Spot {
  std::string layer, support;
  std::optional<Point> at;
  std::vector<Entry> entries;
};

void add_entry(std::vector<Spot>& spots, Entry entry) {
  for (auto& spot : spots) {
    if (spot.layer != entry.layer || spot.support != entry.support) continue;
    if (spot.at && entry.at && distance_in(*spot.at, *entry.at) > kSamePlace_in) continue;
    if (!spot.at) spot.at = entry.at;
    spot.entries.push_back(std::move(entry));
    return;
  }
  spots.push_back({entry.layer, entry.support, entry.at, {entry}});
}

std::vector<Spot> spots_of(const Job& job) {
  std::vector<Entry> entries;
  if (job.drying)
    for (const auto& r : job.drying->readings) {
      const auto day = local_day(r.time);
      if (!r.mc_percent || !day || (!r.layer && !r.support)) continue;
      entries.push_back({r.layer.value_or(""), r.support.value_or(""), r.at_in, *day, {r.time, *r.mc_percent, corrected(*r.mc_percent, r.wood_temp_f)}});
    }
  for (const auto& m : job.marks) {
    if (m.tool != Tool::meter || !m.mc_percent || !m.time || (!m.layer && !m.support)) continue;
    const auto day = local_day(*m.time);
    if (day)
      entries.push_back({m.layer.value_or(""), m.support.value_or(""), m.at_in, *day, {*m.time, *m.mc_percent, corrected(*m.mc_percent, m.wood_temp_f)}});
  }
  std::stable_sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) { return a.day < b.day; });
  std::vector<Spot> spots;
  for (auto& entry : entries) add_entry(spots, std::move(entry));
  return spots;
}

const Layer* layer_of(const Job& job, const std::string& id) {
  for (const auto& layer : job.layers)
    if (layer.id == id) return &layer;
  return nullptr;
}

double gravity_of(Species species) {
  double densest = 0;
  for (const auto& row : tables::table("lumber_species.csv").rows()) {
    if (row.text("species") == doc::word_of(species)) return row.number("specific_gravity");
    densest = std::max(densest, row.number("specific_gravity"));
  }
  return densest;
}

const tables::Row& rule_of(const Job& job, const Spot& spot) {
  if (!spot.support.empty()) return closing("member");
  const auto* layer = layer_of(job, spot.layer);
  if (layer && layer->material == Material::wall_plate) return closing("plate");
  return closing(job.rebuild && job.rebuild->finish != Finish::other ? "under_tight_finish" : "under_open_finish");
}

// The slab that a place is taken as, and what was taken because it is not known.
Slab slab_of(const Job& job, const Spot& spot, std::vector<std::string>& assumed) {
  Slab slab;
  if (!spot.support.empty()) {
    for (const auto& support : job.supports)
      if (support.id == spot.support) {
        slab.thickness_in = support.size ? support.size->b_in : 1.5;
        if (support.species == Species::unknown) assumed.push_back("species not known: the densest of the table, which dries slowest");
        slab.specific_gravity = gravity_of(support.species);
      }
    slab.faces_open = 2;
    return slab;
  }
  const auto* layer = layer_of(job, spot.layer);
  if (!layer) return slab;
  const auto& facts = tables::material_facts(doc::word_of(layer->material));
  slab.thickness_in = layer->thickness_in.value_or(facts.usual_thickness_in);
  const bool boards = layer->material == Material::board || layer->material == Material::plank_tg || layer->material == Material::wall_plate;
  const bool dense = layer->material == Material::particleboard || layer->material == Material::osb || layer->material == Material::hardboard;
  slab.specific_gravity = boards ? gravity_of(layer->species) : (dense ? 0.7 : kPanelGravity);
  if (boards && layer->species == Species::unknown) assumed.push_back("species not known: the densest of the table, which dries slowest");
  slab.faces_open = 1;
  return slab;
}

// Air and faces as the log says; what it does not say as the job has it.
void set_faces(const Job& job, const Spot& spot, Question& q, std::vector<std::string>& assumed) {
  if (!spot.support.empty()) return;
  const auto told = job.drying && job.drying->equipment ? job.drying->equipment->faces_open : OpenFaces::unknown;
  q.slab.faces_open = told == OpenFaces::both ? 2 : 1;
  if (told == OpenFaces::none) assumed.push_back("no face is open: it is reckoned with one, which it does not have until the floor is opened");
  if (told != OpenFaces::unknown) return;
  // Open above, where the floor is stripped; below anything from shut to open, until the log tells.
  q.shut_share_most = 1;
  assumed.push_back("open above where the floor is stripped; whether it dries from below too is not said, and the band allows for both");
}

void set_air(const Job& job, Question& q, std::vector<std::string>& assumed) {
  q.usual = {job.job.indoor_temp_f.value_or(65), job.job.indoor_rh_percent.value_or(60)};
  if (job.drying)
    for (const auto& r : job.drying->readings) {
      const auto day = local_day(r.time);
      if (day && r.air_temp_f && r.air_rh_percent) q.airs.push_back({*day, {*r.air_temp_f, *r.air_rh_percent}});
    }
  std::stable_sort(q.airs.begin(), q.airs.end(), [](const TimedAir& a, const TimedAir& b) { return a.day < b.day; });
  if (q.airs.empty() && (!job.job.indoor_temp_f || !job.job.indoor_rh_percent))
    assumed.push_back("no air reading: 65 F and 60 percent are taken where the job says nothing");
  if (!job.drying || !job.drying->equipment) return;
  const auto& equipment = *job.drying->equipment;
  if (equipment.air_movers.value_or(0) > 0) q.air_factor = closing("fan_factor").number("value");
  if (equipment.air_temp_f) q.kept = AirState{*equipment.air_temp_f, equipment.air_rh_percent.value_or(q.usual.rh_percent)};
}

Question question_of(const Job& job, const Spot& spot, double limit, std::uint64_t seed, std::vector<std::string>& assumed) {
  Question q;
  q.slab = slab_of(job, spot, assumed);
  q.limit_percent = limit;
  q.seed = seed;
  set_air(job, q, assumed);
  set_faces(job, spot, q, assumed);
  for (const auto& entry : spot.entries) q.readings.push_back({entry.day, std::max(1.0, entry.reading.corrected_percent)});
  return q;
}

// Two readings below the limit, a day apart, with none above between or after.
bool released(const Spot& spot, double limit) {
  if (spot.entries.empty() || spot.entries.back().reading.corrected_percent > limit) return false;
  const double last = spot.entries.back().day, apart = closing("readings_apart").number("value") / 24 - 1.0 / 24;  // an hour's grace
  for (auto it = spot.entries.rbegin() + 1; it != spot.entries.rend(); ++it) {
    if (it->reading.corrected_percent > limit) return false;
    if (last - it->day >= apart) return true;
  }
  return false;
}

void set_days(DryingLayer& out, const Forecast& found, const Spot& spot, double limit) {
  const double apart = closing("readings_apart").number("value") / 24;
  // Two readings a day apart: the second falls a day after the wood is below, at the earliest.
  const auto close = [&](double p) -> std::optional<double> {
    const auto below = found.quantile_below(p);
    if (!below) return std::nullopt;
    const bool one_below = spot.entries.back().reading.corrected_percent <= limit;
    return std::max(one_below ? found.last_day : found.last_day + 0.0, *below) + apart;
  };
  const auto p50 = close(0.5), p90 = close(0.9);
  if (p50) out.close_p50 = date_at(*p50), out.days_p50 = *p50 - found.last_day;
  if (p90) out.close_p90 = date_at(*p90), out.days_p90 = *p90 - found.last_day;
}

void what_would_help(DryingLayer& out, const Question& q, const Forecast& found) {
  const double fan = closing("fan_factor").number("value");
  const auto base = what_if_below(q, found, found.air_ahead, q.air_factor, q.slab.faces_open, 0.5);
  const auto ask = [&](const std::string& what, const AirState& air, double factor, int faces) {
    WhatIf w;
    w.what = what;
    const auto day = what_if_below(q, found, air, factor, faces, 0.5);
    if (day) w.close_p50 = date_at(*day + 1);
    if (day && base) w.days_sooner = *base - *day;
    out.what_if.push_back(std::move(w));
  };
  if (q.air_factor < fan) ask("fans over the wood", found.air_ahead, fan, q.slab.faces_open);
  const double ratio = air(found.air_ahead.temp_f, found.air_ahead.rh_percent).humidity_ratio;
  const AirState warm{found.air_ahead.temp_f + 10, rh_percent_from_humidity_ratio(found.air_ahead.temp_f + 10, ratio)};
  ask("10 F warmer, no water added to the air", warm, q.air_factor, q.slab.faces_open);
  if (found.air_ahead.rh_percent > 40) ask("the air dried to 40 percent", {found.air_ahead.temp_f, 40}, q.air_factor, q.slab.faces_open);
  if (q.slab.faces_open < 2) ask("the other face open too", found.air_ahead, q.air_factor, 2);
}

DryingLayer layer_findings(const Job& job, const Spot& spot, std::uint64_t seed) {
  DryingLayer out;
  out.layer = spot.layer;
  if (!spot.support.empty()) out.support = spot.support;
  out.at_in = spot.at;
  const auto& rule = rule_of(job, spot);
  out.limit_percent = rule.number("value");
  out.reason = rule.reason();
  out.reason.compares = rule.text("what");
  out.reason.unit = "percent";
  const Question q = question_of(job, spot, out.limit_percent, seed, out.assumed);
  out.thickness_in = q.slab.thickness_in;
  out.faces_open = q.slab.faces_open;
  for (const auto& entry : spot.entries) out.readings.push_back(entry.reading);
  const Forecast found = forecast(q);
  out.now_percent = found.quantile_now(0.5);
  out.now_low_percent = found.quantile_now(0.1);
  out.now_high_percent = found.quantile_now(0.9);
  out.equilibrium_percent = emc_percent(found.air_ahead.temp_f, found.air_ahead.rh_percent);
  out.reason.demand = out.now_percent;
  out.reason.capacity = out.limit_percent;
  out.reason.ratio = out.now_percent / out.limit_percent;
  out.released = released(spot, out.limit_percent);
  if (out.released) {
    out.close_p50 = out.close_p90 = date_at(found.last_day);
    out.days_p50 = out.days_p90 = 0;
    return out;
  }
  set_days(out, found, spot, out.limit_percent);
  const bool below = spot.entries.back().reading.corrected_percent <= out.limit_percent;
  out.needs = (below ? "one more reading" : "two readings a day apart") + std::string(" at or below ") + format_number(out.limit_percent, 0) + " percent" +
              (below ? ", a day after " + date_at(found.last_day) + " or later" : "");
  const double span = std::clamp(out.days_p90.value_or(30) + 2, 4.0, 90.0);
  for (int k = 0; k <= 6; ++k) {
    const double day = found.last_day + span * k / 6;
    const auto ahead = ahead_percents(q, found, day);
    out.band.push_back({date_at(day), ahead.p10, ahead.p50, ahead.p90});
  }
  what_would_help(out, q, found);
  return out;
}

bool later(const std::optional<std::string>& a, const std::optional<std::string>& b) { return (!a && b) || (a && b && *a > *b); }

std::string name_of(const DryingLayer& layer) { return layer.support ? *layer.support : layer.layer; }

void say(const DryingLayer& layer, std::vector<std::string>& words) {
  const std::string name = name_of(layer), limit = format_number(layer.limit_percent, 0) + " percent";
  if (layer.released)
    words.push_back(name + " may be closed: its last two readings, a day apart, are at or below " + limit + ".");
  else if (!layer.close_p50)
    words.push_back(name + " does not come below " + limit + " in this air, which leaves wood at " + format_number(layer.equilibrium_percent, 1) +
                    " percent: dry or warm the air.");
  else
    words.push_back(name + ", now about " + format_number(layer.now_percent, 0) + " percent, may be closed about " + *layer.close_p50 + "; plan on " +
                    (layer.close_p90 ? *layer.close_p90 : std::string("no date: one chance in ten that this air never dries it")) +
                    " to be nine in ten sure. A forecast plans; it needs " + layer.needs + ".");
  const auto best = std::max_element(layer.what_if.begin(), layer.what_if.end(),
                                     [](const WhatIf& a, const WhatIf& b) { return a.days_sooner.value_or(-1e9) < b.days_sooner.value_or(-1e9); });
  if (!layer.released && best != layer.what_if.end() && best->days_sooner.value_or(0) >= 1)
    words.push_back(name + ": " + best->what + " would gain about " + format_number(*best->days_sooner, 0) + " days.");
}

void outdoors(const Job& job, Drying& found) {
  AirState inside{job.job.indoor_temp_f.value_or(65), job.job.indoor_rh_percent.value_or(60)};
  std::string last;
  if (job.drying)
    for (const auto& r : job.drying->readings)
      if (r.air_temp_f && r.air_rh_percent && r.time >= last) inside = {*r.air_temp_f, *r.air_rh_percent}, last = r.time;
  const auto in = air(inside.temp_f, inside.rh_percent);
  found.outdoor_dew_limit_f = in.dew_point_f;
  if (job.drying && job.drying->equipment && job.drying->equipment->outdoor_temp_f && job.drying->equipment->outdoor_rh_percent) {
    const auto out = air(*job.drying->equipment->outdoor_temp_f, *job.drying->equipment->outdoor_rh_percent);
    found.outdoor_helps = out.humidity_ratio < in.humidity_ratio;
    found.words.push_back(*found.outdoor_helps ? "Outdoor air helps: it holds " + format_number(out.grains_per_lb, 0) + " grains a pound against " +
                                                     format_number(in.grains_per_lb, 0) + " inside. Ventilate."
                                               : "Outdoor air wets: it holds " + format_number(out.grains_per_lb, 0) + " grains a pound against " +
                                                     format_number(in.grains_per_lb, 0) + " inside. Keep it shut and dry the air.");
  } else {
    found.words.push_back("Outdoor air helps only while its dew point is below " + format_number(in.dew_point_f, 0) + " F; above that it wets the floor.");
  }
}

// What would sharpen the forecast, once for the whole log.
void ask(const Job& job, Drying& found) {
  bool layers = false, once = false, air = false;
  for (const auto& layer : found.layers) {
    if (layer.released) continue;
    layers = layers || !layer.support;
    once = once || layer.readings.size() < 2;
  }
  if (job.drying)
    for (const auto& r : job.drying->readings) air = air || (r.air_temp_f && r.air_rh_percent);
  if (layers && (!job.drying || !job.drying->equipment || job.drying->equipment->faces_open == OpenFaces::unknown))
    found.asks.push_back(
        "Does the deck dry from below too, into an open bay or crawl space? It changes the day most. (drying.equipment.faces_open: above, both)");
  if (once) found.asks.push_back("Read the same spot again tomorrow: one reading says little of how fast it dries. (drying.readings)");
  if (!air && !found.released)
    found.asks.push_back("Write down the air's temperature and humidity with each reading. (drying.readings[].air_temp_f, air_rh_percent)");
}

}  // namespace

bool asked(const Job& job) {
  if (job.drying && !job.drying->readings.empty()) return true;
  for (const auto& spot : spots_of(job))
    if (spot.entries.back().reading.corrected_percent > rule_of(job, spot).number("value")) return true;
  return false;
}

Drying drying(const Job& job, std::uint64_t seed) {
  Drying found;
  for (const auto& spot : spots_of(job)) {
    auto layer = layer_findings(job, spot, seed);
    auto same =
        std::find_if(found.layers.begin(), found.layers.end(), [&](const DryingLayer& l) { return l.layer == layer.layer && l.support == layer.support; });
    if (same == found.layers.end()) {
      found.layers.push_back(std::move(layer));
      continue;
    }
    const int places = same->places + 1;
    const bool worse = (same->released && !layer.released) || (same->released == layer.released && later(layer.close_p90, same->close_p90));
    if (worse) *same = std::move(layer);
    same->places = places;
  }
  found.released = !found.layers.empty();
  for (const auto& layer : found.layers) {
    found.released = found.released && layer.released;
    say(layer, found.words);
  }
  const auto last = [&](auto member) {
    std::optional<std::string> day;
    bool first = true;
    for (const auto& layer : found.layers)
      if (first || later(layer.*member, day)) day = layer.*member, first = false;
    return day;
  };
  found.close_p50 = last(&DryingLayer::close_p50);
  found.close_p90 = last(&DryingLayer::close_p90);
  if (found.layers.empty()) return found;
  outdoors(job, found);
  ask(job, found);
  return found;
}

}  // namespace awlmark::drying
