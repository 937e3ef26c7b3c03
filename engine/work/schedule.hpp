// When the tasks of one run start and end: one gang in the room at a time, a trade in one place at a
// time, as many hands as a task can use, waits day and night or in working days. Private to the room.
#pragma once

#include "work/calendar.hpp"
#include "work/work.hpp"

namespace awlmark::work {

// The network of a run, worked out once: what follows what by place in the list.
struct Net {
  struct Node {
    std::vector<std::size_t> after;
    std::size_t who = 0;  // place in a list of gangs
    double hands = 1;
    bool in_room = true;
    std::size_t until = static_cast<std::size_t>(-1);
  };
  std::vector<Node> nodes;
  std::size_t gangs = 0;
};
Net net_of(const std::vector<Task>& tasks, int crew);

struct Schedule {
  std::vector<double> starts, worked, ends;  // moments; `ends` includes the wait
  double finish = 0;
  std::vector<std::size_t> critical;  // the chain of tasks that sets the finish, first to last
};

// By task: hours of all hands together; hours of wait day and night; working days of wait. Always the
// task that can start first, the first in the list when several can: feasible, not promised the shortest.
Schedule schedule(const Net& net, const std::vector<double>& hours, const std::vector<double>& wait_h, const std::vector<double>& wait_days,
                  const Calendar& calendar);

}  // namespace awlmark::work
