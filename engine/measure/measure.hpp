// One measure of the floor: which pieces come out -> square feet, feet of cut, blocking and plate.
//
// The plan and every draw are measured by the same function from the same map, so the same labels give
// the same quantities to the last bit. Layers and members are named by their place in the job's lists,
// never by their ids. Square feet and feet; a saw cut is counted once, wherever wood that goes meets
// wood that stays or a wall, and not where a joint is open already.
#pragma once

#include <boost/describe.hpp>
#include <cstddef>
#include <vector>

namespace awlmark::measure {

inline constexpr int kNone = -1;

// What is seen of a joist or a girder once the floor is open.
enum class MemberState { whole, decayed, decayed_at_rest };
BOOST_DESCRIBE_ENUM(MemberState, whole, decayed, decayed_at_rest)

// One piece that comes out or stays whole.
struct Part {
  enum class What { layer, plate, wallboard };
  What what = What::layer;
  int layer = kNone;  // place in the job's layers; of a layer's piece
  double amount = 0;  // sf of a layer or of wallboard, ft of plate
};

// A line between two parts, or between one part and the wall (b is kNone).
struct Line {
  int a = kNone;
  int b = kNone;
  double length_ft = 0;
  bool sawn = false;     // a saw goes along it where only one side stays
  bool blocked = false;  // the new ends there need blocking or a cleat
};

struct Map {
  std::size_t layers = 0;
  std::vector<Part> parts;
  std::vector<Line> lines;
  double blocking_ft = 0;  // under joints that the plan blocks whatever else comes out
};

struct Quantities {
  std::vector<double> layer_sf;  // by the job's layers, in their order
  double saw_ft = 0;
  double blocking_ft = 0;
  double plate_ft = 0;
  double wallboard_sf = 0;
  std::vector<MemberState> members;  // by the job's supports, in their order
};
BOOST_DESCRIBE_STRUCT(Quantities, (), (layer_sf, saw_ft, blocking_ft, plate_ft, wallboard_sf, members))
bool operator==(const Quantities& a, const Quantities& b);

// `out` has one label a part; `members` one state a support.
Quantities quantities(const Map& map, const std::vector<char>& out, std::vector<MemberState> members);

}  // namespace awlmark::measure
