// A member cut into pieces: what each piece keeps of the old rests, rot and cuts.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "floor/option_plan.hpp"

namespace awlmark::floor {

// The piece between two places along it, positions counted from its own start.
Member piece_of(const Member& whole, double from_in, double to_in);
// Takes a little off one end; the rest at that end goes with it.
void shorten(Member& member, bool at_end, double by_in);
// One more rest, in its place among the others.
void add_rest(Member& member, const plan::Rest& rest);

// A header from face to face of two members, hung on both, its centre line through p; its index.
std::size_t header_between(OptionPlan& plan, const Site& site, std::size_t low, Point low_at, std::size_t high, Point high_at, double depth_in);
// Plies until it passes, then bought and drawn.
void settle_header(OptionPlan& plan, const Site& site, std::size_t index);
// A rest of `member` at `along_in`, hung on the header.
void hang_on(OptionPlan& plan, const Site& site, std::size_t member, std::size_t header, double along_in);

// The side on which a sister goes: away from what hangs on the member and from pipes; 1 is to the left of
// from -> to, -1 to the right. `blocked` names the pipes that are in its way there.
struct SisterSide {
  int side = 1;
  std::vector<const Obstacle*> in_the_way;
};
SisterSide sister_side(const OptionPlan& plan, const Site& site, std::size_t index, double b_in);
// New wood that hangs on the member on that side is shorter by the sister.
void make_room(Model& model, std::size_t index, int side, double b_in);

}  // namespace awlmark::floor
