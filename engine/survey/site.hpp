// The ground on which the survey proposes: what covers a spot, what may be pierced there, what stands on
// it, what was read already, and what a look costs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hazards/hazards.hpp"
#include "survey/model.hpp"
#include "survey/plan.hpp"

namespace awlmark::survey {

struct SurveyRates {
  double leave_unsound_per_sf = 0;
  double tear_out_sound_per_sf = 0;
  double opening = 0;
  double labour_per_hour = 0;
  double patch_per_opening = 0;
  double only_toilet_per_day = 0;
  double least_look() const { return labour_per_hour / 6; }  // nobody looks anywhere in less than ten minutes
};
// The job's own, else data/rates.csv.
SurveyRates rates_of(const Job& job);

class Site {
 public:
  Site(const Job& job, const SurveyPlan& plan, const hazards::Hazards& hazards, const Model& model);

  const Job& job() const { return job_; }
  const SurveyPlan& plan() const { return plan_; }
  const hazards::Hazards& hazards() const { return hazards_; }
  const SurveyRates& rates() const { return rates_; }

  // Layers that cover the point, from the top down.
  std::vector<std::size_t> stack_at(Point p) const;
  bool presumed(std::size_t layer) const { return presumed_[layer]; }
  bool any_presumed() const;
  // The part of a stack that an awl may go through: from the top to the last layer that it can read, and
  // never a layer presumed to hold asbestos.
  std::vector<std::size_t> pierced(const std::vector<std::size_t>& stack) const;
  // Whether a presumed layer keeps an awl from the last layer that it could read.
  bool blocked(const std::vector<std::size_t>& stack) const;
  bool decays(std::size_t layer) const;
  bool goes(std::size_t layer) const { return job_.layers[layer].goes.value_or(false); }

  const Fixture* standing_over(Point p) const;
  bool open_below() const;  // the underside can be reached and seen
  // Half the slot's length across the deck's grain, as a step on the plan.
  Point across_grain() const { return across_; }

  // Whether an awl has read this node within so many inches of the spot.
  bool was_read(int node, Point p, double within_in) const;
  bool meter_read(int node, Point p, double within_in) const;

  std::vector<std::string> ids(const std::vector<std::size_t>& layers) const;
  // Gates of these steps, in the order of the hazards room.
  std::vector<std::string> gates_before(const std::vector<hazards::Before>& steps) const;

 private:
  struct Read {
    int node = 0;
    Point at_in;
    bool meter = false;
  };
  const Job& job_;
  const SurveyPlan& plan_;
  const hazards::Hazards& hazards_;
  SurveyRates rates_;
  std::vector<bool> presumed_;
  std::vector<Read> read_;
  Point across_;
};

}  // namespace awlmark::survey
