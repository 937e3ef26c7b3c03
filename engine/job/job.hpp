// The job document, version 1, as structs. The keys are the contract: keys may be added, none
// renamed. Lengths are inches on one plan, x to the right, y up. Whatever is not known is left out;
// a stage then takes the safer branch and says so.
//
// Reading, writing, the JSON Schema and the page's types all follow from the descriptions below
// (base/doc.hpp); the rules that types cannot express stand in job_rules.cpp and validate.cpp.
#pragma once

#include <boost/describe.hpp>
#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/described.hpp"
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

struct JobFacts {
  std::string name;
  std::optional<int> year_built;
  Storey storey = Storey::unknown;
  Below below = Below::unknown;
  std::optional<double> indoor_temp_f;
  std::optional<double> indoor_rh_percent;
  PlumbingCode plumbing_code = PlumbingCode::irc;
  std::optional<bool> occupied;
  std::optional<bool> only_toilet;  // the household's only toilet stands in this room
  std::optional<std::string> owner;
  std::optional<std::string> address;
  std::optional<std::string> contractor;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(JobFacts, (),
                      (name, year_built, storey, below, indoor_temp_f, indoor_rh_percent, plumbing_code, occupied, only_toilet, owner, address, contractor,
                       note))

struct Door {
  std::string id;
  Point from_in;
  Point to_in;
  std::optional<double> meets_height_in;  // of the finish on the other side, above this room's deck
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Door, (), (id, from_in, to_in, meets_height_in, note))

struct Room {
  Polygon outline_in;
  std::vector<Door> doors;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Room, (), (outline_in, doors, note))

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
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Layer, (),
                      (id, material, thickness_in, installed_year, runs, face_width_in, species, grade, outline_in, absent_in, stays, goes, shown_asbestos_free,
                       note))

struct Wall {
  std::string id;
  Point from_in;
  Point to_in;
  std::optional<bool> bearing;
  StandsOn stands_on = StandsOn::unknown;
  std::optional<double> carries_plf;  // what comes down on it, dead and live, its own weight left out
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Wall, (), (id, from_in, to_in, bearing, stands_on, carries_plf, note))

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

struct Support {
  std::string id;
  SupportRole role = SupportRole::joist;
  Point from_in;
  Point to_in;
  std::optional<SectionSize> size;
  Species species = Species::unknown;
  Grade grade = Grade::unknown;
  std::vector<double> rests_at_in;       // positions along it, from `from_in`
  std::optional<SectionSize> post_size;  // of the posts under those rests
  std::optional<double> post_length_in;
  std::vector<MemberCut> cuts;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Support, (), (id, role, from_in, to_in, size, species, grade, rests_at_in, post_size, post_length_in, cuts, note))

struct Fixture {
  std::string id;
  FixtureKind kind = FixtureKind::other;
  Polygon outline_in;
  std::optional<double> lift_hours;
  bool stands = true;               // it still stands there and hides the floor
  std::optional<double> weight_lb;  // filled and in use
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Fixture, (), (id, kind, outline_in, lift_hours, stands, weight_lb, note))

struct Source {
  std::string id;
  std::optional<Point> at_in;  // left out when nobody knows where the water came from
  SourceKind kind = SourceKind::unknown;
  std::optional<int> water_category;
  Activity active = Activity::unknown;
  std::optional<std::string> stopped;  // date
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Source, (), (id, at_in, kind, water_category, active, stopped, note))

// One finding at one spot: on a layer (at_in or plank and tape_in), on a support or on a wall.
struct Mark {
  std::string id;
  std::optional<Point> at_in;
  std::optional<int> plank;       // counted from the wall at the low side, from 1
  std::optional<double> tape_in;  // along that plank from the wall
  std::optional<std::string> layer;
  std::optional<std::string> support;
  std::optional<std::string> wall;
  std::optional<double> along_in;  // along the support or wall
  std::optional<Face> face;
  std::optional<double> width_in;
  std::optional<WallPart> part;
  std::optional<double> height_in;
  std::optional<From> from;
  Tool tool = Tool::awl;
  std::optional<Reading> reads;
  std::optional<double> depth_in;
  std::optional<double> mc_percent;
  std::optional<double> wood_temp_f;
  std::optional<std::string> time;
  std::optional<std::string> by;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Mark, (),
                      (id, at_in, plank, tape_in, layer, support, wall, along_in, face, width_in, part, height_in, from, tool, reads, depth_in, mc_percent,
                       wood_temp_f, time, by, note))

struct Photo {
  std::string id;
  std::optional<std::string> sha256;
  std::optional<Point> at_in;
  std::optional<std::string> mark;
  std::optional<std::string> caption;
  std::optional<std::string> time;
};
BOOST_DESCRIBE_STRUCT(Photo, (), (id, sha256, at_in, mark, caption, time))

struct Rebuild {
  Finish finish = Finish::other;
  std::string option = "auto";
  std::optional<double> live_psf;
  std::optional<double> dead_psf;         // of the new floor, instead of the sum of its layers
  std::optional<double> deflection_over;  // stricter than the finish asks, when given
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Rebuild, (), (finish, option, live_psf, dead_psf, deflection_over, note))

struct Drain {
  DrainKind kind = DrainKind::point;
  std::optional<Point> at_in;
  std::optional<Point> from_in;
  std::optional<Point> to_in;
};
BOOST_DESCRIBE_STRUCT(Drain, (), (kind, at_in, from_in, to_in))

struct ShowerPlan {
  Polygon outline_in;
  Entry entry = Entry::curb;
  std::optional<Drain> drain;
  std::optional<double> least_fall_in_per_ft;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(ShowerPlan, (), (outline_in, entry, drain, least_fall_in_per_ft, note))

struct DryingReading {
  std::string id;
  std::string time;
  std::optional<std::string> layer;
  std::optional<std::string> support;
  std::optional<Point> at_in;
  std::optional<double> mc_percent;
  std::optional<double> wood_temp_f;
  std::optional<double> air_temp_f;
  std::optional<double> air_rh_percent;
};
BOOST_DESCRIBE_STRUCT(DryingReading, (), (id, time, layer, support, at_in, mc_percent, wood_temp_f, air_temp_f, air_rh_percent))

struct DryingLog {
  std::vector<DryingReading> readings;
};
BOOST_DESCRIBE_STRUCT(DryingLog, (), (readings))

struct WorkPlan {
  std::optional<std::string> start;  // date, 2026-05-11
  std::optional<int> crew;
  std::optional<double> hours_per_day;
};
BOOST_DESCRIBE_STRUCT(WorkPlan, (), (start, crew, hours_per_day))

// The job's own answers to what leaving, tearing out and opening cost, and the contractor's rates.
// What is left out follows from data/rates.csv.
struct Rates {
  std::optional<double> leave_unsound_per_sf;
  std::optional<double> tear_out_sound_per_sf;
  std::optional<double> opening;
  std::optional<double> labour_per_hour;
  std::optional<double> overhead_percent;
  std::optional<double> profit_percent;
  std::optional<double> material_scale;  // 1 is the table's prices
};
BOOST_DESCRIBE_STRUCT(Rates, (), (leave_unsound_per_sf, tear_out_sound_per_sf, opening, labour_per_hour, overhead_percent, profit_percent, material_scale))

// Rules of the cut-back that a contractor may switch off; each is on when left out.
struct CutRules {
  std::optional<double> margin_in;  // beyond the last unsound reading
  std::optional<bool> ends_on_support;
  std::optional<bool> two_supports;
  std::optional<bool> stagger;
  std::optional<bool> no_slivers;
  std::optional<bool> spare_bearing_walls;
  std::optional<bool> contaminated_goes;
};
BOOST_DESCRIBE_STRUCT(CutRules, (), (margin_in, ends_on_support, two_supports, stagger, no_slivers, spare_bearing_walls, contaminated_goes))

struct Job {
  std::string format = "awlmark-job";
  int version = 1;
  JobFacts job;
  Room room;
  std::vector<Layer> layers;
  std::vector<Wall> walls;
  std::vector<Support> supports;
  std::vector<Fixture> fixtures;
  std::vector<Source> sources;
  std::vector<Mark> marks;
  std::vector<Photo> photos;
  std::optional<Rebuild> rebuild;
  std::optional<ShowerPlan> shower;
  std::optional<DryingLog> drying;
  std::optional<WorkPlan> work;
  std::optional<Rates> rates;
  std::optional<CutRules> cut_rules;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Job, (),
                      (format, version, job, room, layers, walls, supports, fixtures, sources, marks, photos, rebuild, shower, drying, work, rates, cut_rules,
                       note))

// Ranges, limits and required keys of each struct (job_rules.cpp), found by base/doc.hpp.
doc::FieldRules field_rules(const JobFacts*);
doc::FieldRules field_rules(const Door*);
doc::FieldRules field_rules(const Room*);
doc::FieldRules field_rules(const Layer*);
doc::FieldRules field_rules(const Wall*);
doc::FieldRules field_rules(const MemberCut*);
doc::FieldRules field_rules(const Support*);
doc::FieldRules field_rules(const Fixture*);
doc::FieldRules field_rules(const Source*);
doc::FieldRules field_rules(const Mark*);
doc::FieldRules field_rules(const Photo*);
doc::FieldRules field_rules(const Rebuild*);
doc::FieldRules field_rules(const ShowerPlan*);
doc::FieldRules field_rules(const DryingReading*);
doc::FieldRules field_rules(const DryingLog*);
doc::FieldRules field_rules(const WorkPlan*);
doc::FieldRules field_rules(const Rates*);
doc::FieldRules field_rules(const CutRules*);
doc::FieldRules field_rules(const Job*);

// A mark may lie under a wall and at the edge of the framing, up to this far outside the outline.
inline constexpr double kMarkReach_in = 24;

// Reads, migrates and validates. Every problem at once; warnings carry the safe reading taken.
Outcome<Job> read_job(std::string_view text);
// The checks that go beyond types: ids, references, geometry, tools and readings.
void validate(const Job& job, Problems& problems, Problems& warnings);
// JSON text, two-space indent, keys in the contract's order; empty lists and optionals left out.
std::string write_job(const Job& job);
// JSON Schema 2020-12 of what is read, or (`written`) of what is written.
doc::Json job_schema(bool written);
// Job text that a person fills in: a `note` wherever someone must look.
std::string new_job_text();

// Where a mark lies on the plan: at_in; plank and tape_in counted out; or the place along its
// support or wall. Nothing when the document does not say (validation reports that).
std::optional<Point> place_of(const Job& job, const Mark& mark);

const Layer* find_layer(const Job& job, const std::string& id);
const Support* find_support(const Job& job, const std::string& id);
const Wall* find_wall(const Job& job, const std::string& id);
// The structural deck: the lowest layer of board, plank, plywood or OSB; nothing when there is none.
const Layer* structural_deck(const Job& job);
// Whether this support carries the deck: joists do; where there are none, girders and all else.
bool carries_deck(const Job& job, const Support& support);
// Which way the supports that carry the deck run, degrees counter-clockwise from x, 0 up to 180: the
// way that most of their length runs, the first in the document where two are alike; nothing without supports.
std::optional<double> supports_run_degrees(const Job& job);
bool is_boards(const Layer& layer);  // boards or planks
// Which way boards run, or the strong way of a sheet: as the job says, else across the supports that
// carry the deck, else along x and not known. The one rule of the engine.
struct LayerRuns {
  double degrees = 0;  // 0 up to 180
  bool said = false;   // the job says so
  bool known = false;  // said, or taken from the supports
};
LayerRuns layer_runs(const Job& job, const Layer& layer);
// Width of a board's face as given, else the material's usual one.
double board_width_in(const Layer& layer);
// Thickness as given, else the material's usual one from the tables.
double thickness_in(const Layer& layer);
// Whether the layer covers this point (its outline, less where it is absent).
bool covers(const Job& job, const Layer& layer, Point p);

}  // namespace awlmark

namespace awlmark::doc {
template <>
struct Custom<Runs> {
  static void read(const Json& json, const std::string& at, Runs& value, Problems& problems);
  static Json write(const Runs& value);
  static Json schema(SchemaBuilder& builder);
};
template <>
struct Custom<SectionSize> {
  static void read(const Json& json, const std::string& at, SectionSize& value, Problems& problems);
  static Json write(const SectionSize& value);
  static Json schema(SchemaBuilder& builder);
};
template <>
struct Custom<Activity> {
  static void read(const Json& json, const std::string& at, Activity& value, Problems& problems);
  static Json write(const Activity& value);
  static Json schema(SchemaBuilder& builder);
};
}  // namespace awlmark::doc
