// Goods and their prices: data/goods.csv for what is bought by the piece, data/rates.csv for lumber
// and panels. Private to the room.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "takeoff/takeoff.hpp"

namespace awlmark::takeoff {

struct Stocked {
  std::string item;
  std::string unit;
  double price = 0;   // with the job's scale of material prices
  double covers = 1;  // what one of it covers, in the unit of the table's note
};
Stocked good(const Job& job, const std::string& id);

// How many packs: never one more for a crumb of rounding.
double packs(double need, double per_pack);

// The sticks to buy for pieces of one section, 8 to 16 ft, and how to cut them. Pieces longer than
// the longest stick are halved until they fit. Adds a line and a cut list.
void buy_sticks(const Job& job, const std::string& id, const std::string& item, double price_per_ft, std::vector<PieceNeed> pieces, const std::string& from,
                const goods::Growth& grows, TakeOff& found);

}  // namespace awlmark::takeoff
