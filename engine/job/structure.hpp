// The job document's floor: layers, walls, the members below and what runs in their bays.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/geometry.hpp"
#include "job/words.hpp"

namespace awlmark {

// Direction of boards, sheets or joists: degrees counter-clockwise from x. Written "x", "y" or a number.
struct Runs {
  double degrees = 0;
  friend bool operator==(const Runs&, const Runs&) = default;
};

// A section: nominal ("2x8", "4x10", "2-2x10") or as measured {"b_in", "d_in"}.
struct SectionSize {
  std::string nominal;  // empty when measured
  int plies = 1;
  double b_in = 0;  // of all plies together
  double d_in = 0;
  friend bool operator==(const SectionSize&, const SectionSize&) = default;
};
// Dressed size of a nominal name (PS 20); nothing when the name is not a size.
std::optional<SectionSize> section_of(const std::string& nominal);
std::string section_text(const SectionSize& size);  // "2x8" or "1 5/8" x 7 3/4""

// Layers stand from the top down: the first in the list is what one walks on.
struct Layer {
  std::string id;
  Material material = Material::board;
  std::optional<double> thickness_in;
  std::optional<int> installed_year;
  std::optional<Runs> runs;
  std::optional<double> face_width_in;
  Species species = Species::unknown;
  Grade grade = Grade::unknown;
  std::optional<Polygon> outline_in;  // the layer covers only this part
  std::vector<Polygon> absent_in;     // where it is missing or already taken out
  std::optional<bool> stays;          // this finish stays: an opening in it costs its patch
  std::optional<bool> goes;           // this layer goes anyway: an opening in it costs nothing
  std::optional<bool> shown_asbestos_free;
  Bond bond = Bond::unknown;               // how it is held to the layer below
  PanelUse panel_use = PanelUse::unknown;  // of a wood panel, by its stamp
  std::optional<bool> painted;
  std::optional<bool> treated;  // with preservative
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Layer, (),
                      (id, material, thickness_in, installed_year, runs, face_width_in, species, grade, outline_in, absent_in, stays, goes, shown_asbestos_free,
                       bond, panel_use, painted, treated, note))

// What a wall carries is asked in a builder's words (attic, landing, next bearing, floors above), or stands
// in lb/ft; what nobody said runs as a low and a high value.
struct Wall {
  std::string id;
  Point from_in;
  Point to_in;
  std::optional<bool> bearing;
  StandsOn stands_on = StandsOn::unknown;
  UnderWall below = UnderWall::unknown;
  std::optional<bool> outside;
  Attic attic = Attic::unknown;
  std::optional<bool> lands_here;       // rafters, ceiling joists or trusses land or lap on it
  std::vector<double> next_bearing_in;  // to the next bearing left and right of from_in -> to_in; one figure alone holds for both
  std::optional<int> floors_above;      // that this wall carries
  std::optional<bool> heavy_roof;       // tile or slate
  std::optional<bool> wide_opening;     // a post or a wide opening brings its load to one spot
  std::optional<bool> studs_run_past;   // past the floor, down to the sill
  std::optional<double> carries_plf;    // what comes down on it, dead and live together, its own weight left out
  std::optional<double> dead_plf;       // the same apart
  std::optional<double> live_plf;
  std::optional<double> snow_plf;
  std::optional<double> thickness_in;
  WallFace wallboard = WallFace::unknown;  // on this room's side
  std::optional<int> wallboard_year;       // with its joint compound
  std::optional<bool> texture;
  std::optional<int> texture_year;
  std::optional<bool> painted;
  std::optional<bool> plate_treated;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Wall, (),
                      (id, from_in, to_in, bearing, stands_on, below, outside, attic, lands_here, next_bearing_in, floors_above, heavy_roof, wide_opening,
                       studs_run_past, carries_plf, dead_plf, live_plf, snow_plf, thickness_in, wallboard, wallboard_year, texture, texture_year, painted,
                       plate_treated, note))

// A notch or a hole in a support, as found.
struct MemberCut {
  double along_in = 0;
  std::optional<double> notch_depth_in;
  std::optional<double> notch_length_in;
  std::optional<double> hole_diameter_in;
  std::optional<double> hole_from_top_in;  // top of the member to the edge of the hole
  Face face = Face::top;                   // where a notch is cut
};
BOOST_DESCRIBE_STRUCT(MemberCut, (), (along_in, notch_depth_in, notch_length_in, hole_diameter_in, hole_from_top_in, face))

// One rest of a member: what it sits on there. The place is at_in along the member, or one of its ends.
struct SupportRest {
  std::optional<std::string> id;
  std::optional<double> at_in;
  std::optional<LineEnd> end;
  RestOn on = RestOn::unknown;
  std::optional<std::string> support;  // the member it rests on or hangs from
  std::optional<std::string> wall;     // the wall below it, where that one is on the plan
  std::optional<double> bearing_in;    // length of bearing along the member
  std::optional<double> cap_in;        // width of the post's cap, across the member
  std::optional<SectionSize> post_size;
  std::optional<double> post_length_in;
  std::optional<double> pad_in;  // side of a square footing
  OverRest over = OverRest::unknown;
  std::optional<bool> treated;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(SupportRest, (), (id, at_in, end, on, support, wall, bearing_in, cap_in, post_size, post_length_in, pad_in, over, treated, note))

struct Support {
  std::string id;
  SupportRole role = SupportRole::joist;
  Point from_in;
  Point to_in;
  std::optional<SectionSize> size;
  Species species = Species::unknown;
  Grade grade = Grade::unknown;
  std::vector<double> rests_at_in;       // positions along it, from `from_in`; after reading those of `rests` as well
  std::vector<SupportRest> rests;        // what is known about them
  std::optional<SectionSize> post_size;  // of the posts under the rests that do not say
  std::optional<double> post_length_in;
  std::optional<bool> treated;
  std::vector<MemberCut> cuts;
  std::optional<std::string> note;
  // Not of the document: what expand() put in, so that writing gives what was written.
  std::string from_row;                                    // the row that this member was made from
  std::optional<std::vector<double>> rests_at_as_written;  // before those of `rests` joined them
};
BOOST_DESCRIBE_STRUCT(Support, (), (id, role, from_in, to_in, size, species, grade, rests_at_in, rests, post_size, post_length_in, treated, cuts, note))

// Members written once: `count` of them, `spacing_in` apart, the first from from_in to to_in, the next in
// the direction `step` (left out: square to the member, towards the middle of the room). They are called
// ID.1, ID.2, ...; a support of that id stands in place of the row's own, a number in `missing` has none.
struct SupportRow {
  std::string id;
  SupportRole role = SupportRole::joist;
  Point from_in;
  Point to_in;
  double spacing_in = 0;
  int count = 0;
  std::optional<Runs> step;
  std::vector<int> missing;
  std::optional<SectionSize> size;
  Species species = Species::unknown;
  Grade grade = Grade::unknown;
  std::vector<double> rests_at_in;
  std::vector<SupportRest> rests;
  std::optional<SectionSize> post_size;
  std::optional<double> post_length_in;
  std::optional<bool> treated;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(SupportRow, (),
                      (id, role, from_in, to_in, spacing_in, count, step, missing, size, species, grade, rests_at_in, rests, post_size, post_length_in, treated,
                       note))

// A pipe, wire or duct in a bay, in the way of sisters and blocking.
struct Obstacle {
  std::string id;
  ObstacleKind kind = ObstacleKind::other;
  Point from_in;
  Point to_in;
  std::optional<double> diameter_in;
  std::optional<double> below_deck_in;  // from the underside of the deck down to its top
  std::optional<bool> can_move;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Obstacle, (), (id, kind, from_in, to_in, diameter_in, below_deck_in, can_move, note))

}  // namespace awlmark
