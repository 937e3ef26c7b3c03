#include "papers/drawing/symbols.hpp"

#include <array>
#include <cmath>

namespace awlmark::papers {
namespace {

// A meter reading counts as wet from here on in the signs: decay fungi need about 20 % and more in
// use (Wood Handbook FPL-GTR-282, 14). The survey keeps its own limits layer by layer.
constexpr double kWetSign_percent = 20;

struct Band {
  double up_to;
  std::string_view words;
  std::string_view tint;
  double line_gap_pt;  // 0: no hatch
  double line_pt;
  bool crossed;
};
constexpr std::array<Band, kBands> kBandTable{{{0.05, "sound: under 1 chance in 20 of rot", "#ffffff", 0, 0, false},
                                               {0.20, "likely sound: under 1 in 5", "#f8efe6", 9, 0.3, false},
                                               {0.50, "not known, leans sound", "#f1dcc8", 5.5, 0.4, false},
                                               {0.80, "not known, leans unsound", "#e3b994", 3.6, 0.5, false},
                                               {0.95, "likely unsound: over 4 in 5", "#cf8f63", 3.6, 0.6, true},
                                               {2.0, "unsound: over 19 chances in 20", "#a8512a", 2.4, 0.7, true}}};

std::string num(double value) { return coordinate(value); }

void circle(Markup& out, PaperPoint c, double r, std::string_view css) {
  out.leaf("circle", {{"cx", num(c.x)}, {"cy", num(c.y)}, {"r", num(r)}, {"class", std::string(css)}});
}
void path(Markup& out, const std::string& commands, std::string_view css) { out.leaf("path", {{"d", commands}, {"class", std::string(css)}}); }

std::string square(PaperPoint c, double h) {
  return "M" + num(c.x - h) + " " + num(c.y - h) + "H" + num(c.x + h) + "V" + num(c.y + h) + "H" + num(c.x - h) + "Z";
}
std::string diamond(PaperPoint c, double h) {
  return "M" + num(c.x) + " " + num(c.y - h) + "L" + num(c.x + h) + " " + num(c.y) + "L" + num(c.x) + " " + num(c.y + h) + "L" + num(c.x - h) + " " + num(c.y) +
         "Z";
}
std::string cross(PaperPoint c, double h) {
  return "M" + num(c.x - h) + " " + num(c.y - h) + "L" + num(c.x + h) + " " + num(c.y + h) + "M" + num(c.x - h) + " " + num(c.y + h) + "L" + num(c.x + h) +
         " " + num(c.y - h);
}
std::string lower_half(PaperPoint c, double h, bool round) {
  if (round) return "M" + num(c.x - h) + " " + num(c.y) + "A" + num(h) + " " + num(h) + " 0 0 0 " + num(c.x + h) + " " + num(c.y) + "Z";
  return "M" + num(c.x - h) + " " + num(c.y) + "H" + num(c.x + h) + "V" + num(c.y + h) + "H" + num(c.x - h) + "Z";
}

}  // namespace

Sign sign_of(const Mark& mark) {
  if (mark.tool == Tool::meter) return mark.mc_percent ? (*mark.mc_percent >= kWetSign_percent ? Sign::meter_wet : Sign::meter_dry) : Sign::none;
  if (!mark.reads) return Sign::none;
  switch (*mark.reads) {
    case Reading::sound:
      return Sign::sound;
    case Reading::soft:
      return Sign::soft;
    case Reading::gone:
      return Sign::gone;
    case Reading::dry:
      return Sign::dry;
    case Reading::stained:
      return Sign::stained;
    case Reading::wet:
      return Sign::wet;
    case Reading::growth:
      return Sign::growth;
    case Reading::insects:
      return Sign::insects;
  }
  return Sign::none;
}

std::string sign_words(Sign sign) {
  switch (sign) {
    case Sign::sound:
      return "awl: sound";
    case Sign::soft:
      return "awl: soft";
    case Sign::gone:
      return "awl: gone";
    case Sign::meter_dry:
      return "meter: under 20 %";
    case Sign::meter_wet:
      return "meter: 20 % or more";
    case Sign::dry:
      return "eye: dry";
    case Sign::stained:
      return "eye: stained";
    case Sign::wet:
      return "eye: wet";
    case Sign::growth:
      return "eye: growth";
    case Sign::insects:
      return "eye: insects";
    case Sign::none:
      return "looked, nothing noted";
  }
  return "";
}

void draw_sign(Markup& out, Sign sign, PaperPoint c, double h) {
  switch (sign) {
    case Sign::sound:
      circle(out, c, h, "sopen");
      break;
    case Sign::soft:
      circle(out, c, h, "sopen");
      path(out, lower_half(c, h, true), "sfull");
      break;
    case Sign::gone:
      circle(out, c, h, "sfull");
      path(out, cross(c, h * 0.55), "scut");
      break;
    case Sign::meter_dry:
      path(out, diamond(c, h * 1.2), "sopen");
      break;
    case Sign::meter_wet:
      path(out, diamond(c, h * 1.2), "sfull");
      break;
    case Sign::dry:
      path(out, square(c, h * 0.9), "sopen");
      break;
    case Sign::stained:
      path(out, square(c, h * 0.9), "sopen");
      circle(out, c, h * 0.3, "sfull");
      break;
    case Sign::wet:
      path(out, square(c, h * 0.9), "sopen");
      path(out, lower_half(c, h * 0.9, false), "sfull");
      break;
    case Sign::growth:
      path(out, square(c, h * 0.9), "sopen");
      path(out, cross(c, h * 0.6) + "M" + num(c.x) + " " + num(c.y - h * 0.75) + "V" + num(c.y + h * 0.75), "sline");
      break;
    case Sign::insects:
      path(out, "M" + num(c.x) + " " + num(c.y - h) + "L" + num(c.x + h) + " " + num(c.y + h * 0.8) + "L" + num(c.x - h) + " " + num(c.y + h * 0.8) + "Z",
           "sopen");
      break;
    case Sign::none:
      circle(out, c, h * 0.4, "sopen");
      break;
  }
}

int band_of(double p) {
  for (int band = 0; band < kBands; ++band)
    if (p < kBandTable[static_cast<std::size_t>(band)].up_to) return band;
  return kBands - 1;
}

std::string band_words(int band) { return std::string(kBandTable[static_cast<std::size_t>(band)].words); }

Markup sign_swatch(Sign sign) {
  Markup out;
  out.open("svg", {{"class", "swatch"}, {"width", "16"}, {"height", "16"}, {"viewBox", "0 0 12 12"}, {"aria-hidden", "true"}});
  draw_sign(out, sign, {6, 6}, 3.8);
  out.close();
  return out;
}

void hatch(Markup& out, int band, const std::string& commands, const PaperBox& box, const std::string& clip, std::string_view css) {
  const auto& row = kBandTable[static_cast<std::size_t>(band)];
  const std::string shape(css);
  out.leaf("path", {{"d", commands}, {"class", shape}, {"style", "fill:" + std::string(row.tint)}});
  if (row.line_gap_pt <= 0) return;
  out.open("clipPath", {{"id", clip}}).leaf("path", {{"d", commands}}).close();
  // Lines of x + y = c, and crossed ones of x - y = c, over the box; the same c everywhere, so that shapes side by side join.
  std::string lines;
  const double step = row.line_gap_pt * std::sqrt(2.0);
  for (double c = std::ceil((box.x0 + box.y0) / step) * step; c <= box.x1 + box.y1; c += step) {
    const double x0 = std::fmax(box.x0, c - box.y1), x1 = std::fmin(box.x1, c - box.y0);
    lines += "M" + num(x0) + " " + num(c - x0) + "L" + num(x1) + " " + num(c - x1);
  }
  for (double c = std::ceil((box.x0 - box.y1) / step) * step; row.crossed && c <= box.x1 - box.y0; c += step) {
    const double x0 = std::fmax(box.x0, c + box.y0), x1 = std::fmin(box.x1, c + box.y1);
    lines += "M" + num(x0) + " " + num(x0 - c) + "L" + num(x1) + " " + num(x1 - c);
  }
  out.leaf("path", {{"d", lines}, {"clip-path", "url(#" + clip + ")"}, {"fill", "none"}, {"stroke", "#3a2416"}, {"stroke-width", num(row.line_pt)}});
}

Markup band_swatch(int band) {
  Markup out;
  out.open("svg", {{"class", "swatch"}, {"width", "30"}, {"height", "16"}, {"viewBox", "0 0 22 12"}, {"aria-hidden", "true"}});
  hatch(out, band, "M0.5 0.5H21.5V11.5H0.5Z", {0.5, 0.5, 21.5, 11.5}, "key" + std::to_string(band), "sbox");
  out.close();
  return out;
}

}  // namespace awlmark::papers
