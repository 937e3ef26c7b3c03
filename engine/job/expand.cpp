// What the document writes once, put in its own place: rows, readings of openings, rests.
#include <algorithm>
#include <cmath>

#include "base/special.hpp"
#include "job/job.hpp"

namespace awlmark {
namespace {

constexpr double kSamePlace_in = 0.125;

double place_of(const SupportRest& rest, double length_in) {
  if (rest.at_in) return *rest.at_in;
  return rest.end == LineEnd::to ? length_in : 0;
}

// The step from one member of a row to the next, on the plan. Without a direction it is square to the
// member, to the side on which the middle of the room lies.
Point step_of(const Job& job, const SupportRow& row) {
  if (row.step) {
    const double radians = row.step->degrees * (kPi / 180);
    return {row.spacing_in * det_cos(radians), row.spacing_in * det_sin(radians)};
  }
  const double dx = row.to_in.x_in - row.from_in.x_in, dy = row.to_in.y_in - row.from_in.y_in;
  const double length = std::max(distance_in(row.from_in, row.to_in), 1e-9);
  Point left{-dy / length * row.spacing_in, dx / length * row.spacing_in};
  if (job.room.outline_in.size() < 3) return left;
  const Point middle = centroid(job.room.outline_in);
  const double side = left.x_in * (middle.x_in - row.from_in.x_in) + left.y_in * (middle.y_in - row.from_in.y_in);
  if (side < 0) left = {-left.x_in, -left.y_in};
  return left;
}

Support member_of(const SupportRow& row, int number, Point step) {
  const double n = number - 1;
  Support member;
  member.id = row.id + "." + std::to_string(number);
  member.role = row.role;
  member.from_in = {row.from_in.x_in + n * step.x_in, row.from_in.y_in + n * step.y_in};
  member.to_in = {row.to_in.x_in + n * step.x_in, row.to_in.y_in + n * step.y_in};
  member.size = row.size;
  member.species = row.species;
  member.grade = row.grade;
  member.rests_at_in = row.rests_at_in;
  member.rests = row.rests;
  member.post_size = row.post_size;
  member.post_length_in = row.post_length_in;
  member.treated = row.treated;
  member.from_row = row.id;
  return member;
}

void expand_rows(Job& job) {
  for (const auto& row : job.rows) {
    const Point step = step_of(job, row);
    for (int number = 1; number <= row.count; ++number) {
      if (std::find(row.missing.begin(), row.missing.end(), number) != row.missing.end()) continue;
      Support member = member_of(row, number, step);
      if (find_support(job, member.id) == nullptr) job.supports.push_back(std::move(member));
    }
  }
}

// Rests that say what they are join the bare positions, each place once.
void expand_rests(Support& support) {
  if (support.rests.empty()) return;
  support.rests_at_as_written = support.rests_at_in;
  const double length = distance_in(support.from_in, support.to_in);
  for (const auto& rest : support.rests) {
    if (rest.on == RestOn::nothing) continue;
    const double at = place_of(rest, length);
    const bool there = std::any_of(support.rests_at_in.begin(), support.rests_at_in.end(), [&](double known) { return std::fabs(known - at) < kSamePlace_in; });
    if (!there) support.rests_at_in.push_back(at);
  }
  std::sort(support.rests_at_in.begin(), support.rests_at_in.end());
}

// A reading as a mark of its own: what it leaves out it has from its opening.
Mark mark_of(const Job& job, const Opening& opening, Mark reading) {
  const auto along = [&](Point from, Point to) { return along_segment_in(opening.at_in, from, to); };
  if (reading.layer && !reading.at_in && !reading.plank) reading.at_in = opening.at_in;
  if (reading.support && !reading.along_in && !reading.at_in)
    if (const auto* support = find_support(job, *reading.support)) reading.along_in = along(support->from_in, support->to_in);
  if (reading.wall && !reading.along_in && !reading.at_in)
    if (const auto* wall = find_wall(job, *reading.wall)) reading.along_in = along(wall->from_in, wall->to_in);
  if (!reading.from) reading.from = opening.from;
  if (!reading.time) reading.time = opening.time;
  if (!reading.by) reading.by = opening.by;
  reading.from_opening = opening.id;
  return reading;
}

}  // namespace

Job as_written(const Job& job) {
  Job out = job;
  out.supports.erase(std::remove_if(out.supports.begin(), out.supports.end(), [](const Support& s) { return !s.from_row.empty(); }), out.supports.end());
  out.marks.erase(std::remove_if(out.marks.begin(), out.marks.end(), [](const Mark& m) { return !m.from_opening.empty(); }), out.marks.end());
  for (auto& support : out.supports)
    if (support.rests_at_as_written) {
      support.rests_at_in = *support.rests_at_as_written;
      support.rests_at_as_written.reset();
    }
  return out;
}

void expand(Job& job) {
  job = as_written(job);
  expand_rows(job);
  for (auto& support : job.supports) expand_rests(support);
  for (const auto& opening : job.openings)
    for (const auto& reading : opening.readings) job.marks.push_back(mark_of(job, opening, reading));
}

std::vector<SupportRest> rests_of(const Support& support) {
  const double length = distance_in(support.from_in, support.to_in);
  std::vector<SupportRest> all = support.rests;
  for (auto& rest : all) {
    rest.at_in = place_of(rest, length);
    rest.end.reset();
  }
  for (const double at : support.rests_at_in)
    if (std::none_of(all.begin(), all.end(), [&](const SupportRest& r) { return std::fabs(*r.at_in - at) < kSamePlace_in; })) {
      SupportRest bare;
      bare.at_in = at;
      all.push_back(bare);
    }
  for (auto& rest : all) {
    if (rest.on != RestOn::unknown && rest.on != RestOn::post) continue;
    if (!rest.post_size) rest.post_size = support.post_size;
    if (!rest.post_length_in) rest.post_length_in = support.post_length_in;
  }
  std::stable_sort(all.begin(), all.end(), [](const SupportRest& a, const SupportRest& b) { return *a.at_in < *b.at_in; });
  return all;
}

std::optional<LaboratoryWord> laboratory_of(const Job& job, const Layer& layer, LaboratoryPart part) {
  std::optional<LaboratoryWord> word;
  if (!job.hazards) return word;
  for (const auto& result : job.hazards->facts.laboratory) {
    if (result.layer != layer.id || (result.part && *result.part != part)) continue;
    if (result.result == LaboratoryWord::positive) return LaboratoryWord::positive;
    word = result.result;
  }
  return word;
}

}  // namespace awlmark
