// The plan: the exact minimum cut, then the rules of the trade, each as constraints added to the
// same cut and solved again, so that every rule's price is the difference of two optima.
// Internal to the room.
#pragma once

#include "cutback/chances.hpp"
#include "cutback/model.hpp"
#include "cutback/settings.hpp"
#include "money/money.hpp"

namespace awlmark::cutback {

struct Plan {
  CutProblem problem;  // with every constraint that the rules added
  std::vector<char> out;
  std::vector<std::string> because;  // of every piece
  std::vector<RuleEffect> rules;
  std::vector<Blocking> joint_blocking;  // under joints that do not stagger
  std::int64_t joint_blocking_cents = 0;
  std::int64_t least_cents = 0;  // before any rule
  std::int64_t price_cents() const { return price_of(problem, out) + joint_blocking_cents; }
};

// Cents of every piece and joint. `with_blocking`: ends in the air are priced with their blocking.
CutProblem price_model(const Model& model, const money::Stakes& prices, bool with_blocking);
bool rim_needs_blocking(const Rim& rim);

Plan make_plan(const Job& job, const Model& model, const std::vector<std::string>& contaminated_layers);

// Rules whose constraints do not hang on the plan so far: pieces that must go or must stay.
std::vector<char> contaminated_pieces(const Model& model, const std::vector<std::string>& layers);
std::vector<char> margin_pieces(const Job& job, const Model& model, double margin_in);
std::vector<char> spared_pieces(const Job& job, const Model& model);

// Rules that look at the plan: pieces that must go as well, none when the plan keeps the rule.
struct Neighbour {
  int block = 0;
  int joint = 0;
};
using Neighbours = std::vector<std::vector<Neighbour>>;
Neighbours neighbours_of(const Model& model);
std::vector<int> sliver_pieces(const Model& model, const Neighbours& near, const CutProblem& problem, const std::vector<char>& out);
std::vector<int> short_bearing_pieces(const Model& model, const Neighbours& near, const CutProblem& problem, const std::vector<char>& out);
// Joints of neighbouring boards on one support: either the piece beyond goes too (added to `take`),
// or the joint is blocked (`blocked`), whichever costs less.
struct Stagger {
  std::vector<int> take;
  std::vector<int> blocked;  // joints of the model
};
Stagger stagger_joints(const Model& model, const CutProblem& problem, const std::vector<char>& out, double blocking_per_ft);

}  // namespace awlmark::cutback
