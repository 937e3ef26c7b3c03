// When the tasks end: each draw takes hours and waits by PERT, one crew does one thing at a time,
// other trades work beside it, waits run day and night. Private to the room.
#pragma once

#include "work/calendar.hpp"
#include "work/three_point.hpp"
#include "work/work.hpp"

namespace awlmark::work {

// Crew pace is one factor for all hours of a draw: a slow crew is slow all over. 12 percent either
// way, lognormal, mean 1; an estimate of the trade without a source.
inline constexpr double kPaceSpread = 0.12;
double pace_draw(double spread, Random& random);

struct Schedule {
  double finish = 0;                  // moment
  std::vector<std::string> critical;  // the chain of tasks that sets the finish, first to last
};

// hours[i] and waits[i] of tasks[i]. Tasks stand after what they follow.
Schedule schedule(const std::vector<Task>& tasks, const std::vector<double>& hours, const std::vector<double>& waits, int crew, const Calendar& calendar);

}  // namespace awlmark::work
