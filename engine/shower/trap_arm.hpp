// The trap arm: the pipe from the trap's weir to the fitting of its vent, measured along the pipe.
//
// Longest: the table's length (data/trap_arm.csv), or where the arm has fallen by one pipe diameter,
// whichever is less; an arm that falls farther can siphon its trap. Shortest: two diameters.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/reason.hpp"
#include "job/words.hpp"

namespace awlmark::shower {

struct TrapArm {
  bool ok = false;
  double longest_ft = 0;  // at this fall
  double table_ft = 0;
  double shortest_ft = 0;
  double total_fall_in = 0;
  double least_fall_in_per_ft = 0;
  std::vector<std::string> why;  // what fails; empty when all holds
  Reason reason;
};

// Nothing for a pipe that the table does not hold.
std::optional<TrapArm> trap_arm(double pipe_in, double length_ft, double fall_in_per_ft, PlumbingCode code);
std::vector<double> trap_arm_pipes_in(PlumbingCode code);

}  // namespace awlmark::shower
