#include "work/gates.hpp"

#include <algorithm>
#include <utility>

namespace awlmark::work {
namespace {

using hazards::Before;

// Tasks that do what the gate of a step guards, in the order of the job.
const std::vector<std::pair<Before, std::vector<std::string>>>& guarded() {
  static const std::vector<std::pair<Before, std::vector<std::string>>> rows{
      {Before::touching, {"protect", "protect_small", "shut_off", "stop_water"}},
      {Before::entering, {"shore", "hold_wall"}},
      {Before::lifting, {"lift_fixtures"}},
      {Before::opening, {}},  // the survey's openings are behind; what holds for them holds for the first cut
      {Before::cutting, {"strip_flexible", "strip_tile", "take_up_panel", "take_up_plank", "cut_edges", "plates", "wallboard"}},
      {Before::drying, {"dry_out"}},
      {Before::covering, {"lay_deck", "rebuild_deck", "wallboard_back"}},
      {Before::finishing, {"shower_tile", "tile", "sheet_floor", "patch_finish"}},
  };
  return rows;
}

std::size_t first_of(const std::vector<std::string>& wanted, const std::vector<std::string>& row_ids) {
  for (std::size_t i = 0; i < row_ids.size(); ++i)
    if (std::find(wanted.begin(), wanted.end(), row_ids[i]) != wanted.end()) return i;
  return row_ids.size();
}

}  // namespace

void hang_gates(const hazards::Hazards& found, const std::vector<std::string>& row_ids, std::vector<Task>& tasks) {
  if (tasks.empty()) return;
  for (const auto& gate : found.gates) {
    std::size_t on = row_ids.size();
    bool reached = false;
    for (const auto& [step, rows] : guarded()) {
      reached = reached || step == gate.before;
      if (reached && on == row_ids.size()) on = first_of(rows, row_ids);
    }
    tasks[on == row_ids.size() ? tasks.size() - 1 : on].gates.push_back(gate.id);
  }
}

}  // namespace awlmark::work
