// The prior of the survey: which fields there are, how they hang together, what is expected before
// anyone looks. Knows nothing of the job document (job_model.hpp builds it), so that benches and
// outside checks can use the kernels alone.
//
// Nodes are the things that can be wet or rotten: each layer, each support (its top), each wall (its
// plate). Every node carries two latent fields over the plan, rot and wet. Rot above 0 is unsound,
// above the setting's `gap` it is gone. Wet above 0 is above the wet limit; one unit is
// kMoisturePerUnit points of moisture content.
#pragma once

#include <cstddef>
#include <vector>

#include "base/geometry.hpp"

namespace awlmark::survey {

enum Attribute : int { kRot = 0, kWet = 1 };

inline constexpr double kMoisturePerUnit_percent = 4.0;

struct Node {
  enum class Kind { layer, member, plate };
  Kind kind = Kind::layer;
  int index = 0;          // in the job's layers, supports or walls
  double depth = 0;       // steps from the top; neighbours differ by 1
  double degrees = 0;     // grain, counter-clockwise from x; a line's own direction
  bool grained = false;   // false: the two directions are alike
  double rot_offset = 0;  // added to the mean of rot: negative for what seldom rots
};

// How the wet field sits before anyone looks; follows whether water still comes.
struct Moments {
  double mean = 0;
  double sd = 1;
};

// Water runs along walls before it soaks in: one level of its own for all that lies along a line, so that a wet
// wall speaks for the whole of it, to its end.
struct Channel {
  Point from_in, to_in;
  double share = 1;  // of the water that may run there: less where the line lies off the source
};

struct Model {
  std::vector<Node> nodes;
  double shared_degrees = 0;  // frame of the term that all nodes share: the deck's grain
  bool shared_grained = false;
  std::vector<Point> sources;  // known places only
  std::vector<Channel> channels;
  double channel_width_in = 7;  // e-folding distance from the line
  double channel_rot_sd = 1.2;  // its mean is none: it moves nothing until something was read along it
  double channel_wet_sd = 1.2;
  double coupling = 0.6;  // correlation of rot and wet
  Moments rot_at_source{1.0, 1.8};
  Moments rot_far{-3.5, 0.4};
  Moments wet_at_source{0.5, 1.4};
  Moments wet_far{-1.8, 0.8};
  int fall_halves = 3;              // a source's influence falls as exp(-d^(fall_halves / 2)): 2, 3 or 4
  double node_sd = 0.5;             // each node's own level
  double depth_correlation = 0.92;  // of neighbours in depth, in the shared term
  double own_share = 0.25;          // of the amplitude's variance that each node has to itself
  double own_length = 1.5;          // the own term's length against the shared one
};

// One setting of the scales that ten marks cannot pin down; the survey averages over several.
struct Setting {
  double length_in = 18;   // across the grain
  double stretch = 2;      // along the grain against across
  double amplitude = 1.2;  // sd of the latent fields about their mean
  double reach_in = 30;    // e-folding distance of the source's influence, across the grain
  double gap = 1.0;        // from the soft cut to the gone cut
  double prior = 1;        // weight before evidence, not normalised
};

// A place in the latent fields.
struct Place {
  int node = 0;
  Attribute attribute = kRot;
  Point at_in;
};

}  // namespace awlmark::survey
