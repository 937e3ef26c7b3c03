#include "floor/while_open.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/bearing_walls.hpp"
#include "floor/build.hpp"
#include "floor/combinations.hpp"
#include "floor/member_forces.hpp"
#include "floor/member_parts.hpp"
#include "floor/paths.hpp"
#include "mechanics/factors.hpp"
#include "mechanics/footing.hpp"

namespace awlmark::floor {
namespace {

constexpr double kShoreClear_in = 6;   // from the end of the rot to the shore
constexpr double kFarEnd_in = 3;       // of a side without a rest of its own, where its second shore stands
constexpr double kLeastAlone_in = 16;  // the same without a rest of its own
constexpr double kLeastSide_in = 12;   // a shorter piece goes with the rot
constexpr double kOwnRest_in = 12;     // a rest this near to where a shore would stand does its work
constexpr double kLeastOpen_in = 24;   // what a crew needs to get at one bay
constexpr double kOpenStep_in = 6;
constexpr double kMayLose = 0.95;  // of its strength with the deck on

bool fails(const FloorChecks& checks, const std::string& member) {
  return std::any_of(checks.checks.begin(), checks.checks.end(), [&](const Check& check) { return check.member == member && failing(check); });
}

plan::Rest on_shore(double along_in) {
  plan::Rest rest;
  rest.along_in = along_in;
  rest.on = RestOn::post;
  rest.bearing_in = 3.5;
  rest.bearing_known = true;
  return rest;
}

// One side of a member that is cut through: it keeps its own rests and stands on shores besides, two where it
// has no rest of its own. Nothing where the side is too short to hold itself: it goes with the rot.
std::optional<Member> hold_side(const Model& model, const Member& member, const MemberLoads& loads, double from_in, double to_in, bool cut_at_end,
                                WhileOpen& out) {
  constexpr double kNothing_lb = 0.5;
  Member part = piece_of(member, from_in, to_in);
  const double length = part.length_in();
  std::vector<double> places{cut_at_end ? length - kShoreClear_in : kShoreClear_in};
  const auto at = [&](double along_in) { return member.id + ", " + format_length(from_in + along_in) + " along it"; };
  const std::size_t own = part.rests.size();
  if (own >= 2)
    for (const auto& rest : part.rests)
      if (std::fabs(rest.along_in - places.front()) <= kOwnRest_in) {
        out.words.push_back("No shore under " + at(places.front()) + ": its own rest " + format_length(from_in + rest.along_in) +
                            " along it and the next one hold that side. Look that they are sound.");
        return part;
      }
  if (own == 0) places.push_back(cut_at_end ? kFarEnd_in : length - kFarEnd_in);
  if (length < kLeastSide_in || (own == 0 && length < kLeastAlone_in)) {
    out.words.push_back("The piece of " + member.id + " from " + format_length(from_in) + " to " + format_length(to_in) +
                        " is too short to shore: block it to its neighbours, or take it out with the rot.");
    return std::nullopt;
  }
  for (const double place : places) add_rest(part, on_shore(place));
  const auto forces = member_forces(part, shift_loads(loads, from_in, to_in), 1.0);
  for (const double place : places)
    for (std::size_t r = 0; forces.solved && r < forces.rests.size(); ++r) {
      if (std::fabs(forces.rests[r].along_in - place) > 1e-6) continue;
      const double load_lb = largest(forces.rests[r].reaction_lb);
      if (load_lb < kNothing_lb) {
        out.words.push_back("No shore under " + at(place) + ": nothing would come down on it there.");
        if (own >= 2) part.rests.erase(part.rests.begin() + static_cast<std::ptrdiff_t>(r));
        continue;
      }
      auto shore = shore_of(model, out.shores.size() + 1, member.id, part.at(place), load_lb,
                            "dead and live load on the shore under " + at(place) + " against the soil under its pad");
      shore.reason.steps.push_back("the member counts as cut through beside it");
      out.shores.push_back(shore);
    }
  return part;
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
      for (const char* side : {"one side", "the other side"}) {
        // Two shores share what the wall brings over four feet of its length.
        const auto shore =
            shore_of(model, out.shores.size() + 1, bearing.wall->id, member.at(off.along_in), bearing.high.sum() * kWallHeld_ft / 2,
                     "half of what wall " + bearing.wall->id + " brings over " + format_number(kWallHeld_ft, 0) + " ft, on the shore on " + side + " of it");
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

// What hung on a member that is cut: on the piece that it hangs on now, or on a shore of its own over the rot.
void move_hung(Model& open, std::size_t index, const std::vector<std::pair<std::size_t, std::pair<double, double>>>& pieces, const Paths& paths,
               WhileOpen& out) {
  const std::string id = open.members[index].id;
  for (std::size_t i = 0; i < open.members.size(); ++i)
    for (std::size_t r = 0; r < open.members[i].rests.size(); ++r) {
      auto& rest = open.members[i].rests[r];
      if (!rest.carrier.known() || rest.carrier.of() != index || rest.on == RestOn::post) continue;
      const auto piece = std::find_if(pieces.begin(), pieces.end(), [&](const auto& one) {
        return rest.along_carrier_in >= one.second.first - 1e-6 && rest.along_carrier_in <= one.second.second + 1e-6;
      });
      if (piece != pieces.end()) {
        rest.carrier = plan::MemberIx{static_cast<int>(piece->first)};
        rest.along_carrier_in -= piece->second.first;
        continue;
      }
      const auto& hung = open.members[i];
      out.unsupported.push_back("the end of " + hung.id + " that hangs on " + id + " where its rot is cut out");
      const double load = i < paths.forces.size() && r < paths.forces[i].rests.size() ? largest(paths.forces[i].rests[r].reaction_lb) : 0;
      if (load > 0.5)
        out.shores.push_back(shore_of(open, out.shores.size() + 1, hung.id, hung.at(rest.along_in), load,
                                      "the end of " + hung.id + " while " + id + " is cut, against the soil under its pad"));
      rest.carrier = plan::MemberIx{};
      rest.on = RestOn::post;
    }
}

// Shores beside every rotten stretch of a member, inside the spans it lies in; the pieces stand in `open`.
void shore_member(Model& open, std::size_t index, const Paths& paths, WhileOpen& out) {
  const Member member = open.members[index];
  double from = 1e300, to = -1e300;
  for (const auto& zone : member.decay)
    if (zone.rot) from = std::min(from, zone.from_in), to = std::max(to, zone.to_in);
  if (to < from) return;
  const double length = member.length_in();
  bool rest_between = false;
  for (const double rest : member.rests_in()) rest_between = rest_between || (rest > from && rest < to);
  out.unsupported.push_back(member.id + " between " + format_inches(std::max(0.0, from)) + " and " + format_inches(std::min(length, to)) +
                            " once the rot is cut out" + (rest_between ? ", its rest there included" : ""));
  std::vector<std::pair<std::size_t, std::pair<double, double>>> pieces;
  const auto take = [&](double a, double b, bool cut_at_end) {
    if (b - a <= 2) return;
    const auto part = hold_side(open, member, paths.loads[index], a, b, cut_at_end, out);
    if (!part) return;
    const std::size_t place = pieces.empty() ? index : open.members.size();
    pieces.push_back({place, {a, b}});
    if (pieces.size() == 1)
      open.members[index] = *part;
    else
      open.members.push_back(*part);
  };
  take(0, from, true);
  take(to, length, false);
  if (!pieces.empty()) move_hung(open, index, pieces, paths, out);
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
    // Held along its top; what is past today's limits already may lose a twentieth at most, no more.
    mechanics::Conditions held;
    held.wet = member.wet;
    const double strength = mechanics::adjust(member.values, member.section, held).fb_psi * member.section.s_in3();
    const double least_strength = std::min(moment, kMayLose * strength);
    double open = 0;
    for (double length = kOpenStep_in; length <= span + kOpenStep_in; length += kOpenStep_in) {
      mechanics::Conditions conditions;
      conditions.wet = member.wet;
      conditions.effective_unbraced_in = mechanics::effective_unbraced_uniform_in(length, member.section.d_in);
      const auto adjusted = mechanics::adjust(member.values, member.section, conditions);
      // Cr is lost with the deck; nobody but the crew stands there, but the load is not cut down for that.
      if (!adjusted.not_allowed.empty() || least_strength > adjusted.fb_psi * member.section.s_in3()) break;
      open = length;
    }
    open = std::min(open, span);
    if (open < least - 1e-9) least = open, governs = member.id;
  }
  return least > 1e299 ? 0 : least;
}

}  // namespace

Shore shore_of(const Model& model, std::size_t number, const std::string& under, Point at, double load_lb, const std::string& what) {
  Shore shore;
  shore.id = "s" + std::to_string(number);
  shore.under = under;
  shore.at_in = at;
  shore.load_lb = load_lb;
  const auto soil = mechanics::soil_bearing(model.soil);
  const auto pad = mechanics::pad_for(load_lb, soil.bearing_psf);
  shore.pad_sf = pad.area_ft2;
  shore.reason = pad.reason;
  shore.reason.compares = what;
  shore.reason.demand = load_lb;
  shore.reason.unit = "lb";
  return shore;
}

MemberLoads shift_loads(const MemberLoads& loads, double from_in, double to_in) {
  MemberLoads out = loads;
  for (auto* set : {&out.dead, &out.live, &out.snow, &out.full}) {
    std::vector<mechanics::LineLoad> lines;
    for (const auto& line : set->lines) {
      const double a = std::max(line.from_in, from_in), b = std::min(line.to_in, to_in);
      if (b - a < 1e-4) continue;
      const double slope = (line.w_to_pli - line.w_from_pli) / (line.to_in - line.from_in);
      lines.push_back({line.w_from_pli + slope * (a - line.from_in), line.w_from_pli + slope * (b - line.from_in), a - from_in, b - from_in});
    }
    set->lines = lines;
    std::vector<mechanics::PointLoad> points;
    for (const auto& point : set->points)
      if (point.at_in >= from_in && point.at_in <= to_in) points.push_back({point.p_lb, point.at_in - from_in});
    set->points = points;
  }
  return out;
}

WhileOpen while_open(const Job& job, const Model& model, const cutback::CutBack& cut_back, const FloorChecks& members) {
  WhileOpen out;
  const auto paths = load_paths(model, Case::low);
  Model open = model;
  for (std::size_t i = 0; i < model.members.size(); ++i)
    if (has_rot(model.members[i]) && fails(members, model.members[i].id)) shore_member(open, i, paths, out);
  out.balance = load_paths(open, Case::low).balance;
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
  out.open_at_once_in = open_length_in(model, paths.loads, governs);
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
