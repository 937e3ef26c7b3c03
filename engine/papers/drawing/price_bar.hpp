// The price range on one line: how many jobs in ten end below a price.
#pragma once

#include "papers/drawing/canvas.hpp"
#include "price/price.hpp"

namespace awlmark::papers {

Drawing price_bar(const price::Price& price);

}  // namespace awlmark::papers
