// The shower: pan from above with its planes, contours and screed heights; and the heights from the
// framing's top to the finish, at the door, in the room, at the shower's edge and at the drain.
#pragma once

#include "papers/drawing/canvas.hpp"
#include "shower/shower.hpp"

namespace awlmark::papers {

// The pan must have been laid.
Drawing pan_plan(const shower::Shower& shower, const Polygon& outline_in, const std::string& name = "pan");
// Stacks side by side, heights exaggerated to be read; thicknesses in figures.
Drawing height_section(const shower::ShowerAnswer& answer, const std::string& name = "heights");

}  // namespace awlmark::papers
