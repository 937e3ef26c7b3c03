// From the job, the survey and the cut-back to the model that the checks take.
//
// Whatever is not recorded takes a safe reading, said in `assumed`: no size: the smallest in common
// use; no rests: the ends of the member as drawn; no species or grade: the worst of the tables.
#pragma once

#include "cutback/cutback.hpp"
#include "floor/floor.hpp"
#include "floor/model.hpp"
#include "job/job.hpp"
#include "survey/survey.hpp"

namespace awlmark::floor {

Model build_model(const Job& job, const survey::Survey& survey, const cutback::CutBack& cut_back);

// The loads behind model.dead_psf, model.live_psf and model.loads, for the papers.
std::vector<LoadLine> load_lines(const Job& job, const Model& model);

// Weight of one layer, psf.
double layer_psf(const Layer& layer);
// What lies on the deck, and the deck: every layer that covers the whole room, and a ceiling below.
double dead_psf(const Job& job);

// The planks that the cut-back takes out of the deck, as stretches of the board lines.
std::vector<CutIn> cut_ins(const Model& model, const cutback::CutBack& cut_back);

// Members of the model whose known or likely rot reaches into them.
bool has_rot(const Member& member);

}  // namespace awlmark::floor
