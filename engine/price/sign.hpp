// What people sign: base and its quantities, unit prices, cap, what is outside, must / should / offer.
// Private to the room.
#pragma once

#include "price/costs.hpp"

namespace awlmark::price {

// `mild` is the run with every open outcome at its milder side; the percentiles of `out` are there already.
void sign(const Job& job, const Rates& rates, const cutback::Result& cut_back, const floor::Floor& floor, const takeoff::TakeOff& take_off,
          const work::Result& work, const RunCosts& mild, Price& out);

}  // namespace awlmark::price
