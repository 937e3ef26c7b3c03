// One rebuild option in the making: the changed model, and what it takes to build it.
//
// The generator (options.cpp) makes plans from what is there; the parts below change the model and
// keep materials, hours and cost in step with it.
#pragma once

#include <string>
#include <vector>

#include "cutback/cutback.hpp"
#include "floor/as_found.hpp"
#include "floor/floor.hpp"
#include "floor/model.hpp"
#include "goods/goods.hpp"
#include "job/job.hpp"

namespace awlmark::floor {

struct Site {
  const Job& job;
  const Model& found;
  const cutback::CutBack& cut_back;
  double labour_per_hour = 0;
  double old_build_up_in = 0;  // deck and underlayments, today
  double ceiling_psf = 0;
  std::size_t shores = 0;
};
Site site_of(const Job& job, const Model& found, const cutback::CutBack& cut_back, std::size_t shores);

struct OptionPlan {
  Model model;
  Option option;
  double material_cost = 0;
  double deck_psf = 0;     // deck and overlay as rebuilt
  double build_up_in = 0;  // the same, above the old framing's top
};

// The floor as it would be before any change: dry, rot still in it, the finish's weight on top.
OptionPlan plan_from(const Site& site, const std::string& id, const std::string& title);

void add_hours(OptionPlan& plan, const std::string& row, double quantity, goods::Growth grows = {});
void add_good(OptionPlan& plan, const Site& site, goods::Good good, goods::Growth grows = {});
// The section as a yard names it.
goods::Section yard_section(const mechanics::Section& section);
// What the mended deck, and work on members, grow with.
goods::Growth with_deck(const Site& site);
inline goods::Growth with_members() { return {goods::Extent::members, {}}; }

// Weight of the finish and what it is set on.
double finish_psf(Finish finish);

// Members of the plan's model that fail a check or have rot in them, by index.
std::vector<std::size_t> members_to_treat(const OptionPlan& plan);
// In kind; `upsize` adds plies until it passes.
void replace_member(OptionPlan& plan, const Site& site, std::size_t index, bool upsize);
void sister_member(OptionPlan& plan, const Site& site, std::size_t index);

// Cut-in planks or boards splined in, or panels in kind, with the underlayment that the finish asks for.
void mend_deck(OptionPlan& plan, const Site& site);
// Single-floor panels over the whole room, on the supports as they are.
void lay_panels(OptionPlan& plan, const Site& site, const std::vector<std::string>& ratings);
// Joists between wide-spaced girders, 16 in. apart, flush so that panels meet the old deck's top.
void add_joists(OptionPlan& plan, const Site& site);
// The deck lowered over the shower; false when there is no shower or nothing to lower between.
bool drop_bay(OptionPlan& plan, const Site& site);

// Runs the checks, sums the cost, writes height, weight and the cautions that hold for every option.
void finish_plan(OptionPlan& plan, const Site& site);

}  // namespace awlmark::floor
