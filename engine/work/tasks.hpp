// The tasks of a job, from data/tasks.csv: which apply, how many hours by quantity, what they follow.
// Private to the room.
#pragma once

#include "work/work.hpp"

namespace awlmark::work {

struct WorkSite {
  const Job& job;
  const hazards::Hazards& hazards;
  const cutback::CutBack& cut;
  const floor::Floor& floor;
  const takeoff::TakeOff& take_off;
  const floor::Option* option = nullptr;
};

std::vector<Task> tasks_of(const WorkSite& site);
int crew_of(const Job& job);
double hours_per_day_of(const Job& job);

}  // namespace awlmark::work
