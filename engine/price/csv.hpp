// Take-off and price as CSV (RFC 4180): a head line, fields quoted where they need it, CRLF.
// A text that a spreadsheet would take for a formula is written with an apostrophe before it.
#pragma once

#include <string>

#include "price/price.hpp"
#include "takeoff/takeoff.hpp"

namespace awlmark::price {

std::string take_off_csv(const takeoff::TakeOff& take_off);
std::string price_csv(const Price& price);

}  // namespace awlmark::price
