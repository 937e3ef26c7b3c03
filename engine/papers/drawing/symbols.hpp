// The signs of the plans: one shape a tool, one filling a reading, told apart without colour.
//   awl: circle (sound open, soft half full, gone full with a cross)   meter: diamond, full when wet
//   eye: square (dry open, stained dotted, wet half full, growth starred), insects a triangle
#pragma once

#include <string>

#include "job/job.hpp"
#include "papers/drawing/canvas.hpp"

namespace awlmark::papers {

enum class Sign { sound, soft, gone, meter_dry, meter_wet, dry, stained, wet, growth, insects, none };

Sign sign_of(const Mark& mark);
std::string sign_words(Sign sign);
// Draws into any writer, so that legends can hold the same signs.
void draw_sign(Markup& out, Sign sign, PaperPoint middle, double half_pt);

// Shade of a chance of unsound wood: 0 (sound, 19 in 20 or better) to 5 (unsound, 19 in 20 or more).
inline constexpr int kBands = 6;
int band_of(double p);
std::string band_words(int band);
// A small drawing of one sign or one band for a legend in the text.
Markup sign_swatch(Sign sign);
// A shape in the tint and the lines of a band: lines, not a pattern, which print programs turn into a picture
// for each shape. `box` holds the shape; `clip` is an id of the paper's own.
void hatch(Markup& out, int band, const std::string& commands, const PaperBox& box, const std::string& clip, std::string_view css);
Markup band_swatch(int band);

}  // namespace awlmark::papers
