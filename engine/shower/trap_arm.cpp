#include "shower/trap_arm.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "tables/table.hpp"

namespace awlmark::shower {
namespace {

constexpr double kCrumb = 1e-9;
const char* name_of(PlumbingCode code) { return code == PlumbingCode::upc ? "upc" : "irc"; }

const tables::Row* row_of(double pipe_in, PlumbingCode code) {
  for (const auto& row : tables::table("trap_arm.csv").rows())
    if (row.text("code") == name_of(code) && std::fabs(row.number("pipe_in") - pipe_in) < 1e-6) return &row;
  return nullptr;
}

}  // namespace

std::vector<double> trap_arm_pipes_in(PlumbingCode code) {
  std::vector<double> pipes;
  for (const auto& row : tables::table("trap_arm.csv").rows())
    if (row.text("code") == name_of(code)) pipes.push_back(row.number("pipe_in"));
  return pipes;
}

std::optional<TrapArm> trap_arm(double pipe_in, double length_ft, double fall_in_per_ft, PlumbingCode code) {
  const auto* row = row_of(pipe_in, code);
  if (!row) return std::nullopt;
  TrapArm arm;
  arm.table_ft = row->number("longest_ft");
  arm.least_fall_in_per_ft = row->number("least_fall_in_per_ft");
  arm.longest_ft = fall_in_per_ft > 0 ? std::min(arm.table_ft, pipe_in / fall_in_per_ft) : arm.table_ft;
  arm.shortest_ft = 2 * pipe_in / 12;
  arm.total_fall_in = length_ft * fall_in_per_ft;
  const auto text = [](double v) { return format_number(v, 3); };
  if (length_ft > arm.table_ft + kCrumb) arm.why.push_back("longer than the table's " + text(arm.table_ft) + " ft");
  if (arm.total_fall_in > pipe_in + kCrumb) arm.why.push_back("falls " + text(arm.total_fall_in) + " in., more than one pipe diameter");
  if (length_ft < arm.shortest_ft - kCrumb) arm.why.push_back("shorter than two pipe diameters");
  if (fall_in_per_ft < arm.least_fall_in_per_ft - kCrumb)
    arm.why.push_back("falls less than " + text(arm.least_fall_in_per_ft) + " in. a foot" +
                      (code == PlumbingCode::upc && pipe_in >= 3 ? "; 1/8 needs the authority's leave" : ""));
  arm.ok = arm.why.empty();
  arm.reason = row->reason();
  arm.reason.compares = "length of the trap arm along its centreline, weir to vent, against the longest at this fall";
  arm.reason.demand = length_ft;
  arm.reason.capacity = arm.longest_ft;
  if (arm.longest_ft > 0) arm.reason.ratio = length_ft / arm.longest_ft;
  arm.reason.unit = "ft";
  arm.reason.steps = {"table " + text(arm.table_ft) + " ft", "one pipe diameter of fall at " + text(fall_in_per_ft) + " in. a foot",
                      "at least two pipe diameters, " + text(arm.shortest_ft) + " ft"};
  return arm;
}

}  // namespace awlmark::shower
