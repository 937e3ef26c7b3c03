// Regions that hold all unsound wood of a layer at a stated joint confidence, from joint draws.
//
// Among the regions {p_unsound >= t} the smallest is taken whose share of draws with every unsound
// cell inside reaches the confidence. That is a joint statement about the whole layer; a contour of
// p_unsound itself is not.
#pragma once

#include <cstdint>
#include <vector>

#include "survey/plan.hpp"

namespace awlmark::survey {

// `degree`: draws by the layer's cells, as draw_degrees gives them. `p_unsound`: of the same cells.
SoundLine sound_line(const Job& job, const LayerCells& layer, const GridFindings& grid, const std::vector<double>& p_unsound,
                     const std::vector<std::uint8_t>& degree, int draws, double confidence);

}  // namespace awlmark::survey
