// The drain's way through the framing: from the weir of the trap to its vent.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "mechanics/cuts.hpp"
#include "shower/site.hpp"
#include "shower/trap_arm.hpp"
#include "tables/materials.hpp"

namespace awlmark::shower {
namespace {

struct Member {
  std::string id;
  std::string kind;
  Point from, to;
  double b_in = 0, d_in = 0, top_in = 0;        // top above the old framing's top
  std::vector<floor::LostStretch> lost;         // along it, from `from`
  std::vector<std::pair<double, double>> cuts;  // holes and notches already there: place along it, half length
};

double outside_in(double pipe_in) {  // schedule 40 plastic; sizes from memory, ASTM D1785
  if (pipe_in <= 1.3) return 1.66;
  if (pipe_in <= 1.6) return 1.9;
  if (pipe_in <= 2.1) return 2.375;
  if (pipe_in <= 3.1) return 3.5;
  return 4.5;
}

Member member_of(const floor::FramingLine& line) {
  return {line.id, line.kind, line.from_in, line.to_in, line.b_in, line.ripped_to_in.value_or(line.d_in), -line.top_drop_in, line.lost, {}};
}

// The framing as the chosen way leaves it: what it replaces stands with its new section, what it adds beside.
std::vector<Member> members_of(const Job& job, const floor::Floor* floor) {
  std::vector<Member> out;
  if (!floor) return out;
  for (const auto& line : floor->framing) {
    if (line.kind == "ledger" || line.kind == "wall" || line.d_in <= 0) continue;
    out.push_back(member_of(line));
    for (const auto& support : job.supports)
      if (support.id == line.id)
        for (const auto& cut : support.cuts)
          out.back().cuts.push_back({cut.along_in, (cut.hole_diameter_in ? *cut.hole_diameter_in : cut.notch_length_in.value_or(2.0)) / 2});
  }
  for (const auto& option : floor->options) {
    if (option.id != floor->chosen) continue;
    for (const auto& line : option.framing) {
      if (line.d_in <= 0) continue;
      if (line.kind == "new_member") out.erase(std::remove_if(out.begin(), out.end(), [&](const Member& m) { return m.id == line.id; }), out.end());
      for (const char* kind : {"added_joist", "bay_joist", "header", "trimmer", "sister", "new_member"})
        if (line.kind == kind) out.push_back(member_of(line));
      if (line.kind == "sister") out.back().id += ", sister";
    }
  }
  return out;
}

// Share of a-b at which it crosses the member's line; nothing when it does not.
std::optional<double> crossing(Point a, Point b, const Member& m) {
  const double dx = b.x_in - a.x_in, dy = b.y_in - a.y_in, mx = m.to.x_in - m.from.x_in, my = m.to.y_in - m.from.y_in;
  const double cross = dx * my - dy * mx;
  if (std::fabs(cross) < 1e-9) return std::nullopt;
  const double t = ((m.from.x_in - a.x_in) * my - (m.from.y_in - a.y_in) * mx) / cross;
  const double s = ((m.from.x_in - a.x_in) * dy - (m.from.y_in - a.y_in) * dx) / cross;
  if (t < 0 || t > 1 || s < 0 || s > 1) return std::nullopt;
  return t;
}

struct Way {
  std::vector<Point> path;
  double length_in = 0;
  std::vector<std::pair<const Member*, double>> hits;  // member, distance along the way
  std::vector<Point> at;
};

Way walk(std::vector<Point> path, const std::vector<Member>& members) {
  Way way;
  way.path = std::move(path);
  for (std::size_t i = 0; i + 1 < way.path.size(); ++i) {
    const Point a = way.path[i], b = way.path[i + 1];
    const double length = distance_in(a, b);
    for (const auto& m : members)
      if (const auto t = crossing(a, b, m)) {
        way.hits.push_back({&m, way.length_in + *t * length});
        way.at.push_back({a.x_in + (b.x_in - a.x_in) * *t, a.y_in + (b.y_in - a.y_in) * *t});
      }
    way.length_in += length;
  }
  return way;
}

struct Levels {
  double weir_in = 0;
  bool in_range = true;
};

// Where the arm may start so that every hole keeps its edges: the highest that all allow.
std::optional<double> bored_start(const Way& way, double fall, double hole, double high, double low) {
  for (const auto& [m, s] : way.hits) {
    const double drop = fall / 12 * s;
    high = std::min(high, m->top_in - 2 - hole / 2 + drop);
    low = std::max(low, m->top_in - m->d_in + 2 + hole / 2 + drop);
  }
  if (low > high + 1e-9) return std::nullopt;
  return high;
}

struct Limits {
  double pipe_in, od_in, hole_in, fall, high, low;  // middle of the arm at the weir
  bool open_below;
};

// The floor's own rules of a hole (mechanics/cuts.hpp), and what stands beside it in this member.
void judge_hole(const Member& m, DrainCrossing& cross, std::vector<Check>& checks) {
  const auto say = [&](const std::string& why) { cross.why += (cross.why.empty() ? "" : "; ") + why; };
  if (m.kind == "girder" || m.kind == "header") say("a " + m.kind + " is not bored by the joist rule: an engineer decides");
  const auto verdict = mechanics::check_hole(m.b_in, m.d_in, cross.hole_in, cross.from_top_in);
  for (auto check : verdict.checks) {
    check.id = "drain_run." + m.id + "." + check.id;
    check.member = m.id;
    checks.push_back(std::move(check));
  }
  if (!verdict.ok) say(verdict.why + " (IRC R502.8.1)");
  const double along = along_segment_in(cross.at_in, m.from, m.to), half = cross.hole_in / 2;
  const double apart = mechanics::cut_limits(m.d_in).hole_edge_in;
  for (const auto& [at, reach] : m.cuts)
    if (std::fabs(at - along) - reach - half < apart - 1e-9)
      say("it comes nearer than " + format_inches(apart) + " to the cut at " + format_inches(at) + " along it (IRC R502.8.1)");
  for (const auto& lost : m.lost)
    if (along + half + m.d_in > lost.from_in && along - half - m.d_in < lost.to_in)
      say("the member has lost wood " + format_inches(lost.from_in) + " to " + format_inches(lost.to_in) + " along it: mend it before it is bored");
  cross.ok = cross.why.empty();
}

void judge_arm(DrainRunFound& run, PlumbingCode code) {
  const auto arm = trap_arm(run.pipe_in, run.length_ft, run.fall_in_per_ft, code);
  if (!arm) {
    run.why.push_back("no trap-arm length is known for a pipe of " + format_number(run.pipe_in, 2) + " in.");
    return;
  }
  run.longest_ft = arm->longest_ft;
  run.total_fall_in = arm->total_fall_in;
  run.reason = arm->reason;
  for (const auto& why : arm->why) run.why.push_back((why.rfind("falls", 0) == 0 ? "the arm " : "the arm is ") + why);
}

struct Laid {
  DrainRunFound run;
  std::vector<Check> checks;
};

Laid lay(const Way& way, const Limits& limits, PlumbingCode code) {
  Laid laid;
  DrainRunFound& run = laid.run;
  run.pipe_in = limits.pipe_in;
  run.fall_in_per_ft = limits.fall;
  run.path_in = way.path;
  run.length_ft = way.length_in / 12;
  run.total_fall_in = run.length_ft * limits.fall;
  judge_arm(run, code);
  double start = limits.high;
  bool bores = !way.hits.empty();
  bool allowed = true;
  for (const auto& hit : way.hits)
    allowed = allowed && hit.first->kind != "girder" && hit.first->kind != "header" && limits.hole_in <= hit.first->d_in / 3 + 1e-9;
  const auto bored = bored_start(way, limits.fall, limits.hole_in, limits.high, limits.low);
  double bottom = 0;
  for (const auto& hit : way.hits) bottom = std::min(bottom, hit.first->top_in - hit.first->d_in);
  const double under = bottom - limits.od_in / 2 - 0.25;
  if (!bores) {
    run.how = "in the bay";
  } else if (allowed && bored) {
    run.how = "through the members";
    start = *bored;
  } else if (limits.open_below && under >= limits.low) {
    run.how = "below the framing";
    start = std::min(limits.high, under);
    for (const auto& hit : way.hits) run.passes_under.push_back(hit.first->id);
    bores = false;
  } else {
    run.how = "through the members";
  }
  for (std::size_t i = 0; bores && i < way.hits.size(); ++i) {
    const auto& [m, s] = way.hits[i];
    DrainCrossing cross;
    cross.member = m->id;
    cross.at_in = way.at[i];
    cross.hole_in = limits.hole_in;
    cross.from_top_in = m->top_in - (start - limits.fall / 12 * s) - limits.hole_in / 2;
    judge_hole(*m, cross, laid.checks);
    if (!cross.ok) run.why.push_back(m->id + ": " + cross.why);
    run.crosses.push_back(cross);
  }
  run.weir_in = start;
  run.vent_in = start - run.total_fall_in;
  run.trap_bottom_in = start - rule("seal") - limits.od_in / 2 - limits.od_in / 2;
  run.ok = run.why.empty();
  return laid;
}

// Places where a vent may rise: the one given, or the nearest spot of every wall.
std::vector<Point> vents(const Place& place, Point drain, Shower& found) {
  if (place.plan.drain_run) {
    if (place.plan.drain_run->vent_in) return {*place.plan.drain_run->vent_in};
    if (place.plan.drain_run->stack_in) {
      found.assumed.push_back("no vent is given: it is taken off at the stack (shower.drain_run.vent_in)");
      return {*place.plan.drain_run->stack_in};
    }
  }
  found.assumed.push_back("no vent is given: the arm is laid to the wall where it comes out best");
  found.asks.push_back("Where does the vent rise? (shower.drain_run.vent_in)");
  std::vector<Point> out;
  const auto add = [&](Point a, Point b) {
    const double length = distance_in(a, b);
    if (length < 1) return;
    const double t = along_segment_in(drain, a, b) / length;
    out.push_back({a.x_in + (b.x_in - a.x_in) * t, a.y_in + (b.y_in - a.y_in) * t});
  };
  const auto& ring = place.job.room.outline_in;
  for (std::size_t i = 0; i < ring.size(); ++i) add(ring[i], ring[(i + 1) % ring.size()]);
  return out;
}

std::string other_way(const Place& place, const DrainRunFound& run, const std::vector<Member>& members) {
  if (run.longest_ft > 0 && run.length_ft > run.longest_ft + 1e-9)
    return "bring the vent within " + format_number(run.longest_ft, 1) + " ft of the trap, measured along the pipe, or take a pipe one size larger";
  for (const auto& cross : run.crosses)
    if (!cross.ok) {
      const bool open = place.job.job.below == Below::crawl_space || place.job.job.below == Below::basement;
      return "keep the arm in one bay: rise with the vent in a wall that the bay leads to" + std::string(open ? ", or hang the pipe below the framing" : "") +
             (members.empty() ? "" : ", or ask an engineer for the member bored");
    }
  return "";
}

// Whether the pipe comes in at the stack above the bottom that the job gives.
void meet_stack(const Place& place, DrainRunFound& run, const Limits& limits) {
  const auto& plan = place.plan.drain_run;
  if (!plan || !plan->stack_in || !plan->invert_below_in) return;
  double deck_in = 0;
  for (const auto& layer : place.job.layers) {
    const auto& facts = tables::material_facts(doc::word_of(layer.material));
    if (facts.kind == "deck" && !layer.outline_in) deck_in += layer.thickness_in.value_or(facts.usual_thickness_in);
  }
  const double to_stack_in = distance_in(run.path_in.back(), *plan->stack_in);
  const double bottom = run.vent_in - limits.fall / 12 * to_stack_in - limits.pipe_in / 2, wanted = deck_in - *plan->invert_below_in;
  if (bottom >= wanted - 1e-9) return;
  run.why.push_back("it comes to the stack " + format_inches(wanted - bottom) + " below the inlet there");
  run.ok = false;
}

bool near_member(Point drain, const std::vector<Member>& members, Shower& found) {
  for (const auto& m : members) {
    const double clear = distance_to_segment_in(drain, m.from, m.to) - m.b_in / 2;
    const double needed = rule("drain_clear");
    if (clear >= needed || m.kind == "bay_joist" || m.kind == "added_joist") continue;
    found.conflicts.push_back("The drain lies " + (clear <= 0 ? "over " : format_inches(clear) + " from the side of ") + m.id + "; its body and trap need " +
                              format_inches(needed) + " to the middle: move it " + format_inches(needed - clear) + " away, or turn to a line drain.");
    return true;
  }
  return false;
}

}  // namespace

DrainRunFound drain_run(const Place& place, const floor::Floor* floor, const ShowerAnswer* answer, Shower& found) {
  const auto code = place.job.job.plumbing_code;
  const auto members = members_of(place.job, floor);
  const Point a = place.question.drain_from_in, b = place.question.drain_to_in;
  const Point drain{(a.x_in + b.x_in) / 2, (a.y_in + b.y_in) / 2};
  if (members.empty()) found.assumed.push_back("no framing is in the job: what the drain crosses is not known");
  near_member(drain, members, found);
  Limits limits;
  limits.pipe_in = place.plan.drain_run && place.plan.drain_run->pipe_in ? *place.plan.drain_run->pipe_in : rule("pipe_least", code);
  limits.od_in = outside_in(limits.pipe_in);
  limits.hole_in = limits.od_in + rule("hole_clearance");
  const auto arm = trap_arm(limits.pipe_in, 1, 1, code);
  limits.fall = arm ? arm->least_fall_in_per_ft : 0.25;
  double top = 0;
  if (answer)
    for (const auto& stack : answer->stacks)
      if (stack.at == "drain") top = stack.top_in;
  limits.high = top - rule("weir_least");
  limits.low = top - rule("tailpiece_most");
  limits.open_below = place.job.job.below == Below::crawl_space || place.job.job.below == Below::basement;
  std::optional<Laid> best;
  const auto score = [](const DrainRunFound& run) {
    return (run.ok ? 0.0 : 1e6) + 1e4 * static_cast<double>(run.why.size()) + 50.0 * static_cast<double>(run.crosses.size()) +
           60 * static_cast<double>(run.passes_under.size()) + run.length_ft;
  };
  for (const Point vent : vents(place, drain, found)) {
    for (const auto& path : {std::vector<Point>{drain, vent}, std::vector<Point>{drain, {vent.x_in, drain.y_in}, vent},
                             std::vector<Point>{drain, {drain.x_in, vent.y_in}, vent}}) {
      auto laid = lay(walk(path, members), limits, code);
      if (!best || score(laid.run) < score(best->run) - 1e-9) best = std::move(laid);
    }
  }
  DrainRunFound& run = best->run;
  run.drain_top_in = top;
  meet_stack(place, run, limits);
  found.checks.insert(found.checks.end(), best->checks.begin(), best->checks.end());
  if (!run.ok) {
    run.another_way = other_way(place, run, members);
    std::string why;
    for (const auto& w : run.why) why += (why.empty() ? "" : "; ") + w;
    found.conflicts.push_back("The drain cannot run as laid: " + why + "." + (run.another_way.empty() ? "" : " Instead, " + run.another_way + "."));
  }
  return run;
}

}  // namespace awlmark::shower
