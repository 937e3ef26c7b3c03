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
#include "mechanics/panel.hpp"
#include "mechanics/section.hpp"

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

struct Member {
  std::string id;
  SupportRole role = SupportRole::joist;
  Point from;
  Point to;
  mechanics::Section section;
  Species species = Species::unknown;
  Grade grade = Grade::unknown;
  mechanics::DesignValues values;
  std::vector<double> rests_in;  // rising, along from `from`
  double bearing_length_in = 1.5;
  std::vector<DecayZone> decay;
  std::vector<MemberCut> cuts;
  bool wet = false;
  bool repetitive = false;
  bool new_wood = false;
  std::optional<mechanics::Section> sister;  // runs the whole length beside it, dry and sound
  std::optional<mechanics::DesignValues> sister_values;
  std::optional<mechanics::Section> post;
  double post_length_in = 0;
  bool post_length_known = false;
  double length_in() const { return distance_in(from, to); }
  Point at(double along_in) const;
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
  bool lasting = true;  // counts as dead load
  double replaces_live_psf = 0;
};

struct Model {
  Polygon room;
  std::vector<Member> members;
  DeckModel deck;
  double dead_psf = 0;  // of the layers; members' own weight comes on top
  double live_psf = 40;
  double point_lb = 300;
  std::vector<PlanLoad> loads;
  Finish finish = Finish::other;
  std::optional<double> deflection_over;  // the job's own stricter limit
  std::vector<std::string> assumed;
};

}  // namespace awlmark::floor
