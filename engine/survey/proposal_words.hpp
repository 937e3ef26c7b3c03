// How a proposal is said.
#pragma once

#include <string>

#include "survey/candidates.hpp"

namespace awlmark::survey {

struct Ranked {
  Candidate candidate;
  double worth = 0;
  double decides_sf = 0;
  double net() const { return worth - candidate.cost; }
};

std::string money(double dollars);
std::string chance_in_words(double p);
std::string area_in_words(double sf);
// "member j1", "the deck", "the plate of wall w2": what a node of the model is called.
std::string node_in_words(const Job& job, int node);

// The proposal as the findings say it; `extra` is added to its reason.
NextOpening worded(const Site& site, const LossModel& model, const Ranked& ranked, const std::string& extra);

}  // namespace awlmark::survey
