// What was read at the floor: marks, openings, photographs, and what is known of hazards.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/geometry.hpp"
#include "job/words.hpp"

namespace awlmark {

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
  std::optional<bool> pinless;  // of a meter
  std::optional<std::string> note;
  // Not of the document: the opening that this reading was taken in (see expand()).
  std::string from_opening;
};
BOOST_DESCRIBE_STRUCT(Mark, (),
                      (id, at_in, plank, tape_in, layer, support, wall, along_in, face, width_in, part, height_in, from, tool, reads, depth_in, mc_percent,
                       wood_temp_f, time, by, pinless, note))

// One opening with what was read in it, layer by layer, on members and on walls. A reading that does not
// say where, when, by whom or from which side it was taken has the opening's.
struct Opening {
  std::string id;
  Point at_in;
  std::vector<Point> probes_in;
  Act act = Act::open;
  std::optional<From> from;
  std::optional<std::string> by;
  std::optional<std::string> time;
  std::vector<std::string> photos;  // ids
  std::vector<Mark> readings;
  std::optional<bool> closed;  // made safe again
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(Opening, (), (id, at_in, probes_in, act, from, by, time, photos, readings, closed, note))

struct Photo {
  std::string id;
  std::optional<std::string> sha256;
  std::optional<Point> at_in;
  std::optional<std::string> mark;
  std::optional<std::string> opening;
  std::optional<std::string> caption;
  std::optional<std::string> time;
};
BOOST_DESCRIBE_STRUCT(Photo, (), (id, sha256, at_in, mark, opening, caption, time))

// A laboratory's word on one layer or one wall. Without `part` the sample went through the layer with its
// backing and its adhesive (of a wall: through board, compound and texture).
struct LaboratoryResult {
  std::optional<std::string> id;
  std::optional<std::string> layer;
  std::optional<std::string> wall;
  LaboratoryWord result = LaboratoryWord::positive;
  std::optional<LaboratoryPart> part;
  std::optional<std::string> by;
  std::optional<std::string> date;
  std::optional<std::string> report;
};
BOOST_DESCRIBE_STRUCT(LaboratoryResult, (), (id, layer, wall, result, part, by, date, report))

struct HazardFacts {
  std::optional<LaboratoryWord> paint_tested;  // for lead
  std::optional<double> painted_sf;            // old paint that will be disturbed in this room
  std::optional<bool> demolishes_paint;        // painted parts are pulled or broken, whatever their area
  std::optional<double> growth_sf;             // as measured
  std::optional<double> hours_wet;
  std::optional<bool> gas;     // a gas line or appliance is near
  std::optional<bool> sewage;  // the water carried sewage
  std::optional<bool> paid;    // done for pay
  std::optional<bool> cuts_tile;
  std::vector<LaboratoryResult> laboratory;
};
BOOST_DESCRIBE_STRUCT(HazardFacts, (), (paint_tested, painted_sf, demolishes_paint, growth_sf, hours_wet, gas, sewage, paid, cuts_tile, laboratory))

// A gate that somebody has seen to.
struct GateMet {
  std::string gate;
  std::string by;
  std::string time;
  std::optional<std::string> evidence;
};
BOOST_DESCRIBE_STRUCT(GateMet, (), (gate, by, time, evidence))

struct JobHazards {
  HazardFacts facts;
  std::vector<GateMet> met;
};
BOOST_DESCRIBE_STRUCT(JobHazards, (), (facts, met))

}  // namespace awlmark
