// The facts that rules may speak of. Those of the job are the same for every rule; those of a layer
// (layer.*) are laid over them one layer at a time.
//
// job.year_built, job.occupied, job.only_toilet; place.crawl_space, place.drop_ft;
// water.seen, water.category, water.source_unknown, water.stopped, water.hours_wet;
// marks.unsound, marks.growth, marks.insects, growth.area_sf, moist.highest_mc_percent;
// structure.bearing_wall, structure.member_decay; fixtures.plumbed, .toilet, .water_heater;
// work.silica, .shower, .gas, .painted_sf, .painted_sf_known, .demolishes_paint, .paid,
// .paint_tested_free, .presumed_asbestos;
// layer.material, layer.year, layer.year_known_above_1980, layer.finish, layer.porous, layer.asbestos_free,
// layer.asbestos_found; work.wallboard, .wallboard_clear.
#pragma once

#include "hazards/conditions.hpp"
#include "hazards/hazards.hpp"

namespace awlmark::hazards {

Facts job_facts(const Job& job, const WorkFacts& work);
// `facts` with the layer's own laid over.
Facts with_layer(const Facts& facts, const Job& job, const Layer& layer);
// Whether a laboratory has cleared the layer, its backing and its glue, or the job says it was shown free;
// a positive result anywhere in it wins.
bool cleared(const Job& job, const Layer& layer);
bool found_positive(const Job& job, const Layer& layer);
// The same of every wall's board, compound and texture; false where there is no wall.
bool walls_cleared(const Job& job);
// "sheet vinyl (sheet)".
std::string spoken_layer(const Layer& layer);

}  // namespace awlmark::hazards
