// Edges of the cut: where wood that goes meets wood that stays, or the wall; and the blocking.
#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "cutback/report.hpp"

namespace awlmark::cutback {
namespace {

constexpr double kTouch_in = 0.1;

bool on_one_line(const Run& a, const Run& b) {
  const double length = distance_in(a.from_in, a.to_in);
  const auto off = [&](Point p) {
    return std::fabs((p.x_in - a.from_in.x_in) * (a.to_in.y_in - a.from_in.y_in) - (p.y_in - a.from_in.y_in) * (a.to_in.x_in - a.from_in.x_in)) / length;
  };
  return length > 0 && off(b.from_in) < kTouch_in && off(b.to_in) < kTouch_in;
}

bool alike(const Run& a, const Run& b) {
  return a.sheet == b.sheet && a.kind == b.kind && a.support == b.support && a.wall == b.wall && a.door == b.door && a.side == b.side && a.bare == b.bare &&
         a.cut == b.cut;
}

// Joins b to the end of a when they meet there.
bool join(Run& a, const Run& b) {
  if (!alike(a, b) || !on_one_line(a, b)) return false;
  if (distance_in(a.to_in, b.from_in) < kTouch_in)
    a.to_in = b.to_in;
  else if (distance_in(a.to_in, b.to_in) < kTouch_in)
    a.to_in = b.from_in;
  else if (distance_in(a.from_in, b.to_in) < kTouch_in)
    a.from_in = b.from_in;
  else if (distance_in(a.from_in, b.from_in) < kTouch_in)
    a.from_in = b.to_in;
  else
    return false;
  a.length_in += b.length_in;
  a.most_beyond = std::max(a.most_beyond, b.most_beyond);
  return true;
}

std::vector<Run> merged(std::vector<Run> runs) {
  for (std::size_t i = 0; i < runs.size(); ++i)
    for (std::size_t j = i + 1; j < runs.size();) {
      if (join(runs[i], runs[j])) {
        runs.erase(runs.begin() + static_cast<std::ptrdiff_t>(j));
        j = i + 1;
      } else {
        ++j;
      }
    }
  return runs;
}

std::string beyond(const Run& run) {
  if (run.most_beyond < 0.005) return " What stays beside it is sound in every draw.";
  return " No piece beside it is unsound in more than " + format_number(std::ceil(run.most_beyond * 100), 0) + " in 100 draws.";
}

std::string why_of(const Job& job, const Model& model, const Run& run) {
  const Sheet& sheet = model.sheets[run.sheet];
  const std::string at_wall = run.wall == kNone ? "the wall" : "wall " + job.walls[run.wall].id;
  switch (run.kind) {
    case EdgeKind::cross_on_support:
      if (sheet.build == Build::plate) return "Across the plate, between two studs." + beyond(run);
      return "On the middle of " + role_word(job.supports[run.support]) + ", so that both ends bear." + beyond(run);
    case EdgeKind::cross_in_air:
      return "Between supports: blocking goes under both edges." + beyond(run);
    case EdgeKind::rip:
      if (sheet.build == Build::boards) return "Along the board: its tongue is cut, and shares no load until it is splined or blocked." + beyond(run);
      return (sheet.build == Build::wallboard ? "Cut in the wallboard."
                                              : "Cut in the " + sheet.spoken + ", a lap beyond what lies under it or where it is sound.") +
             beyond(run);
    case EdgeKind::seam:
      return "Between two boards: the joint is there already." + beyond(run);
    case EdgeKind::at_wall:
      if (run.door != kNone) return "At door " + job.room.doors[run.door].id + ": the floor runs on into the next room; look beyond before closing.";
      if (!run.cut) return "At " + at_wall + ": the deck stops there, nothing is cut.";
      if (run.support != kNone) return "Flush with " + at_wall + ": " + role_word(job.supports[run.support]) + " is close enough to carry the new ends.";
      return run.bare ? "Flush with " + at_wall + ": nothing carries the new ends there, so a cleat goes in." : "Flush with " + at_wall + ", along the grain.";
  }
  return {};
}

}  // namespace

std::string role_word(const Support& support) { return doc::word_of(support.role) + " " + support.id; }

std::vector<Run> runs_of(const Model& model, const Plan& plan) {
  std::vector<Run> runs;
  for (const auto& joint : model.joints) {
    if (plan.out[joint.a] == plan.out[joint.b]) continue;
    const int gone = plan.out[joint.a] ? joint.a : joint.b, stays = plan.out[joint.a] ? joint.b : joint.a;
    const Block &g = model.blocks[gone], &s = model.blocks[stays];
    Run run;
    run.sheet = g.sheet;
    run.kind = joint.kind;
    run.support = joint.support;
    run.side = g.row != s.row ? (g.row < s.row ? -2 : 2) : g.bay < s.bay ? -1 : 1;
    run.from_in = joint.from_in;
    run.to_in = joint.to_in;
    run.length_in = joint.length_in;
    run.most_beyond = s.p_unsound;
    runs.push_back(run);
  }
  for (const auto& rim : model.rims) {
    const Sheet& sheet = model.sheets[model.blocks[rim.block].sheet];
    if (!plan.out[rim.block] || !sheet.bears) continue;
    Run run;
    run.sheet = model.blocks[rim.block].sheet;
    run.kind = EdgeKind::at_wall;
    run.support = rim.support;
    run.wall = rim.wall;
    run.door = rim.door;
    run.bare = rim_needs_blocking(rim);
    run.cut = rim.cut;
    run.from_in = rim.from_in;
    run.to_in = rim.to_in;
    run.length_in = rim.length_in;
    runs.push_back(run);
  }
  return merged(std::move(runs));
}

std::vector<Edge> edges_of(const Job& job, const Model& model, const Plan& plan) {
  std::vector<Edge> edges;
  for (const auto& run : runs_of(model, plan)) {
    Edge edge;
    edge.layer = model.sheets[run.sheet].id;
    edge.kind = run.kind;
    edge.from_in = run.from_in;
    edge.to_in = run.to_in;
    edge.length_in = run.length_in;
    if (run.support != kNone) edge.support = job.supports[run.support].id;
    edge.why = why_of(job, model, run);
    edges.push_back(std::move(edge));
  }
  return edges;
}

std::vector<Blocking> blocking_of(const Job& job, const Model& model, const Plan& plan, const Rules& rules) {
  std::vector<Blocking> blocking;
  if (rules.ends_on_support) {
    int air = 0, cleats = 0;
    for (const auto& run : runs_of(model, plan)) {
      if (run.kind == EdgeKind::cross_in_air)
        blocking.push_back({"block." + std::to_string(++air), run.from_in, run.to_in, run.length_in, "Under both edges of a cut between supports."});
      if (run.kind == EdgeKind::at_wall && run.bare) {
        const std::string at = run.door != kNone ? "door " + job.room.doors[run.door].id : run.wall != kNone ? "wall " + job.walls[run.wall].id : "the wall";
        blocking.push_back(
            {"cleat." + std::to_string(++cleats), run.from_in, run.to_in, run.length_in, "Cleat along " + at + ": the new ends have nothing else to bear on."});
      }
    }
  }
  blocking.insert(blocking.end(), plan.joint_blocking.begin(), plan.joint_blocking.end());
  return blocking;
}

}  // namespace awlmark::cutback
