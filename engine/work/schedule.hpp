// When the tasks of one run start and end: one gang in the room at a time and one below it, a trade in one
// place at a time, each crew in one place, as many hands as a task can use, waits day and night or in
// working days. Private to the room.
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
    std::size_t place = 0;  // 0 in the room, 1 below it, 2 elsewhere
    std::size_t until = static_cast<std::size_t>(-1);
  };
  std::vector<Node> nodes;
  std::size_t gangs = 0;
  std::size_t crews = 1;  // how many gangs the first one, the crew, is
};
Net net_of(const std::vector<Task>& tasks, int crew, int crews = 1);

// By task: hours of all hands together; hours of wait day and night; working days of wait; the moments before
// which it neither begins nor ends (0: any).
struct Times {
  explicit Times(std::size_t count) : hours(count), wait_h(count), wait_days(count), not_before(count), not_done_before(count) {}
  std::vector<double> hours, wait_h, wait_days, not_before, not_done_before;
};

struct Schedule {
  std::vector<double> starts, worked, ends;  // moments; `ends` includes the wait
  double finish = 0;
  std::vector<std::size_t> critical;  // the chain of tasks that sets the finish, first to last
};

// Always the task that can start first, the first in the list when several can: feasible, not promised the shortest.
Schedule schedule(const Net& net, const Times& times, const Calendar& calendar);

}  // namespace awlmark::work
