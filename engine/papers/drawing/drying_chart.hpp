// The drying log drawn: readings, the forecast's band and the limit, against days.
#pragma once

#include "drying/drying.hpp"
#include "papers/drawing/canvas.hpp"

namespace awlmark::papers {

Drawing drying_chart(const drying::DryingLayer& layer, const std::string& name);

}  // namespace awlmark::papers
