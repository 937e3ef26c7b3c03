#include "simulator/wicking.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "base/special.hpp"
#include "simulator/noise.hpp"

namespace awlmark::simulator {
namespace {

constexpr double kFibreSaturation = 0.28;
constexpr double kFullRotSpan = 0.15;         // decay runs at full pace this far above saturation
constexpr double kWoodPerWater = 0.5;         // specific gravity: MC times this times thickness is water depth
constexpr double kPuddleSpread_in2_day = 12;  // under sheet flooring
constexpr double kSoakIn_per_day = 2.0;       // share of the puddle that a dry cell takes in a day
constexpr double kPassDown_in_day = 0.012;    // per unit difference of saturation, where layers touch
constexpr double kStep_days = 0.1;

struct LayerState {
  SoakingLayer layer;
  double capacity_in = 0;  // water depth per unit moisture content
  std::vector<double> moisture, exposed;
  std::vector<double> face_x, face_y;  // conductance to the cell at +x and at +y, 1/day at full mobility
  std::vector<double> touch;           // contact with the layer below
  std::vector<double> mobility, change;
};

// Dry wood passes almost nothing, soaked wood all of it: that is what makes a front.
double mobility_of(double moisture) {
  const double s = std::clamp((moisture - 0.14) / 0.5, 0.0, 1.0);
  return 0.004 + s * s;
}

void lay_faces(LayerState& state, const Soaking& plan, Random& random) {
  const auto wood = lumps(random, plan.nx, plan.ny, plan.cell_in, 14);
  const auto joint = lumps(random, plan.nx, plan.ny, plan.cell_in, 20);
  const double per_area = 1 / (plan.cell_in * plan.cell_in);
  const SoakingLayer& layer = state.layer;
  const auto face = [&](int i, int j, int i2, int j2, bool along) {
    const std::size_t a = static_cast<std::size_t>(j) * plan.nx + i;
    const std::size_t b = static_cast<std::size_t>(j2) * plan.nx + i2;
    const double rate = along ? layer.along_in2_per_day : layer.across_in2_per_day;
    double factor = det_exp(0.6 * 0.5 * (wood[a] + wood[b]));
    if (!along && layer.board_width_in > 0) {
      const double here = (layer.grain_along_x ? j + 0.5 : i + 0.5) * plan.cell_in;
      const double there = (layer.grain_along_x ? j2 + 0.5 : i2 + 0.5) * plan.cell_in;
      if (std::floor(here / layer.board_width_in) != std::floor(there / layer.board_width_in)) factor *= 0.3 * det_exp(0.8 * joint[a]);
    }
    // Two cells exchange through two faces each way, so a step stays stable below a quarter.
    return std::min(rate * per_area * factor, 0.22 / kStep_days);
  };
  for (int j = 0; j < plan.ny; ++j) {
    for (int i = 0; i < plan.nx; ++i) {
      const std::size_t c = static_cast<std::size_t>(j) * plan.nx + i;
      state.face_x[c] = i + 1 < plan.nx ? face(i, j, i + 1, j, layer.grain_along_x) : 0;
      state.face_y[c] = j + 1 < plan.ny ? face(i, j, i, j + 1, !layer.grain_along_x) : 0;
    }
  }
}

std::vector<LayerState> build(const Soaking& plan, Random& random) {
  const std::size_t cells = static_cast<std::size_t>(plan.nx) * plan.ny;
  std::vector<LayerState> states;
  for (const auto& layer : plan.layers) {
    LayerState state;
    state.layer = layer;
    state.capacity_in = kWoodPerWater * layer.thickness_in;
    state.moisture.assign(cells, kAirDry);
    for (auto* zeros : {&state.exposed, &state.face_x, &state.face_y, &state.mobility, &state.change}) zeros->assign(cells, 0.0);
    lay_faces(state, plan, random);
    state.touch = lumps(random, plan.nx, plan.ny, plan.cell_in, 18);
    for (auto& value : state.touch) value = std::min(det_exp(0.9 * value), 6.0);
    states.push_back(std::move(state));
  }
  return states;
}

// Adds the flux of a field through faces, carried by the wetter side's mobility.
void spread(const Soaking& plan, LayerState& state) {
  const int nx = plan.nx;
  auto& u = state.moisture;
  for (std::size_t c = 0; c < u.size(); ++c) state.mobility[c] = mobility_of(u[c]);
  std::fill(state.change.begin(), state.change.end(), 0.0);
  const auto flow = [&](std::size_t a, std::size_t b, double face) {
    const double rate = face * (u[a] > u[b] ? state.mobility[a] : state.mobility[b]) * (u[a] - u[b]) * kStep_days;
    state.change[a] -= rate;
    state.change[b] += rate;
  };
  for (int j = 0; j < plan.ny; ++j) {
    for (int i = 0; i < nx; ++i) {
      const std::size_t c = static_cast<std::size_t>(j) * nx + i;
      if (i + 1 < nx) flow(c, c + 1, state.face_x[c]);
      if (j + 1 < plan.ny) flow(c, c + nx, state.face_y[c]);
    }
  }
  const double drying = state.layer.dries_per_day * kStep_days;
  for (std::size_t c = 0; c < u.size(); ++c) {
    u[c] += state.change[c] - drying * (u[c] - kAirDry);
    state.exposed[c] += kStep_days * std::clamp((u[c] - kFibreSaturation) / kFullRotSpan, 0.0, 1.0);
  }
}

// Free water spreads only where it stands deeper than the cell holds back.
void spread_puddle(const Soaking& plan, const std::vector<double>& holds, std::vector<double>& puddle, std::vector<double>& change) {
  const double rate = std::min(kPuddleSpread_in2_day / (plan.cell_in * plan.cell_in) * kStep_days, 0.2);
  std::fill(change.begin(), change.end(), 0.0);
  const auto flow = [&](std::size_t a, std::size_t b) {
    const double over_a = std::max(0.0, puddle[a] - holds[a]);
    const double over_b = std::max(0.0, puddle[b] - holds[b]);
    const double moved = rate * (over_a - over_b);
    change[a] -= moved;
    change[b] += moved;
  };
  for (int j = 0; j < plan.ny; ++j) {
    for (int i = 0; i < plan.nx; ++i) {
      const std::size_t c = static_cast<std::size_t>(j) * plan.nx + i;
      if (i + 1 < plan.nx) flow(c, c + 1);
      if (j + 1 < plan.ny) flow(c, c + plan.nx);
    }
  }
  for (std::size_t c = 0; c < puddle.size(); ++c) puddle[c] = std::max(0.0, puddle[c] + change[c]);
}

void soak_in(LayerState& top, std::vector<double>& puddle) {
  for (std::size_t c = 0; c < puddle.size(); ++c) {
    if (puddle[c] <= 0) continue;
    const double room_in = std::max(0.0, kSaturated - top.moisture[c]) * top.capacity_in;
    const double taken = std::min({room_in, puddle[c], puddle[c] * kSoakIn_per_day * kStep_days * (1 - top.moisture[c] / kSaturated) + 1e-6});
    puddle[c] -= taken;
    top.moisture[c] += taken / top.capacity_in;
    puddle[c] *= 1 - 0.004 * kStep_days;
  }
}

void pass_down(LayerState& upper, LayerState& lower) {
  for (std::size_t c = 0; c < upper.moisture.size(); ++c) {
    const double difference = (upper.moisture[c] - lower.moisture[c]) / kSaturated;
    const double carrier = mobility_of(std::max(upper.moisture[c], lower.moisture[c]));
    const double upward = difference < 0 ? 0.3 : 1.0;
    const double moved = kPassDown_in_day * upper.touch[c] * upward * carrier * difference * kStep_days;
    upper.moisture[c] -= moved / upper.capacity_in;
    lower.moisture[c] += moved / lower.capacity_in;
  }
}

}  // namespace

std::vector<Soaked> soak(const Soaking& plan, Random& random) {
  auto states = build(plan, random);
  const std::size_t cells = static_cast<std::size_t>(plan.nx) * plan.ny;
  std::vector<double> puddle(cells, 0.0), change(cells, 0.0);
  auto holds = lumps(random, plan.nx, plan.ny, plan.cell_in, 10);
  for (auto& value : holds) value = 0.01 * std::min(det_exp(0.8 * value), 8.0);
  const int wet_steps = static_cast<int>(plan.wet_days / kStep_days);
  const int all_steps = wet_steps + static_cast<int>(plan.dry_days / kStep_days);
  const int steps_a_day = static_cast<int>(std::lround(1 / kStep_days));
  std::vector<double> runs_today(plan.inflows.size(), 0.0);
  for (int step = 0; step < all_steps; ++step) {
    if (step < wet_steps) {
      for (std::size_t s = 0; s < plan.inflows.size(); ++s) {
        const auto& inflow = plan.inflows[s];
        if (step % steps_a_day == 0) runs_today[s] = random.uniform() < inflow.share_of_days ? 1 / inflow.share_of_days : 0;
        const int i = std::clamp(static_cast<int>(inflow.at_in.x_in / plan.cell_in), 0, plan.nx - 1);
        const int j = std::clamp(static_cast<int>(inflow.at_in.y_in / plan.cell_in), 0, plan.ny - 1);
        puddle[static_cast<std::size_t>(j) * plan.nx + i] += runs_today[s] * inflow.in3_per_day * kStep_days / (plan.cell_in * plan.cell_in);
      }
    }
    spread_puddle(plan, holds, puddle, change);
    soak_in(states.front(), puddle);
    for (std::size_t l = 0; l + 1 < states.size(); ++l) pass_down(states[l], states[l + 1]);
    for (auto& state : states) spread(plan, state);
  }
  std::vector<Soaked> result;
  for (auto& state : states) result.push_back({std::move(state.moisture), std::move(state.exposed)});
  return result;
}

}  // namespace awlmark::simulator
