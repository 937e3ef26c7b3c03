#include "floor/while_open.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/bearing_walls.hpp"
#include "floor/build.hpp"
#include "floor/combinations.hpp"
#include "floor/member_forces.hpp"
#include "floor/paths.hpp"
#include "mechanics/factors.hpp"
#include "mechanics/footing.hpp"

namespace awlmark::floor {
namespace {

constexpr double kShoreClear_in = 6;  // from the end of the rot to the shore
constexpr double kOwnRest_in = 12;    // a rest this near to where a shore would stand does its work
constexpr double kLeastOpen_in = 24;  // what a crew needs to get at one bay
constexpr double kOpenStep_in = 6;
constexpr double kWallHeld_ft = 4;  // of a wall that one pair of shores holds

bool fails(const FloorChecks& checks, const std::string& member) {
  return std::any_of(checks.checks.begin(), checks.checks.end(), [&](const Check& check) { return check.member == member && failing(check); });
}

// The reaction of a shore under one side of a member that is cut through: that side rests on its own
// rests and on the shore, and carries the load that lies on it.
double shore_reaction_lb(const Member& member, const MemberLoads& loads, double from_in, double to_in, double shore_in) {
  Member part = member;
  part.from = member.at(from_in);
  part.to = member.at(to_in);
  part.rests.clear();
  for (auto rest : member.rests)
    if (rest.along_in >= from_in - 1e-6 && rest.along_in <= to_in + 1e-6 && std::fabs(rest.along_in - shore_in) > 2) {
      rest.along_in -= from_in;
      part.rests.push_back(rest);
    }
  plan::Rest shore;
  shore.along_in = shore_in - from_in;
  part.rests.push_back(shore);
  std::sort(part.rests.begin(), part.rests.end(), [](const plan::Rest& a, const plan::Rest& b) { return a.along_in < b.along_in; });
  part.decay.clear();
  auto own = clip_loads(loads, from_in, to_in);
  for (auto* set : {&own.dead, &own.live, &own.snow, &own.full}) {
    for (auto& line : set->lines) line.from_in -= from_in, line.to_in -= from_in;
    for (auto& point : set->points) point.at_in -= from_in;
  }
  const auto forces = member_forces(part, own, 1.0);
  if (!forces.solved) {
    // Nothing but the shore holds this side: it takes all of it.
    Effect all;
    all.dead = total_lb(own.dead);
    all.live_most = total_lb(own.live);
    all.snow_most = total_lb(own.snow);
    return largest(all);
  }
  double reaction = 0;
  for (const auto& rest : forces.rests)
    if (std::fabs(rest.along_in - (shore_in - from_in)) < 1e-6) reaction = largest(rest.reaction_lb);
  return std::max(0.0, reaction);
}

// The rest that already holds the cut end, when that side keeps two rests of its own; else nothing.
std::optional<double> own_rest(const Member& member, double from_in, double to_in, double at_in) {
  std::size_t held = 0;
  std::optional<double> near;
  for (const double rest : member.rests_in()) {
    if (rest < from_in - 1e-6 || rest > to_in + 1e-6) continue;
    ++held;
    if (std::fabs(rest - at_in) <= kOwnRest_in && (!near || std::fabs(rest - at_in) < std::fabs(*near - at_in))) near = rest;
  }
  return held >= 2 ? near : std::nullopt;
}

void add_shore(const Member& member, const MemberLoads& loads, double from_in, double to_in, double at_in, WhileOpen& out) {
  constexpr double kNothing_lb = 0.5;
  if (const auto rest = own_rest(member, from_in, to_in, at_in)) {
    out.words.push_back("No shore under " + member.id + " at " + format_length(at_in) + ": its own rest at " + format_length(*rest) +
                        " and the next one hold that side. Look that they are sound.");
    return;
  }
  const double load_lb = shore_reaction_lb(member, loads, from_in, to_in, at_in);
  if (load_lb < kNothing_lb) {
    out.words.push_back("No shore under " + member.id + " at " + format_length(at_in) + ": nothing would come down on it there.");
    return;
  }
  Shore shore;
  shore.id = "s" + std::to_string(out.shores.size() + 1);
  shore.under = member.id;
  shore.at_in = member.at(at_in);
  shore.load_lb = load_lb;
  const auto soil = mechanics::soil_bearing(mechanics::Soil::unknown);
  const auto pad = mechanics::pad_for(shore.load_lb, soil.bearing_psf);
  shore.pad_sf = pad.area_ft2;
  shore.reason = pad.reason;
  shore.reason.compares = "dead and live load on the shore under " + member.id + " at " + format_inches(at_in) + " against the soil under its pad";
  shore.reason.demand = shore.load_lb;
  shore.reason.unit = "lb";
  shore.reason.steps.push_back("the member counts as cut through beside it; soil not tested: " + format_number(soil.bearing_psf, 0) + " psf");
  out.shores.push_back(shore);
}

// Walls whose load lies on a member that counts as cut through need their own shores, which take that load.
void hold_walls(const Job& job, const Model& model, const FloorChecks& checks, const std::vector<BearingWall>& walls, WhileOpen& out) {
  (void)job;
  for (const auto& bearing : walls) {
    if (!(bearing.high.sum() > 0)) continue;
    for (const auto& off : off_rests(model, *bearing.wall)) {
      const auto& member = model.members[off.member];
      const bool through = std::any_of(member.decay.begin(), member.decay.end(), [&](const DecayZone& zone) {
        return zone.rot && off.along_in > zone.from_in - kShoreClear_in && off.along_in < zone.to_in + kShoreClear_in;
      });
      if (!through || !fails(checks, member.id)) continue;
      out.unsupported.push_back("wall " + bearing.wall->id + " over " + member.id + ", which brings " + bearing.carries() +
                                (bearing.known ? "" : " (assumed)") + ": hold the wall with shores of its own on both sides before " + member.id + " is cut");
      const auto soil = mechanics::soil_bearing(model.soil);
      for (const char* side : {"one side", "the other side"}) {
        Shore shore;
        shore.id = "s" + std::to_string(out.shores.size() + 1);
        shore.under = bearing.wall->id;
        shore.at_in = member.at(off.along_in);
        // Two shores share what the wall brings over four feet of its length.
        shore.load_lb = bearing.high.sum() * kWallHeld_ft / 2;
        const auto pad = mechanics::pad_for(shore.load_lb, soil.bearing_psf);
        shore.pad_sf = pad.area_ft2;
        shore.reason = pad.reason;
        shore.reason.compares =
            "half of what wall " + bearing.wall->id + " brings over " + format_number(kWallHeld_ft, 0) + " ft, on the shore on " + side + " of it";
        shore.reason.demand = shore.load_lb;
        shore.reason.unit = "lb";
        out.shores.push_back(shore);
      }
    }
  }
}

double most_lb(const std::vector<Shore>& shores) {
  double most = 0;
  for (const auto& shore : shores) most = std::max(most, shore.load_lb);
  return most;
}

// Shores beside every rotten stretch of a member, inside the spans it lies in.
void shore_member(const Member& member, const MemberLoads& loads, WhileOpen& out) {
  double from = 1e300, to = -1e300;
  for (const auto& zone : member.decay)
    if (zone.rot) from = std::min(from, zone.from_in), to = std::max(to, zone.to_in);
  if (to < from) return;
  const double length = member.length_in();
  const double left = from - kShoreClear_in, right = to + kShoreClear_in;
  bool rest_between = false;
  for (const double rest : member.rests_in()) rest_between = rest_between || (rest > from && rest < to);
  out.unsupported.push_back(member.id + " between " + format_inches(std::max(0.0, from)) + " and " + format_inches(std::min(length, to)) +
                            " once the rot is cut out" + (rest_between ? ", its rest there included" : ""));
  if (left > 2) add_shore(member, loads, 0, from, left, out);
  if (right < length - 2) add_shore(member, loads, to, length, right, out);
}

// How long a stretch of the deck may be off a joist's top edge before it could roll under its load.
double open_length_in(const Model& model, const std::vector<MemberLoads>& loads, std::string& governs) {
  double least = 1e300;
  for (std::size_t i = 0; i < model.members.size(); ++i) {
    const Member& member = model.members[i];
    if (member.lies_on) continue;
    const auto forces = member_forces(member, loads[i], 1.0);
    if (!forces.solved) continue;
    double span = 0, moment = 0;
    for (const auto& one : forces.spans) span = std::max(span, one.to_in - one.from_in);
    for (const auto& station : forces.stations)
      for (const auto& c : kCombinations) moment = std::max(moment, largest(station.moment_inlb, c));
    double open = 0;
    for (double length = kOpenStep_in; length <= span + kOpenStep_in; length += kOpenStep_in) {
      mechanics::Conditions conditions;
      conditions.wet = member.wet;
      conditions.effective_unbraced_in = mechanics::effective_unbraced_uniform_in(length, member.section.d_in);
      const auto adjusted = mechanics::adjust(member.values, member.section, conditions);
      // Cr is lost with the deck; nobody but the crew stands there, but the load is not cut down for that.
      if (!adjusted.not_allowed.empty() || moment > adjusted.fb_psi * member.section.s_in3()) break;
      open = length;
    }
    open = std::min(open, span);
    if (open < least - 1e-9) least = open, governs = member.id;
  }
  return least > 1e299 ? 0 : least;
}

}  // namespace

MemberLoads clip_loads(const MemberLoads& loads, double from_in, double to_in) {
  MemberLoads out = loads;
  for (auto* set : {&out.dead, &out.live, &out.snow, &out.full}) {
    std::vector<mechanics::LineLoad> lines;
    for (const auto& line : set->lines) {
      const double a = std::max(line.from_in, from_in), b = std::min(line.to_in, to_in);
      if (b - a < 1e-4) continue;
      const double slope = (line.w_to_pli - line.w_from_pli) / (line.to_in - line.from_in);
      lines.push_back({line.w_from_pli + slope * (a - line.from_in), line.w_from_pli + slope * (b - line.from_in), a, b});
    }
    set->lines = lines;
    std::vector<mechanics::PointLoad> points;
    for (const auto& point : set->points)
      if (point.at_in >= from_in && point.at_in <= to_in) points.push_back(point);
    set->points = points;
  }
  return out;
}

WhileOpen while_open(const Job& job, const Model& model, const cutback::CutBack& cut_back, const FloorChecks& members) {
  WhileOpen out;
  const auto loads = load_paths(model, Case::low).loads;
  for (std::size_t i = 0; i < model.members.size(); ++i)
    if (has_rot(model.members[i]) && fails(members, model.members[i].id)) shore_member(model.members[i], loads[i], out);
  hold_walls(job, model, members, bearing_walls(job, plan::framing_of(job)), out);
  for (const auto& edge : cut_back.edges)
    if (edge.layer == model.deck.layer && edge.kind == cutback::EdgeKind::cross_in_air)
      out.unsupported.push_back("board ends at (" + format_inches(edge.from_in.x_in) + ", " + format_inches(edge.from_in.y_in) +
                                ") until blocking is under them");
  for (const auto& fixture : job.fixtures) {
    if (!fixture.stands || fixture.outline_in.size() < 3) continue;
    bool over = false;
    if (const auto found = cut_back.outlines_in.find(model.deck.layer); found != cut_back.outlines_in.end())
      for (const auto& ring : found->second) over = over || area_in2(intersect(as_region(ring), as_region(fixture.outline_in))) > 1;
    if (over) out.unsupported.push_back("fixture " + fixture.id + ": it stands on deck that comes out; take it away first");
  }
  std::string governs;
  out.open_at_once_in = open_length_in(model, loads, governs);
  if (out.open_at_once_in < kLeastOpen_in && !governs.empty())
    out.words.push_back("Before deck comes off " + governs + ", set solid blocking or braces between the members there, no farther apart than " +
                        format_length(std::max(kOpenStep_in, std::floor(out.open_at_once_in / kOpenStep_in) * kOpenStep_in)) +
                        ": with its top edge free it can roll under the floor's load (NDS 3.3.3).");
  else if (out.open_at_once_in > 0)
    out.words.push_back("Take up no more than " + format_length(std::floor(out.open_at_once_in / kOpenStep_in) * kOpenStep_in) +
                        " of deck along the supports at once: without it their top edge is free and they can roll (" + governs +
                        " governs, NDS 3.3.3 with the full floor load).");
  if (!out.shores.empty() && (job.job.below == Below::room || job.job.storey == Storey::upper))
    out.words.push_back(
        "The shores stand on the floor of the room below: find what carries that floor, put each over a member of it or carry it down to the ground, and "
        "have " +
        format_number(most_lb(out.shores), 0) + " lb, the heaviest, checked there.");
  else if (!out.shores.empty() && job.job.below == Below::basement)
    out.words.push_back("The shores stand on the basement's slab, each on a plank that spreads its load; a cracked or hollow slab gets a pad as on soil.");
  if (!out.shores.empty()) out.words.push_back("Shores stand on firm pads and hold, they do not lift; a sagged floor goes up no more than 1/8\" a day.");
  out.words.push_back("Nobody and nothing stands below or on the open part while it is cut; no load is stacked beside the opening.");
  if (model.members.empty()) out.words.push_back("What carries the floor is not recorded: look from below before anything is cut.");
  return out;
}

}  // namespace awlmark::floor
