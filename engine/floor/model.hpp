// The floor as the checks see it: members, deck and loads, without the job's loose ends.
//
// Built from the job (build.hpp); the rebuild options change a copy and the same checks run again
// (member_checks.hpp, deck_checks.hpp), so an option is judged exactly as the floor was.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/geometry.hpp"
#include "base/reason.hpp"
#include "job/job.hpp"
#include "mechanics/beam.hpp"
#include "mechanics/design_values.hpp"
#include "mechanics/footing.hpp"
#include "mechanics/panel.hpp"
#include "mechanics/section.hpp"
#include "plan/framing.hpp"

namespace awlmark::floor {

// Wood that is gone over a stretch of a member, and whether an awl found it or the survey fears it.
struct DecayZone {
  double from_in = 0;
  double to_in = 0;
  mechanics::Loss loss;
  double top_depth_in = 0;  // rot on the top edge: how deep, and over how much of the breadth
  double top_width_in = 0;
  double bottom_depth_in = 0;  // the same on the bottom edge, where the member sits
  double bottom_width_in = 0;
  bool known = true;
  bool rot = true;  // false: a notch, cut in sound wood
  std::string why;
};

// What a repair must reach for a member: its former strength where it was damaged or stays as loaded as
// it was, today's code where it is new or newly loaded.
enum class Standing { damaged, newly_loaded, old, new_wood };
BOOST_DESCRIBE_ENUM(Standing, damaged, newly_loaded, old, new_wood)

struct Member {
  std::string id;
  SupportRole role = SupportRole::joist;
  Point from;
  Point to;
  mechanics::Section section;
  Species species = Species::unknown;
  Grade grade = Grade::unknown;
  mechanics::DesignValues values;
  std::vector<plan::Rest> rests;  // rising along it; carriers by their place in Model::members
  bool lies_on = false;           // a ledger or a wall's framing: held all along by what is behind it
  std::vector<DecayZone> decay;
  std::vector<MemberCut> cuts;
  bool wet = false;
  bool repetitive = false;
  bool new_wood = false;
  bool in_bay = false;                       // carries the dropped bay's deck alone
  bool as_it_was = false;                    // old, sound and not loaded more: former strength is enough
  std::optional<mechanics::Section> sister;  // runs the whole length beside it, dry and sound
  std::optional<mechanics::DesignValues> sister_values;
  int sister_side = 0;       // 1: to the left of from -> to, -1: to the right
  bool was_damaged = false;  // as found
  bool cleated = false;      // decayed top pared, packed and cleated
  bool changed = false;      // cut or ripped by the work itself
  double length_in() const { return distance_in(from, to); }
  Point at(double along_in) const;
  std::vector<double> rests_in() const;
};

// A plank that is not one of the row: cut in from `from_in` to `to_in` along the boards.
struct CutIn {
  int plank = 0;  // counted from the low side, from 0
  double from_in = 0;
  double to_in = 0;
};

enum class CutInLink { none, splined, blocked };

struct DeckModel {
  enum class Kind { none, planks, panels } kind = Kind::none;
  std::string layer;
  std::string spoken;
  Material material = Material::board;
  double degrees = 0;  // direction of the boards or of the panels' strength axis, from x
  double thickness_in = 0;
  double plank_width_in = 5.5;
  bool tongues = false;
  Species species = Species::unknown;
  Grade grade = Grade::unknown;
  bool wet = false;
  bool as_it_was = false;   // old, and not asked for more than before
  bool new_deck = false;    // laid anew over the whole room
  bool no_depth = false;    // rot of which nobody measured the depth
  double rot_depth_in = 0;  // deepest known rot; as deep as the deck where it goes through
  std::vector<CutIn> cut_ins;
  CutInLink cut_in_link = CutInLink::none;
  std::string panel_rating;  // when kind is panels and the rating is chosen, not guessed
  mechanics::PanelKind panel_kind = mechanics::PanelKind::sheathing;
  std::string overlay_rating;  // a second, structural layer of panel glued and screwed to the deck; empty: none
};

// A load on the plan, shared to the members by geometry.
struct PlanLoad {
  std::string item;
  std::string row;               // of data/floor_loads.csv; empty for a layer or a bearing wall
  std::optional<Reason> reason;  // where no row says it
  double lb = 0;                 // spread evenly over `area`, or along from-to when the area is empty
  Polygon area;
  Point from;
  Point to;
  enum class Kind { dead, live, snow } kind = Kind::dead;
  double replaces_live_psf = 0;
  bool wall = false;    // within its depth of a rest it bends nothing: it goes straight down there
  int onto = -1;        // the member directly under it, which takes all of it; -1: the deck shares it out
  bool on_deck = true;  // its plate stands on the deck, which bends under it
  std::string wall_id;
};

// Part of the deck on its own framing, lower than the rest.
struct Bay {
  Polygon outline;
  double degrees = 0;  // of its deck
  double dead_psf = 0;
  std::vector<std::size_t> supports;  // of Model::members
};

// What nobody said of a wall: its load as a low and a high value, both run.
enum class Case { known, low, high };

struct Model {
  Polygon room;
  std::vector<Member> members;
  DeckModel deck;
  bool as_found = true;  // no new finish yet: the code's limits alone
  double dead_psf = 0;   // of the layers; members' own weight comes on top
  double live_psf = 40;
  Below below = Below::unknown;
  mechanics::Soil soil = mechanics::Soil::unknown;
  double point_lb = 300;
  std::vector<PlanLoad> loads;
  std::vector<PlanLoad> low_loads;      // of walls whose load is not known: at the least ...
  std::vector<PlanLoad> high_loads;     // ... and at the most
  std::vector<std::string> open_walls;  // whose they are
  bool former_strength = true;          // a repair may restore what was there (a setting; else today's code everywhere)
  // The deck outside the room, which stays as it was.
  double outside_dead_psf = 0;
  double outside_degrees = 0;
  std::optional<Bay> bay;
  Finish finish = Finish::other;
  std::optional<double> deflection_over;  // the job's own stricter limit
  std::vector<std::string> assumed;
};

}  // namespace awlmark::floor
