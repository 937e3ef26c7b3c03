// Assess: the only room that knows all stages. Job -> Findings -> papers.
//
// Guarantee: the same job, seed and engine version give the same findings on every door.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "findings/findings.hpp"
#include "job/job.hpp"

namespace awlmark {

struct AssessOptions {
  double cell_in = 3;
  int draws = 1000;
  std::uint64_t seed = 1954;
  std::optional<std::string> only_layer;  // survey_only answers this layer alone (survey/glance.hpp)
  // Called before each stage with its name; for progress on the terminal and the page.
  std::function<void(std::string_view stage)> on_stage;
};

Findings survey_only(const Job& job, const AssessOptions& options = {});
Findings assess(const Job& job, const AssessOptions& options = {});

}  // namespace awlmark
