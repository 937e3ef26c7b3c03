// The parts of a take-off; each adds its lines. Private to the room.
#pragma once

#include "takeoff/goods.hpp"

namespace awlmark::takeoff {

struct Site {
  const Job& job;
  const cutback::CutBack& cut;
  const floor::Floor& floor;
  const floor::Option* option = nullptr;  // the rebuild option taken
  ShowerAmounts shower = {};              // from its own stage
};

// A quantity that grows with a layer of the job.
inline goods::Growth with_layer(const std::string& id) { return {goods::Extent::layer_sf, id}; }

void take_out(const Site& site, TakeOff& found);
void put_back_floor(const Site& site, TakeOff& found);
void put_back_finish(const Site& site, TakeOff& found);
void put_in_shower(const Site& site, TakeOff& found);
void protect(const Site& site, TakeOff& found);
void one_more(const Site& site, TakeOff& found);

// Floor that the new finish covers: the room without the shower and without a tub that stays.
double finish_area_sf(const Job& job);
double perimeter_ft(const Job& job);  // without the doors
bool is_tile(Finish finish);
// "14.5": a figure for a sentence.
std::string figure_text(double value, int digits = 1);
std::string waste_words(double share);  // "with 10 percent waste"
void add_line(TakeOff& found, const std::string& id, const Stocked& what, double quantity, const std::string& from, const std::string& group,
              const goods::Growth& grows = {});

}  // namespace awlmark::takeoff
