// What a layer is made of: data/materials.csv, one row a material of the job document.
#pragma once

#include <optional>
#include <string>

#include "base/reason.hpp"

namespace awlmark::tables {

struct MaterialFacts {
  std::string id;
  std::string spoken;             // "tongue-and-groove plank"
  double usual_thickness_in = 0;  // taken when the job gives none
  double weight_psf_per_in = 0;   // psf for each inch of thickness
  std::string kind;               // finish, backing, underlayment, deck, wall
  bool porous = false;            // soaks up dirty water, so it goes when contaminated
  bool structural = false;        // carries the floor
  bool flexible = false;
  std::optional<double> usual_width_in;     // face width of boards, width of sheets
  std::optional<double> wet_limit_percent;  // moisture content above which it counts as wet
  bool awl_reads = false;                   // an awl can tell its soundness
  Reason reason;
};

// The row of a material's id; an id without a row is a fault of the program (a test checks them all).
const MaterialFacts& material_facts(const std::string& id);

// A rate of data/rates.csv by id, with its reason.
struct RateFacts {
  double value = 0;
  std::string unit;
  std::string what;
  Reason reason;
};
RateFacts rate(const std::string& id);
// A moisture content of data/moisture.csv: fibre_saturation, most, wet_where_none, shows_water.
double moisture_percent(const std::string& id);
double fibre_saturation_percent();  // the same, for inner loops

}  // namespace awlmark::tables
