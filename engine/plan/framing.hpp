// Members below the deck, what each of their rests is, what carries what, and what stands under walls.
//
// A member rests on another where one of its rests lies on that one's line, whatever the two are called:
// a joist on a girder, a joist hung between joists, a header on trimmers, a tail on a header. Everything
// else stands on posts, walls or foundations. Nothing is invented: a member that was recorded with one
// rest has one, an end that hangs in the open is free.
// Guarantees: (1) members are in the job's order. (2) `load_order` puts each member before those that
// carry it; members that carry each other in a ring are returned apart, for such a ring holds nothing.
#pragma once

#include <optional>
#include <vector>

#include "job/job.hpp"
#include "plan/assumption.hpp"
#include "plan/ids.hpp"

namespace awlmark::plan {

struct Rest {
  double along_in = 0;          // of the member
  RestOn on = RestOn::unknown;  // recorded, or what the plan shows there
  MemberIx carrier;             // the member that carries it; nowhere: it stands on something below
  double along_carrier_in = 0;
  double bearing_in = 1.5;  // along the member
  bool bearing_known = false;
  std::optional<double> cap_in;  // width across the member of what it sits on, where that is a post or a cap
  OverRest over = OverRest::unknown;
  std::optional<SectionSize> post_size;
  std::optional<double> post_length_in;
  std::optional<double> pad_in;
};

struct FramingMember {
  SupportIx support;
  Point from;
  Point to;  // as long as its rests say, where they reach past the line as drawn
  std::vector<Rest> rests;
  bool lies_on = false;  // a ledger or a wall's own framing: held all along by what is behind it
  double length_in() const { return distance_in(from, to); }
};

struct WallLine {
  WallIx wall;
  UnderWall below = UnderWall::unknown;
  MemberIx girder;  // the girder on the plan that runs directly under it
  bool held_below() const { return below == UnderWall::wall || below == UnderWall::girder || below == UnderWall::foundation; }
};

struct Framing {
  std::vector<FramingMember> members;
  std::vector<WallLine> walls;  // of Job::walls
  std::vector<Assumption> assumed;
};

Framing framing_of(const Job& job);

// What carries a rest at `at` of a member that runs in `direction`: one line of the plan among `others`.
struct Carrier {
  MemberIx member;
  double along_in = 0;
};
struct Line {
  Point from;
  Point to;
  double b_in = 0;
};
// The line that a hung end at `p` meets: within reach of its face, at an angle of 15 degrees or more.
std::optional<Carrier> carrier_at(Point p, Point direction, const std::vector<Line>& others, const std::vector<std::size_t>& among);

// Members with each before what carries it. `carriers[i]`: the members that carry member i.
struct LoadOrder {
  std::vector<std::size_t> order;
  std::vector<std::size_t> in_ring;  // carry each other in a ring, or wait for what does; not in `order`
};
LoadOrder load_order(const std::vector<std::vector<std::size_t>>& carriers);

}  // namespace awlmark::plan
