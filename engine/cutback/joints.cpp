// Which pieces share an edge, which stop at a wall, and which lie above which.
#include <algorithm>
#include <cmath>

#include "cutback/model.hpp"
#include "cutback/settings.hpp"

namespace awlmark::cutback {
namespace {

constexpr double kSlack_in = 0.02;  // twice what rounding to 1/256 in. can move an edge
constexpr double kLeastJoint_in = 0.25;
constexpr double kWallReach_in = 8;     // a wall or a door this far from the outline still stands there
constexpr double kLeastShared_in2 = 1;  // overlap that rounding cannot make

bool boxes_meet(const Box& a, const Box& b, double reach_in) {
  return a.x0_in <= b.x1_in + reach_in && b.x0_in <= a.x1_in + reach_in && a.y0_in <= b.y1_in + reach_in && b.y0_in <= a.y1_in + reach_in;
}

int support_at(const Job& job, Point a, Point b);

// Along the edge of what the way takes out: a rip where it runs with the boards, else across them.
void classify_at_way(const Job& job, const Sheet& sheet, Joint& joint) {
  const double along =
      ((joint.to_in.x_in - joint.from_in.x_in) * sheet.frame.along.x_in + (joint.to_in.y_in - joint.from_in.y_in) * sheet.frame.along.y_in) / joint.length_in;
  if (sheet.build == Build::cover || (sheet.build == Build::boards && std::fabs(along) > 0.95)) {
    joint.kind = EdgeKind::rip;
    return;
  }
  joint.support = support_at(job, joint.from_in, joint.to_in);
  joint.kind = joint.support != kNone ? EdgeKind::cross_on_support : EdgeKind::cross_in_air;
}

// The kind of cut between two pieces of one layer, and the support it lands on.
void classify(const Job& job, const Model& model, Joint& joint) {
  const Block &a = model.blocks[joint.a], &b = model.blocks[joint.b];
  const Sheet& sheet = model.sheets[a.sheet];
  if (a.by_way != b.by_way && (a.row == b.row || sheet.build != Build::boards)) return classify_at_way(job, sheet, joint);
  const Block& first = a.bay <= b.bay ? a : b;
  const bool ends = a.row == b.row && a.bay != b.bay;
  switch (sheet.build) {
    case Build::boards:
      if (a.row != b.row) {
        joint.kind = sheet.tongued ? EdgeKind::rip : EdgeKind::seam;
        return;
      }
      break;
    case Build::panel:
      break;
    case Build::plate:
      joint.kind = EdgeKind::cross_on_support;
      return;
    case Build::cover:
    case Build::wallboard:
      joint.kind = EdgeKind::rip;
      return;
  }
  joint.support = ends ? first.high.support : kNone;
  joint.kind = joint.support != kNone ? EdgeKind::cross_on_support : EdgeKind::cross_in_air;
}

void join_sheet(const Job& job, Model& model, int first, int last) {
  for (int i = first; i < last; ++i)
    for (int j = i + 1; j < last; ++j) {
      const Block &a = model.blocks[i], &b = model.blocks[j];
      if (std::abs(a.row - b.row) > 1 && a.by_way == b.by_way && model.sheets[a.sheet].build != Build::boards) continue;
      if (!boxes_meet(a.box, b.box, kSlack_in)) continue;
      for (const auto& stretch : shared_edges(a.outline_in, b.outline_in, kSlack_in)) {
        if (stretch.length_in < kLeastJoint_in) continue;
        Joint joint{i, j, stretch.from_in, stretch.to_in, stretch.length_in};
        classify(job, model, joint);
        model.joints.push_back(joint);
      }
    }
}

// Neighbours in a wall: plates end to end, wallboard face by face.
void join_wall(const Job& job, Model& model, int first, int last) {
  for (int i = first; i < last; ++i)
    for (int j = i + 1; j < last; ++j) {
      const Block &a = model.blocks[i], &b = model.blocks[j];
      if (a.sheet != b.sheet || a.row != b.row || std::fabs(a.wall_to_in - b.wall_from_in) > 1e-6) continue;
      const auto stretches = shared_edges(a.outline_in, b.outline_in, kSlack_in);
      if (stretches.empty()) continue;
      Joint joint{i, j, stretches[0].from_in, stretches[0].to_in, stretches[0].length_in};
      classify(job, model, joint);
      // A strip of wallboard is cut from the floor up, not through its thickness.
      if (model.sheets[a.sheet].build == Build::wallboard) joint.length_in = figure("wallboard_strip");
      model.joints.push_back(joint);
    }
}

int wall_at(const Job& job, Point a, Point b) {
  for (std::size_t w = 0; w < job.walls.size(); ++w)
    if (along_segment(a, b, job.walls[w].from_in, job.walls[w].to_in, kWallReach_in).length_in > distance_in(a, b) / 2) return static_cast<int>(w);
  return kNone;
}

int support_at(const Job& job, Point a, Point b) {
  const Point middle{(a.x_in + b.x_in) / 2, (a.y_in + b.y_in) / 2};
  const double reach = figure("bears_within") + 1e-9, length = distance_in(a, b);
  for (std::size_t s = 0; s < job.supports.size(); ++s) {
    const Support& support = job.supports[s];
    const double run = distance_in(support.from_in, support.to_in);
    if (!carries_deck(job, support) || run <= 0 || distance_to_segment_in(middle, support.from_in, support.to_in) > reach) continue;
    const double sine =
        ((b.x_in - a.x_in) * (support.to_in.y_in - support.from_in.y_in) - (b.y_in - a.y_in) * (support.to_in.x_in - support.from_in.x_in)) / (length * run);
    if (std::fabs(sine) < 0.2) return static_cast<int>(s);
  }
  return kNone;
}

void add_rim(const Job& job, Model& model, int block, Point a, Point b, int door) {
  if (distance_in(a, b) < kLeastJoint_in) return;
  const Sheet& sheet = model.sheets[model.blocks[block].sheet];
  Rim rim{block, a, b, distance_in(a, b)};
  rim.wall = wall_at(job, a, b);
  rim.door = door;
  rim.support = support_at(job, a, b);
  const double along = ((b.x_in - a.x_in) * sheet.frame.along.x_in + (b.y_in - a.y_in) * sheet.frame.along.y_in) / rim.length_in;
  rim.is_end = sheet.build == Build::panel || (sheet.build == Build::boards && std::fabs(along) < 0.95);
  rim.cut = sheet.bears && !(rim.wall != kNone && job.walls[rim.wall].stands_on == StandsOn::framing);
  model.rims.push_back(rim);
}

// One edge of a piece that lies on the outline, split where a door begins and ends.
void rim_stretch(const Job& job, Model& model, int block, const Stretch& stretch) {
  std::vector<std::pair<double, int>> at;  // where the door (or none) begins
  at.emplace_back(0.0, kNone);
  for (std::size_t d = 0; d < job.room.doors.size(); ++d) {
    const auto& door = job.room.doors[d];
    const auto shared = along_segment(stretch.from_in, stretch.to_in, door.from_in, door.to_in, kWallReach_in);
    if (shared.length_in < kLeastJoint_in) continue;
    at.emplace_back(distance_in(stretch.from_in, shared.from_in), static_cast<int>(d));
    at.emplace_back(distance_in(stretch.from_in, shared.to_in), kNone);
  }
  std::stable_sort(at.begin(), at.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  const double length = stretch.length_in;
  const auto place = [&](double t) {
    const double s = t / length;
    return Point{stretch.from_in.x_in + s * (stretch.to_in.x_in - stretch.from_in.x_in),
                 stretch.from_in.y_in + s * (stretch.to_in.y_in - stretch.from_in.y_in)};
  };
  for (std::size_t k = 0; k < at.size(); ++k) add_rim(job, model, block, place(at[k].first), place(k + 1 < at.size() ? at[k + 1].first : length), at[k].second);
}

void find_rims(const Job& job, Model& model) {
  const auto& outline = job.room.outline_in;
  for (std::size_t i = 0; i < model.blocks.size(); ++i) {
    if (model.blocks[i].wall != kNone) continue;
    const Polygon ring = model.blocks[i].outline_in;
    for (std::size_t k = 0; k < ring.size(); ++k)
      for (std::size_t e = 0; e < outline.size(); ++e) {
        const auto stretch = along_segment(ring[k], ring[(k + 1) % ring.size()], outline[e], outline[(e + 1) % outline.size()], kSlack_in);
        if (stretch.length_in >= kLeastJoint_in) rim_stretch(job, model, static_cast<int>(i), stretch);
      }
  }
}

void nest(Model& model) {
  for (std::size_t lower = 0; lower < model.blocks.size(); ++lower) {
    const Block& below = model.blocks[lower];
    if (below.wall != kNone) continue;
    for (std::size_t upper = 0; upper < model.blocks.size(); ++upper) {
      const Block& cover = model.blocks[upper];
      if (cover.wall != kNone || model.sheets[cover.sheet].order >= model.sheets[below.sheet].order) continue;
      const double lap = model.sheets[cover.sheet].lap_in;
      if (!boxes_meet(cover.box, below.box, lap)) continue;
      const int a = static_cast<int>(lower), b = static_cast<int>(upper);
      const bool over = shared_area_in2(cover.outline_in, below.outline_in) > kLeastShared_in2;
      if (over) model.over.push_back({a, b});
      // Touching within the lap, less what rounding moves, brings the covering with it.
      if (over || (lap > 0 && gap_in(cover.outline_in, below.outline_in) < lap - 2 * kSlack_in)) model.above.push_back({a, b});
    }
  }
}

}  // namespace

void join_blocks(const Job& job, Model& model) {
  const int count = static_cast<int>(model.blocks.size());
  for (int first = 0; first < count;) {
    int last = first;
    const bool wall = model.blocks[first].wall != kNone;
    while (last < count && (wall ? model.blocks[last].wall == model.blocks[first].wall : model.blocks[last].sheet == model.blocks[first].sheet)) ++last;
    if (wall)
      join_wall(job, model, first, last);
    else
      join_sheet(job, model, first, last);
    first = last;
  }
  find_rims(job, model);
  nest(model);
}

}  // namespace awlmark::cutback
