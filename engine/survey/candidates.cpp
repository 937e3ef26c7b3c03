#include "survey/candidates.hpp"

#include <algorithm>
#include <cmath>

#include "survey/evidence.hpp"
#include "tables/materials.hpp"

namespace awlmark::survey {
namespace {

constexpr double kBares_in = 5;         // an opening bares a member whose middle lies this near
constexpr double kUsualLift_hours = 1;  // a fixture whose lifting time nobody gave
constexpr double kBelow_hours = 0.25;   // a look at a member from the crawl space or basement
constexpr double kFromBelow_sd = 0.6;   // its side and bottom against its top
constexpr double kBaseboard_in = 2;     // the floor beside a plate, seen with it

bool is_deck(const Layer& layer) { return tables::material_facts(doc::word_of(layer.material)).kind == "deck"; }

// What cutting through the layers at this point costs, without lifting anything.
struct Cut {
  bool any_layer = false;
  bool free = false;
  bool patch = false;
};

Cut cut_at(const Job& job, Point p) {
  Cut cut;
  std::vector<const Layer*> here;
  for (const Layer& layer : job.layers)
    if (covers(job, layer, p)) here.push_back(&layer);
  cut.any_layer = !here.empty();
  if (here.empty()) return cut;
  // The lowest is read, not cut; the rest must be opened. Bared wood (the layers above are already
  // out) costs nothing to touch; a job that lists one layer only has a floor on it that it leaves out.
  bool all_go = true;
  for (std::size_t i = 0; i + 1 < here.size(); ++i) all_go = all_go && here[i]->goes.value_or(false);
  const bool bared = here.size() == 1 && job.layers.size() > 1 && is_deck(*here[0]) && here[0] == &job.layers.back();
  cut.free = here.size() == 1 ? bared || here[0]->goes.value_or(false) : all_go;
  cut.patch = !cut.free && here[0]->stays.value_or(false);
  return cut;
}

const Fixture* standing_over(const Job& job, Point p) {
  for (const Fixture& fixture : job.fixtures)
    if (fixture.stands && fixture.outline_in.size() >= 3 && contains(fixture.outline_in, p)) return &fixture;
  return nullptr;
}

void price(const Job& job, const SurveyRates& rates, Point p, const Cut& cut, Candidate& candidate) {
  candidate.free = cut.free;
  candidate.cost = cut.free ? 0 : rates.opening + (cut.patch ? rates.patch_per_opening : 0);
  if (const Fixture* fixture = standing_over(job, p)) {
    candidate.lifts = fixture->id;
    candidate.cost += fixture->lift_hours.value_or(kUsualLift_hours) * rates.labour_per_hour;
    if (fixture->kind == FixtureKind::toilet && job.job.only_toilet.value_or(false)) candidate.cost += rates.only_toilet_per_day;
  }
}

void read_layers(const Job& job, const SurveyPlan& plan, Point p, Candidate& candidate) {
  for (const LayerCells& layer : plan.layers) {
    if (!layer.can_decay || layer.cells.empty()) continue;
    if (covers(job, job.layers[static_cast<std::size_t>(layer.node)], p)) candidate.look.readings.push_back({{layer.node, kRot, p}, kAwl_sd});
  }
}

// The nearest line that an opening here bares, or null.
const LineStations* read_lines(const std::vector<LineStations>& lines, Point p, Candidate& candidate) {
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
  const double along = along_segment_in(p, nearest->points.front(), nearest->points.back());
  const double length = std::max(1e-9, distance_in(nearest->points.front(), nearest->points.back()));
  const double t = along / length;
  const Point a = nearest->points.front(), b = nearest->points.back();
  candidate.look.readings.push_back({{nearest->node, kRot, {a.x_in + t * (b.x_in - a.x_in), a.y_in + t * (b.y_in - a.y_in)}}, kAwl_sd});
  return nearest;
}

Point nudged_into(const Job& job, Point p, Point towards) {
  const double d = distance_in(p, towards);
  if (d <= 0) return p;
  const double t = std::min(1.0, kBaseboard_in / d);
  const Point inside{p.x_in + t * (towards.x_in - p.x_in), p.y_in + t * (towards.y_in - p.y_in)};
  return contains(job.room.outline_in, inside) ? inside : p;
}

// Blocks of cells: which block a cell falls in, counted over the room.
struct Block {
  double area_sf = 0, x = 0, y = 0;
};

void layer_stakes(const LayerCells& layer, const GridFindings& grid, const SurveyRates& rates, double block_in, std::vector<Stake>& stakes) {
  const int per = std::max(1, static_cast<int>(std::floor(block_in / grid.cell_in + 0.5)));
  const int nx = (grid.nx + per - 1) / per, ny = (grid.ny + per - 1) / per;
  std::vector<Block> blocks(static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny));
  for (std::size_t c = 0; c < layer.cells.size(); ++c) {
    Block& b = blocks[static_cast<std::size_t>((layer.cells[c] / grid.nx / per) * nx + (layer.cells[c] % grid.nx) / per)];
    b.area_sf += layer.area_sf[c];
    b.x += layer.area_sf[c] * layer.centres[c].x_in;
    b.y += layer.area_sf[c] * layer.centres[c].y_in;
  }
  for (const Block& b : blocks)
    if (b.area_sf > 1e-9)
      stakes.push_back(
          {layer.node, {b.x / b.area_sf, b.y / b.area_sf}, b.area_sf, b.area_sf * rates.leave_unsound_per_sf, b.area_sf * rates.tear_out_sound_per_sf});
}

void line_stakes(const LineStations& line, const SurveyRates& rates, double block_in, std::vector<Stake>& stakes) {
  const int per = std::max(1, static_cast<int>(std::floor(block_in / std::max(1e-9, line.spacing_in) + 0.5)));
  for (std::size_t i = 0; i < line.points.size(); i += static_cast<std::size_t>(per)) {
    const double feet = std::min(static_cast<double>(per), static_cast<double>(line.points.size() - i)) * line.spacing_in / 12;
    stakes.push_back({line.node, line.points[i], feet, feet * rates.leave_unsound_per_sf, feet * rates.tear_out_sound_per_sf});
  }
}

}  // namespace

SurveyRates rates_of(const Job& job) {
  const auto given = [&](std::optional<double> Rates::*member, const char* id) {
    if (job.rates && (*job.rates).*member) return *((*job.rates).*member);
    return tables::rate(id).value;
  };
  SurveyRates rates;
  rates.leave_unsound_per_sf = given(&Rates::leave_unsound_per_sf, "leave_unsound_per_sf");
  rates.tear_out_sound_per_sf = given(&Rates::tear_out_sound_per_sf, "tear_out_sound_per_sf");
  rates.opening = given(&Rates::opening, "opening");
  rates.labour_per_hour = given(&Rates::labour_per_hour, "labour_per_hour");
  rates.patch_per_opening = tables::rate("patch_per_opening").value;
  rates.only_toilet_per_day = tables::rate("only_toilet_per_day").value;
  return rates;
}

std::vector<Stake> stakes_of(const Job& job, const SurveyPlan& plan, const SurveyRates& rates, double block_in) {
  std::vector<Stake> stakes;
  for (const LayerCells& layer : plan.layers)
    if (layer.can_decay && !job.layers[static_cast<std::size_t>(layer.node)].goes.value_or(false)) layer_stakes(layer, plan.grid, rates, block_in, stakes);
  for (const LineStations& line : plan.supports) line_stakes(line, rates, block_in, stakes);
  for (const LineStations& line : plan.walls) line_stakes(line, rates, block_in, stakes);
  return stakes;
}

std::optional<Candidate> floor_candidate(const Job& job, const SurveyPlan& plan, const SurveyRates& rates, Point p) {
  if (!contains(job.room.outline_in, p)) return std::nullopt;
  const Cut cut = cut_at(job, p);
  if (!cut.any_layer) return std::nullopt;
  Candidate candidate;
  candidate.at_in = p;
  price(job, rates, p, cut, candidate);
  read_layers(job, plan, p, candidate);
  const LineStations* member = read_lines(plan.supports, p, candidate);
  const LineStations* plate = read_lines(plan.walls, p, candidate);
  // Where every layer goes anyway, the question here is the member's or the plate's.
  const bool asked = std::any_of(plan.layers.begin(), plan.layers.end(), [&](const LayerCells& layer) {
    const Layer& of = job.layers[static_cast<std::size_t>(layer.node)];
    return layer.can_decay && !of.goes.value_or(false) && covers(job, of, p);
  });
  if (!asked && member != nullptr) candidate.support = member->id;
  if (!asked && member == nullptr && plate != nullptr) candidate.wall = plate->id;
  if (!asked && member == nullptr && plate == nullptr) return std::nullopt;
  if (candidate.look.readings.empty()) return std::nullopt;
  return candidate;
}

std::optional<Candidate> line_candidate(const Job& job, const SurveyPlan& plan, const SurveyRates& rates, const LineStations& line, double along_in) {
  const Point a = line.points.front(), b = line.points.back();
  const double length = std::max(1e-9, distance_in(a, b)), t = along_in / length;
  const Point p{a.x_in + t * (b.x_in - a.x_in), a.y_in + t * (b.y_in - a.y_in)};
  if (distance_to_in(job.room.outline_in, p) > kBares_in + kBaseboard_in) return std::nullopt;
  Candidate candidate;
  candidate.at_in = p;
  (line.wall ? candidate.wall : candidate.support) = line.id;
  const bool open_below = job.job.below == Below::crawl_space || job.job.below == Below::basement;
  if (!line.wall && open_below) {
    candidate.from_below = true;
    candidate.cost = kBelow_hours * rates.labour_per_hour;
    candidate.look.readings.push_back({{line.node, kRot, p}, kFromBelow_sd});
    // The underside of the lowest layer shows from there too.
    for (auto layer = plan.layers.rbegin(); layer != plan.layers.rend(); ++layer) {
      if (!layer->can_decay || !covers(job, job.layers[static_cast<std::size_t>(layer->node)], p)) continue;
      candidate.look.readings.push_back({{layer->node, kRot, p}, kAwl_sd});
      break;
    }
    return candidate;
  }
  const Point floor = line.wall ? nudged_into(job, p, centroid(job.room.outline_in)) : p;
  price(job, rates, floor, cut_at(job, floor), candidate);
  read_layers(job, plan, floor, candidate);
  candidate.look.readings.push_back({{line.node, kRot, p}, kAwl_sd});
  return candidate;
}

std::vector<Candidate> candidates_of(const Job& job, const SurveyPlan& plan, const SurveyRates& rates, double step_in) {
  std::vector<Candidate> all;
  const Box box = bounds(job.room.outline_in);
  const int nx = std::max(1, static_cast<int>(std::floor(box.width_in() / step_in + 0.5))),
            ny = std::max(1, static_cast<int>(std::floor(box.height_in() / step_in + 0.5)));
  for (int j = 0; j < ny; ++j)
    for (int i = 0; i < nx; ++i)
      if (auto c = floor_candidate(job, plan, rates, {box.x0_in + (i + 0.5) * box.width_in() / nx, box.y0_in + (j + 0.5) * box.height_in() / ny}))
        all.push_back(std::move(*c));
  for (const auto* lines : {&plan.supports, &plan.walls})
    for (const LineStations& line : *lines) {
      const std::size_t stride = std::max<std::size_t>(1, static_cast<std::size_t>(std::floor(step_in / std::max(1e-9, line.spacing_in) + 0.5)));
      for (std::size_t k = stride / 2; k < line.along_in.size(); k += stride)
        if (auto c = line_candidate(job, plan, rates, line, line.along_in[k])) all.push_back(std::move(*c));
    }
  return all;
}

}  // namespace awlmark::survey
