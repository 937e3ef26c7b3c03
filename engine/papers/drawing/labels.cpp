#include "papers/drawing/labels.hpp"

#include <array>
#include <cmath>

namespace awlmark::papers {
namespace {

// Advance widths in em, the larger of two common sans-serif faces, rounded up.
double advance_em(unsigned char c) {
  switch (c) {
    case ' ':
    case ',':
    case '.':
    case ';':
    case ':':
    case 'i':
    case 'j':
    case 'l':
    case '\'':
    case '|':
      return 0.34;
    case '"':
    case '(':
    case ')':
    case '/':
    case 't':
    case 'f':
    case 'r':
    case '-':
    case 'I':
      return 0.46;
    case 'm':
    case 'w':
    case 'M':
    case 'W':
    case '%':
    case '@':
      return 1.0;
    case '+':
    case '=':
    case '<':
    case '>':
      return 0.84;
    default:
      break;
  }
  if (c >= '0' && c <= '9') return 0.64;
  if (c >= 'A' && c <= 'Z') return 0.76;
  return 0.64;
}

// Eight directions, beside and above first: people look there.
struct Direction {
  double x, y;
};
constexpr std::array<Direction, 12> kDirections{
    {{1, 0}, {-1, 0}, {0, -1}, {0, 1}, {0.8, -0.7}, {-0.8, -0.7}, {0.8, 0.7}, {-0.8, 0.7}, {0.4, -1}, {-0.4, -1}, {0.4, 1}, {-0.4, 1}}};

}  // namespace

bool overlap(const PaperBox& a, const PaperBox& b, double gap) { return a.x0 < b.x1 + gap && b.x0 < a.x1 + gap && a.y0 < b.y1 + gap && b.y0 < a.y1 + gap; }

PaperBox box_around(PaperPoint middle, double width, double height) {
  return {middle.x - width / 2, middle.y - height / 2, middle.x + width / 2, middle.y + height / 2};
}

double text_width_pt(std::string_view text, double size_pt, bool bold) {
  double width = 0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if ((byte & 0xC0) == 0x80) continue;  // inside one character of several bytes
    width += byte < 0x80 ? advance_em(byte) : 1.0;
  }
  return width * size_pt * (bold ? 1.1 : 1.0);
}

bool LabelSpace::free(const PaperBox& box) const {
  if (box.x0 < sheet_.x0 || box.y0 < sheet_.y0 || box.x1 > sheet_.x1 || box.y1 > sheet_.y1) return false;
  for (const auto& other : taken_)
    if (overlap(box, other)) return false;
  return true;
}

bool LabelSpace::put(const Label& label) {
  if (!free(label.box)) return false;
  taken_.push_back(label.box);
  labels_.push_back(label);
  return true;
}

std::optional<PaperBox> LabelSpace::around(PaperPoint at, double half_pt, const std::string& text, double size_pt, double reach_pt, bool bold) {
  const double width = text_width_pt(text, size_pt, bold);
  const double height = size_pt * 1.05;
  constexpr double kGap_pt = 1.5;
  for (double out = 0; out <= reach_pt; out += 6) {
    for (const auto& way : kDirections) {
      const PaperPoint middle{at.x + way.x * (half_pt + kGap_pt + width / 2 + out), at.y + way.y * (half_pt + kGap_pt + height / 2 + out)};
      const auto box = box_around(middle, width, height);
      if (put({box, text})) return box;
    }
  }
  return std::nullopt;
}

}  // namespace awlmark::papers
