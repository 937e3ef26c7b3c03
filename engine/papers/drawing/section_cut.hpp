// Where a section is cut, and which members it meets there.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "papers/drawing/framing_lines.hpp"

namespace awlmark::papers {

// Where the section is cut and what part of it is shown.
struct SectionCut {
  double station_in = 0;  // along the members
  double from_in = 0;     // across them
  double to_in = 0;
};

// Through the worst decay read in a member (or the middle of the cut-back, or of the room), wide
// enough for one bay. Nothing when no member crosses it.
std::optional<SectionCut> section_cut(const Job& job, const Findings& findings, const Framing& framing);
// "cut 6' 0" from wall south".
std::string section_words(const Job& job, const Framing& framing, const SectionCut& cut);

// One member where the section meets it.
struct CutMember {
  const DrawnMember* member = nullptr;
  std::size_t index = 0;
  double across_in = 0;  // of its centre
  double along_in = 0;   // from its own first end
  double breadth_in = 0;
  double depth_in = 0;
};

// In rising order across.
std::vector<CutMember> members_at(const Framing& framing, double station_in);
// Stretches of the station line inside a ring, as places across the members.
std::vector<std::pair<double, double>> spans_inside(const Framing& framing, const Polygon& ring, double station_in);

inline constexpr double kUsualBreadth_in = 1.5;

}  // namespace awlmark::papers
