#include "work/schedule.hpp"

#include <algorithm>
#include <map>

#include "base/special.hpp"

namespace awlmark::work {
namespace {
constexpr std::size_t kNone = static_cast<std::size_t>(-1);
}

double pace_draw(double spread, Random& random) {
  // Lognormal with mean 1.
  return det_exp(spread * random.normal() - spread * spread / 2);
}

Schedule schedule(const std::vector<Task>& tasks, const std::vector<double>& hours, const std::vector<double>& waits, int crew, const Calendar& calendar) {
  std::map<std::string, std::size_t> place;
  std::vector<double> done(tasks.size(), calendar.start());
  std::vector<std::size_t> cause(tasks.size(), kNone);
  std::map<std::string, std::pair<double, std::size_t>> busy;  // until when, with which task
  Schedule plan;
  std::size_t last = kNone;
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    const auto& task = tasks[i];
    place[task.id] = i;
    if (task.id == "daily") continue;  // its hours shorten each day instead
    double ready = calendar.start();
    for (const auto& id : task.after) {
      const auto before = place.find(id);
      if (before == place.end() || done[before->second] <= ready) continue;
      ready = done[before->second];
      cause[i] = before->second;
    }
    const auto held = busy.find(task.who);
    if (held != busy.end() && held->second.first > ready) {
      ready = held->second.first;
      cause[i] = held->second.second;
    }
    const double hands = task.who == "crew" ? crew : 1;
    const double worked = calendar.after_work(ready, hours[i] / hands);
    busy[task.who] = {worked, i};
    done[i] = worked + waits[i];
    if (last == kNone || done[i] > plan.finish) {
      plan.finish = done[i];
      last = i;
    }
  }
  for (std::size_t at = last; at != kNone; at = cause[at]) plan.critical.push_back(tasks[at].id);
  std::reverse(plan.critical.begin(), plan.critical.end());
  return plan;
}

}  // namespace awlmark::work
