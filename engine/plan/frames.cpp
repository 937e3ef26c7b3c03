#include "plan/frames.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/special.hpp"
#include "tables/materials.hpp"

namespace awlmark::plan {
namespace {

constexpr double kLeastBoard_in = 0.5;  // narrower is no board: the gap under a baseboard

Build build_of(const Layer& layer) {
  if (is_boards(layer)) return Build::boards;
  return tables::material_facts(doc::word_of(layer.material)).kind == "deck" ? Build::panels : Build::cover;
}

// The way the supports run, as a vector; the y axis when there are none.
Point supports_run(const Job& job) {
  const auto degrees = supports_run_degrees(job);
  if (!degrees || *degrees == 90) return {0, 1};
  if (*degrees == 0) return {1, 0};
  return {det_cos(*degrees * kPi / 180), det_sin(*degrees * kPi / 180)};
}

void measure(LayerFrame& of, const Polygon& outline) {
  for (const Point& p : outline) {
    of.length_in = std::max(of.length_in, of.frame.u(p));
    of.across_in = std::max(of.across_in, of.frame.v(p));
  }
}

// Whether two directions, one as drawn and one in the plan's own frame, run against each other.
bool against(Point drawn, Point own, const Turn& turn) {
  const Point zero = turn.own(turn.drawn_low_in);
  const Point tip = turn.own({turn.drawn_low_in.x_in + drawn.x_in, turn.drawn_low_in.y_in + drawn.y_in});
  return (tip.x_in - zero.x_in) * own.x_in + (tip.y_in - zero.y_in) * own.y_in < 0;
}

Frame far_side(Frame frame, double across_in) {
  frame.across0_in = -(frame.across0_in + across_in);
  frame.across = {0 - frame.across.x_in, 0 - frame.across.y_in};
  return frame;
}

bool counted_by_plank(const Job& job, const Layer& layer) {
  return std::any_of(job.marks.begin(), job.marks.end(), [&](const Mark& mark) { return mark.layer && *mark.layer == layer.id && mark.plank; });
}

void lay_rows(LayerFrame& of) {
  const int count = std::max(1, static_cast<int>(std::ceil((of.across_in - kLeastBoard_in) / of.width_in - 1e-9)));
  for (int k = 0; k < count; ++k)
    of.rows.push_back({{k}, {of.counts_down ? count - k : k + 1}, k * of.width_in, k + 1 == count ? of.across_in : (k + 1) * of.width_in});
}

void lay_boards(const Job& job, const Layer& layer, const Turn& turn, LayerFrame& of) {
  of.width_in = board_width_in(layer);
  const Frame people = grain_frame(turn.drawn_degrees(of.degrees), {});
  of.counts_down = against(people.across, of.frame.across, turn);
  of.tape_runs_back = against(people.along, of.frame.along, turn);
  // Who counted planks from a wall has said where they begin.
  if (of.counts_down && counted_by_plank(job, layer)) {
    of.frame = far_side(of.frame, of.across_in);
    of.counts_down = false;
  }
  lay_rows(of);
}

}  // namespace

PlankRow LayerFrame::row_at(double at_in) const {
  if (rows.empty()) return {};
  const int last = static_cast<int>(rows.size()) - 1;
  return {std::clamp(static_cast<int>(std::floor(at_in / width_in + 1e-9)), 0, last)};
}

PlankNo LayerFrame::number_of(PlankRow row) const { return {counts_down ? static_cast<int>(rows.size()) - row.at : row.at + 1}; }
PlankRow LayerFrame::row_of(PlankNo number) const { return {counts_down ? static_cast<int>(rows.size()) - number.number : number.number - 1}; }
double LayerFrame::tape_in(double along_in) const { return tape_runs_back ? length_in - along_in : along_in; }

std::vector<LayerFrame> layer_frames(const Job& own, const Turn& turn, std::vector<Assumption>& assumed) {
  std::vector<LayerFrame> frames;
  for (std::size_t i = 0; i < own.layers.size(); ++i) {
    const Layer& layer = own.layers[i];
    const LayerRuns runs = layer_runs(own, layer);
    LayerFrame of;
    of.layer = {static_cast<int>(i)};
    of.build = build_of(layer);
    of.degrees = runs.degrees;
    of.known = runs.known;
    if (of.build == Build::boards) {
      const Polygon& outline = layer.outline_in ? *layer.outline_in : own.room.outline_in;
      of.frame = grain_frame(runs.degrees, outline);
      measure(of, outline);
      lay_boards(own, layer, turn, of);
      if (!runs.said)
        assumed.push_back({"boards_run", layer.id,
                           runs.known ? "Which way the boards of " + layer.id + " run is not recorded: taken across the supports they lie on. Look at an end."
                                      : "Which way the boards of " + layer.id +
                                            " run is not recorded, and no support is drawn: rot is taken to run alike both "
                                            "ways, and boards to lie along the plan. Look at an end."});
    } else {
      of.frame = panel_frame(supports_run(own), own.room.outline_in);
      measure(of, own.room.outline_in);
    }
    frames.push_back(std::move(of));
  }
  return frames;
}

}  // namespace awlmark::plan
