#include <cmath>

#include "reckon/topic.hpp"

namespace awlmark::reckon {
namespace tile_run_topic {

struct TileRunIn {
  double run_in = 0;
  double tile_in = 0;
  double joint_in = 0.125;
  double gap_in = 0.25;
};
BOOST_DESCRIBE_STRUCT(TileRunIn, (), (run_in, tile_in, joint_in, gap_in))

doc::FieldRules field_rules(const TileRunIn*) {
  return {{.name = "run_in", .text = "wall to wall", .required = true, .min = 0, .max = 12000, .above_min = true},
          {.name = "tile_in", .required = true, .min = 0.25, .max = 120},
          {.name = "joint_in", .min = 0, .max = 1},
          {.name = "gap_in", .text = "movement joint at each wall", .min = 0, .max = 2}};
}

struct TileRunOut {
  double usable_in = 0;
  int full_tiles_from_one_wall = 0;
  double end_cut_in = 0;
  int balanced_full_tiles = 0;
  double balanced_end_cut_in = 0;
  int alternative_full_tiles = 0;
  double alternative_end_cut_in = 0;
  bool sliver = false;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(TileRunOut, (),
                      (usable_in, full_tiles_from_one_wall, end_cut_in, balanced_full_tiles, balanced_end_cut_in, alternative_full_tiles,
                       alternative_end_cut_in, sliver, reason))
doc::FieldRules field_rules(const TileRunOut*) {
  return {{.name = "end_cut_in", .text = "0 where the tile comes out even"},
          {.name = "balanced_end_cut_in", .text = "at both ends alike: the wider of the two ways to centre"},
          {.name = "sliver", .text = "whether even the wider cut is less than a third of the tile"}};
}

Outcome<TileRunOut> answer(const TileRunIn& in) {
  constexpr double kEven_in = 1e-6;
  TileRunOut out;
  out.usable_in = in.run_in - 2 * in.gap_in;
  if (out.usable_in <= 0) return refused<TileRunOut>({{"gap_in", "leaves no room for tile", "give the joint at one wall, in inches"}});
  const double module = in.tile_in + in.joint_in;
  const int most = static_cast<int>(std::floor((out.usable_in + in.joint_in) / module + 1e-9));
  out.full_tiles_from_one_wall = most;
  out.end_cut_in = out.usable_in - most * module;
  if (out.end_cut_in < kEven_in) out.end_cut_in = 0;  // a joint's width or less is no tile
  const auto balanced = [&](int whole) { return (out.usable_in - whole * in.tile_in - (whole - 1) * in.joint_in - 2 * in.joint_in) / 2; };
  // A tile in the middle or a joint in the middle: an odd or an even count of whole tiles.
  int wide = most, narrow = std::max(0, most - 1);
  if (most == 0) {
    out.balanced_end_cut_in = out.alternative_end_cut_in = out.usable_in;
  } else {
    if (balanced(narrow) <= in.tile_in + kEven_in && balanced(narrow) > balanced(wide)) std::swap(wide, narrow);
    out.balanced_full_tiles = wide;
    out.balanced_end_cut_in = std::max(0.0, balanced(wide));
    out.alternative_full_tiles = narrow;
    out.alternative_end_cut_in = std::max(0.0, balanced(narrow));
  }
  out.sliver = out.balanced_end_cut_in > kEven_in && out.balanced_end_cut_in < in.tile_in / 3;
  out.reason.compares = "wider cut at both walls against a third of the tile";
  out.reason.demand = in.tile_in / 3;
  out.reason.capacity = out.balanced_end_cut_in;
  out.reason.unit = "in";
  out.reason.rule = "usable = run less the joints at the walls; k whole tiles leave (usable - k t - (k - 1) j - 2 j) / 2 at each end";
  out.reason.source = "plain geometry; a third of the tile is common practice, no source";
  out.reason.edition = "2026";
  out.reason.status = SourceStatus::common_practice;
  return answered(std::move(out));
}

}  // namespace tile_run_topic

Topic tile_run() {
  using namespace tile_run_topic;
  return make_topic<TileRunIn, TileRunOut>({.id = "tile-run",
                                            .asks = "How many whole tiles fit between two walls, and how wide are the cuts?",
                                            .sources = {"plain geometry"},
                                            .example = R"({"run_in": 60, "tile_in": 12, "joint_in": 0.125, "gap_in": 0.25})"},
                                           answer);
}

}  // namespace awlmark::reckon
