// The job's marks as readings of the latent fields, and the job's floor as a model of them.
//
// What each mark says (docs/survey.md gives the reasons):
//   awl sound, soft, gone   an ordinal reading of rot
//   meter                   a reading of wet, corrected for wood temperature and species; from fibre
//                           saturation up it only says "at least"
//   eye dry, wet            a noisier reading of wet
//   eye stained, growth     weak readings of rot: it has been wet there
//   eye insects             nothing about decay; its own finding
#pragma once

#include <string>
#include <vector>

#include "base/problem.hpp"
#include "job/job.hpp"
#include "survey/likelihood.hpp"
#include "survey/model.hpp"

namespace awlmark::survey {

struct Observation {
  enum class Says { fixed, sound, soft, gone };
  Place place;
  Says says = Says::fixed;
  Likelihood fixed;      // when `says` is fixed
  double noise_sd = 0;   // of an awl reading
  std::size_t mark = 0;  // index in the job's marks

  // The likelihood when `gap` lies between the soft and the gone cut.
  Likelihood likelihood(double gap) const;
};

struct Evidence {
  std::vector<Observation> observations;
  Problems warnings;                 // safe readings taken, located
  std::vector<std::string> notes;    // the same and more, in plain sentences
  std::vector<std::size_t> insects;  // marks that found insects
};

// The standard deviation of an awl's feel, in units of the latent field.
inline constexpr double kAwl_sd = 0.45;

Model model_of(const Job& job, std::vector<std::string>* notes = nullptr);
Evidence evidence_of(const Job& job);

// Where node `node` of model_of(job) is numbered: layers first, then supports, then walls.
int layer_node(std::size_t layer);
int support_node(const Job& job, std::size_t support);
int wall_node(const Job& job, std::size_t wall);

// Whether the material can decay at all (vinyl, tile, mortar and cement board cannot).
bool can_decay(Material material);

// A source farther outside the room than this is warned about, and its place taken as unknown.
inline constexpr double kFarOutside_in = 480;
bool far_outside(const Job& job, Point source);

// Moisture content on the oven-dry basis from what the meter shows, and how far off it may be.
struct MoistureReading {
  double percent = 0;
  double sd_percent = 0;
};
MoistureReading corrected_moisture(double shown_percent, std::optional<double> wood_temp_f, Species species, Material material);

}  // namespace awlmark::survey
