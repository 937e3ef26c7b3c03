// Which members carry the deck, how far the boards span, and what load each member takes, all from
// the plan's geometry.
//
// Boards carry along their own direction to the supports they cross; a spot between two supports goes
// to both by the lever rule, an even load by half the distance to the next support. Diagonal boards
// need nothing special: their spans run along the board (spacing / sin of the angle).
// Beyond the last support recorded: up to 6 in. of deck hangs on it; a wider edge bay is taken as
// carried on its far side by the wall's own framing, and the floor beyond a support at the room's edge
// as going on for half a bay. Both are said in `assumed`. Loads: loads.hpp.
#pragma once

#include <string>
#include <vector>

#include "floor/model.hpp"

namespace awlmark::floor {

inline constexpr double kEdgeReach_in = 6;

// Indices of the members that the deck lies on: joists, ledgers and wall framing, and girders that
// carry no joists; only those that cross the boards (more than 15 degrees off their direction).
std::vector<std::size_t> deck_supports(const Model& model);

struct Crossing {
  std::size_t member = 0;
  double at_in = 0;  // along the line from its start point
  double along_member_in = 0;
  double sine = 1;  // of the angle between the boards and the member
};
// Where the line through `p` along the boards crosses the deck's supports, in rising order.
std::vector<Crossing> crossings(const Model& model, const std::vector<std::size_t>& supports, Point p);
// The same along any direction; a member counts `past_in` beyond its ends, as if it ended there.
std::vector<Crossing> crossings(const Model& model, const std::vector<std::size_t>& supports, Point p, double degrees, double past_in);

// How far past its last support the deck loads it: half the bay before it, or what hangs over to the
// room's edge. `beyond_in`: from the last support to that edge, where the line crosses the room.
double edge_share_in(double inner_bay_in, double beyond_in);
// Where a line through p along u crosses the room's outline: its widest stretch.
bool room_stretch(const Polygon& room, Point p, Point u, double& low_in, double& high_in);
Point direction(double degrees);

// One board's line across the room: where it starts and ends at the room's edge, and its supports.
struct BoardLine {
  Point start;
  int row = 0;           // plank of the plan's own count, from 0
  double offset_in = 0;  // across the boards, from the room's low side
  double length_in = 0;
  std::vector<double> supports_in;  // from `start`; those up to 12 in. outside the room count too (negative, or past the end)
  std::vector<std::size_t> members;
  double longest_in = 0;        // longest clear bay between supports, an edge bay included
  bool edge_bay_start = false;  // more than 6 in. without a support at that edge
  bool edge_bay_end = false;
};
// One line for each plank across the room (`pitch_in` wide), from the low side.
std::vector<BoardLine> board_lines(const Model& model, double pitch_in);

// Spacing of the deck's supports measured square to them: the widest between neighbours; 0 when fewer than two.
double widest_spacing_in(const Model& model);
// The same of most bays: their median on the line through the room's middle. One wide bay (a chase, a stair)
// does not make joists into girders.
double usual_spacing_in(const Model& model);

}  // namespace awlmark::floor
