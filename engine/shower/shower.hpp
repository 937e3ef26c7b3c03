// Shower: a floor that drains, meets the room and passes its tests.
//
// In: the job (with its shower), and the floor's chosen way when there is one. Out: every height from
// the old framing's top to the finish, solved for the build-up with the least step; the pan's planes,
// heights and volume; the drain run through the framing; wet area, flood test, tile layout,
// clearances; and plainly what cannot all be had together, with places that can.
//
// Heights are inches above the top of the old framing, down is negative; the parts of a stack add up
// to its top. Geometry is that of shower/pan.hpp; a line drain within 4 in. of a wall that it runs
// along counts as that wall's, and one within 6 in. of the walls at its ends runs from wall to wall.
// What the job does not say (where the vent is, which tile) is taken and said in `assumed`.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/geometry.hpp"
#include "base/problem.hpp"
#include "base/reason.hpp"
#include "floor/floor.hpp"
#include "job/job.hpp"

namespace awlmark::shower {

struct StackPart {
  std::string what;
  double thickness_in = 0;  // negative where the deck lies lower
};
BOOST_DESCRIBE_STRUCT(StackPart, (), (what, thickness_in))

struct HeightStack {
  std::string at;  // "door", "room", "shower_edge", "drain"
  std::vector<StackPart> parts;
  double top_in = 0;  // above the old framing's top: the sum of the parts
};
BOOST_DESCRIBE_STRUCT(HeightStack, (), (at, parts, top_in))

// One build-up that can be bought and built.
struct ShowerAnswer {
  std::string id;               // "dropped_bay", "between_supports", "raised_room", "curb", "step"
  std::string how;              // in words
  double step_at_door_in = 0;   // finish here above the finish beyond the door
  double step_at_entry_in = 0;  // shower edge (or curb) above the room
  double drop_in = 0;           // of the shower's deck below the room's old deck
  double bed_at_drain_in = 0;
  bool as_asked = false;       // gives the entry that the job asks for
  bool floor_checked = false;  // the floor stage checked this way of carrying it
  bool needs_engineer = false;
  std::string strength;        // what the floor says of it
  floor::Hours extra_hours;    // over a shower on the deck as it lies
  std::string door_threshold;  // what the change of level at the door asks for
  double flange_up_in = 0;     // a closet flange rises by this to stand on the new finish; negative: it comes down
  std::string flange;          // what that asks for
  std::vector<HeightStack> stacks;
  std::vector<Check> checks;  // of what this stage adds: the panel between the supports
};
BOOST_DESCRIBE_STRUCT(ShowerAnswer, (),
                      (id, how, step_at_door_in, step_at_entry_in, drop_in, bed_at_drain_in, as_asked, floor_checked, needs_engineer, strength, extra_hours,
                       door_threshold, flange_up_in, flange, stacks, checks))

struct ContourLine {
  double height_in = 0;  // above the drain
  std::vector<Polygon> lines_in;
};
BOOST_DESCRIBE_STRUCT(ContourLine, (), (height_in, lines_in))

struct NamedHeight {
  std::string at;  // "corner 1", "entry, middle", "drain"
  Point at_in;
  double above_drain_in = 0;  // of the finished floor
  double bed_in = 0;          // thickness of the bed there: what the screed is set to
};
BOOST_DESCRIBE_STRUCT(NamedHeight, (), (at, at_in, above_drain_in, bed_in))

struct PanFacet {
  Polygon outline_in;
  double slope_in_per_ft = 0;
  Point falls_toward;
};
BOOST_DESCRIBE_STRUCT(PanFacet, (), (outline_in, slope_in_per_ft, falls_toward))

struct PanFindings {
  double edge_height_in = 0;
  double steepest_in_per_ft = 0;
  double flattest_in_per_ft = 0;
  double longest_run_in = 0;
  double area_sf = 0;
  double bed_at_drain_in = 0;
  double bed_volume_ft3 = 0;  // of the bed as built, the take-off's
  Point drain_from_in, drain_to_in;
  std::vector<PanFacet> planes;
  std::vector<Polygon> valleys_in;
  std::vector<ContourLine> contours;
  std::vector<NamedHeight> heights;
};
BOOST_DESCRIBE_STRUCT(PanFindings, (),
                      (edge_height_in, steepest_in_per_ft, flattest_in_per_ft, longest_run_in, area_sf, bed_at_drain_in, bed_volume_ft3, drain_from_in,
                       drain_to_in, planes, valleys_in, contours, heights))

struct DrainCrossing {
  std::string member;
  Point at_in;
  double hole_in = 0;
  double from_top_in = 0;  // member's top to the hole's upper edge
  bool ok = false;
  std::string why;
};
BOOST_DESCRIBE_STRUCT(DrainCrossing, (), (member, at_in, hole_in, from_top_in, ok, why))

struct DrainRunFound {
  bool ok = false;
  double pipe_in = 2;
  std::string how;             // "in the bay", "through the members", "below the framing"
  std::vector<Point> path_in;  // weir to vent on the plan
  double length_ft = 0;        // developed, weir to vent
  double fall_in_per_ft = 0.25;
  double total_fall_in = 0;
  double longest_ft = 0;    // that the code allows at this fall
  double drain_top_in = 0;  // heights, above the old framing's top
  double weir_in = 0;       // middle of the arm at the weir
  double vent_in = 0;       // middle of the arm at the vent
  double trap_bottom_in = 0;
  std::vector<DrainCrossing> crosses;
  std::vector<std::string> passes_under;
  std::vector<std::string> why;  // empty when ok
  std::string another_way;       // where it is not
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(DrainRunFound, (),
                      (ok, pipe_in, how, path_in, length_ft, fall_in_per_ft, total_fall_in, longest_ft, drain_top_in, weir_in, vent_in, trap_bottom_in, crosses,
                       passes_under, why, another_way, reason))

struct FloodTest {
  double depth_in = 0;  // at the threshold
  double volume_gal = 0;
  double weight_lb = 0;
  double mean_load_psf = 0;
  double hours = 0;  // the longer of the two below
  double legal_hours = 0;
  double trade_hours = 0;
  double dam_length_in = 0;  // 0 where a curb holds the water
  double dam_height_in = 0;
  Check check;  // water against the floor's live load
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(FloodTest, (),
                      (depth_in, volume_gal, weight_lb, mean_load_psf, hours, legal_hours, trade_hours, dam_length_in, dam_height_in, check, reason))

struct WetArea {
  double floor_sf = 0;
  double band_sf = 0;     // past an entry without a curb
  double turn_up_sf = 0;  // up the walls
  double total_sf = 0;    // without laps
  double wall_height_in = 0;
  double wall_sf = 0;  // of wall that must not take up water
  std::vector<Polygon> band_in;
  std::vector<Reason> reasons;
};
BOOST_DESCRIBE_STRUCT(WetArea, (), (floor_sf, band_sf, turn_up_sf, total_sf, wall_height_in, wall_sf, band_in, reasons))

struct TileLayout {
  std::string where;  // "room", "pan"
  double tile_length_in = 0, tile_width_in = 0, joint_in = 0;
  Point start_in;    // a corner of one whole tile
  std::string rule;  // "centred on the room", "from the line through 12, 40"
  int whole = 0, cut = 0;
  int tiles = 0;                             // whole and cut, offcuts not used twice
  double bought_sf = 0;                      // of those tiles, joints counted
  double least_cut_in = 0;                   // narrowest cut along walls and edges that run with the tile
  std::string sliver;                        // where a cut is narrower than a third of the tile, and what would mend it; empty where none is
  std::vector<Polygon> joints_in;            // movement joints across the field, each two points
  std::vector<std::string> movement_joints;  // in words, those along the walls first
};
BOOST_DESCRIBE_STRUCT(TileLayout, (),
                      (where, tile_length_in, tile_width_in, joint_in, start_in, rule, whole, cut, tiles, bought_sf, least_cut_in, sliver, joints_in,
                       movement_joints))

struct Shower {
  std::vector<ShowerAnswer> answers;  // best first
  std::string chosen;                 // an answer's id
  std::optional<PanFindings> pan;     // absent where the outline cannot drain
  std::optional<DrainRunFound> drain_run;
  std::optional<FloodTest> flood_test;
  std::optional<WetArea> wet_area;
  std::vector<TileLayout> tile_layouts;
  std::vector<Polygon> entry_in;  // each two points: the open side
  std::vector<Check> checks;      // falls, size, opening, clear floor, thresholds
  std::vector<std::string> blocking;
  std::vector<std::string> conflicts;
  std::vector<std::string> assumed;
  std::vector<std::string> asks;  // to be measured or asked; each names its key in the job
  std::vector<std::string> cautions;
};
BOOST_DESCRIBE_STRUCT(Shower, (),
                      (answers, chosen, pan, drain_run, flood_test, wet_area, tile_layouts, entry_in, checks, blocking, conflicts, assumed, asks, cautions))

// The job must have a shower. `floor` may be null: then nothing is known of the framing's ways.
Shower shower(const Job& job, const floor::Floor* floor);
// What the document gives that cannot be built, each with its place: a drain outside the pan, a
// shower smaller than the code, a fall that nobody can stand on.
Problems warnings(const Job& job);

}  // namespace awlmark::shower
