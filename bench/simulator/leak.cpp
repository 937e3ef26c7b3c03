#include "simulator/leak.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "base/special.hpp"
#include "simulator/noise.hpp"
#include "simulator/wicking.hpp"

namespace awlmark::simulator {
namespace {

double between(Random& random, double low, double high) { return low + (high - low) * random.uniform(); }

bool chance(Random& random, double p) { return random.uniform() < p; }

double around(Random& random, double median, double log_sd) { return median * det_exp(log_sd * random.normal()); }

// Most leaks start at a wall: supply stubs, drains, tub and shower edges.
Point place_source(Random& random, double width_in, double height_in) {
  double x = between(random, 6, width_in - 6);
  double y = between(random, 6, height_in - 6);
  if (chance(random, 0.8)) {
    const double off = between(random, 2, 14);
    const auto side = random.below(4);
    if (side == 0) x = off;
    if (side == 1) x = width_in - off;
    if (side == 2) y = off;
    if (side == 3) y = height_in - off;
  }
  return {x, y};
}

// Water that ran along a seam of the sheet flooring and came out about two feet away.
Point seam_exit(Random& random, Point from, double width_in, double height_in) {
  const double run = between(random, 18, 32);
  const bool along_x = chance(random, 0.5);
  const double x = along_x ? (from.x_in > width_in / 2 ? from.x_in - run : from.x_in + run) : from.x_in;
  const double y = along_x ? from.y_in : (from.y_in > height_in / 2 ? from.y_in - run : from.y_in + run);
  return {std::clamp(x, 2.0, width_in - 2), std::clamp(y, 2.0, height_in - 2)};
}

struct Plan {
  Leak leak;
  Soaking soaking;
};

void add_layer(Plan& plan, const std::string& id, Material material, double thickness_in, const SoakingLayer& soaking, double face_width_in) {
  Layer layer;
  layer.id = id;
  layer.material = material;
  layer.thickness_in = thickness_in;
  if (face_width_in > 0) {
    layer.runs = Runs{soaking.grain_along_x ? 0.0 : 90.0};
    layer.face_width_in = face_width_in;
    layer.species = Species::douglas_fir_larch;
  }
  plan.leak.job.layers.push_back(layer);
  plan.soaking.layers.push_back(soaking);
  plan.soaking.layers.back().thickness_in = thickness_in;
  plan.soaking.layers.back().board_width_in = face_width_in;
}

void lay_floor(Plan& plan, const LeakOptions& options, Random& random) {
  SoakingLayer sheet;
  sheet.along_in2_per_day = 5;
  sheet.across_in2_per_day = 3.5;
  sheet.dries_per_day = 0.003;  // sheet flooring above it, a deck below
  add_layer(plan, "under", Material::plywood_underlayment, chance(random, 0.5) ? 0.25 : 0.5, sheet, 0);
  if (options.layers > 2) add_layer(plan, "second", Material::particleboard, 0.625, sheet, 0);
  SoakingLayer deck;
  deck.grain_along_x = chance(random, 0.5);
  deck.along_in2_per_day = around(random, 14, 0.3);
  deck.across_in2_per_day = around(random, 2.5, 0.3);
  deck.dries_per_day = around(random, 0.012, 0.4);
  const bool narrow = chance(random, 0.5);
  add_layer(plan, "deck", narrow ? Material::board : Material::plank_tg, narrow ? 0.75 : 1.5, deck, narrow ? 5.5 : 7.25);
}

void add_source(Plan& plan, Random& random, int index, double width_in, double height_in, bool active) {
  Inflow inflow;
  inflow.at_in = place_source(random, width_in, height_in);
  inflow.in3_per_day = around(random, index == 0 ? 7 : 3.5, 0.6);
  inflow.share_of_days = chance(random, 0.5) ? 1.0 : between(random, 0.25, 0.9);
  Source source;
  source.id = std::string("s").append(std::to_string(index + 1));
  source.kind = chance(random, 0.5) ? SourceKind::supply_leak : SourceKind::seal_leak;
  source.active = active ? Activity::yes : Activity::no;
  if (chance(random, 0.75)) source.at_in = inflow.at_in;
  if (chance(random, 0.25)) {
    Inflow exit = inflow;
    const double share = between(random, 0.3, 0.8);
    exit.at_in = seam_exit(random, inflow.at_in, width_in, height_in);
    exit.in3_per_day = share * inflow.in3_per_day;
    inflow.in3_per_day -= exit.in3_per_day;
    plan.soaking.inflows.push_back(exit);
    plan.leak.water_in.push_back(exit.at_in);
  }
  plan.soaking.inflows.push_back(inflow);
  plan.leak.water_in.push_back(inflow.at_in);
  plan.leak.job.sources.push_back(source);
}

Plan draw_plan(const LeakOptions& options, Random& random) {
  Plan plan;
  const auto side = [&] { return 12 * std::floor(between(random, options.least_side_in, options.most_side_in + 12) / 12); };
  const double width_in = side();
  const double height_in = side();
  Leak& leak = plan.leak;
  leak.cell_in = options.cell_in;
  leak.nx = static_cast<int>(std::ceil(width_in / options.cell_in));
  leak.ny = static_cast<int>(std::ceil(height_in / options.cell_in));
  leak.job.job.name = "invented leak";
  leak.job.room.outline_in = rectangle(0, 0, width_in, height_in);
  lay_floor(plan, options, random);
  leak.wet_days = std::clamp(around(random, 450, 0.6), 120.0, options.longest_leak_days);
  const bool active = chance(random, 0.6);
  leak.dry_days = active ? 0 : between(random, 20, 300);
  const double how_many = random.uniform();
  const int sources = how_many < 0.7 ? 1 : (how_many < 0.95 ? 2 : 3);
  for (int s = 0; s < sources; ++s) add_source(plan, random, s, width_in, height_in, active);
  Rates rates;
  rates.leave_unsound_per_sf = Costs{}.leave_unsound_per_sf;
  rates.tear_out_sound_per_sf = Costs{}.tear_out_sound_per_sf;
  rates.opening = 45;
  leak.job.rates = rates;
  plan.soaking.cell_in = options.cell_in;
  plan.soaking.nx = leak.nx;
  plan.soaking.ny = leak.ny;
  plan.soaking.wet_days = leak.wet_days;
  plan.soaking.dry_days = leak.dry_days;
  return plan;
}

// Decay needs a random number of wet days: wood differs from lump to lump and from board to board.
void rot(Leak& leak, const std::vector<Soaked>& soaked, Random& random) {
  for (std::size_t l = 0; l < soaked.size(); ++l) {
    const auto lump = lumps(random, leak.nx, leak.ny, leak.cell_in, 16);
    const double softens_days = around(random, 110, 0.25);
    const double gone_over_soft = between(random, 1.7, 2.8);
    const Layer& layer = leak.job.layers[l];
    const bool along_x = layer.runs && layer.runs->degrees < 45;
    std::vector<double> board_effect(64);
    for (auto& effect : board_effect) effect = layer.face_width_in ? 0.25 * random.normal() : 0.0;
    LayerTruth truth;
    truth.layer = layer.id;
    truth.moisture = soaked[l].moisture;
    for (int c = 0; c < leak.nx * leak.ny; ++c) {
      const Point at = centre_of(leak, c);
      const double across = along_x ? at.y_in : at.x_in;
      const auto board = layer.face_width_in ? static_cast<std::size_t>(across / *layer.face_width_in) : 0;
      const double needs_days = softens_days * det_exp(0.3 * lump[c] + board_effect[board % board_effect.size()]);
      const double severity = det_log((soaked[l].exposed_days[c] + 0.5) / needs_days);
      truth.severity.push_back(severity);
      truth.degree.push_back(severity < 0 ? 0 : (severity < det_log(gone_over_soft) ? 1 : 2));
    }
    leak.layers.push_back(std::move(truth));
  }
}

// Someone felt a soft spot in the upper layer, or in the deck where the upper one held.
bool notice(Leak& leak, Random& random) {
  for (const auto& layer : leak.layers) {
    std::vector<int> soft;
    for (int c = 0; c < leak.nx * leak.ny; ++c) {
      if (layer.degree[c] > 0) soft.push_back(c);
    }
    if (soft.empty()) continue;
    leak.noticed_in = centre_of(leak, soft[random.below(soft.size())]);
    return true;
  }
  return false;
}

}  // namespace

Point centre_of(const Leak& leak, int cell) { return {(cell % leak.nx + 0.5) * leak.cell_in, (cell / leak.nx + 0.5) * leak.cell_in}; }

int cell_at(const Leak& leak, Point at_in) {
  const int i = std::clamp(static_cast<int>(std::floor(at_in.x_in / leak.cell_in)), 0, leak.nx - 1);
  const int j = std::clamp(static_cast<int>(std::floor(at_in.y_in / leak.cell_in)), 0, leak.ny - 1);
  return j * leak.nx + i;
}

double unsound_sf(const Leak& leak, const LayerTruth& layer) {
  const auto cells = std::count_if(layer.degree.begin(), layer.degree.end(), [](std::uint8_t d) { return d > 0; });
  return static_cast<double>(cells) * leak.cell_in * leak.cell_in / 144;
}

Leak make_leak(std::uint64_t seed, const LeakOptions& options) {
  // A leak that did nothing, or took the whole room, leaves nothing to find: draw again.
  for (std::uint64_t attempt = 0;; ++attempt) {
    Random random(stream_seed(seed, attempt));
    Plan plan = draw_plan(options, random);
    const auto soaked = soak(plan.soaking, random);
    rot(plan.leak, soaked, random);
    const double room_sf = plan.leak.nx * plan.leak.ny * options.cell_in * options.cell_in / 144;
    const double deck_sf = unsound_sf(plan.leak, plan.leak.layers.back());
    const bool worth_finding = deck_sf >= 2 && deck_sf <= 0.6 * room_sf;
    if (worth_finding && notice(plan.leak, random)) return std::move(plan.leak);
  }
}

double decision_loss(const Leak& leak, const std::vector<std::vector<double>>& p_unsound, const Costs& costs) {
  const double cell_sf = leak.cell_in * leak.cell_in / 144;
  double loss = 0;
  for (std::size_t l = 0; l < leak.layers.size(); ++l) {
    for (int c = 0; c < leak.nx * leak.ny; ++c) {
      const double p = p_unsound[l][c];
      const bool out = p * costs.leave_unsound_per_sf > (1 - p) * costs.tear_out_sound_per_sf;  // false for NaN
      const bool unsound = leak.layers[l].degree[c] > 0;
      if (unsound && !out) loss += costs.leave_unsound_per_sf * cell_sf;
      if (!unsound && out) loss += costs.tear_out_sound_per_sf * cell_sf;
    }
  }
  return loss;
}

}  // namespace awlmark::simulator
