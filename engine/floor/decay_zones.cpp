#include "floor/decay_zones.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"

namespace awlmark::floor {
namespace {

constexpr double kReach_in = 12;  // of one unsound reading along the grain (outside DC-08: 12 to 24 in. of margin)
constexpr double kLikely = 0.5;   // chance above which rot that nobody touched counts too

DecayZone zone_of(const mechanics::Section& section, double from_in, double to_in, double depth_in, std::optional<double> width_in, Face face) {
  DecayZone zone;
  zone.from_in = from_in;
  zone.to_in = to_in;
  const double b = section.b_in, d = section.d_in;
  const double depth = std::max(0.0, depth_in);
  const double width = std::clamp(width_in.value_or(b), 0.0, b);
  if (face == Face::side) {
    zone.loss.side_in = std::min(b, depth);
  } else if (face == Face::end) {
    zone.loss.top_in = d;
    zone.top_depth_in = d;
    zone.top_width_in = b;
  } else {
    // What is left is an L: full breadth below the rot, or full depth beside it. The stiffer rectangle
    // counts; choosing by stiffness, deeper rot lowers stiffness, strength and area alike.
    const double left = d - std::min(d, depth);
    const bool beside = (b - width) * d * d * d > b * left * left * left;
    if (beside)
      zone.loss.side_in = width;
    else
      (face == Face::top ? zone.loss.top_in : zone.loss.bottom_in) = std::min(d, depth);
    (face == Face::top ? zone.top_depth_in : zone.bottom_depth_in) = std::min(d, depth);
    (face == Face::top ? zone.top_width_in : zone.bottom_width_in) = width;
  }
  return zone;
}

void add_from_marks(const Job& job, const Support& support, Member& member, std::vector<std::string>& assumed) {
  const double length = member.length_in();
  for (const auto& mark : job.marks) {
    if (!mark.support || *mark.support != support.id || !mark.along_in || !mark.reads) continue;
    if (*mark.reads != Reading::soft && *mark.reads != Reading::gone) continue;
    double from = *mark.along_in - kReach_in, to = *mark.along_in + kReach_in;
    for (const auto& other : job.marks) {
      if (!other.support || *other.support != support.id || !other.along_in || !other.reads || *other.reads != Reading::sound) continue;
      if (*other.along_in < *mark.along_in) from = std::max(from, *other.along_in);
      if (*other.along_in > *mark.along_in) to = std::min(to, *other.along_in);
    }
    const Face face = mark.face.value_or(Face::top);
    const double whole = face == Face::side ? member.section.b_in : member.section.d_in;
    if (!mark.depth_in) assumed.push_back("How deep " + support.id + " is rotten at " + format_inches(*mark.along_in) + " was not measured: taken as through.");
    double depth = mark.depth_in.value_or(whole);
    if (face == Face::end) {
      // Along the grain from the nearer end.
      depth = mark.depth_in.value_or(kReach_in);
      if (*mark.along_in <= length / 2)
        from = 0, to = std::max(depth, *mark.along_in);
      else
        to = length, from = std::min(length - depth, *mark.along_in);
    }
    auto zone = zone_of(member.section, std::max(0.0, from), std::min(length, to), depth, mark.width_in, face);
    zone.why = "mark " + mark.id;
    if (zone.to_in > zone.from_in) member.decay.push_back(zone);
  }
}

void add_notches(const Support& support, Member& member) {
  for (const auto& cut : support.cuts) {
    if (!cut.notch_depth_in) continue;
    const double half = cut.notch_length_in.value_or(2.0) / 2;
    DecayZone zone;
    zone.from_in = std::max(0.0, cut.along_in - half);
    zone.to_in = std::min(member.length_in(), cut.along_in + half);
    zone.rot = false;
    zone.why = "notch";
    const double depth = std::min(member.section.d_in, std::max(0.0, *cut.notch_depth_in));
    if (cut.face == Face::bottom)
      zone.loss.bottom_in = depth;
    else if (cut.face == Face::side)
      zone.loss.side_in = std::min(member.section.b_in, depth);
    else
      zone.loss.top_in = depth;
    if (zone.to_in > zone.from_in) member.decay.push_back(zone);
  }
}

}  // namespace

void add_decay(const Job& job, const survey::Survey& survey, const cutback::CutBack& cut_back, const Support& support, Member& member,
               std::vector<std::string>& assumed) {
  (void)survey;  // its chances along members reach this room through cut_back.members
  bool named = false;
  for (const auto& found : cut_back.members) {
    if (found.support != support.id) continue;
    if (!found.known) {
      // Nobody has touched it: the checks count what is known, and say where to probe.
      if (found.p_unsound >= kLikely)
        assumed.push_back(support.id + " may be rotten from " + format_inches(found.from_in) + " to " + format_inches(found.to_in) + " (" +
                          format_number(100 * found.p_unsound, 0) +
                          " in 100) and nobody has read it: probe it before the deck over it is opened, and until it reads sound keep a shore under it.");
      continue;
    }
    named = true;
    const double whole = found.face == Face::side ? member.section.b_in : member.section.d_in;
    auto zone = zone_of(member.section, std::max(0.0, found.from_in), std::min(member.length_in(), found.to_in), found.depth_in > 0 ? found.depth_in : whole,
                        found.width_in, found.face);
    zone.known = found.known;
    zone.why = found.why;
    if (zone.to_in > zone.from_in) member.decay.push_back(zone);
  }
  if (!named) add_from_marks(job, support, member, assumed);
  for (const auto& zone : member.decay) member.wet = member.wet || zone.rot;
  add_notches(support, member);
}

}  // namespace awlmark::floor
