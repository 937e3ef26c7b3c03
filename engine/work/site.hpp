// What the tasks of one run are worked out from. Private to the room.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "work/work.hpp"

namespace awlmark::work {

struct WorkSite {
  const Job& job;
  const hazards::Hazards& hazards;  // of the job with this run's outcomes
  const cutback::CutBack& cut;
  const floor::Floor& floor;
  const takeoff::TakeOff& take_off;
  const Reveal& reveal;
  const floor::Option* option = nullptr;
  std::size_t suspects = 0;          // layers that are still with the laboratory, or go there
  std::set<std::size_t> positive{};  // layers that hold asbestos in this run
  bool engineer_more = false;        // the engineer asks for more than is drawn
  const DryingWord* drying = nullptr;
};

// A quantity in the units of a task's row, and how it grows: row units for one of the extent.
struct Amount {
  double quantity = 0;
  std::string unit;
  std::vector<std::pair<goods::Growth, double>> grows{};
};
std::map<std::string, Amount> amounts_of(const WorkSite& site);
std::set<std::string> flags_of(const WorkSite& site);
// Layers that the licensed remover takes: those that hold asbestos, what is bonded above them, and the
// underlayment that comes up with them.
std::set<std::size_t> removed_layers(const WorkSite& site);
bool lifted(const WorkSite& site, const Fixture& fixture);
double layer_out_sf(const WorkSite& site, std::size_t layer);

std::vector<Task> tasks_of(const WorkSite& site);
// Puts every task after what it follows and hangs the gates; `rows` are the tasks' rows of the table.
void put_in_order(const hazards::Hazards& found, std::vector<Task>& tasks, std::vector<std::string>& rows);

int crew_of(const Job& job);
int crews_of(const Job& job);
double hours_per_day_of(const Job& job);
inline constexpr double kDailySetUp_h = 1;  // of each day of the crew: set-up, clean-up, protection

}  // namespace awlmark::work
