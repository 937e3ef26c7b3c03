// The job document, version 1, as structs. The keys are the contract: keys may be added, none
// renamed. Lengths are inches on one plan, x to the right, y up. Whatever is not known is left out;
// a stage then takes the safer branch and says so.
//
// Reading, writing, the JSON Schema and the page's types all follow from the descriptions below
// (base/doc.hpp); the rules that types cannot express stand in the rules and validate files beside them.
#pragma once

#include <boost/describe.hpp>
#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/described.hpp"
#include "base/geometry.hpp"
#include "job/house.hpp"
#include "job/plans.hpp"
#include "job/readings.hpp"
#include "job/structure.hpp"
#include "job/words.hpp"

namespace awlmark {

struct Job {
  std::string format = "awlmark-job";
  int version = 1;
  JobFacts job;
  std::optional<Claim> claim;
  std::vector<Visit> visits;
  std::optional<StateSettings> settings;
  Room room;
  std::vector<Layer> layers;
  std::vector<Wall> walls;
  std::vector<Support> supports;  // after reading those of `rows` stand behind them
  std::vector<SupportRow> rows;
  std::vector<Obstacle> in_bays;
  std::vector<Fixture> fixtures;
  std::vector<Source> sources;
  std::vector<Mark> marks;  // after reading those of `openings` stand behind them
  std::vector<Opening> openings;
  std::vector<Photo> photos;
  std::optional<JobHazards> hazards;
  std::optional<Rebuild> rebuild;
  std::optional<ShowerPlan> shower;
  std::optional<DryingLog> drying;
  std::optional<WorkPlan> work;
  std::optional<Rates> rates;
  std::optional<CutRules> cut_rules;
  std::vector<Decision> decisions;
  std::optional<ClosedJob> closed;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Job, (),
                      (format, version, job, claim, visits, settings, room, layers, walls, supports, rows, in_bays, fixtures, sources, marks, openings, photos,
                       hazards, rebuild, shower, drying, work, rates, cut_rules, decisions, closed, note))

// Ranges, limits and required keys of each struct (job_rules.cpp), found by base/doc.hpp.
doc::FieldRules field_rules(const JobFacts*);
doc::FieldRules field_rules(const Claim*);
doc::FieldRules field_rules(const Visit*);
doc::FieldRules field_rules(const StateSettings*);
doc::FieldRules field_rules(const Door*);
doc::FieldRules field_rules(const Room*);
doc::FieldRules field_rules(const Layer*);
doc::FieldRules field_rules(const Wall*);
doc::FieldRules field_rules(const MemberCut*);
doc::FieldRules field_rules(const SupportRest*);
doc::FieldRules field_rules(const Support*);
doc::FieldRules field_rules(const SupportRow*);
doc::FieldRules field_rules(const Obstacle*);
doc::FieldRules field_rules(const Fixture*);
doc::FieldRules field_rules(const Source*);
doc::FieldRules field_rules(const Mark*);
doc::FieldRules field_rules(const Opening*);
doc::FieldRules field_rules(const Photo*);
doc::FieldRules field_rules(const LaboratoryResult*);
doc::FieldRules field_rules(const HazardFacts*);
doc::FieldRules field_rules(const GateMet*);
doc::FieldRules field_rules(const JobHazards*);
doc::FieldRules field_rules(const TilePlan*);
doc::FieldRules field_rules(const Rebuild*);
doc::FieldRules field_rules(const DrainRun*);
doc::FieldRules field_rules(const ShowerPlan*);
doc::FieldRules field_rules(const DryingReading*);
doc::FieldRules field_rules(const DryingEquipment*);
doc::FieldRules field_rules(const DryingLog*);
doc::FieldRules field_rules(const Permit*);
doc::FieldRules field_rules(const WorkPlan*);
doc::FieldRules field_rules(const OwnPrice*);
doc::FieldRules field_rules(const OwnTask*);
doc::FieldRules field_rules(const Rates*);
doc::FieldRules field_rules(const CutRules*);
doc::FieldRules field_rules(const Decision*);
doc::FieldRules field_rules(const TaskTaken*);
doc::FieldRules field_rules(const GoodsTaken*);
doc::FieldRules field_rules(const ClosedJob*);
doc::FieldRules field_rules(const Job*);

// A mark may lie under a wall and at the edge of the framing, up to this far outside the outline.
inline constexpr double kMarkReach_in = 24;

// Reads, migrates and validates. Every problem at once; warnings carry the safe reading taken.
Outcome<Job> read_job(std::string_view text);
// The checks that go beyond types: ids, references, geometry, tools and readings.
void validate(const Job& job, Problems& problems, Problems& warnings);
// The same document with every member and every reading in its own place: rows become supports ROW.1,
// ROW.2, ...; readings of openings become marks; rests join rests_at_in in rising order. read_job returns
// jobs so expanded, so that `job.supports` and `job.marks` are all there are. Doing it again changes nothing.
void expand(Job& job);
// The document as it was written: without what expand() added.
Job as_written(const Job& job);
// JSON of the document as written: keys in the contract's order; empty lists and optionals left out.
doc::Json job_json(const Job& job);
// The same as text, two-space indent.
std::string write_job(const Job& job);
// JSON Schema 2020-12 of what is read, or (`written`) of what is written.
doc::Json job_schema(bool written);
// Job text that a person fills in: a `note` wherever someone must look.
std::string new_job_text();

// Where a mark lies on the plan: at_in; plank and tape_in counted out; or the place along its
// support or wall. Nothing when the document does not say (validation reports that).
std::optional<Point> place_of(const Job& job, const Mark& mark);

// Where the support rests, in rising order, with what is known of each: `rests` and the bare positions of
// rests_at_in (on: unknown) together; the member's own post where the rest does not say.
std::vector<SupportRest> rests_of(const Support& support);
// A laboratory's word on a part of this layer; nothing where it was not examined. Positive wins.
std::optional<LaboratoryWord> laboratory_of(const Job& job, const Layer& layer, LaboratoryPart part);

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
