#include "work/schedule.hpp"

#include <algorithm>
#include <map>

namespace awlmark::work {
namespace {
constexpr std::size_t kNone = static_cast<std::size_t>(-1);
constexpr double kCrumb = 1e-9;
}  // namespace

Net net_of(const std::vector<Task>& tasks, int crew) {
  Net net;
  std::map<std::string, std::size_t> place, gang;
  for (std::size_t i = 0; i < tasks.size(); ++i) place[tasks[i].id] = i;
  for (const auto& task : tasks) {
    Net::Node node;
    for (const auto& id : task.after)
      if (const auto before = place.find(id); before != place.end()) node.after.push_back(before->second);
    node.who = gang.emplace(task.who, gang.size()).first->second;
    node.hands = task.who == "crew" ? std::max(1, std::min(crew, task.hands)) : 1;
    node.in_room = task.place == Place::room;
    if (const auto until = place.find(task.until); until != place.end()) node.until = until->second;
    net.nodes.push_back(std::move(node));
  }
  net.gangs = gang.size();
  return net;
}

Schedule schedule(const Net& net, const std::vector<double>& hours, const std::vector<double>& wait_h, const std::vector<double>& wait_days,
                  const Calendar& calendar) {
  const std::size_t count = net.nodes.size();
  Schedule plan;
  plan.starts.assign(count, 0), plan.worked.assign(count, 0), plan.ends.assign(count, 0);
  std::vector<std::size_t> cause(count, kNone), open(count), gang_with(net.gangs, kNone);
  std::vector<double> ready(count, calendar.start()), gang_free(net.gangs, 0);
  std::vector<char> done(count, 0);
  std::vector<std::vector<std::size_t>> next(count);
  for (std::size_t i = 0; i < count; ++i) {
    open[i] = net.nodes[i].after.size();
    for (const std::size_t before : net.nodes[i].after) next[before].push_back(i);
  }
  double room_free = 0;
  std::size_t room_with = kNone;
  for (std::size_t round = 0; round < count; ++round) {
    std::size_t pick = kNone;
    double soonest = 0;
    for (std::size_t i = 0; i < count; ++i) {
      if (done[i] || open[i] > 0) continue;
      const auto& node = net.nodes[i];
      double at = ready[i];
      if (hours[i] > 0) at = std::max(at, std::max(gang_free[node.who], node.in_room ? room_free : 0.0));
      if (pick == kNone || at < soonest - kCrumb) pick = i, soonest = at;
    }
    if (pick == kNone) break;  // a circle: the table's test finds it
    const auto& node = net.nodes[pick];
    const double start = hours[pick] > 0 ? calendar.next_working(soonest) : soonest;
    if (hours[pick] > 0) {
      if (node.in_room && room_with != kNone && room_free > ready[pick] + kCrumb && room_free >= gang_free[node.who])
        cause[pick] = room_with;
      else if (gang_with[node.who] != kNone && gang_free[node.who] > ready[pick] + kCrumb)
        cause[pick] = gang_with[node.who];
    }
    plan.starts[pick] = start;
    plan.worked[pick] = calendar.after_work(start, hours[pick] / node.hands);
    if (hours[pick] > 0) {
      gang_free[node.who] = plan.worked[pick], gang_with[node.who] = pick;
      if (node.in_room) room_free = plan.worked[pick], room_with = pick;
    }
    plan.ends[pick] = calendar.after_days(plan.worked[pick], wait_days[pick]) + wait_h[pick];
    done[pick] = 1;
    for (const std::size_t after : next[pick]) {
      --open[after];
      if (plan.ends[pick] > ready[after]) ready[after] = plan.ends[pick], cause[after] = pick;
    }
  }
  std::size_t last = kNone;
  for (std::size_t i = 0; i < count; ++i)
    if (last == kNone || plan.ends[i] > plan.finish) plan.finish = plan.ends[i], last = i;
  for (std::size_t at = last; at != kNone; at = cause[at]) plan.critical.push_back(at);
  std::reverse(plan.critical.begin(), plan.critical.end());
  return plan;
}

}  // namespace awlmark::work
