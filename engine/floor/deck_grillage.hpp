// The model's deck as a grillage: where one spot load is worst, on boards as they lie, on planks cut
// in, and on a plank thinned by rot.
//
// Each answer is the worst over the bays that matter; at most nine planks, the loaded one in the
// middle, since a load is hardly felt four planks away (grillage_test.cpp).
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "floor/deck_checks.hpp"

namespace awlmark::floor {

struct PointOnDeck {
  double span_in = 0;
  double deflection_in = 0;
  double moment_inlb = 0;   // in the board itself, with dead load
  double thickness_in = 0;  // of the board that counts
  double share = 1;
  bool linked = false;  // shares with a neighbour
  double residual = 0;
  std::string words;
};

std::optional<PointOnDeck> point_on_deck(const Model& model, const PlankValues& values);
std::optional<PointOnDeck> point_on_cut_ins(const Model& model, const PlankValues& values);
std::optional<PointOnDeck> point_at_rot(const Model& model, const PlankValues& values);

// Longest bay under a cut-in plank, and the fewest bays that one reaches over.
void cut_in_spans(const Model& model, double& longest_in, std::size_t& fewest_bays);

}  // namespace awlmark::floor
