// Divides every layer into pieces: boards and planks between their supports, panels and coverings
// into cells whose lines fall on the supports (coverings a lap beyond them).
#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "cutback/model.hpp"
#include "cutback/settings.hpp"
#include "tables/materials.hpp"

namespace awlmark::cutback {
namespace {

constexpr double kParallelSine = 0.2;    // supports within about 12 degrees of the boards do not cross them
constexpr double kLeastPiece_in2 = 0.5;  // what rounding to the grid leaves
constexpr double kMerge_in = 4;          // lines closer than this are one place to cut: doubled joists
constexpr double kFar_in = 4000;         // beyond any room

double cross(Point a, Point b) { return a.x_in * b.y_in - a.y_in * b.x_in; }
Point minus(Point a, Point b) { return {a.x_in - b.x_in, a.y_in - b.y_in}; }
double norm(Point a) { return std::sqrt(a.x_in * a.x_in + a.y_in * a.y_in); }

// A line across a strip: where it meets the middle of the strip, and two points of it.
struct CutLine {
  double at_in = 0;
  int support = kNone;
  Point a, b;
};

Build build_of(plan::Build build) {
  switch (build) {
    case plan::Build::boards:
      return Build::boards;
    case plan::Build::panels:
      return Build::panel;
    case plan::Build::cover:
      break;
  }
  return Build::cover;
}

double share_of(const tables::MaterialFacts& facts) {
  if (facts.kind == "finish") return figure(facts.flexible ? "share_finish_flexible" : "share_finish_rigid");
  if (facts.kind == "backing") return figure("share_backing");
  if (facts.kind == "underlayment") return figure("share_underlayment");
  return figure(facts.kind == "wall" ? "share_wall" : "share_deck");
}

Region region_of(const Job& job, const Layer& layer) {
  Region region = as_region(job.room.outline_in);
  if (layer.outline_in) region = intersect(region, as_region(*layer.outline_in));
  if (!layer.absent_in.empty()) region = subtract(region, unite(layer.absent_in));
  return region;
}

Sheet describe_layer(const plan::Plan& plan, const plan::LayerFrame& of) {
  const Layer& layer = plan.job.layers[of.layer.of()];
  const auto& facts = tables::material_facts(doc::word_of(layer.material));
  Sheet sheet;
  sheet.id = layer.id;
  sheet.layer = of.layer;
  sheet.of = &of;
  sheet.spoken = facts.spoken;
  sheet.build = build_of(of.build);
  sheet.bears = of.layer == plan.deck();
  sheet.tongued = layer.material == Material::plank_tg;
  sheet.goes = layer.goes.value_or(false);
  sheet.stays = layer.stays.value_or(false);
  sheet.order = of.layer.at;
  sheet.share = share_of(facts);
  sheet.lap_in = sheet.build != Build::cover ? 0 : figure(facts.kind == "underlayment" ? "lap_underlayment" : "lap_finish");
  sheet.frame = of.frame;
  return sheet;
}

// Where the deck's supports cross the strip whose middle is at `mid_in` across.
std::vector<CutLine> support_lines(const Job& job, const Sheet& sheet, double mid_in, double shift_in) {
  std::vector<CutLine> lines;
  for (std::size_t s = 0; s < job.supports.size(); ++s) {
    const Support& support = job.supports[s];
    const Point run = minus(support.to_in, support.from_in);
    const double length = norm(run);
    if (!carries_deck(job, support) || length <= 0) continue;
    if (std::fabs(cross(run, sheet.frame.along)) / length < kParallelSine) continue;
    const double va = sheet.frame.v(support.from_in), vb = sheet.frame.v(support.to_in);
    // Supports are often drawn short of the wall: half a foot of reach.
    if (mid_in < std::min(va, vb) - 6 || mid_in > std::max(va, vb) + 6) continue;
    const double t = (mid_in - va) / (vb - va);
    const double ua = sheet.frame.u(support.from_in), ub = sheet.frame.u(support.to_in);
    CutLine line;
    line.at_in = ua + t * (ub - ua) + shift_in;
    line.support = shift_in == 0 ? static_cast<int>(s) : kNone;
    line.a = sheet.frame.at(ua + shift_in, va);
    line.b = sheet.frame.at(ub + shift_in, vb);
    lines.push_back(line);
  }
  return lines;
}

CutLine air_line(const Frame& frame, double at_in) { return {at_in, kNone, frame.at(at_in, 0), frame.at(at_in, 1)}; }

// Nobody cuts in the air at a fraction of an inch.
double whole_inch(double at_in) { return std::floor(at_in + 0.5); }

// Sorted lines inside (low, high), doubled ones merged, and long stretches between them split.
std::vector<CutLine> settle_lines(const Sheet& sheet, std::vector<CutLine> lines, double low_in, double high_in, double longest_in) {
  std::stable_sort(lines.begin(), lines.end(), [](const CutLine& a, const CutLine& b) { return a.at_in < b.at_in; });
  std::vector<CutLine> kept;
  const double merge = sheet.build == Build::cover ? 1 : kMerge_in;
  for (const auto& line : lines)
    if (line.at_in > low_in + 0.75 && line.at_in < high_in - 0.75 && (kept.empty() || line.at_in - kept.back().at_in >= merge)) kept.push_back(line);
  std::vector<CutLine> all;
  double from = low_in;
  for (std::size_t i = 0; i <= kept.size(); ++i) {
    const double to = i < kept.size() ? kept[i].at_in : high_in;
    const int parts = std::max(1, static_cast<int>(std::ceil((to - from) / longest_in - 1e-9)));
    for (int k = 1; k < parts; ++k) all.push_back(air_line(sheet.frame, whole_inch(from + (to - from) * k / parts)));
    if (i < kept.size()) all.push_back(kept[i]);
    from = to;
  }
  return all;
}

// Everything on the low side of the line along the frame.
Polygon low_side(const Frame& frame, const CutLine& line) {
  Point run = minus(line.b, line.a);
  const double length = norm(run);
  run = {run.x_in / length, run.y_in / length};
  if (run.x_in * frame.across.x_in + run.y_in * frame.across.y_in < 0) run = {0 - run.x_in, 0 - run.y_in};
  const Point low = frame.along;
  const Point p{line.a.x_in + kFar_in * run.x_in, line.a.y_in + kFar_in * run.y_in};
  const Point q{line.a.x_in - kFar_in * run.x_in, line.a.y_in - kFar_in * run.y_in};
  return {q, p, {p.x_in - kFar_in * low.x_in, p.y_in - kFar_in * low.y_in}, {q.x_in - kFar_in * low.x_in, q.y_in - kFar_in * low.y_in}};
}

// Rings without holes: a part with a hole is halved through the hole until none is left.
void ring_parts(const PolygonWithHoles& part, std::vector<Polygon>& rings) {
  if (part.holes.empty()) {
    if (area_in2(part.outline) >= kLeastPiece_in2) rings.push_back(part.outline);
    return;
  }
  const Box hole = bounds(part.holes[0]);
  const double middle = std::floor((hole.x0_in + hole.x1_in) / 2 * 256) / 256;
  for (const double side : {-1.0, 1.0}) {
    const Polygon half = rectangle(side < 0 ? middle - kFar_in : middle, -kFar_in, side < 0 ? middle : middle + kFar_in, kFar_in);
    for (const auto& piece : intersect({part}, as_region(half))) ring_parts(piece, rings);
  }
}

void measure(Block& block, const Frame& frame) {
  block.box = bounds(block.outline_in);
  block.area_in2 = area_in2(block.outline_in);
  block.low_in = block.low_across_in = 1e300;
  block.high_in = block.high_across_in = -1e300;
  for (const Point& p : block.outline_in) {
    block.low_in = std::min(block.low_in, frame.u(p));
    block.high_in = std::max(block.high_in, frame.u(p));
    block.low_across_in = std::min(block.low_across_in, frame.v(p));
    block.high_across_in = std::max(block.high_across_in, frame.v(p));
  }
}

struct Strip {
  int sheet = 0, row = 0;
  double low_in = 0, high_in = 0;  // across
};

// One strip of a layer, cut at its lines; every part that hangs together is a piece.
void divide_strip(const Job& job, const Strip& strip, const Region& layer_region, Model& model) {
  const Sheet& sheet = model.sheets[strip.sheet];
  if (layer_region.empty()) return;
  Region rest = intersect(layer_region, as_region(frame_box(sheet.frame, -kFar_in, strip.low_in, kFar_in, strip.high_in)));
  if (rest.empty()) return;
  double low = 1e300, high = -1e300;
  for (const auto& part : rest)
    for (const Point& p : part.outline) {
      low = std::min(low, sheet.frame.u(p));
      high = std::max(high, sheet.frame.u(p));
    }
  const double middle = (strip.low_in + strip.high_in) / 2;
  std::vector<CutLine> lines;
  if (sheet.build == Build::cover) {
    for (const double shift : {-sheet.lap_in, sheet.lap_in})
      for (const auto& line : support_lines(job, sheet, middle, shift)) lines.push_back(line);
  } else {
    lines = support_lines(job, sheet, middle, 0);
  }
  const double longest = figure(sheet.build == Build::boards ? "longest_board_piece" : sheet.build == Build::panel ? "panel_cell" : "cover_cell");
  // A panel bay between joists is one cell; only wide bays are split.
  lines = settle_lines(sheet, std::move(lines), low, high, sheet.build == Build::panel ? 2 * longest : longest);
  for (std::size_t k = 0; k <= lines.size() && !rest.empty(); ++k) {
    Region here = rest;
    if (k < lines.size()) {
      const Region side = as_region(low_side(sheet.frame, lines[k]));
      here = intersect(rest, side);
      rest = subtract(rest, side);
    }
    std::vector<Polygon> rings;
    for (const auto& part : here) ring_parts(part, rings);
    for (auto& ring : rings) {
      Block block;
      block.sheet = strip.sheet;
      block.row = strip.row;
      block.bay = static_cast<int>(k) + 1;
      block.outline_in = std::move(ring);
      measure(block, sheet.frame);
      if (k > 0) block.low = {lines[k - 1].support, false};
      if (k < lines.size()) block.high = {lines[k].support, false};
      model.blocks.push_back(std::move(block));
    }
  }
}

// Strips of a layer across its frame: its planks, or rows of cells.
std::vector<Strip> strips_of(int index, const Sheet& sheet, const Region& region) {
  double low = 1e300, high = -1e300;
  for (const auto& part : region)
    for (const Point& p : part.outline) {
      low = std::min(low, sheet.frame.v(p));
      high = std::max(high, sheet.frame.v(p));
    }
  std::vector<Strip> strips;
  if (sheet.build == Build::boards) {
    for (const auto& row : sheet.of->rows)
      if (row.high_in > low && row.low_in < high) strips.push_back({index, row.row.at + 1, row.low_in, row.high_in});
    return strips;
  }
  const double cell = figure(sheet.build == Build::panel ? "panel_cell" : "cover_cell");
  // Never narrower than the cell, so that one row of cells is no sliver.
  const int rows = std::max(1, static_cast<int>(std::floor((high - low) / cell + 1e-9)));
  const auto at = [&](int k) { return k == 0 ? low : k == rows ? high : whole_inch(low + (high - low) * k / rows); };
  for (int k = 0; k < rows; ++k) strips.push_back({index, k + 1, at(k), at(k + 1)});
  return strips;
}

}  // namespace

int plank_number(const Sheet& sheet, const Block& block) { return sheet.build == Build::boards ? sheet.of->number_of({block.row - 1}).number : 0; }

void divide_layers(const plan::Plan& plan, const std::vector<Taken>& taken, Model& model) {
  for (const auto& of : plan.layers) {
    const Layer& layer = plan.job.layers[of.layer.of()];
    const Region region = region_of(plan.job, layer);
    model.sheets.push_back(describe_layer(plan, of));
    if (region.empty()) {
      model.notes.push_back("Nothing is left of " + layer.id + " in the room.");
      continue;
    }
    std::vector<Polygon> rings;
    for (const auto& part : taken)
      if (part.layer == of.layer && !part.whole) rings.insert(rings.end(), part.outlines_in.begin(), part.outlines_in.end());
    const bool whole = std::any_of(taken.begin(), taken.end(), [&](const Taken& part) { return part.layer == of.layer && part.whole; });
    const Region goes = whole ? region : rings.empty() ? Region{} : intersect(region, unite(rings));
    const Region rest = goes.empty() ? region : subtract(region, goes);
    const int sheet = static_cast<int>(model.sheets.size()) - 1;
    for (const auto& strip : strips_of(sheet, model.sheets[sheet], region)) {
      divide_strip(plan.job, strip, rest, model);
      const std::size_t first = model.blocks.size();
      divide_strip(plan.job, strip, goes, model);
      for (std::size_t b = first; b < model.blocks.size(); ++b) model.blocks[b].by_way = true;
    }
  }
}

}  // namespace awlmark::cutback
