// The rules of the trade, each as pieces that must go or must stay.
#include <algorithm>
#include <cmath>

#include "cutback/plan.hpp"

namespace awlmark::cutback {
namespace {

constexpr double kTouch_in = 0.1;  // more than rounding, less than anything one would cut
constexpr double kSlack_in = 0.5;  // a margin is a rule of thumb: half an inch short of it still keeps it

enum class Axis { along, across };

double low(const Block& block, Axis axis) { return axis == Axis::along ? block.low_in : block.low_across_in; }
double high(const Block& block, Axis axis) { return axis == Axis::along ? block.high_in : block.high_across_in; }

// Neighbours one step up or down an axis, those that share most of the edge first.
std::vector<int> step(const Model& model, const Neighbours& near, int from, Axis axis, bool up) {
  const Block& block = model.blocks[from];
  std::vector<std::pair<double, int>> found;
  for (const auto& neighbour : near[from]) {
    const Block& other = model.blocks[neighbour.block];
    const bool lies = up ? low(other, axis) >= high(block, axis) - kTouch_in : high(other, axis) <= low(block, axis) + kTouch_in;
    // Boards cut along a slanting support overlap in their extremes: their bays tell the order.
    const bool slanted = axis == Axis::along && other.row == block.row && other.by_way == block.by_way && (up ? other.bay > block.bay : other.bay < block.bay);
    if (lies || slanted) found.emplace_back(-model.joints[neighbour.joint].length_in, neighbour.block);
  }
  std::sort(found.begin(), found.end());
  std::vector<int> blocks;
  for (const auto& [length, id] : found) blocks.push_back(id);
  return blocks;
}

// The chain of pieces with one label through `from` along an axis, and what stops it at either end.
struct Chain {
  std::vector<int> blocks;
  int below = kNone, above = kNone;  // the piece with the other label, when there is one
  double width_in = 0;
};

Chain chain_through(const Model& model, const Neighbours& near, const std::vector<char>& out, int from, Axis axis) {
  Chain chain;
  chain.blocks.push_back(from);
  double least = low(model.blocks[from], axis), most = high(model.blocks[from], axis);
  for (const bool up : {false, true}) {
    int at = from;
    for (;;) {
      const auto next = step(model, near, at, axis, up);
      if (next.empty()) break;
      if (out[next[0]] != out[from]) {
        (up ? chain.above : chain.below) = next[0];
        break;
      }
      at = next[0];
      chain.blocks.push_back(at);
      least = std::min(least, low(model.blocks[at], axis));
      most = std::max(most, high(model.blocks[at], axis));
    }
  }
  chain.width_in = most - least;
  return chain;
}

std::int64_t own_price(const CutProblem& problem, int block) { return problem.out_cents[block] - problem.stay_cents[block]; }

// The neighbour that is cheaper to take as well; kNone when neither may go.
int cheaper(const CutProblem& problem, int a, int b) {
  const auto open = [&](int block) { return block != kNone && !problem.must_stay[block]; };
  if (!open(a)) return open(b) ? b : kNone;
  if (!open(b)) return a;
  return own_price(problem, b) < own_price(problem, a) ? b : a;
}

double sliver_limit(Build build) {
  if (build == Build::boards) return figure("sliver_board");
  return figure(build == Build::panel ? "sliver_panel" : "sliver_cover");
}

void add(std::vector<int>& list, int block) {
  if (std::find(list.begin(), list.end(), block) == list.end()) list.push_back(block);
}

}  // namespace

Neighbours neighbours_of(const Model& model) {
  Neighbours near(model.blocks.size());
  for (std::size_t j = 0; j < model.joints.size(); ++j) {
    near[model.joints[j].a].push_back({model.joints[j].b, static_cast<int>(j)});
    near[model.joints[j].b].push_back({model.joints[j].a, static_cast<int>(j)});
  }
  return near;
}

std::vector<char> contaminated_pieces(const Model& model, const std::vector<std::string>& layers) {
  std::vector<char> go(model.blocks.size(), 0);
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    const Sheet& sheet = model.sheets[model.blocks[b].sheet];
    go[b] = sheet.layer.known() && std::find(layers.begin(), layers.end(), sheet.id) != layers.end();
  }
  return go;
}

std::vector<char> margin_pieces(const Job& job, const Model& model, double margin_in) {
  std::vector<char> go(model.blocks.size(), 0);
  const double panel_in = margin_in * figure("margin_panel_share");
  for (const auto& mark : job.marks) {
    if (mark.tool != Tool::awl || (mark.reads != Reading::soft && mark.reads != Reading::gone) || mark.support) continue;
    const auto at = place_of(job, mark);
    if (!at) continue;
    for (std::size_t b = 0; b < model.blocks.size(); ++b) {
      const Block& block = model.blocks[b];
      const Sheet& sheet = model.sheets[block.sheet];
      if (block.wall != kNone) {
        if (!mark.wall || sheet.build != Build::plate || job.walls[block.wall].id != *mark.wall || mark.part.value_or(WallPart::plate) >= WallPart::wallboard)
          continue;
        const double along = mark.along_in ? *mark.along_in : along_segment_in(*at, job.walls[block.wall].from_in, job.walls[block.wall].to_in);
        go[b] |= block.wall_from_in < along + margin_in - kSlack_in && block.wall_to_in > along - margin_in + kSlack_in;
        continue;
      }
      if (!mark.layer || sheet.id != *mark.layer || !contains(job.room.outline_in, *at)) continue;
      if (sheet.build == Build::boards) {
        const double u = sheet.frame.u(*at), v = sheet.frame.v(*at);
        const bool same_board = v >= block.low_across_in - 0.02 && v <= block.high_across_in + 0.02;
        go[b] |= same_board && block.low_in < u + margin_in - kSlack_in && block.high_in > u - margin_in + kSlack_in;
      } else {
        go[b] |= distance_to_in(block.outline_in, *at) < panel_in - kSlack_in;
      }
    }
  }
  return go;
}

std::vector<char> spared_pieces(const Job& job, const Model& model) {
  std::vector<char> spare(model.blocks.size(), 0);
  const double likely = figure("spare_chance");
  for (std::size_t p = 0; p < model.blocks.size(); ++p) {
    const Block& plate = model.blocks[p];
    // A wall of which nobody said that it bears nothing is taken to bear.
    if (model.sheets[plate.sheet].build != Build::plate || !job.walls[plate.wall].bearing.value_or(true)) continue;
    if (!plate.known && plate.p_unsound < likely) spare[p] = 1;
    for (std::size_t b = 0; b < model.blocks.size(); ++b) {
      const Block& block = model.blocks[b];
      if (!model.sheets[block.sheet].bears || block.known || block.p_unsound >= likely) continue;
      if (shared_area_in2(block.outline_in, plate.outline_in) > 1) spare[b] = 1;
    }
  }
  return spare;
}

std::vector<int> sliver_pieces(const Model& model, const Neighbours& near, const CutProblem& problem, const std::vector<char>& out) {
  std::vector<int> take;
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    const Block& block = model.blocks[b];
    const Build build = model.sheets[block.sheet].build;
    if (block.wall != kNone || block.by_way) continue;  // where the way takes it, no strip is laid
    for (const Axis axis : {Axis::across, Axis::along}) {
      if (build == Build::boards && axis == Axis::along) continue;  // a short board is no sliver
      const Chain chain = chain_through(model, near, out, static_cast<int>(b), axis);
      if (chain.width_in >= sliver_limit(build) - kTouch_in || (chain.below == kNone && chain.above == kNone)) continue;
      if (!out[b]) {
        for (const int id : chain.blocks) add(take, id);
      } else {
        const int more = cheaper(problem, chain.below, chain.above);
        if (more != kNone) add(take, more);
      }
    }
  }
  return take;
}

// What has to go as well on one side before the board finds another support there; nothing when it
// finds none.
struct Longer {
  std::vector<int> blocks;
  std::int64_t cents = 0;
  bool bears = false;
};

Longer lengthen(const Model& model, const Neighbours& near, const CutProblem& problem, const std::vector<std::vector<const Rim*>>& rims,
                const std::vector<int>& held, int next, bool up) {
  Longer longer;
  while (next != kNone && !problem.must_stay[next]) {
    const Block& block = model.blocks[next];
    longer.blocks.push_back(next);
    longer.cents += own_price(problem, next);
    const int support = up ? block.high.support : block.low.support;
    const bool wall = std::any_of(rims[next].begin(), rims[next].end(), [](const Rim* rim) { return rim->is_end; });
    longer.bears = wall || (support != kNone && std::find(held.begin(), held.end(), support) == held.end());
    if (longer.bears) return longer;
    const auto more = step(model, near, next, Axis::along, up);
    next = more.empty() ? kNone : more[0];
  }
  return longer;
}

std::vector<int> short_bearing_pieces(const Model& model, const Neighbours& near, const CutProblem& problem, const std::vector<char>& out) {
  std::vector<int> take;
  std::vector<std::vector<const Rim*>> rims(model.blocks.size());
  for (const auto& rim : model.rims) rims[rim.block].push_back(&rim);
  for (std::size_t b = 0; b < model.blocks.size(); ++b) {
    if (!out[b] || model.blocks[b].by_way || !model.sheets[model.blocks[b].sheet].bears) continue;
    const Chain chain = chain_through(model, near, out, static_cast<int>(b), Axis::along);
    std::vector<int> supports;
    int walls = 0;
    for (const int id : chain.blocks) {
      for (const int support : {model.blocks[id].low.support, model.blocks[id].high.support})
        if (support != kNone) add(supports, support);
      // A wall's cleat, or the framing under it, carries an end as a support does.
      walls += std::any_of(rims[id].begin(), rims[id].end(), [](const Rim* rim) { return rim->is_end; }) ? 1 : 0;
    }
    if (supports.size() + walls >= 2) continue;
    const Longer low = lengthen(model, near, problem, rims, supports, chain.below, false);
    const Longer high = lengthen(model, near, problem, rims, supports, chain.above, true);
    const bool downwards = low.bears && (!high.bears || low.cents < high.cents || (low.cents == high.cents && low.blocks.size() <= high.blocks.size()));
    if (!downwards && !high.bears) continue;  // no second support anywhere: the notes say that supports are missing
    for (const int id : downwards ? low.blocks : high.blocks) add(take, id);
  }
  return take;
}

Stagger stagger_joints(const Model& model, const CutProblem& problem, const std::vector<char>& out, double blocking_per_ft) {
  struct Landing {
    int row = 0, support = 0, side = 0, joint = 0, beyond = 0;
  };
  std::vector<Landing> ends;
  for (std::size_t j = 0; j < model.joints.size(); ++j) {
    const Joint& joint = model.joints[j];
    const Sheet& sheet = model.sheets[model.blocks[joint.a].sheet];
    if (sheet.build != Build::boards || !sheet.bears || joint.support == kNone || out[joint.a] == out[joint.b]) continue;
    const int gone = out[joint.a] ? joint.a : joint.b, left = out[joint.a] ? joint.b : joint.a;
    if (model.blocks[gone].by_way) continue;  // no new board ends there
    ends.push_back({model.blocks[gone].row, joint.support, model.blocks[gone].bay < model.blocks[left].bay ? 1 : 0, static_cast<int>(j), left});
  }
  std::sort(ends.begin(), ends.end(), [](const Landing& a, const Landing& b) {
    if (a.support != b.support) return a.support < b.support;
    if (a.side != b.side) return a.side < b.side;
    return a.row != b.row ? a.row < b.row : a.joint < b.joint;
  });
  Stagger stagger;
  int treated_row = -10;
  for (std::size_t k = 1; k < ends.size(); ++k) {
    const Landing &before = ends[k - 1], &end = ends[k];
    if (before.support != end.support || before.side != end.side || end.row != before.row + 1) {
      treated_row = -10;
      continue;
    }
    if (treated_row == before.row) continue;  // its neighbour is staggered or blocked already
    treated_row = end.row;
    std::vector<char> longer = out;
    longer[end.beyond] = 1;
    const bool may = !problem.must_stay[end.beyond] && allowed(problem, longer);
    const auto more = price_of(problem, longer) - price_of(problem, out);
    if (may && more < static_cast<std::int64_t>(std::llround(blocking_per_ft * model.joints[end.joint].length_in / 12 * 100)))
      stagger.take.push_back(end.beyond);
    else
      stagger.blocked.push_back(end.joint);
  }
  return stagger;
}

}  // namespace awlmark::cutback
