// The floor as the cut sees it: layers divided into pieces, the joints between them, what lies above
// what. Built once a job (pieces.cpp, joints.cpp), priced (prices.cpp) and then only read.
// Internal to the room. Lengths in inches, areas in square inches, money in cents.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "cutback/cutback.hpp"
#include "cutback/mincut.hpp"
#include "plan/plan.hpp"

namespace awlmark::cutback {

using plan::along_segment;
using plan::area_in_box_in2;
using plan::Frame;
using plan::frame_box;
using plan::gap_in;
using plan::shared_area_in2;
using plan::shared_edges;
using plan::Stretch;

inline constexpr int kNone = -1;

enum class Build { boards, panel, cover, plate, wallboard };

// One layer of the floor, or one wall's plate and wallboard.
struct Sheet {
  std::string id;       // for reading: of the layer, or "wall:" and the wall's id
  plan::LayerIx layer;  // one of the two
  plan::WallIx wall;
  const plan::LayerFrame* of = nullptr;  // the plan's frame of the layer; none for a wall
  std::string spoken;                    // "deck", "sheet vinyl"
  Build build = Build::cover;
  bool bears = false;  // the structural deck: it spans between supports
  bool tongued = false;
  bool goes = false;   // the job says it goes anyway
  bool stays = false;  // a finish that stays: what is cut has to be patched
  int order = 0;       // place in the job's layers, from the top
  double lap_in = 0;
  double share = 1;  // of the rates per square foot
  Frame frame;
};

// Where a piece stops at its low or high end.
struct End {
  int support = kNone;   // it lands on the middle of this support
  bool at_edge = false;  // the wall, or the edge of the layer
};

struct Block {
  int sheet = 0;
  int row = 0;  // from 1: plank in the plan's own count, or row of cells
  int bay = 0;
  Polygon outline_in;
  Box box;
  double area_in2 = 0;
  double low_in = 0, high_in = 0;  // along its frame
  double low_across_in = 0, high_across_in = 0;
  End low, high;
  int wall = kNone;                         // of a plate or a strip of wallboard
  double wall_from_in = 0, wall_to_in = 0;  // stations along that wall
  bool by_way = false;                      // the way to rebuild takes it in any case
  // From the draws.
  double p_unsound = 0;
  double unsound_in2 = 0;       // expected
  double opened_again_in2 = 0;  // expected, an unsound piece counted as what is opened again for it
  bool known = false;           // an awl found it soft or gone
  std::string known_by;         // the mark
};

// Two pieces of one layer that share an edge.
struct Joint {
  int a = 0, b = 0;
  Point from_in, to_in;
  double length_in = 0;
  EdgeKind kind = EdgeKind::seam;
  int support = kNone;
};

// A piece's edge along the room's outline.
struct Rim {
  int block = 0;
  Point from_in, to_in;
  double length_in = 0;
  int wall = kNone;
  int door = kNone;
  int support = kNone;  // a support close enough to carry the new end
  bool is_end = false;  // the grain runs into it (or a panel's edge): it needs something to bear on
  bool cut = true;      // false where the deck stops at the wall and nothing is cut
};

struct Model {
  std::vector<Sheet> sheets;
  std::vector<Block> blocks;
  std::vector<Joint> joints;
  std::vector<Rim> rims;
  std::vector<CutProblem::Implies> above;  // lower block, upper block: with the lap
  std::vector<CutProblem::Implies> over;   // lower block, upper block: that lie over each other at all
  std::vector<std::string> notes;
};

// A plank as people count it on their drawing; 0 for what is no plank.
int plank_number(const Sheet& sheet, const Block& block);

// Pieces of every layer and wall. Layers without wood in the room give none. The plan outlives the model.
// What a way takes is divided apart from the rest, so that a cut may run along its edge.
void divide_layers(const plan::Plan& plan, const std::vector<Taken>& taken, Model& model);
void divide_walls(const Job& job, Model& model);
// Joints, rims and the arcs of nesting.
void join_blocks(const Job& job, Model& model);

}  // namespace awlmark::cutback
