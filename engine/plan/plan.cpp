#include "plan/plan.hpp"

namespace awlmark::plan {
namespace {

Plan filled(Job job, const Turn& turn) {
  Plan plan;
  plan.job = std::move(job);
  plan.turn = turn;
  plan.layers = layer_frames(plan.job, turn, plan.assumed);
  return plan;
}

}  // namespace

LayerIx Plan::layer(const std::string& id) const {
  for (std::size_t i = 0; i < job.layers.size(); ++i)
    if (job.layers[i].id == id) return {static_cast<int>(i)};
  return {};
}

LayerIx Plan::deck() const {
  const Layer* deck = structural_deck(job);
  return deck ? LayerIx{static_cast<int>(deck - job.layers.data())} : LayerIx{};
}

Plan plan_of(const Job& drawn) {
  const Turn turn = own_turn(drawn);
  return filled(turned(drawn, turn), turn);
}

Plan as_drawn(const Job& drawn) { return filled(drawn, Turn{}); }

}  // namespace awlmark::plan
