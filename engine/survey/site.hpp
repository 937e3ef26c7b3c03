// The ground on which the survey proposes: what covers a spot, what may be pierced there, what stands on
// it, what was read already, and what a look costs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "hazards/hazards.hpp"
#include "money/money.hpp"
#include "plan/turn.hpp"
#include "survey/model.hpp"
#include "survey/plan.hpp"

namespace awlmark::survey {

// Nobody looks anywhere in less than ten minutes.
inline double least_look(const money::Stakes& rates) { return rates.labour_per_hour / 6; }

class Site {
 public:
  // `turn`: from the drawing to the frame in which the job stands; none when it stands as drawn.
  Site(const Job& job, const SurveyPlan& plan, const hazards::Hazards& hazards, const Model& model, const std::optional<plan::Turn>& turn);

  const Job& job() const { return job_; }
  const SurveyPlan& plan() const { return plan_; }
  const hazards::Hazards& hazards() const { return hazards_; }
  const money::Stakes& rates() const { return rates_; }

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

  // A place in words, on the drawing.
  std::string say(Point p) const { return place_in_words(job_, turn_, p); }
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
  std::optional<plan::Turn> turn_;
  money::Stakes rates_;
  std::vector<bool> presumed_;
  std::vector<Read> read_;
  Point across_;
};

}  // namespace awlmark::survey
