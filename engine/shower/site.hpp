// The shower's place on the plan, read once: outline, open side, drain as a pan question. Private.
#pragma once

#include "shower/pan.hpp"
#include "shower/shower.hpp"

namespace awlmark::shower {

inline Point between(Point a, Point b, double t) { return {a.x_in + (b.x_in - a.x_in) * t, a.y_in + (b.y_in - a.y_in) * t}; }

struct Side {
  Point from, to;
  bool open = false;
  double length_in() const { return distance_in(from, to); }
};

struct Place {
  const Job& job;
  const ShowerPlan& plan;
  Polygon ring;             // counter-clockwise
  std::vector<Side> sides;  // of the ring
  PanQuestion question;     // outline is the part that falls, drain as laid
  double strip_in2 = 0;     // level strip behind a line drain at a wall
  double least_fall = 0.25;
  std::optional<Pan> pan;  // with no bed
  Problems problems;       // why there is no pan
  std::vector<std::string> assumed, asks;
  double entry_low_in = 0, entry_high_in = 0;  // pan's heights along the open side
  double height_in(Point p) const;             // of the pan; 0 at and behind the drain
  double open_length_in() const;
  double entry_length_in() const;  // the longest straight open side
};

Place place_of(const Job& job);
// The floor outside a side of the ring, to this depth.
Polygon strip(const Side& side, double depth_in);

// data/shower_rules.csv and data/shower_build.csv.
double rule(const std::string& id, PlumbingCode code = PlumbingCode::irc);
Reason rule_reason(const std::string& id, PlumbingCode code = PlumbingCode::irc);
double usual_in(const std::string& id);
std::string spoken(const std::string& id);

std::vector<ShowerAnswer> answers(const Place& place, const floor::Floor* floor, Shower& found);
PanFindings pan_findings(const Place& place, double bed_at_drain_in);
DrainRunFound drain_run(const Place& place, const floor::Floor* floor, const ShowerAnswer* answer, Shower& found);
FloodTest flood_test(const Place& place);
WetArea wet_area(const Place& place);
void clearances(const Place& place, Shower& found);
void accessible_step(const Place& place, const ShowerAnswer& answer, Shower& found);
void fall_conflicts(const Place& place, Shower& found);
std::vector<TileLayout> tile_layouts(const Place& place, Shower& found);

}  // namespace awlmark::shower
