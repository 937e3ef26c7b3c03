#include "survey/site.hpp"

#include <algorithm>
#include <cmath>

#include "base/special.hpp"
#include "survey/evidence.hpp"
#include "tables/materials.hpp"

namespace awlmark::survey {
namespace {

constexpr double kSlot_in = 4.5;  // from the middle of an opening to its probes on either side: a slot of some 10 in.
constexpr double kPi = 3.14159265358979323846;

int node_of(const Job& job, const Mark& mark) {
  if (mark.layer)
    if (const Layer* layer = find_layer(job, *mark.layer)) return layer_node(static_cast<std::size_t>(layer - job.layers.data()));
  if (mark.support)
    if (const Support* support = find_support(job, *mark.support)) return support_node(job, static_cast<std::size_t>(support - job.supports.data()));
  if (mark.wall)
    if (const Wall* wall = find_wall(job, *mark.wall)) return wall_node(job, static_cast<std::size_t>(wall - job.walls.data()));
  return -1;
}

Point step_across(double degrees, double length_in) {
  // Exact at quarter turns, so that a turned job has the turned probes.
  const double turned = degrees - 180 * std::floor(degrees / 180);
  if (turned == 0) return {0, length_in};
  if (turned == 90) return {-length_in, 0};
  const double a = turned * kPi / 180;
  return {-length_in * det_cos(kPi / 2 - a), length_in * det_cos(a)};
}

}  // namespace

Site::Site(const Job& job, const SurveyPlan& plan, const hazards::Hazards& hazards, const Model& model, const std::optional<plan::Turn>& turn)
    : job_(job), plan_(plan), hazards_(hazards), turn_(turn), rates_(money::stakes_of(job)), across_(step_across(model.shared_degrees, kSlot_in)) {
  for (const Layer& layer : job.layers)
    presumed_.push_back(std::find(hazards.presumed_layers.begin(), hazards.presumed_layers.end(), layer.id) != hazards.presumed_layers.end());
  for (const Mark& mark : job.marks) {
    const int node = node_of(job, mark);
    const auto at = place_of(job, mark);
    const bool meter = mark.tool == Tool::meter && mark.mc_percent.has_value();
    if (node >= 0 && at && (meter || (mark.tool == Tool::awl && mark.reads))) read_.push_back({node, *at, meter});
  }
}

std::vector<std::size_t> Site::stack_at(Point p) const {
  std::vector<std::size_t> stack;
  for (std::size_t i = 0; i < job_.layers.size(); ++i)
    if (covers(job_, job_.layers[i], p)) stack.push_back(i);
  return stack;
}

bool Site::any_presumed() const { return std::find(presumed_.begin(), presumed_.end(), true) != presumed_.end(); }

std::vector<std::size_t> Site::pierced(const std::vector<std::size_t>& stack) const {
  std::vector<std::size_t> through, so_far;
  for (const std::size_t layer : stack) {
    if (presumed_[layer]) break;
    so_far.push_back(layer);
    if (decays(layer)) through = so_far;
  }
  return through;
}

bool Site::blocked(const std::vector<std::size_t>& stack) const {
  bool met = false;
  for (const std::size_t layer : stack) {
    met = met || presumed_[layer];
    if (met && decays(layer)) return true;
  }
  return false;
}

bool Site::decays(std::size_t layer) const { return can_decay(job_.layers[layer].material); }

const Fixture* Site::standing_over(Point p) const {
  for (const Fixture& fixture : job_.fixtures)
    if (fixture.stands && fixture.outline_in.size() >= 3 && contains(fixture.outline_in, p)) return &fixture;
  return nullptr;
}

bool Site::open_below() const { return job_.job.below == Below::crawl_space || job_.job.below == Below::basement; }

bool Site::was_read(int node, Point p, double within_in) const {
  return std::any_of(read_.begin(), read_.end(), [&](const Read& r) { return !r.meter && r.node == node && distance_in(r.at_in, p) <= within_in; });
}

bool Site::meter_read(int node, Point p, double within_in) const {
  return std::any_of(read_.begin(), read_.end(), [&](const Read& r) { return r.meter && r.node == node && distance_in(r.at_in, p) <= within_in; });
}

std::vector<std::string> Site::ids(const std::vector<std::size_t>& layers) const {
  std::vector<std::string> out;
  for (const std::size_t layer : layers) out.push_back(job_.layers[layer].id);
  return out;
}

std::vector<std::string> Site::gates_before(const std::vector<hazards::Before>& steps) const {
  std::vector<std::string> out;
  for (const hazards::Gate& gate : hazards_.gates)
    if (std::find(steps.begin(), steps.end(), gate.before) != steps.end()) out.push_back(gate.id);
  return out;
}

}  // namespace awlmark::survey
