// Goods and their prices: data/goods.csv for what is bought by the piece, data/rates.csv for lumber
// and panels. Private to the room.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "takeoff/takeoff.hpp"

namespace awlmark::takeoff {

struct Good {
  std::string item;
  std::string unit;
  double price = 0;   // with the job's scale of material prices
  double covers = 1;  // what one of it covers, in the unit of the table's note
};
Good good(const Job& job, const std::string& id);

// How many packs: never one more for a crumb of rounding.
double packs(double need, double per_pack);

// Price of a foot of lumber by its nominal section; decking and boards cost more than framing.
double lumber_price_per_ft(const Job& job, double nominal_b_in, double nominal_d_in, bool decking);
// Nominal section of a board as dressed: 0.75 x 5.5 -> 1 x 6.
double nominal_of(double dressed_in);
// The nominal section named in a text, "2x8 sister" -> 2, 8; false when there is none.
bool find_section(const std::string& text, double& b_in, double& d_in);

// The sticks to buy for pieces of one section, 8 to 16 ft, and how to cut them. Pieces longer than
// the longest stick are halved until they fit. Adds a line and a cut list.
void buy_sticks(const Job& job, const std::string& id, const std::string& item, double price_per_ft, std::vector<PieceNeed> pieces, const std::string& from,
                const std::string& grows_with, TakeOff& found);

}  // namespace awlmark::takeoff
