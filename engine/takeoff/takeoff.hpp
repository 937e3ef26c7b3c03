// Take-off: what to buy and what to carry out, from the geometry of the cut-back and the chosen
// rebuild option; and the same by draw.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cutback/cutback.hpp"
#include "floor/floor.hpp"
#include "goods/goods.hpp"
#include "job/job.hpp"
#include "takeoff/cut_plan.hpp"

namespace awlmark::takeoff {

struct Line {
  std::string id;
  std::string item;
  double quantity = 0;
  std::string unit;   // "sf", "lf", "each", "sheet", "lb", "yd3"
  std::string from;   // how it was measured: "deck, 14.5 sf of pieces + 10 % waste"
  std::string group;  // "take_out", "put_back", "protect"
  double unit_price = 0;
  goods::Growth grows;  // when opening up reveals more
};
BOOST_DESCRIBE_STRUCT(Line, (), (id, item, quantity, unit, from, group, unit_price, grows))

// How the sticks of one item are cut, proven least cost where `proven`.
struct CutList {
  std::string item;  // "1x6 board"
  double kerf_in = 0;
  std::vector<Stick> sticks;
  double cost = 0;
  double lower_bound = 0;
  bool proven = false;
};
BOOST_DESCRIBE_STRUCT(CutList, (), (item, kerf_in, sticks, cost, lower_bound, proven))

// Goods that one more square foot or foot than planned takes.
struct OneMore {
  goods::Growth with;
  std::string item;
  double per_unit = 0;
  std::string unit;
  double unit_price = 0;
};
BOOST_DESCRIBE_STRUCT(OneMore, (), (with, item, per_unit, unit, unit_price))

struct TakeOff {
  std::vector<Line> lines;
  std::vector<OneMore> one_more;
  std::vector<CutList> cut_lists;
  double debris_lb = 0;
  double debris_yd3 = 0;
  int bags = 0;
  std::vector<std::string> notes;
};
BOOST_DESCRIBE_STRUCT(TakeOff, (), (lines, one_more, cut_lists, debris_lb, debris_yd3, bags, notes))

// What the shower stage has laid out; without a bed none is bought, and without a layout tile goes by area.
struct ShowerAmounts {
  std::optional<double> bed_ft3;
  std::optional<double> membrane_sf;
  std::optional<double> pan_tile_sf;   // whole and cut tiles, joints counted
  std::optional<double> room_tile_sf;  // the same, of the room
};
TakeOff take_off(const Job& job, const cutback::CutBack& cut_back, const floor::Floor& floor, const ShowerAmounts& shower = {});

}  // namespace awlmark::takeoff
