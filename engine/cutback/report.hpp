// From the plan to what people read: pieces, merged outlines, edges, blocking, members, words, and
// the quantities of every draw. Internal to the room.
#pragma once

#include "cutback/plan.hpp"

namespace awlmark::cutback {

std::vector<Piece> pieces_of(const Model& model, const Plan& plan);
void add_outlines(const Model& model, const Plan& plan, CutBack& cut);
std::vector<Edge> edges_of(const Job& job, const Model& model, const Plan& plan);
std::vector<Blocking> blocking_of(const Job& job, const Model& model, const Plan& plan, const Rules& rules);
std::vector<MemberDecay> members_of(const Job& job, const survey::Result& survey);
std::vector<std::string> words_of_cut(const plan::Plan& floor_plan, const Model& model, const Plan& plan);
std::vector<std::string> notes_of_cut(const Job& job, const Model& model, const Plan& plan, const CutBack& cut);
// The floor as the one measure sees it, and the states of the members that the plan works on: known decay.
measure::Map map_of(const Job& job, const Model& model, const Plan& plan);
std::vector<measure::MemberState> planned_members(const Job& job, const std::vector<MemberDecay>& members);
std::vector<measure::Quantities> draw_quantities(const Job& job, const survey::Result& survey, const Model& model, const measure::Map& map, const Plan& plan,
                                                 const Chances& chances, const std::vector<measure::MemberState>& planned);

// A straight cut put together from the joints that lie on one line.
struct Run {
  int sheet = 0;
  EdgeKind kind = EdgeKind::seam;
  int support = kNone, wall = kNone, door = kNone;
  int side = 0;       // on which side of the cut the wood goes
  bool bare = false;  // nothing carries a new end there yet
  bool cut = true;
  Point from_in, to_in;
  double length_in = 0;
  double most_beyond = 0;  // the highest chance among the pieces that stay beside it
};
std::vector<Run> runs_of(const Model& model, const Plan& plan);

std::string role_word(const Support& support);  // "joist j3"

}  // namespace awlmark::cutback
