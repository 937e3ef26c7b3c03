#include "floor/paths.hpp"

#include <algorithm>
#include <cmath>

#include "floor/combinations.hpp"

namespace awlmark::floor {
namespace {

// What one rest brings to its carrier; of a splice that nobody spoke of, the greater.
struct Brought {
  double dead_lb = 0, live_lb = 0, snow_lb = 0;
};
Brought brought(const ForceRest& rest) { return {rest.reaction_lb.dead, rest.reaction_lb.live_most, rest.reaction_lb.snow_most}; }

void hand_on(const Member& member, std::size_t index, Paths& out) {
  const auto& forces = out.forces[index];
  const bool unsaid = splice_unsaid(member);
  const auto parted = unsaid ? member_forces(member, out.loads[index], creep_of(member), Unsaid::spliced) : MemberForces{};
  for (std::size_t r = 0; r < member.rests.size(); ++r) {
    const auto& rest = member.rests[r];
    if (!rest.carrier.known()) {
      out.balance.carried_lb += forces.rests[r].full_lb;
      continue;
    }
    auto one = brought(forces.rests[r]);
    if (unsaid && parted.solved) {
      const auto other = brought(parted.rests[r]);
      one = {std::max(one.dead_lb, other.dead_lb), std::max(one.live_lb, other.live_lb), std::max(one.snow_lb, other.snow_lb)};
    }
    auto& to = out.loads[rest.carrier.of()];
    const double at = rest.along_carrier_in;
    if (one.dead_lb > 0) to.dead.points.push_back({one.dead_lb, at});
    if (one.live_lb > 0) to.live.points.push_back({one.live_lb, at});
    if (one.snow_lb > 0) to.snow.points.push_back({one.snow_lb, at});
    to.full.points.push_back({forces.rests[r].full_lb, at});
  }
}

}  // namespace

double total_lb(const mechanics::Loads& loads) {
  double sum = 0;
  for (const auto& line : loads.lines) sum += (line.w_from_pli + line.w_to_pli) / 2 * (line.to_in - line.from_in);
  for (const auto& point : loads.points) sum += point.p_lb;
  return sum;
}

Paths load_paths(const Model& model, Case which) {
  Paths out;
  const std::size_t n = model.members.size();
  out.loads = own_loads(model, which);
  out.forces.resize(n);
  out.mechanism.assign(n, false);
  out.in_ring.assign(n, false);
  std::vector<std::vector<std::size_t>> carriers(n);
  for (std::size_t i = 0; i < n; ++i)
    for (const auto& rest : model.members[i].rests)
      if (rest.carrier.known()) carriers[i].push_back(rest.carrier.of());
  const auto order = plan::load_order(carriers);
  for (const std::size_t i : order.in_ring) out.in_ring[i] = out.mechanism[i] = true;
  for (const std::size_t i : order.order) {
    const Member& member = model.members[i];
    if (member.lies_on) {
      out.balance.carried_lb += total_lb(out.loads[i].full);
      continue;
    }
    const bool broken = member.rests.size() == 2 && cut_through(member);
    if (member.rests.size() >= 2) out.forces[i] = member_forces(member, out.loads[i], creep_of(member));
    out.mechanism[i] = broken || !out.forces[i].solved;
    if (!out.mechanism[i]) hand_on(member, i, out);
  }
  out.balance.applied_lb = applied_lb(model, which);
  return out;
}

}  // namespace awlmark::floor
