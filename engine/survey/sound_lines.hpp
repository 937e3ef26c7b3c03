// Regions outside which less than a stated area of a layer is unsound, at a stated joint confidence, from
// joint draws.
//
// Among the regions {p_unsound >= t} the smallest is taken for which the share of draws with less than that
// area unsound outside reaches the confidence. That is a joint statement about the whole layer; a contour
// of p_unsound itself is not. A region that leaves nothing at all outside is nearly always the room: no
// crew can use it.
#pragma once

#include <cstdint>
#include <vector>

#include "survey/plan.hpp"

namespace awlmark::survey {

// `degree`: draws by the layer's cells, as draw_degrees gives them. `p_unsound`: of the same cells.
SoundLine sound_line(const Job& job, const LayerCells& layer, const GridFindings& grid, const std::vector<double>& p_unsound,
                     const std::vector<std::uint8_t>& degree, int draws, double confidence);

}  // namespace awlmark::survey
