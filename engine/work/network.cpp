#include "work/network.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace awlmark::work {
namespace {

struct Arc {
  std::size_t other = 0;
  double lag = 0;
};

using Arcs = std::vector<std::vector<Arc>>;

bool wire(const std::vector<NetworkTask>& tasks, Arcs& before, Arcs& behind, Problems& problems) {
  std::map<std::string, std::size_t> place;
  std::vector<std::string> ids;
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    ids.push_back(tasks[i].id);
    if (!place.emplace(tasks[i].id, i).second) problems.push_back({"tasks." + tasks[i].id, "is there twice", "give every task its own id"});
    if (!(tasks[i].duration >= 0) || !std::isfinite(tasks[i].duration))
      problems.push_back({"tasks." + tasks[i].id + ".duration", "must be at least 0", "give the time it takes"});
  }
  before.assign(tasks.size(), {});
  behind.assign(tasks.size(), {});
  for (std::size_t i = 0; i < tasks.size(); ++i)
    for (std::size_t k = 0; k < tasks[i].after.size(); ++k) {
      const auto& link = tasks[i].after[k];
      const std::string at = "tasks." + tasks[i].id + ".after[" + std::to_string(k) + "]";
      const auto found = place.find(link.id);
      if (found == place.end()) {
        const auto near = nearest_words(link.id, ids);
        problems.push_back(
            {at, "names '" + link.id + "', which is not a task", near.empty() ? "name a task of this list" : "did you mean '" + near.front() + "'?"});
        continue;
      }
      if (!std::isfinite(link.lag)) problems.push_back({at + ".lag", "is not a number", "give the wait after '" + link.id + "'"});
      before[i].push_back({found->second, link.lag});
      behind[found->second].push_back({i, link.lag});
    }
  return problems.empty();
}

// An order in which every task stands after what it follows, the first given first; shorter than
// the list where there is a circle.
std::vector<std::size_t> sorted(const Arcs& before, const Arcs& behind) {
  std::vector<std::size_t> open(before.size()), order;
  std::vector<bool> taken(before.size(), false);
  for (std::size_t i = 0; i < before.size(); ++i) open[i] = before[i].size();
  std::vector<std::size_t> ready;
  for (std::size_t i = before.size(); i-- > 0;)
    if (open[i] == 0) ready.push_back(i);
  while (!ready.empty()) {
    const auto now = ready.back();
    ready.pop_back();
    order.push_back(now);
    for (const auto& arc : behind[now])
      if (--open[arc.other] == 0) ready.push_back(arc.other);
  }
  return order;
}

Problem circle(const std::vector<NetworkTask>& tasks, const Arcs& before, const std::vector<std::size_t>& order) {
  std::vector<bool> done(tasks.size(), false);
  for (const auto i : order) done[i] = true;
  std::size_t at = 0;
  while (done[at]) ++at;
  // Every task left has something left before it: walking back must come round.
  std::vector<std::size_t> path;
  while (std::find(path.begin(), path.end(), at) == path.end()) {
    path.push_back(at);
    for (const auto& arc : before[at])
      if (!done[arc.other]) {
        at = arc.other;
        break;
      }
  }
  std::string words;
  for (auto i = std::find(path.begin(), path.end(), at); i != path.end(); ++i) words += tasks[*i].id + " after ";
  return {"tasks." + tasks[at].id, "waits for itself: " + words + tasks[at].id, "take one of these links out"};
}

}  // namespace

awlmark::Outcome<NetworkTimes> network(const std::vector<NetworkTask>& tasks) {
  awlmark::Outcome<NetworkTimes> outcome;
  Arcs before, behind;
  if (!wire(tasks, before, behind, outcome.problems)) return outcome;
  const auto order = sorted(before, behind);
  if (order.size() < tasks.size()) {
    outcome.problems.push_back(circle(tasks, before, order));
    return outcome;
  }
  NetworkTimes times;
  times.tasks.resize(tasks.size());
  for (const auto i : order) {
    auto& t = times.tasks[i];
    t.id = tasks[i].id;
    for (const auto& arc : before[i]) t.early_start = std::max(t.early_start, times.tasks[arc.other].early_finish + arc.lag);
    t.early_finish = t.early_start + tasks[i].duration;
    times.duration = std::max(times.duration, t.early_finish);
  }
  const double crumb = 1e-9 * std::max(1.0, times.duration);
  for (auto at = order.rbegin(); at != order.rend(); ++at) {
    auto& t = times.tasks[*at];
    t.late_finish = times.duration;
    double next_start = times.duration;
    for (const auto& arc : behind[*at]) {
      t.late_finish = std::min(t.late_finish, times.tasks[arc.other].late_start - arc.lag);
      next_start = std::min(next_start, times.tasks[arc.other].early_start - arc.lag);
    }
    t.late_start = t.late_finish - tasks[*at].duration;
    t.total_float = t.late_start - t.early_start;
    t.free_float = next_start - t.early_finish;
    if (std::fabs(t.total_float) <= crumb) t.total_float = 0;
    if (std::fabs(t.free_float) <= crumb) t.free_float = 0;
  }
  std::vector<std::size_t> critical;
  for (const auto i : order)
    if (times.tasks[i].total_float == 0) critical.push_back(i);
  std::stable_sort(critical.begin(), critical.end(),
                   [&](std::size_t a, std::size_t b) { return times.tasks[a].early_start < times.tasks[b].early_start - 1e-12; });
  for (const auto i : critical) times.critical.push_back(tasks[i].id);
  outcome.value = std::move(times);
  return outcome;
}

}  // namespace awlmark::work
