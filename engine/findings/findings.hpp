// Everything the engine answers for a job. The keys are the contract of the document
// (docs/job-document.md); stages that a job does not ask for are left out.
#pragma once

#include <boost/describe.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cutback/cutback.hpp"
#include "drying/drying.hpp"
#include "floor/floor.hpp"
#include "hazards/hazards.hpp"
#include "plan/assumption.hpp"
#include "price/price.hpp"
#include "shower/shower.hpp"
#include "survey/survey.hpp"
#include "takeoff/takeoff.hpp"
#include "work/work.hpp"

namespace awlmark {

struct Findings {
  std::string format = "awlmark-findings";
  int version = 1;
  std::string engine;  // version of the engine
  std::uint64_t seed = 0;
  survey::Survey survey;
  std::optional<hazards::Hazards> hazards;
  std::optional<cutback::CutBack> cut_back;
  std::optional<floor::Floor> floor;
  std::optional<shower::Shower> shower;
  std::optional<drying::Drying> drying;
  std::optional<takeoff::TakeOff> takeoff;
  std::optional<work::Work> work;
  std::optional<price::Price> price;
  std::vector<plan::Assumption> assumed;  // what the job does not say, and what was taken instead
  Problems warnings;
  std::vector<std::string> cautions;
};
BOOST_DESCRIBE_STRUCT(Findings, (),
                      (format, version, engine, seed, survey, hazards, cut_back, floor, shower, drying, takeoff, work, price, assumed, warnings, cautions))

// Written out once for every door: each further place that called doc::write on findings would compile all of it again.
doc::Json to_json(const Findings& findings);
doc::Json findings_schema();

}  // namespace awlmark
