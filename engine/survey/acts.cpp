// Looks that take in more than one hole: sweeps, toe-kicks, floors that go anyway, and the sample.
#include <algorithm>
#include <cmath>

#include "survey/candidates.hpp"
#include "survey/evidence.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::survey {
namespace {

constexpr double kSweepStep_in = 16;    // between the spots of a sweep
constexpr double kStripStep_in = 16;    // between the probes on a bared deck
constexpr std::size_t kMostSpots = 40;  // of one sweep or grid; larger rooms get a wider one
constexpr double kSweepSpot_hours = 0.01;
constexpr double kPinless_sd = 1.0;            // four points of moisture content, read through a thin finish; our estimate
constexpr double kPinlessThroughStone_sd = 2;  // tile and mortar lead the field astray
constexpr double kStain_sd = 2.0;              // stains seen, as in evidence.cpp
constexpr double kSpent_in = 8;
constexpr double kToeKick_in = 4;  // behind a cabinet's front edge

bool mineral(Material material) {
  return material == Material::ceramic_tile || material == Material::porcelain_tile || material == Material::stone_tile || material == Material::mortar_bed ||
         material == Material::cement_board;
}

std::vector<Point> grid_of(const Job& job, double step_in) {
  const Box box = bounds(job.room.outline_in);
  double step = step_in;
  std::vector<Point> points;
  do {
    points.clear();
    const int nx = std::max(1, static_cast<int>(std::floor(box.width_in() / step + 0.5))),
              ny = std::max(1, static_cast<int>(std::floor(box.height_in() / step + 0.5)));
    for (int j = 0; j < ny; ++j)
      for (int i = 0; i < nx; ++i) {
        const Point p{box.x0_in + (i + 0.5) * box.width_in() / nx, box.y0_in + (j + 0.5) * box.height_in() / ny};
        if (contains(job.room.outline_in, p)) points.push_back(p);
      }
    step *= 1.25;
  } while (points.size() > kMostSpots);
  return points;
}

// Starts where most would: nearest the source, else at the middle of the room.
Point start_of(const Job& job, const std::vector<Point>& points) {
  Point from = centroid(job.room.outline_in);
  for (const Source& source : job.sources)
    if (source.at_in) {
      from = *source.at_in;
      break;
    }
  Point best = points.front();
  for (const Point p : points)
    if (distance_in(p, from) < distance_in(best, from) - 1e-9) best = p;
  return best;
}

void sweep(const Site& site, std::vector<Candidate>& out) {
  Candidate candidate;
  candidate.act = Act::sweep;
  candidate.how = "sweep with a meter that does not pierce, and mark what it shows";
  for (const Point p : grid_of(site.job(), kSweepStep_in)) {
    const std::vector<std::size_t> stack = site.stack_at(p);
    if (stack.empty() || site.standing_over(p) != nullptr) continue;
    const auto wood = std::find_if(stack.begin(), stack.end(), [&](std::size_t layer) { return site.decays(layer); });
    if (wood == stack.end()) continue;
    const int node = layer_node(*wood);
    if (site.meter_read(node, p, kSpent_in) || site.was_read(node, p, kSpent_in)) continue;
    const bool stone = std::any_of(stack.begin(), wood, [&](std::size_t layer) { return mineral(site.job().layers[layer].material); });
    candidate.look.readings.push_back({{node, kWet, p}, stone ? kPinlessThroughStone_sd : kPinless_sd, true});
    candidate.probes_in.push_back(p);
  }
  // A handful of spots is no sweep.
  if (candidate.probes_in.size() < 4) return;
  candidate.at_in = start_of(site.job(), candidate.probes_in);
  const double hours = kSweepSpot_hours * static_cast<double>(candidate.probes_in.size());
  candidate.cost = least_look(site.rates()) + hours * site.rates().labour_per_hour;
  out.push_back(std::move(candidate));
}

// The edge of a cabinet that faces the room: its middle lies farthest from the walls.
void toe_kick(const Site& site, const Fixture& fixture, std::vector<Candidate>& out) {
  const Polygon& ring = fixture.outline_in;
  if (ring.size() < 3) return;
  const Point middle = centroid(ring), room = centroid(site.job().room.outline_in);
  Point front = ring[0];
  double nearest = 1e300;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i], b = ring[(i + 1) % ring.size()], m{(a.x_in + b.x_in) / 2, (a.y_in + b.y_in) / 2};
    if (distance_in(m, room) < nearest - 1e-9) {
      nearest = distance_in(m, room);
      front = m;
    }
  }
  const double d = distance_in(front, middle);
  if (d < 1e-9) return;
  const double t = std::min(1.0, kToeKick_in / d);
  const Point p{front.x_in + t * (middle.x_in - front.x_in), front.y_in + t * (middle.y_in - front.y_in)};
  if (!contains(site.job().room.outline_in, p)) return;
  const std::vector<std::size_t> stack = site.stack_at(p);
  if (stack.empty()) return;
  Candidate candidate;
  candidate.at_in = p;
  candidate.act = Act::look;
  candidate.from = Vantage::side;
  candidate.how = "take off the toe-kick of " + fixture.id + " and look under it; the floor stays whole";
  candidate.probes_in = {p};
  candidate.cost = least_look(site.rates());
  const std::size_t top = stack.front();
  if (site.decays(top)) {  // no finish runs under the cabinet: the wood lies bare
    if (site.was_read(layer_node(top), p, kSpent_in)) return;
    candidate.look.readings.push_back({{layer_node(top), kRot, p}, kAwl_sd});
  } else {
    const auto wood = std::find_if(stack.begin(), stack.end(), [&](std::size_t layer) { return site.decays(layer); });
    if (wood == stack.end() || site.was_read(layer_node(*wood), p, kSpent_in)) return;
    candidate.look.readings.push_back({{layer_node(*wood), kRot, p}, kStain_sd, true});
  }
  out.push_back(std::move(candidate));
}

// A floor that goes anyway: taken up first, then the bare wood is read on a grid, and the members and
// plates at the same time.
void strip(const Site& site, std::vector<Candidate>& out) {
  Candidate candidate;
  candidate.act = Act::strip;
  candidate.free = true;
  std::vector<bool> taken(site.job().layers.size(), false);
  for (const Point p : grid_of(site.job(), kStripStep_in)) {
    const std::vector<std::size_t> stack = site.stack_at(p);
    std::size_t bare = 0;
    while (bare < stack.size() && site.goes(stack[bare]) && !site.presumed(stack[bare])) ++bare;
    if (bare == 0 || site.standing_over(p) != nullptr) continue;
    if (bare < stack.size() && (site.presumed(stack[bare]) || !site.decays(stack[bare]) || site.was_read(layer_node(stack[bare]), p, kSpent_in))) continue;
    if (bare == stack.size() && stack.size() == 1 && site.decays(stack[0])) continue;  // one layer only, and it goes: nothing below it to read
    for (std::size_t i = 0; i < bare; ++i) taken[stack[i]] = true;
    if (bare < stack.size()) candidate.look.readings.push_back({{layer_node(stack[bare]), kRot, p}, kAwl_sd});
    candidate.probes_in.push_back(p);
  }
  if (candidate.probes_in.size() < 2) return;
  for (const auto* lines : {&site.plan().supports, &site.plan().walls})
    for (const LineStations& line : *lines)
      for (std::size_t k = 2; k < line.points.size(); k += 4)
        if (candidate.look.readings.size() < 2 * kMostSpots && contains(site.job().room.outline_in, line.points[k]) &&
            !site.was_read(line.node, line.points[k], kSpent_in))
          candidate.look.readings.push_back({{line.node, kRot, line.points[k]}, kAwl_sd});
  if (candidate.look.readings.empty()) return;
  for (std::size_t i = 0; i < taken.size(); ++i)
    if (taken[i]) candidate.pierces.push_back(i);
  candidate.at_in = start_of(site.job(), candidate.probes_in);
  candidate.how = "take up what goes anyway, then probe the bare wood at each of these spots";
  candidate.cost = least_look(site.rates()) + kSweepSpot_hours * static_cast<double>(candidate.probes_in.size()) * site.rates().labour_per_hour;
  out.push_back(std::move(candidate));
}

}  // namespace

std::vector<Candidate> wide_candidates(const Site& site) {
  std::vector<Candidate> all;
  sweep(site, all);
  for (const Fixture& fixture : site.job().fixtures)
    if (fixture.stands && (fixture.kind == FixtureKind::cabinet || fixture.kind == FixtureKind::vanity)) toe_kick(site, fixture, all);
  strip(site, all);
  return all;
}

Candidate sample_candidate(const Site& site, const Candidate& wanted) {
  Candidate candidate = wanted;
  candidate.act = Act::sample;
  candidate.from = Vantage::above;
  candidate.free = false;
  candidate.support.reset();
  candidate.wall.reset();
  candidate.lifts = wanted.lifts;
  candidate.probes_in = {wanted.at_in};
  // Down to the last layer that is presumed; what lies below waits for the laboratory.
  const std::vector<std::size_t> stack = site.stack_at(wanted.at_in);
  std::size_t deepest = 0;
  for (std::size_t i = 0; i < stack.size(); ++i)
    if (site.presumed(stack[i])) deepest = i + 1;
  candidate.pierces.assign(stack.begin(), stack.begin() + static_cast<std::ptrdiff_t>(deepest));
  // The work room's own row: what the inspector's visit and the laboratory cost.
  const auto* row = tables::table("tasks.csv").find("id", "lab_sample");
  const auto paid = money::money_of(site.job(), *row);
  candidate.cost = paid.fee + money::hours_of(site.job(), *row).likely * paid.rate_scale * site.rates().labour_per_hour;
  candidate.how =
      "a certified inspector takes the laboratory's samples here, of each layer with its backing and glue; once they are clear the same hole is the opening";
  return candidate;
}

double removal_cost(const money::Stakes& rates) {
  const auto& tasks = tables::table("tasks.csv");
  const auto* removal = tasks.find("id", "asbestos_removal");
  const auto* set_up = tasks.find("id", "asbestos_set_up");
  return removal->number("fee") + set_up->number("fee") + set_up->number("likely") * set_up->number("rate_scale") * rates.labour_per_hour;
}

}  // namespace awlmark::survey
