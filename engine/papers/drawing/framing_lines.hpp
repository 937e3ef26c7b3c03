// The framing as drawings show it: members as found, what the chosen option adds, and which way the
// members run.
#pragma once

#include <string>
#include <vector>

#include "findings/findings.hpp"
#include "job/job.hpp"

namespace awlmark::papers {

struct DrawnMember {
  floor::FramingLine line;
  std::string name;    // as on the drawing
  bool added = false;  // by the chosen option
};

// A stretch of decay with the key that plan and table share.
struct DrawnDecay {
  std::string key;         // "D1"
  std::size_t member = 0;  // index into the members
  double from_in = 0;
  double to_in = 0;
  double depth_in = 0;
  double width_in = 0;  // 0: the full breadth
  std::string face;
  bool known = true;
};

struct Framing {
  std::vector<DrawnMember> members;
  std::vector<DrawnDecay> decay;
  bool run_along_y = true;  // most of the length of the members found
  Box reach;                // the part that drawings show: the room and a little around it
};

Framing framing_of(const Job& job, const Findings& findings);
// Those while the floor is open, then those of the way chosen: P1, P2, ... in this order.
std::vector<floor::Shore> shores_of(const Findings& findings);

// The part of a->b inside the box, as distances along it; false when nothing is inside.
bool part_inside(Point a, Point b, const Box& box, double& from_in, double& to_in);
Point point_along(Point a, Point b, double along_in);
// The outline that is cut out of the structural deck; empty without one.
std::vector<Polygon> deck_cut(const Job& job, const Findings& findings);
bool finite(Point p);

}  // namespace awlmark::papers
