// Places in the job's lists as types of their own, so that a layer is never taken for a wall and no
// name that somebody gave can be taken for a word of ours. A default one points nowhere.
#pragma once

#include <cstddef>

namespace awlmark::plan {

template <class List>
struct Index {
  int at = -1;

  bool known() const { return at >= 0; }
  std::size_t of() const { return static_cast<std::size_t>(at); }  // only when known
  friend bool operator==(Index, Index) = default;
  friend bool operator<(Index a, Index b) { return a.at < b.at; }
};

using LayerIx = Index<struct LayerList>;      // Job::layers
using SupportIx = Index<struct SupportList>;  // Job::supports
using WallIx = Index<struct WallList>;        // Job::walls
using DoorIx = Index<struct DoorList>;        // Job::room.doors
using FixtureIx = Index<struct FixtureList>;  // Job::fixtures
using MemberIx = Index<struct MemberList>;    // the plan's members (framing.hpp)

// A plank as people count it on their own drawing: from 1, from the wall at the low side.
struct PlankNo {
  int number = 0;
  friend bool operator==(PlankNo, PlankNo) = default;
};
// The same plank counted in the plan's own frame, from 0.
struct PlankRow {
  int at = 0;
  friend bool operator==(PlankRow, PlankRow) = default;
};

}  // namespace awlmark::plan
