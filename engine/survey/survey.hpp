// Survey: marks -> condition field -> where to open next.
//
// In: a valid job (read_job). Out: for every layer and cell the chance of unsound, gone and wet
// wood; the same along supports and walls; the unsound area as percentiles; sound lines; the openings
// worth most; and joint posterior draws for the stages that follow.
//
// Guarantees: (1) the same job, options and seed give the same findings on every target; (2) a job
// without marks, species, rates or a known source is still answered, from the prior; (3) a 'sound'
// mark never raises the chance of rot at its own spot. Not promised: marginal chances are not a
// joint region; where a paper says "19 chances in 20", take `sound_lines`, which come from the draws.
// Method and sources: docs/survey.md.
#pragma once

#include <boost/describe.hpp>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/geometry.hpp"
#include "base/problem.hpp"
#include "hazards/hazards.hpp"
#include "job/job.hpp"
#include "plan/turn.hpp"

namespace awlmark::survey {

// Cells over the bounding box of the room, row by row from the low y; cell (i, j) has its centre at
// origin + ((i + 0.5) cell, (j + 0.5) cell).
struct GridFindings {
  double cell_in = 3;
  int nx = 0;
  int ny = 0;
  Point origin_in;
};
BOOST_DESCRIBE_STRUCT(GridFindings, (), (cell_in, nx, ny, origin_in))

// NaN (null in JSON) outside the room and where the layer is absent.
struct LayerField {
  std::string layer;
  std::vector<double> p_unsound;
  std::vector<double> p_gone;
  std::vector<double> p_wet;
};
BOOST_DESCRIBE_STRUCT(LayerField, (), (layer, p_unsound, p_gone, p_wet))
doc::FieldRules field_rules(const LayerField*);

// The same along a support or a wall, at stations measured from its `from_in`.
struct LineField {
  std::string id;
  std::string part;  // "top" of a support; "plate" of a wall
  std::vector<double> along_in;
  std::vector<double> p_unsound;
  std::vector<double> p_gone;
  std::vector<double> p_wet;
};
BOOST_DESCRIBE_STRUCT(LineField, (), (id, part, along_in, p_unsound, p_gone, p_wet))

struct Range {
  double p10 = 0;
  double p50 = 0;
  double p90 = 0;
};
BOOST_DESCRIBE_STRUCT(Range, (), (p10, p50, p90))

// What a proposal asks for: an opening through the layers; the same spot once more because a lone
// reading is doubted; a look or a probe that goes through no layer; a sweep with a meter that does not
// pierce; a sample for the laboratory; a floor that goes anyway taken up, then the bare deck read.
enum class Act { open, probe_again, look, sweep, sample, strip };
BOOST_DESCRIBE_ENUM(Act, open, probe_again, look, sweep, sample, strip)
enum class Vantage { above, below, side };
BOOST_DESCRIBE_ENUM(Vantage, above, below, side)

// No act but the sample pierces a layer presumed to hold asbestos (hazards::Hazards::presumed_layers).
struct NextOpening {
  Point at_in;
  double worth = 0;  // expected saving from looking there, in money, before its cost
  double cost = 0;
  double net = 0;                      // worth - cost
  std::string why;                     // one sentence
  std::optional<std::string> lifts;    // fixture that has to be lifted
  std::optional<std::string> support;  // when the question is along a member
  std::optional<std::string> wall;     // when the question is under a wall
  std::vector<Point> probes_in;        // the spots that it reads, `at_in` among them
  Act act = Act::open;
  Vantage from = Vantage::above;
  std::vector<std::string> pierces;  // ids of the layers that it goes through, from the top down
  std::vector<std::string> gates;    // ids of what must be true before it
};
BOOST_DESCRIBE_STRUCT(NextOpening, (), (at_in, worth, cost, net, why, lifts, support, wall, probes_in, act, from, pierces, gates))

// The least region outside which less than `outside_sf` is unsound at this joint confidence, from draws.
struct SoundLine {
  std::string layer;
  double confidence = 0.95;
  std::vector<Polygon> rings_in;
  double inside_sf = 0;
  std::string words;      // "Outside this line less than 1 sq ft is unsound, 19 chances in 20."
  double outside_sf = 0;  // less unsound wood than this lies outside, at the confidence
};
BOOST_DESCRIBE_STRUCT(SoundLine, (), (layer, confidence, rings_in, inside_sf, words, outside_sf))

// What the newest marked spot did to the unsound area.
struct LastChange {
  std::vector<std::string> marks;
  std::map<std::string, Range> before_sf;
  std::map<std::string, Range> after_sf;
  std::string words;
};
BOOST_DESCRIBE_STRUCT(LastChange, (), (marks, before_sf, after_sf, words))

// How the inference went.
struct Inference {
  bool converged = true;
  int sweeps = 0;
  double largest_step = 0;
  int settings_averaged = 0;
  double log_evidence = 0;
  std::vector<std::string> notes;  // safer branches taken, contradictions between marks
};
BOOST_DESCRIBE_STRUCT(Inference, (), (converged, sweeps, largest_step, settings_averaged, log_evidence, notes))

struct Survey {
  GridFindings grid;
  std::vector<LayerField> layers;
  std::vector<LineField> supports;
  std::vector<LineField> walls;
  std::map<std::string, Range> unsound_sf;
  std::vector<SoundLine> sound_lines;
  std::vector<NextOpening> next_openings;
  bool stop = false;
  std::string stop_why;
  double expected_loss = 0;  // of deciding now, in money
  std::optional<LastChange> last_change;
  Inference inference;
  std::vector<std::string> words;  // the findings in plain sentences
  std::vector<std::string> holds;  // what must be read before work starts
};
BOOST_DESCRIBE_STRUCT(Survey, (),
                      (grid, layers, supports, walls, unsound_sf, sound_lines, next_openings, stop, stop_why, expected_loss, last_change, inference, words,
                       holds))

enum Degree : std::uint8_t { kSound = 0, kSoft = 1, kGone = 2 };

// Joint draws of the degree of decay. degree[draw * cells + cell]; cells as in the grid (value
// kSound outside the room and where the layer is absent), stations as in the line fields.
struct FieldDraws {
  struct OfLayer {
    std::string layer;
    std::vector<std::uint8_t> degree;
  };
  struct OfLine {
    std::string id;
    std::vector<double> along_in;
    std::vector<std::uint8_t> degree;
  };
  int count = 0;
  GridFindings grid;
  std::vector<OfLayer> layers;
  std::vector<OfLine> supports;
  std::vector<OfLine> walls;
};

struct Options {
  double cell_in = 3;  // 1 to 12
  int draws = 1000;    // 0 to 20000
  std::uint64_t seed = 1954;
  int openings = 3;         // how many to propose; 0 skips the search
  bool last_change = true;  // work out what the newest spot changed
  // From the drawing to the frame in which the job stands: words speak of the drawing. None: as drawn.
  std::optional<plan::Turn> turn;
};

struct Result {
  Survey findings;
  FieldDraws draws;
};

// `hazards` says what may not be pierced and what is due before an act (hazards::hazards of the same job).
Result survey(const Job& job, const hazards::Hazards& hazards, const Options& options = {});
// The same, with the hazards that follow from the job alone.
Result survey(const Job& job, const Options& options = {});

// "3' 2" from wall w4 and 4' 1" from wall w1": a place as one tapes it off, by the walls' names where the
// job names the wall at that side, else the left and the front wall. The one way in which a place is said.
std::string place_in_words(const Job& job, const std::optional<plan::Turn>& turn, Point at_in);

// Warnings about this job's marks that the survey answered with a safe reading (contradictions,
// marks under a standing fixture, readings past the meter's range).
Problems warnings(const Job& job);

}  // namespace awlmark::survey
