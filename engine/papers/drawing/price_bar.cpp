#include "papers/drawing/price_bar.hpp"

#include <algorithm>
#include <cmath>

#include "papers/words.hpp"

namespace awlmark::papers {

Drawing price_bar(const price::Price& price) {
  // Not a plan: one paper inch stands for one paper inch.
  const Box plan{0, 0, 6.4, 0.9};
  Canvas canvas("price", "The price range", plan, {12, ""}, {18, 4, 18, 4});
  const double low = price.p10, high = std::max(price.p90, low + 1);
  const auto x = [&](double value) { return canvas.at({0.5 + 5.4 * (value - low) / (high - low), 0}).x; };
  const double y = canvas.at({0, 0.46}).y;
  if (!std::isfinite(low) || !std::isfinite(high)) return {canvas.svg(), canvas.scale(), {}, {}};
  canvas.box({x(low), y - 8, x(price.p50), y + 8}, "dnew");
  canvas.box({x(price.p50), y - 8, x(price.p80), y + 8}, "dblock");
  canvas.box({x(price.p80), y - 8, x(high), y + 8}, "dmember");
  struct Stop {
    double value;
    const char* words;
  };
  for (const auto& stop : {Stop{price.p10, "1 in 10 below"}, Stop{price.p50, "5 in 10"}, Stop{price.p80, "8 in 10"}, Stop{price.p90, "9 in 10"}}) {
    const double at = x(stop.value);
    canvas.line({at, y - 12}, {at, y + 12}, "dl dtick");
    canvas.words_at({at, y + 19}, rough_money(stop.value), 10, "db");
    canvas.words_at({at, y - 18}, stop.words);
  }
  return {canvas.svg(), canvas.scale(), canvas.space().labels(), canvas.notes()};
}

}  // namespace awlmark::papers
