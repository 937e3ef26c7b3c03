#include "survey/candidates.hpp"

#include <algorithm>
#include <cmath>

#include "survey/evidence.hpp"
#include "tables/materials.hpp"

namespace awlmark::survey {
namespace {

constexpr double kBares_in = 5;         // an opening bares a member whose middle lies this near
constexpr double kUsualLift_hours = 1;  // a fixture whose lifting time nobody gave
constexpr double kBelow_hours = 0.25;   // a look from the crawl space or basement
constexpr double kBase_hours = 0.25;    // a length of base taken off and put back
constexpr double kFromBelow_sd = 0.6;   // a member's side and bottom against its top
constexpr double kBehindBase_sd = 0.8;  // a plate's edge below the wallboard against its middle
constexpr double kBaseboard_in = 2;     // the floor beside a plate, seen with it
constexpr double kRead_in = 6;          // nearer than this to a probe of the same layer, a spot was read
constexpr double kReadAlong_in = 8;     // the same along a member or plate
constexpr double kSameHole_in = 3;      // nearer than this a second probe tells nothing new

bool is_deck(const Layer& layer) { return tables::material_facts(doc::word_of(layer.material)).kind == "deck"; }

// What cutting through the layers at this point costs, without lifting anything.
struct Cut {
  bool free = false;
  bool patch = false;
};

Cut cut_at(const Site& site, const std::vector<std::size_t>& stack) {
  Cut cut;
  if (stack.empty()) return cut;
  // The lowest is read, not cut; the rest must be opened. Bared wood (the layers above are already
  // out) costs nothing to touch; a job that lists one layer only has a floor on it that it leaves out.
  bool all_go = true;
  for (std::size_t i = 0; i + 1 < stack.size(); ++i) all_go = all_go && site.goes(stack[i]);
  const auto& layers = site.job().layers;
  const bool bared = stack.size() == 1 && layers.size() > 1 && is_deck(layers[stack[0]]) && stack[0] + 1 == layers.size();
  cut.free = stack.size() == 1 ? bared || site.goes(stack[0]) : all_go;
  cut.patch = !cut.free && layers[stack[0]].stays.value_or(false);
  return cut;
}

void price(const Site& site, const std::vector<std::size_t>& stack, Candidate& candidate) {
  const money::Stakes& rates = site.rates();
  const Cut cut = cut_at(site, stack);
  candidate.free = cut.free;
  candidate.cost = cut.free ? least_look(rates) : std::max(least_look(rates), rates.opening + (cut.patch ? rates.patch_per_opening : 0));
  if (const Fixture* fixture = site.standing_over(candidate.at_in)) {
    candidate.lifts = fixture->id;
    candidate.cost += fixture->lift_hours.value_or(kUsualLift_hours) * rates.labour_per_hour;
    if (fixture->kind == FixtureKind::toilet && site.job().job.only_toilet.value_or(false)) candidate.cost += rates.only_toilet_per_day;
  }
}

void read_layers(const Site& site, const std::vector<std::size_t>& through, Point p, Candidate& candidate) {
  for (const std::size_t layer : through) {
    const int node = layer_node(layer);
    if (site.decays(layer) && !site.was_read(node, p, kSameHole_in)) candidate.look.readings.push_back({{node, kRot, p}, kAwl_sd});
  }
}

// The nearest line that an opening here bares, or null.
const LineStations* read_lines(const Site& site, const std::vector<LineStations>& lines, Point p, Candidate& candidate) {
  const LineStations* nearest = nullptr;
  double least = kBares_in;
  for (const LineStations& line : lines) {
    const double d = distance_to_segment_in(p, line.points.front(), line.points.back());
    if (d < least - 1e-9) {
      least = d;
      nearest = &line;
    }
  }
  if (nearest == nullptr) return nullptr;
  const Point a = nearest->points.front(), b = nearest->points.back();
  const double t = along_segment_in(p, a, b) / std::max(1e-9, distance_in(a, b));
  const Point at{a.x_in + t * (b.x_in - a.x_in), a.y_in + t * (b.y_in - a.y_in)};
  if (site.was_read(nearest->node, at, kReadAlong_in)) return nullptr;
  candidate.look.readings.push_back({{nearest->node, kRot, at}, kAwl_sd});
  return nearest;
}

Point nudged_into(const Job& job, Point p, Point towards) {
  const double d = distance_in(p, towards);
  if (d <= 0) return p;
  const double t = std::min(1.0, kBaseboard_in / d);
  const Point inside{p.x_in + t * (towards.x_in - p.x_in), p.y_in + t * (towards.y_in - p.y_in)};
  return contains(job.room.outline_in, inside) ? inside : p;
}

// The middle, and the probes across the grain that the same hole reaches.
std::vector<Point> slot(const Site& site, Point p, const std::vector<std::size_t>& stack) {
  std::vector<Point> probes{p};
  const Point step = site.across_grain();
  for (const double side : {1.0, -1.0}) {
    const Point q{p.x_in + side * step.x_in, p.y_in + side * step.y_in};
    if (contains(site.job().room.outline_in, q) && site.stack_at(q) == stack && site.standing_over(q) == site.standing_over(p)) probes.push_back(q);
  }
  return probes;
}

bool read_here(const Site& site, const std::vector<std::size_t>& layers, Point p) {
  return std::any_of(layers.begin(), layers.end(), [&](std::size_t layer) { return site.was_read(layer_node(layer), p, kRead_in); });
}

std::optional<Candidate> from_below(const Site& site, const LineStations& line, Point p) {
  Candidate candidate;
  candidate.at_in = p;
  candidate.support = line.id;
  candidate.act = Act::look;
  candidate.from = Vantage::below;
  candidate.probes_in = {p};
  candidate.cost = std::max(least_look(site.rates()), kBelow_hours * site.rates().labour_per_hour);
  candidate.look.readings.push_back({{line.node, kRot, p}, kFromBelow_sd});
  // The underside of the lowest layer shows from there too.
  const std::vector<std::size_t> stack = site.stack_at(p);
  if (!stack.empty() && !site.presumed(stack.back())) read_layers(site, {stack.back()}, p, candidate);
  return candidate;
}

}  // namespace

std::optional<Candidate> floor_candidate(const Site& site, Point p, bool as_if_cleared) {
  if (!contains(site.job().room.outline_in, p)) return std::nullopt;
  const std::vector<std::size_t> stack = site.stack_at(p);
  const std::vector<std::size_t> through = as_if_cleared ? stack : site.pierced(stack);
  if (through.empty() || read_here(site, through, p)) return std::nullopt;
  Candidate candidate;
  candidate.at_in = p;
  candidate.pierces = through;
  candidate.probes_in = slot(site, p, stack);
  price(site, stack, candidate);
  for (const Point probe : candidate.probes_in) read_layers(site, through, probe, candidate);
  // Only a hole that goes all the way bares what lies below.
  const bool to_the_bottom = through.back() == stack.back();
  const LineStations* member = to_the_bottom ? read_lines(site, site.plan().supports, p, candidate) : nullptr;
  const LineStations* plate = to_the_bottom ? read_lines(site, site.plan().walls, p, candidate) : nullptr;
  // Where every layer goes anyway, the question here is the member's or the plate's.
  const bool asked = std::any_of(through.begin(), through.end(), [&](std::size_t layer) { return site.decays(layer) && !site.goes(layer); });
  if (!asked && member != nullptr) candidate.support = member->id;
  if (!asked && member == nullptr && plate != nullptr) candidate.wall = plate->id;
  if (!asked && member == nullptr && plate == nullptr) return std::nullopt;
  if (candidate.look.readings.empty()) return std::nullopt;
  return candidate;
}

std::optional<Candidate> below_candidate(const Site& site, Point p) {
  if (!site.open_below() || !contains(site.job().room.outline_in, p)) return std::nullopt;
  const std::vector<std::size_t> stack = site.stack_at(p);
  if (stack.empty()) return std::nullopt;
  const std::size_t lowest = stack.back();
  if (!site.decays(lowest) || site.goes(lowest) || site.presumed(lowest) || read_here(site, {lowest}, p)) return std::nullopt;
  Candidate candidate;
  candidate.at_in = p;
  candidate.act = Act::look;
  candidate.from = Vantage::below;
  candidate.cost = std::max(least_look(site.rates()), kBelow_hours * site.rates().labour_per_hour);
  candidate.probes_in = slot(site, p, stack);
  for (const Point probe : candidate.probes_in) read_layers(site, {lowest}, probe, candidate);
  read_lines(site, site.plan().supports, p, candidate);
  if (candidate.look.readings.empty()) return std::nullopt;
  return candidate;
}

std::optional<Candidate> line_candidate(const Site& site, const LineStations& line, double along_in) {
  const Point a = line.points.front(), b = line.points.back();
  const double length = std::max(1e-9, distance_in(a, b)), t = along_in / length;
  const Point p{a.x_in + t * (b.x_in - a.x_in), a.y_in + t * (b.y_in - a.y_in)};
  if (distance_to_in(site.job().room.outline_in, p) > kBares_in + kBaseboard_in) return std::nullopt;
  if (site.was_read(line.node, p, kReadAlong_in)) return std::nullopt;
  if (!line.wall && site.open_below()) return from_below(site, line, p);
  Candidate candidate;
  (line.wall ? candidate.wall : candidate.support) = line.id;
  const Point floor = line.wall ? nudged_into(site.job(), p, centroid(site.job().room.outline_in)) : p;
  const std::vector<std::size_t> stack = site.stack_at(floor), through = site.pierced(stack);
  candidate.at_in = p;
  if (site.blocked(stack)) {
    if (!line.wall) return std::nullopt;
    candidate.act = Act::look;
    candidate.from = Vantage::side;
    candidate.how = "take the base off and probe the plate's edge below the wallboard; leave floor and wallboard whole";
    candidate.probes_in = {p};
    candidate.cost = std::max(least_look(site.rates()), kBase_hours * site.rates().labour_per_hour);
    candidate.look.readings.push_back({{line.node, kRot, p}, kBehindBase_sd});
    return candidate;
  }
  candidate.pierces = through;
  candidate.probes_in = {p};
  candidate.at_in = floor;
  price(site, stack, candidate);
  candidate.at_in = p;
  read_layers(site, through, floor, candidate);
  candidate.look.readings.push_back({{line.node, kRot, p}, kAwl_sd});
  return candidate;
}

Candidate again_candidate(const Site& site, const Place& place, double noise_sd) {
  Candidate candidate;
  candidate.at_in = place.at_in;
  candidate.act = Act::probe_again;
  candidate.probes_in = {place.at_in};
  candidate.cost = least_look(site.rates());
  candidate.look.readings.push_back({place, noise_sd});
  return candidate;
}

std::vector<Candidate> candidates_of(const Site& site, double step_in, double along_in) {
  std::vector<Candidate> all;
  const auto add = [&](std::optional<Candidate> c) {
    if (c) all.push_back(std::move(*c));
  };
  const Box box = bounds(site.job().room.outline_in);
  const int nx = std::max(1, static_cast<int>(std::floor(box.width_in() / step_in + 0.5))),
            ny = std::max(1, static_cast<int>(std::floor(box.height_in() / step_in + 0.5)));
  for (int j = 0; j < ny; ++j)
    for (int i = 0; i < nx; ++i) {
      const Point p{box.x0_in + (i + 0.5) * box.width_in() / nx, box.y0_in + (j + 0.5) * box.height_in() / ny};
      add(floor_candidate(site, p));
      add(below_candidate(site, p));
    }
  // Cut-outs that the grid may step over: under a tub, at a drain, at a register.
  for (const Layer& layer : site.job().layers)
    for (const Polygon& hole : layer.absent_in)
      if (hole.size() >= 3) add(floor_candidate(site, centroid(hole)));
  for (const auto* lines : {&site.plan().supports, &site.plan().walls})
    for (const LineStations& line : *lines) {
      const std::size_t stride = std::max<std::size_t>(1, static_cast<std::size_t>(std::floor(along_in / std::max(1e-9, line.spacing_in) + 0.5)));
      for (std::size_t k = stride / 2; k < line.along_in.size(); k += stride) add(line_candidate(site, line, line.along_in[k]));
    }
  return all;
}

}  // namespace awlmark::survey
