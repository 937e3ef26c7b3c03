// Take-off: what to buy and what to carry out, from the geometry of the cut-back and the chosen
// rebuild option; and the same by draw.
#pragma once

#include <boost/describe.hpp>
#include <string>
#include <vector>

#include "cutback/cutback.hpp"
#include "floor/floor.hpp"
#include "job/job.hpp"

namespace awlmark::takeoff {

struct Line {
  std::string id;
  std::string item;
  double quantity = 0;
  std::string unit;   // "sf", "lf", "each", "sheet", "lb", "yd3"
  std::string from;   // how it was measured: "deck, 14.5 sf of pieces + 10 % waste"
  std::string group;  // "take_out", "put_back", "protect"
  double unit_price = 0;
};
BOOST_DESCRIBE_STRUCT(Line, (), (id, item, quantity, unit, from, group, unit_price))

struct TakeOff {
  std::vector<Line> lines;
  double debris_lb = 0;
  double debris_yd3 = 0;
  std::vector<std::string> notes;
};
BOOST_DESCRIBE_STRUCT(TakeOff, (), (lines, debris_lb, debris_yd3, notes))

TakeOff take_off(const Job& job, const cutback::CutBack& cut_back, const floor::Floor& floor);

}  // namespace awlmark::takeoff
