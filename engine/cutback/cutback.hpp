// Cut back: condition field -> what to take out, cut where, and why.
//
// In two steps. First the extent: what has to come out, whatever is built back (Extent::needed). Then,
// when a way to rebuild is chosen, the lines of that way (Extent::lines, chosen): what the way takes
// out in any case is not cut around, and nothing is laid back there plank by plank.
// In: the plan, the survey with its draws, and the layers that go whatever their strength. Out: the
// pieces to take out, the edges of the cut by kind, the blocking to add, and the same quantities for
// every draw. Guarantees: (1) the plan before tidying is an exact minimum of expected cost over all
// layers at once; (2) known structural decay (soft or gone marks) always goes; (3) each layer's
// removal lies inside what is removed above it; (4) every edge has a reason; (5) each tidying rule
// names what it changed and what that costs. Method: docs/cutback.md.
#pragma once

#include <boost/describe.hpp>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/geometry.hpp"
#include "base/reason.hpp"
#include "job/job.hpp"
#include "measure/measure.hpp"
#include "plan/plan.hpp"
#include "survey/survey.hpp"

namespace awlmark::cutback {

// One thing that comes out or stays whole: a plank between two supports, a sheet cell, a run of
// bottom plate, a strip of wallboard.
struct Piece {
  std::string id;     // "deck.7.2": layer, plank from the wall, bay
  std::string layer;  // layer id, or "wall:" and the wall's id
  std::string kind;   // "plank", "panel", "plate", "wallboard", "flooring"
  Polygon outline_in;
  int plank = 0;         // counted from the wall at the low side, from 1; 0 when not a plank
  double p_unsound = 0;  // from the draws, joint over the piece
  bool out = false;
  bool known_decay = false;
  bool by_way = false;  // the way to rebuild takes it, whatever its strength: what goes back there is the way's own
  // Not written: the plank in the plan's own count from 0 (-1 when not a plank), and where the piece lies
  // along its board, from the wall where the layer's frame begins.
  int row = -1;
  double from_in = 0;
  double to_in = 0;
  double area_sf = 0;     // on the plan; a strip of wallboard: of its face
  double unsound_sf = 0;  // expected, from the draws
  std::string why;        // why it goes, or why it stays
};
BOOST_DESCRIBE_STRUCT(Piece, (), (id, layer, kind, outline_in, plank, p_unsound, out, known_decay, by_way, area_sf, unsound_sf, why))

enum class EdgeKind { rip, cross_on_support, cross_in_air, at_wall, seam };
BOOST_DESCRIBE_ENUM(EdgeKind, rip, cross_on_support, cross_in_air, at_wall, seam)

struct Edge {
  std::string layer;
  EdgeKind kind = EdgeKind::rip;
  Point from_in;
  Point to_in;
  double length_in = 0;
  std::string support;  // id of the support it lands on, when it does
  std::string why;
};
BOOST_DESCRIBE_STRUCT(Edge, (), (layer, kind, from_in, to_in, length_in, support, why))

struct Blocking {
  std::string id;
  Point from_in;
  Point to_in;
  double length_in = 0;
  std::string why;
};
BOOST_DESCRIBE_STRUCT(Blocking, (), (id, from_in, to_in, length_in, why))

// What a rule of the trade changed after the minimum cut, and what that costs.
struct RuleEffect {
  std::string rule;  // "margin", "ends_on_support", "two_supports", "stagger", "no_slivers", ...
  bool on = true;
  int pieces_changed = 0;
  double added_cost = 0;
  std::string words;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(RuleEffect, (), (rule, on, pieces_changed, added_cost, words, reason))

// A member whose decay is known or likely: where along it, how deep, what is left.
struct MemberDecay {
  std::string support;
  double from_in = 0;
  double to_in = 0;
  double depth_in = 0;
  std::optional<double> width_in;
  Face face = Face::top;
  double p_unsound = 1;
  bool known = true;
  std::string why;
};
BOOST_DESCRIBE_STRUCT(MemberDecay, (), (support, from_in, to_in, depth_in, width_in, face, p_unsound, known, why))

struct CutBack {
  std::vector<Piece> pieces;
  std::map<std::string, double> area_sf;                    // removed, by layer
  std::map<std::string, std::vector<Polygon>> outlines_in;  // merged removed area, by layer
  std::vector<Edge> edges;
  std::vector<Blocking> blocking;
  std::vector<RuleEffect> rules;
  std::vector<MemberDecay> members;
  std::map<std::string, double> plate_ft;      // bottom plate taken out, by wall
  std::map<std::string, double> wallboard_sf;  // wallboard cut off, by wall
  double expected_loss_left = 0;               // money
  double cost = 0;                             // of the plan, money: tear-out, edges, blocking
  // Of the minimum cut before any rule, tear-out, edges and loss left together: the lower bound, so
  // that cost + expected_loss_left >= least_cost always.
  double least_cost = 0;
  measure::Quantities quantities;  // of all of it, by the one measure
  std::vector<std::string> notes;
  std::vector<std::string> words;
};
BOOST_DESCRIBE_STRUCT(CutBack, (),
                      (pieces, area_sf, outlines_in, edges, blocking, rules, members, plate_ft, wallboard_sf, expected_loss_left, cost, least_cost, quantities,
                       notes, words))

struct Result {
  CutBack findings;
  // What each draw takes out once the planned cut-back is made and opening up has shown the rest; in
  // the draws' order, never less than the plan, measured as the plan is.
  std::vector<measure::Quantities> draws;
};

// What a way to rebuild takes out of a layer, whatever its strength.
struct Taken {
  plan::LayerIx layer;
  bool whole = false;                // all of it
  std::vector<Polygon> outlines_in;  // else inside these
};

// In the frame of the plan; numbers of planks and tapes are those of the drawing. Keeps references to
// the plan and the survey: both have to outlive it.
class Extent {
 public:
  Extent(const plan::Plan& plan, const survey::Result& survey, std::vector<std::string> contaminated_layers);

  // What has to come out, with the lines for a floor that is mended and takes no more than that.
  const CutBack& needed() const { return needed_; }
  // The same floor with the lines of a way that takes more.
  CutBack lines(const std::vector<Taken>& taken) const;
  // The lines of the way chosen, with the quantities of every draw.
  Result chosen(const std::vector<Taken>& taken) const;

 private:
  Result work_out(const std::vector<Taken>& taken, bool draws) const;

  const plan::Plan& plan_;
  const survey::Result& survey_;
  std::vector<std::string> contaminated_;
  CutBack needed_;
};

// Extent and lines at once, for a floor that is mended and takes no more than it has to.
Result cut_back(const plan::Plan& plan, const survey::Result& survey, const std::vector<std::string>& contaminated_layers);

}  // namespace awlmark::cutback
