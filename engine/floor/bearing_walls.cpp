#include "floor/bearing_walls.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/layout.hpp"
#include "tables/table.hpp"

namespace awlmark::floor {
namespace {

double load_value(const char* id) { return tables::table("floor_loads.csv").find("id", id)->number("value"); }

void take_given(const Wall& wall, BearingWall& out) {
  // Given as one figure: all of it counts as lasting, which is the stricter reading for sag.
  out.dead_plf = *wall.carries_plf;
  out.load_given = true;
  out.reason.rule = "as the job says (carries_plf), counted as lasting";
  out.reason.source = "the job";
  out.reason.status = SourceStatus::read;
  out.words = "Wall " + wall.id + " carries " + format_number(out.plf(), 0) + " lb/ft, as recorded.";
}

void take_assumed(const Job& job, const Wall& wall, BearingWall& out) {
  const double roof_ft = load_value("bearing_roof_width"), floor_ft = load_value("bearing_floor_width");
  out.dead_plf = roof_ft * load_value("roof_dead");
  out.live_plf = roof_ft * load_value("roof_live");
  out.reason = tables::table("floor_loads.csv").find("id", "bearing_roof_width")->reason();
  out.reason.rule = "roof " + format_number(load_value("roof_dead"), 0) + " psf dead and " + format_number(load_value("roof_live"), 0) + " psf snow over " +
                    format_number(roof_ft, 0) + " ft";
  out.words = std::string(wall.bearing ? "Wall " + wall.id + " bears; what it carries is not recorded."
                                       : "Nobody said whether wall " + wall.id + " bears: it is taken to bear.") +
              " Assumed: " + format_number(out.plf(), 0) + " lb/ft (the roof and ceiling over " + format_number(roof_ft, 0) + " ft; common practice).";
  if (job.job.storey != Storey::upper) {
    const double more_plf = floor_ft * (load_value("floor_above_dead") + load_value("floor_above_live")) + load_value("partition");
    out.words += " A floor above is not counted; if there is one it adds about " + format_number(more_plf, 0) + " lb/ft.";
  }
  out.words += " An engineer must confirm the load before work starts; enter it as carries_plf.";
}

}  // namespace

std::vector<BearingWall> bearing_walls(const Job& job) {
  std::vector<BearingWall> out;
  for (const auto& wall : job.walls) {
    if (!wall.bearing.value_or(true) || wall.stands_on == StandsOn::framing || distance_in(wall.from_in, wall.to_in) < 1) continue;
    BearingWall bearing;
    bearing.wall = &wall;
    if (wall.carries_plf)
      take_given(wall, bearing);
    else
      take_assumed(job, wall, bearing);
    bearing.reason.compares = "what wall " + wall.id + " brings from above";
    bearing.reason.unit = "lb/ft";
    bearing.reason.demand = bearing.plf();
    out.push_back(std::move(bearing));
  }
  return out;
}

std::vector<WallOffRest> off_rests(const Model& model, const Wall& wall) {
  std::vector<WallOffRest> out;
  const double length = distance_in(wall.from_in, wall.to_in);
  constexpr double kStep_in = 2;
  for (const std::size_t i : deck_supports(model)) {
    const Member& member = model.members[i];
    if (member.role != SupportRole::joist && member.role != SupportRole::girder) continue;
    // The spot of the wall that is nearest to the member, and how far along the member it lies.
    double nearest = 1e300;
    WallOffRest here{i, 0, 0};
    const int steps = std::max(1, static_cast<int>(std::ceil(length / kStep_in)));
    for (int k = 0; k <= steps; ++k) {
      const double t = static_cast<double>(k) / steps;
      const Point p{wall.from_in.x_in + t * (wall.to_in.x_in - wall.from_in.x_in), wall.from_in.y_in + t * (wall.to_in.y_in - wall.from_in.y_in)};
      const double off = distance_to_segment_in(p, member.from, member.to);
      const double along = along_segment_in(p, member.from, member.to);
      double rest = 1e300;
      for (const double at : member.rests_in) rest = std::min(rest, std::fabs(at - along));
      // Beside a member that runs along the wall, the spot farthest from a rest counts.
      if (off < nearest - 0.5 || (off < nearest + 0.5 && rest > here.from_rest_in + 1e-9)) {
        nearest = std::min(nearest, off);
        here.along_in = along;
        here.from_rest_in = rest;
      }
    }
    const double reach = std::max(member.section.b_in / 2 + 2, widest_spacing_in(model) - 1);
    if (nearest <= reach && here.from_rest_in > member.section.d_in) out.push_back(here);
  }
  return out;
}

}  // namespace awlmark::floor
