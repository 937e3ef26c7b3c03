// What the survey's draws say about each piece, jointly: a piece counts as unsound in a draw when
// the draw holds unsound wood in it above a small threshold (data/cut_rules.csv, unsound_least).
// Internal to the room.
#pragma once

#include <cstdint>
#include <vector>

#include "cutback/model.hpp"

namespace awlmark::cutback {

struct Chances {
  int draws = 0;
  std::size_t blocks = 0;
  std::vector<std::uint8_t> unsound;  // [draw * blocks + block]
  bool unsound_in(int draw, std::size_t block) const { return unsound[static_cast<std::size_t>(draw) * blocks + block] != 0; }
};

// Fills the chances of the model's blocks and marks what an awl knows.
Chances read_chances(const Job& job, const survey::Result& survey, Model& model);
void read_known(const Job& job, Model& model);

}  // namespace awlmark::cutback
