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
  const WhileOpen& open;
  double labour_per_hour = 0;
  double old_build_up_in = 0;  // deck and underlayments, today
  double ceiling_psf = 0;
  bool treated_joists = false;  // new wood this near to the soil is treated (IRC R317.1)
  bool treated_girders = false;
  std::vector<double> found_lb;  // what lay on each member as found, all on, walls at their least
};
Site site_of(const Job& job, const Model& found, const cutback::CutBack& cut_back, const WhileOpen& open);

struct OptionPlan {
  const Job* job = nullptr;  // whose rates its hours follow
  Model model;
  Option option;
  std::vector<std::string> moved;  // pipes, wires and ducts that it moves
  bool blocks = false;             // the mended deck's edges need the cut-back's blocking
  std::vector<Check> bay_checks;   // of the dropped bay's own deck
  double material_cost = 0;
  double deck_psf = 0;     // deck and overlay as rebuilt
  double build_up_in = 0;  // the same, above the old framing's top
};

// The floor as it would be before any change: dry, rot still in it, the finish's weight on top.
OptionPlan plan_from(const Site& site, const std::string& id, const std::string& title);

void add_hours(OptionPlan& plan, const std::string& row, double quantity, goods::Growth grows = {});
void add_good(OptionPlan& plan, const Site& site, goods::Good good, goods::Growth grows = {});
// Whether a new member is bought treated, and what No. 2 of that section may carry then: the species that are
// incised to take the preservative lose by it (NDS Table 4.3.8).
bool treated(const Site& site, SupportRole role);
mechanics::DesignValues lumber_values(const Site& site, SupportRole role, Species species, const mechanics::Section& section);
// The section as a yard names it.
goods::Section yard_section(const mechanics::Section& section);
// What the mended deck, and work on members, grow with.
goods::Growth with_deck(const Site& site);
inline goods::Growth with_members() { return {goods::Extent::members, {}}; }

// Weight of the finish and what it is set on.
double finish_psf(Finish finish);

// Marks each member as old or newly loaded by what lies on it now against what lay on it as found.
void settle_standing(OptionPlan& plan, const Site& site);
// Members with rot in them, and those that fail a check by what is known, by index: never on an
// assumed wall load alone. `damage_only` leaves out those that are only newly loaded.
std::vector<std::size_t> members_to_treat(OptionPlan& plan, const Site& site, bool damage_only);
// In kind, of a section that is sold; `upsize` takes the next ones until it passes.
void replace_member(OptionPlan& plan, const Site& site, std::size_t index, bool upsize);
void sister_member(OptionPlan& plan, const Site& site, std::size_t index);
// A header between the next members on either side holds each end that hangs free (option_headers.cpp).
void hang_free_ends(OptionPlan& plan, const Site& site);
// Rotten stretches of joists cut out, the sound part hung on a header, a new piece from there to the old
// rest; false where no joist can be mended so.
bool head_off(OptionPlan& plan, const Site& site);
// Goods and hours of one sister of `plies`, or of a new member, on the section that is sold.
void price_sister(OptionPlan& plan, const Site& site, const Member& member);
void price_member(OptionPlan& plan, const Site& site, const Member& member);
std::string yard_name(const mechanics::Section& section);  // "2x8", "2-2x8", "4x10"
FramingLine line_of(const Member& member, const std::string& kind, const mechanics::Section& section, const std::string& note);
void buy_lumber(OptionPlan& plan, const Site& site, goods::Kind kind, const std::string& item, const mechanics::Section& section, double length_in,
                goods::Growth grows);
// A step that members share is said once, with all their names.
void say_for_member(std::vector<std::string>& steps, const std::string& id, const std::string& head, const std::string& tail);
// A rest in a hanger on another member, at `at` on the plan.
plan::Rest hung_at(const Model& model, std::size_t carrier, double along_in, Point at);
// Dressed depth of the deepest board sold that is not deeper than `d_in`.
double sold_depth_in(double d_in);

bool tile_finish(Finish finish);
double cut_out_sf(const Site& site);
// Cut-in planks or boards splined in, or panels in kind, with the underlayment that the finish asks for.
void mend_deck(OptionPlan& plan, const Site& site);
// Blocking that the cut-back asks for, cut to the clear bays that it crosses.
void cut_back_blocking(OptionPlan& plan, const Site& site);
// Single-floor panels over the whole room, on the supports as they are.
void lay_panels(OptionPlan& plan, const Site& site, const std::vector<std::string>& ratings);
// Joists between wide-spaced girders, 16 in. apart, flush so that panels meet the old deck's top.
void add_joists(OptionPlan& plan, const Site& site);
// Joists straight under walls that the deck is too weak for (option_walls.cpp).
void hold_walls_on_deck(OptionPlan& plan, const Site& site);
// The top pared to sound wood, packed, with cleats bolted to both sides for the deck; false where more than
// the top's seat and nails is missing.
bool cleat_member(OptionPlan& plan, const Site& site, std::size_t index);
// The deck lowered over the shower on joists of its own (option_bay.cpp); empty when it is framed, else why
// it cannot be: a girder, a wall or a rest in the way.
std::string drop_bay(OptionPlan& plan, const Site& site);

// Runs the checks, sums the cost, writes height, weight and the cautions that hold for every option.
void finish_plan(OptionPlan& plan, const Site& site);

}  // namespace awlmark::floor
