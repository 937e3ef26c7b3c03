// Supports, rows of them, their rests, and what runs in the bays.
#include <cmath>
#include <set>

#include "base/doc.hpp"
#include "base/length.hpp"
#include "base/special.hpp"
#include "job/judge.hpp"
#include "job/rules.hpp"

namespace awlmark {

void Judge::members() {
  ids("supports", job_.supports);
  ids("rows", job_.rows);
  ids("in_bays", job_.in_bays);
  each("supports", job_.supports, [&](const Support& support, const std::string& at) { this->support(support, at); });
  each("rows", job_.rows, [&](const SupportRow& row, const std::string& at) { this->row(row, at); });
  each("in_bays", job_.in_bays, [&](const Obstacle& obstacle, const std::string& at) { line(obstacle.from_in, obstacle.to_in, at, "run"); });
  if (full_.supports.size() > job_rules::kMaxSupports && !judged("rows"))
    problem("rows", "make " + std::to_string(full_.supports.size()) + " members with the single ones; the limit is " + std::to_string(job_rules::kMaxSupports),
            "leave out those far from the damage");
}

void Judge::rests_at(const std::vector<double>& list, double length_in, const std::string& at) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    const double rest = list[i];
    const std::string where = at + ".rests_at_in[" + std::to_string(i) + "]";
    // A member often goes on past the room: a rest may lie beyond the stretch drawn.
    if (rest < -kLargestRoom_in || rest > length_in + kLargestRoom_in)
      problem(where, "is " + format_length(rest) + " along a support of " + format_length(length_in), "measure it along the support from from_in");
    if (i > 0 && rest <= list[i - 1]) problem(where, "does not lie beyond the rest before it", "list the rests in rising order, each once");
  }
}

void Judge::rests(const std::vector<SupportRest>& list, const std::string& self, double length_in, const std::string& at) {
  std::vector<double> places;
  std::set<std::string> names;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const auto& rest = list[i];
    const std::string where = at + ".rests[" + std::to_string(i) + "]";
    if (judged(where)) continue;
    if (rest.id && !names.insert(*rest.id).second) problem(where + ".id", "is '" + *rest.id + "' again", "give each rest an id of its own");
    if (rest.at_in.has_value() == rest.end.has_value()) {
      problem(where, rest.at_in ? "gives both at_in and end" : "says neither at_in nor end", "say where it is: at_in along the member, or end: from or to");
      continue;
    }
    const double place = rest.at_in ? *rest.at_in : rest.end == LineEnd::to ? length_in : 0;
    if (place < -kLargestRoom_in || place > length_in + kLargestRoom_in)
      problem(where + ".at_in", "is " + format_length(place) + " along a support of " + format_length(length_in), "measure it along the support from from_in");
    if (std::any_of(places.begin(), places.end(), [&](double other) { return std::fabs(other - place) < 0.5; }))
      problem(where, "lies where another rest lies", "write each rest once");
    places.push_back(place);
    if (rest.support && reference(where + ".support", *rest.support, ids_of(full_.supports), "support") && *rest.support == self)
      problem(where + ".support", "is the member itself", "name the member that it rests on");
    if (rest.wall) reference(where + ".wall", *rest.wall, ids_of(job_.walls), "wall");
    if (rest.on == RestOn::nothing && (rest.support || rest.wall || rest.bearing_in.value_or(0) > 0))
      problem(where + ".on", "is nothing, and yet it says what the end rests on", "correct one of the two");
  }
}

void Judge::support(const Support& support, const std::string& at) {
  line(support.from_in, support.to_in, at, "support");
  const double length = distance_in(support.from_in, support.to_in);
  rests_at(support.rests_at_in, length, at);
  rests(support.rests, support.id, length, at);
  for (std::size_t i = 0; i < support.cuts.size(); ++i) {
    const auto& cut = support.cuts[i];
    const std::string where = at + ".cuts[" + std::to_string(i) + "]";
    if (cut.along_in > length + 1)
      problem(where + ".along_in", "lies past the support's end at " + format_length(length), "measure it along the support from from_in");
    if (!cut.notch_depth_in && !cut.hole_diameter_in) problem(where, "says neither notch_depth_in nor hole_diameter_in", "give one of them");
    if (support.size && cut.notch_depth_in && *cut.notch_depth_in >= support.size->d_in)
      problem(where + ".notch_depth_in", "is as deep as the member", "correct it, or mark the wood as gone");
    if (support.size && cut.hole_diameter_in && *cut.hole_diameter_in >= support.size->d_in)
      problem(where + ".hole_diameter_in", "is as wide as the member is deep", "correct it");
  }
}

// Step, numbers and place of a row.
void Judge::row(const SupportRow& row, const std::string& at) {
  if (judged(at)) return;
  line(row.from_in, row.to_in, at, "member");
  const double length = distance_in(row.from_in, row.to_in);
  rests_at(row.rests_at_in, length, at);
  rests(row.rests, row.id, length, at);
  for (std::size_t i = 0; i < row.missing.size(); ++i)
    if (row.missing[i] > row.count)
      problem(at + ".missing[" + std::to_string(i) + "]", "is " + std::to_string(row.missing[i]) + " in a row of " + std::to_string(row.count),
              "members are numbered from 1");
  if (!judged(at)) row_place(row, at);
}

void Judge::row_place(const SupportRow& row, const std::string& at) {
  constexpr double kSmallSine = 0.25;     // 15 degrees: less is along the member, not away from it
  constexpr double kFarOutside_in = 240;  // a member 20 ft off has nothing to do with this floor
  const double length = distance_in(row.from_in, row.to_in);
  const double along_x = (row.to_in.x_in - row.from_in.x_in) / length, along_y = (row.to_in.y_in - row.from_in.y_in) / length;
  if (row.step) {
    const double radians = row.step->degrees * (kPi / 180);
    if (std::fabs(along_x * det_sin(radians) - along_y * det_cos(radians)) < kSmallSine)
      return problem(at + ".step", "runs along the members", "give the direction from one member to the next");
  } else if (outline_ok_ && row.count > 1) {
    const Point middle = centroid(job_.room.outline_in);
    if (std::fabs(along_x * (middle.y_in - row.from_in.y_in) - along_y * (middle.x_in - row.from_in.x_in)) < 1)
      return problem(at + ".step", "is missing", "the first member runs through the middle of the room: say which way the others lie, \"x\", \"y\" or degrees");
  }
  if (!outline_ok_) return;
  for (const auto& member : full_.supports) {
    if (member.from_row != row.id) continue;
    const Point middle{(member.from_in.x_in + member.to_in.x_in) / 2, (member.from_in.y_in + member.to_in.y_in) / 2};
    const double outside = distance_to_in(job_.room.outline_in, middle);
    if (outside > kFarOutside_in)
      return problem(at, "puts " + member.id + " " + format_length(outside) + " outside the room", "check spacing_in, count and step, in inches");
  }
}

}  // namespace awlmark
