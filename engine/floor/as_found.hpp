// The floor as found: its checks, whether people may use it today, and the framing for the drawing; and
// how any model is judged, an option like the floor it changes.
#pragma once

#include "floor/floor.hpp"
#include "floor/member_checks.hpp"
#include "floor/model.hpp"
#include "job/job.hpp"

namespace awlmark::floor {

// All checks of a model with the walls of unknown load left out, at their least or at their most.
struct ModelChecks {
  FloorChecks checks;
  Balance balance;
};
ModelChecks check_model(const Model& model, Case which);

// Both ends of what nobody said, run and told apart.
struct Judged {
  Verdict verdict = Verdict::fails;
  Balance balance;
  std::vector<Check> checks;  // those that hang on an unknown wall stand twice, with `case`
  std::vector<std::string> words;
  std::vector<std::string> asks;
  std::vector<std::string> fails_for;
};
Judged judge(const Model& model);

struct EdgeRot;
AsFound as_found(const Job& job, const Model& model, Judged judged, const std::vector<EdgeRot>& edges);
std::vector<FramingLine> framing_of(const Job& job, const Model& model);

}  // namespace awlmark::floor
