// Rates as a table: a line a figure. Private to the room.
#pragma once

#include "money/rates_file.hpp"

namespace awlmark::money {

// The key of each figure in the JSON form, and its line; the longest keys first.
using Lines = std::vector<std::pair<std::string, int>>;
Outcome<RatesFile> read_rates_csv(std::string_view text, Lines& lines);

}  // namespace awlmark::money
