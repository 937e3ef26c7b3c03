#include "work/schedule.hpp"

#include <algorithm>
#include <map>

namespace awlmark::work {
namespace {
constexpr std::size_t kNone = static_cast<std::size_t>(-1);
constexpr double kCrumb = 1e-9;
}  // namespace

Net net_of(const std::vector<Task>& tasks, int crew, int crews) {
  Net net;
  std::map<std::string, std::size_t> place, gang{{"crew", 0}};
  for (std::size_t i = 0; i < tasks.size(); ++i) place[tasks[i].id] = i;
  for (const auto& task : tasks) {
    Net::Node node;
    for (const auto& id : task.after)
      if (const auto before = place.find(id); before != place.end()) node.after.push_back(before->second);
    node.who = gang.emplace(task.who, gang.size()).first->second;
    node.hands = task.who == "crew" ? std::max(1, std::min(crew, task.hands)) : 1;
    node.place = task.place == Place::room ? 0 : task.place == Place::below ? 1 : 2;
    if (const auto until = place.find(task.until); until != place.end()) node.until = until->second;
    net.nodes.push_back(std::move(node));
  }
  net.gangs = gang.size();
  net.crews = static_cast<std::size_t>(std::max(1, crews));
  return net;
}

namespace {

// Who and what is busy until when, and with which task. Gang 0 is the crew, of which there may be several.
class Busy {
 public:
  Busy(const Net& net) : crews_(net.crews), gang_(net.gangs + net.crews - 1), place_(2) {}

  // The gang that does it, of those free first the first.
  std::size_t gang_for(const Net::Node& node) const {
    if (node.who > 0) return node.who + crews_ - 1;
    std::size_t best = 0;
    for (std::size_t g = 1; g < crews_; ++g)
      if (gang_[g].until < gang_[best].until - kCrumb) best = g;
    return best;
  }
  double free_for(const Net::Node& node) const { return std::max(gang_[gang_for(node)].until, node.place < 2 ? place_[node.place].until : 0.0); }
  // The task that kept this one waiting past `ready`; nothing where none did.
  std::size_t kept_by(const Net::Node& node, double ready) const {
    const auto& gang = gang_[gang_for(node)];
    if (node.place < 2) {
      const auto& place = place_[node.place];
      if (place.with != kNone && place.until > ready + kCrumb && place.until >= gang.until) return place.with;
    }
    return gang.with != kNone && gang.until > ready + kCrumb ? gang.with : kNone;
  }
  void take(const Net::Node& node, double until, std::size_t task) {
    gang_[gang_for(node)] = {until, task};
    if (node.place < 2) place_[node.place] = {until, task};
  }

 private:
  struct Taken {
    double until = 0;
    std::size_t with = kNone;
  };
  std::size_t crews_;
  std::vector<Taken> gang_, place_;
};

}  // namespace

Schedule schedule(const Net& net, const Times& times, const Calendar& calendar) {
  const std::size_t count = net.nodes.size();
  const auto& hours = times.hours;
  Schedule plan;
  plan.starts.assign(count, 0), plan.worked.assign(count, 0), plan.ends.assign(count, 0);
  std::vector<std::size_t> cause(count, kNone), open(count);
  std::vector<double> ready(count, calendar.start());
  std::vector<char> done(count, 0);
  std::vector<std::vector<std::size_t>> next(count);
  for (std::size_t i = 0; i < count; ++i) {
    open[i] = net.nodes[i].after.size();
    ready[i] = std::max(ready[i], times.not_before[i]);
    for (const std::size_t before : net.nodes[i].after) next[before].push_back(i);
  }
  Busy busy(net);
  for (std::size_t round = 0; round < count; ++round) {
    std::size_t pick = kNone;
    double soonest = 0;
    for (std::size_t i = 0; i < count; ++i) {
      if (done[i] || open[i] > 0) continue;
      const double at = hours[i] > 0 ? std::max(ready[i], busy.free_for(net.nodes[i])) : ready[i];
      if (pick == kNone || at < soonest - kCrumb) pick = i, soonest = at;
    }
    if (pick == kNone) break;  // a circle: the table's test finds it
    const auto& node = net.nodes[pick];
    const double start = hours[pick] > 0 ? calendar.next_working(soonest) : soonest;
    if (hours[pick] > 0)
      if (const std::size_t kept = busy.kept_by(node, ready[pick]); kept != kNone) cause[pick] = kept;
    plan.starts[pick] = start;
    plan.worked[pick] = calendar.after_work(start, hours[pick] / node.hands);
    if (hours[pick] > 0) busy.take(node, plan.worked[pick], pick);
    plan.ends[pick] = std::max(calendar.after_days(plan.worked[pick], times.wait_days[pick]) + times.wait_h[pick], times.not_done_before[pick]);
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
