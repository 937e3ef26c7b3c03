#include "floor/bearing_walls.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/layout.hpp"
#include "tables/table.hpp"

namespace awlmark::floor {
namespace {

double load_value(const char* id) { return tables::table("floor_loads.csv").find("id", id)->number("value"); }

// A floor above, gathered by this wall: its own load and the wall on it.
void add_floors(WallPlf& out, double count, double width_ft) {
  out.dead += count * (width_ft * load_value("floor_above_dead") + load_value("partition"));
  out.live += count * width_ft * load_value("floor_above_live");
}

double roof_dead_psf(const Wall& wall) { return load_value("roof_dead") + (wall.heavy_roof.value_or(false) ? load_value("heavy_roof_more") : 0); }
// On the roof: 0.7 of the ground snow (ASCE 7-16 7.3), not less than the code's least roof load.
double roof_snow_psf(const Job& job) {
  if (!job.job.ground_snow_psf) return load_value("roof_live");
  return std::max(load_value("roof_least"), load_value("flat_roof_snow") * *job.job.ground_snow_psf);
}

// Feet of floor or ceiling that the wall gathers: half the way to the next bearing on each side.
std::optional<double> gathers_ft(const Wall& wall) {
  if (wall.next_bearing_in.empty()) return std::nullopt;
  const double left = wall.next_bearing_in.front(), right = wall.next_bearing_in.back();
  return (wall.outside.value_or(false) ? std::max(left, right) : left + right) / 2 / 12;
}

std::optional<int> floors_of(const Job& job, const Wall& wall) { return wall.floors_above ? wall.floors_above : job.job.floors_above; }

// In a builder's words, where they suffice.
std::optional<WallPlf> told(const Job& job, const Wall& wall) {
  const auto floors = floors_of(job, wall);
  const auto width = gathers_ft(wall);
  if (!floors || wall.attic == Attic::unknown || (!wall.lands_here && wall.attic != Attic::none)) return std::nullopt;
  const bool lands = wall.attic != Attic::none && *wall.lands_here;
  if ((*floors > 0 || (lands && !wall.outside)) && !width) return std::nullopt;
  WallPlf out;
  if (lands && wall.outside.value_or(false)) {
    // Roof and ceiling over half the house, and the eave.
    std::optional<double> roof_ft;
    if (job.job.house_width_in)
      roof_ft = *job.job.house_width_in / 2 / 12 + load_value("eave");
    else if (width)
      roof_ft = *width + load_value("eave");
    if (!roof_ft) return std::nullopt;
    out.dead += *roof_ft * roof_dead_psf(wall);
    out.snow += *roof_ft * roof_snow_psf(job);
  } else if (lands) {
    if (!width) return std::nullopt;
    out.dead += *width * load_value("ceiling_dead");
    out.live += *width * load_value("attic_live");
  }
  if (*floors > 0) add_floors(out, *floors, *width);
  return out;
}

void take_known(const Wall& wall, const WallPlf& plf, const std::string& by, BearingWall& out) {
  out.low = out.high = plf;
  out.known = true;
  out.reason.rule = by;
  out.reason.source = "the job";
  out.reason.status = SourceStatus::read;
  if (plf.sum() > 0) out.words = "Wall " + wall.id + " carries " + out.carries() + ", " + by + ".";
}

// Whether every member that the wall crosses has a rest within its depth there: it may be an outside wall.
bool at_rests(const plan::Framing& framing, const Job& job, const Wall& wall) {
  for (const auto& member : framing.members) {
    const Support& support = job.supports[member.support.of()];
    const double depth = support.size && support.size->d_in > 0 ? support.size->d_in : 5.5;
    for (int k = 0; k <= 8; ++k) {
      const double t = k / 8.0;
      const Point p{wall.from_in.x_in + t * (wall.to_in.x_in - wall.from_in.x_in), wall.from_in.y_in + t * (wall.to_in.y_in - wall.from_in.y_in)};
      if (distance_to_segment_in(p, member.from, member.to) > 3) continue;
      const double along = along_segment_in(p, member.from, member.to);
      if (std::none_of(member.rests.begin(), member.rests.end(), [&](const plan::Rest& rest) { return std::fabs(rest.along_in - along) <= depth; }))
        return false;
    }
  }
  return true;
}

bool runs_along(const plan::Framing& framing, const Job& job, const Wall& wall) {
  double along = 0, across = 0;
  const double wx = wall.to_in.x_in - wall.from_in.x_in, wy = wall.to_in.y_in - wall.from_in.y_in, length = distance_in(wall.from_in, wall.to_in);
  const bool joists =
      std::any_of(framing.members.begin(), framing.members.end(), [&](const auto& m) { return job.supports[m.support.of()].role == SupportRole::joist; });
  for (const auto& member : framing.members) {
    if (joists && job.supports[member.support.of()].role != SupportRole::joist) continue;
    const double mx = member.to.x_in - member.from.x_in, my = member.to.y_in - member.from.y_in;
    (std::fabs(wx * mx + wy * my) > 0.7 * length * member.length_in() ? along : across) += member.length_in();
  }
  return along > across;
}

void take_assumed(const Job& job, const plan::Framing& framing, const Wall& wall, BearingWall& out) {
  const bool may_be_outside = wall.outside.value_or(at_rests(framing, job, wall));
  const auto floors = floors_of(job, wall);
  const double floor_ft = load_value("bearing_floor_width"), roof_ft = load_value("bearing_roof_width");
  if (out.along && !wall.bearing.value_or(false)) {
    out.low.dead = wall.outside.value_or(false) ? load_value("gable_low") : 0;
    out.high.dead = load_value("gable_high");
  } else {
    const double inner_ft = load_value("bearing_floor_width") * 2;
    if (!wall.outside.value_or(false)) {
      out.low.dead = inner_ft * load_value("ceiling_dead");
      out.low.live = inner_ft * load_value("attic_least");
      out.high.dead = inner_ft * load_value("ceiling_dead");
      out.high.live = inner_ft * load_value("attic_live");
    } else {
      out.low.dead = roof_ft * roof_dead_psf(wall);
      out.low.snow = roof_ft * roof_snow_psf(job);
    }
    if (may_be_outside) out.high = {roof_ft * roof_dead_psf(wall), 0, roof_ft * roof_snow_psf(job)};
    if (floors) add_floors(out.low, *floors, floor_ft);
    // Floors above count unless the job says that there are none.
    add_floors(out.high, floors ? *floors : job.job.storey == Storey::upper ? 0 : 1, floor_ft);
    if (!wall.bearing) out.low = {};
  }
  out.reason = tables::table("floor_loads.csv").find("id", out.along && !wall.bearing.value_or(false) ? "gable_high" : "bearing_roof_width")->reason();
  out.reason.rule = "what such walls usually carry, at the least and at the most";
  out.words = std::string(wall.bearing ? "Wall " + wall.id + " bears; what it carries is not recorded." : "Nobody said whether wall " + wall.id + " bears.") +
              " Both ends are run: " + out.carries() + " (common practice, no source)." +
              " Look in the attic: what lands on it, and how far it is to the next bearing on each side; enter it, or the load in lb/ft.";
}

}  // namespace

std::string BearingWall::carries() const {
  const std::string most = format_number(high.sum(), 0) + " lb/ft";
  return std::fabs(high.sum() - low.sum()) < 0.5 ? most : format_number(low.sum(), 0) + " to " + most;
}

std::vector<BearingWall> bearing_walls(const Job& job, const plan::Framing& framing) {
  std::vector<BearingWall> out;
  for (std::size_t w = 0; w < job.walls.size(); ++w) {
    const Wall& wall = job.walls[w];
    const auto& line = framing.walls[w];
    if (distance_in(wall.from_in, wall.to_in) < 1) continue;
    // Held from below: off the framing, unless it is a girder of this plan that holds it.
    if (line.held_below() && !(line.below == UnderWall::girder && line.girder.known())) continue;
    BearingWall bearing;
    bearing.wall = &wall;
    bearing.along = runs_along(framing, job, wall);
    if (line.below == UnderWall::girder && line.girder.known()) bearing.onto = line.girder.at;
    if (wall.bearing && !*wall.bearing)
      take_known(wall, {}, "as recorded", bearing);
    else if (wall.dead_plf || wall.live_plf || wall.snow_plf)
      take_known(wall, {wall.dead_plf.value_or(0), wall.live_plf.value_or(0), wall.snow_plf.value_or(0)}, "as recorded", bearing);
    else if (wall.carries_plf)
      take_known(wall, {*wall.carries_plf, 0, 0}, "as recorded in one figure, counted as lasting", bearing);
    else if (const auto plf = told(job, wall))
      take_known(wall, *plf, "by what lands on it as recorded", bearing);
    else
      take_assumed(job, framing, wall, bearing);
    bearing.reason.compares = "what wall " + wall.id + " brings from above";
    bearing.reason.unit = "lb/ft";
    bearing.reason.demand = bearing.high.sum();
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
      for (const auto& one : member.rests) rest = std::min(rest, std::fabs(one.along_in - along));
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
