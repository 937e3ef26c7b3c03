#include "mechanics/section.hpp"

#include <algorithm>
#include <array>

#include "base/length.hpp"

namespace awlmark::mechanics {
namespace {

double ply_thickness_in(const Section& s) { return std::min(s.ply_b_in(), s.d_in); }
double ply_width_in(const Section& s) { return std::max(s.ply_b_in(), s.d_in); }

// A measured 4.05 in. is a four-inch piece: saws and seasons differ by a sixteenth.
constexpr double kSawn_in = 1.0 / 16;

}  // namespace

Section rectangle(double b_in, double d_in, int plies) { return {b_in, d_in, plies}; }

Section section_from(const SectionSize& size) { return {size.b_in, size.d_in, std::max(1, size.plies)}; }

Section flatwise(const Section& section) {
  // Plies laid flat beside each other bend as one flat piece of their joint width.
  return {section.d_in * section.plies, section.ply_b_in(), section.plies};
}

std::string section_words(const Section& section) {
  const std::string size = format_inches(section.ply_b_in()) + " x " + format_inches(section.d_in);
  return section.plies > 1 ? std::to_string(section.plies) + " plies " + size : size;
}

int nominal_thickness(const Section& section) {
  const double t = ply_thickness_in(section) - kSawn_in;
  for (int nominal = 1; nominal <= 4; ++nominal)
    if (t <= nominal) return nominal;
  return 5;
}

int nominal_width(const Section& section) {
  const double w = ply_width_in(section) - kSawn_in;
  for (const int nominal : std::array<int, 8>{2, 3, 4, 5, 6, 8, 10, 12})
    if (w <= nominal) return nominal;
  return 14;
}

bool is_timber(const Section& section) { return nominal_thickness(section) >= 5; }

std::optional<Section> residual(const Section& section, const Loss& loss) {
  const double b = section.b_in - std::max(0.0, loss.side_in);
  const double d = section.d_in - std::max(0.0, loss.top_in) - std::max(0.0, loss.bottom_in);
  constexpr double kNothing_in = 1e-6;
  if (b <= kNothing_in || d <= kNothing_in) return std::nullopt;
  // Decay from the side eats whole plies first; what is left counts as one thickness.
  return Section{b, d, loss.side_in > 0 ? 1 : section.plies};
}

}  // namespace awlmark::mechanics
