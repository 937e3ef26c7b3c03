#include <cmath>

#include "base/doc.hpp"
#include "base/length.hpp"
#include "job/dates.hpp"
#include "job/judge.hpp"
#include "tables/materials.hpp"

namespace awlmark {
namespace {

Job expanded(Job job) {
  expand(job);
  return job;
}

}  // namespace

Judge::Judge(const Job& job, Problems& problems, Problems& warnings)
    : job_(as_written(job)), full_(expanded(job_)), problems_(problems), warnings_(warnings), from_reading_(problems.size()) {}

void Judge::all() {
  format();
  room();
  house();
  members();
  readings();
  plans();
}

void Judge::format() {
  if (!judged("format") && job_.format != "awlmark-job") problem("format", "is '" + job_.format + "'", "a job document says \"awlmark-job\"");
}

void Judge::polygon(const Polygon& ring, const std::string& at) {
  if (judged(at)) return;
  if (!is_simple(ring))
    problem(at, "crosses or touches itself, or repeats a corner", "give the corners once each, in order around it");
  else if (area_in2(ring) < 36)
    problem(at, "encloses only " + format_number(area_in2(ring), 1) + " square inches", "lengths are inches: check the unit");
}

void Judge::room() {
  polygon(job_.room.outline_in, "room.outline_in");
  outline_ok_ = !judged("room.outline_in") && job_.room.outline_in.size() >= 3;
  if (!outline_ok_) return;
  const Box box = bounds(job_.room.outline_in);
  if (std::max(box.width_in(), box.height_in()) > kLargestRoom_in) {
    problem("room.outline_in", "is " + format_length(std::max(box.width_in(), box.height_in())) + " long; the limit is 100 ft",
            "lengths are inches: check the unit, or split the job by rooms");
    outline_ok_ = false;
  }
  each("room.doors", job_.room.doors, [&](const Door& door, const std::string& at) {
    line(door.from_in, door.to_in, at, "door");
    for (const auto& [jamb, key] : {std::pair{door.from_in, ".from_in"}, std::pair{door.to_in, ".to_in"}})
      if (outline_ok_ && edge_distance(jamb) > 12)
        problem(at + key, "is " + format_length(edge_distance(jamb)) + " from the room's outline", "a door's jambs stand on the outline");
  });
}

double Judge::edge_distance(Point p) const {
  const auto& ring = job_.room.outline_in;
  double least = distance_to_segment_in(p, ring.back(), ring.front());
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) least = std::min(least, distance_to_segment_in(p, ring[i], ring[i + 1]));
  return least;
}

void Judge::line(Point from, Point to, const std::string& at, const char* what) {
  if (distance_in(from, to) < 1) problem(at + ".to_in", std::string("makes the ") + what + " shorter than an inch", "give its two ends");
}

void Judge::date(const std::optional<std::string>& text, const std::string& at) {
  if (text && !judged(at) && !valid_date(*text)) problem(at, "is '" + *text + "', which is not a date", "write it as 2026-05-04");
}

void Judge::time(const std::optional<std::string>& text, const std::string& at) {
  if (text && !judged(at) && !valid_time(*text)) problem(at, "is '" + *text + "', which is not a time", "write it as 2026-05-04T09:10:00Z");
}

void Judge::time_or_date(const std::string& text, const std::string& at) {
  if (!judged(at) && !valid_time(text) && !valid_date(text))
    problem(at, "is '" + text + "', which is neither a time nor a date", "write it as 2026-05-04T09:10:00Z, or the date alone");
}

bool Judge::within_reach(Point spot, const std::string& at, const char* what) {
  if (!outline_ok_) return true;
  const double outside = distance_to_in(job_.room.outline_in, spot);
  if (outside <= kMarkReach_in) return true;
  problem(at, "lies " + format_length(outside) + " outside the room; " + what + " may lie up to 24 in. from it", "correct the point, or the room's outline");
  return false;
}

void Judge::house() {
  ids("layers", job_.layers);
  ids("walls", job_.walls);
  ids("fixtures", job_.fixtures);
  ids("sources", job_.sources);
  ids("room.doors", job_.room.doors);
  ids("visits", job_.visits);
  each("layers", job_.layers, [&](const Layer& layer, const std::string& at) { this->layer(layer, at); });
  each("walls", job_.walls, [&](const Wall& wall, const std::string& at) { this->wall(wall, at); });
  each("fixtures", job_.fixtures, [&](const Fixture& fixture, const std::string& at) { polygon(fixture.outline_in, at + ".outline_in"); });
  each("sources", job_.sources, [&](const Source& source, const std::string& at) {
    if (source.stopped) date(source.stopped->substr(0, 10), at + ".stopped");
  });
  each("visits", job_.visits, [&](const Visit& visit, const std::string& at) { time_or_date(visit.time, at + ".time"); });
  if (job_.claim) {
    date(job_.claim->date_of_loss, "claim.date_of_loss");
    date(job_.claim->adjuster_visit, "claim.adjuster_visit");
  }
  if (job_.settings) date(job_.settings->date, "settings.date");
}

void Judge::layer(const Layer& layer, const std::string& at) {
  if (layer.outline_in) polygon(*layer.outline_in, at + ".outline_in");
  for (std::size_t i = 0; i < layer.absent_in.size(); ++i) {
    const std::string hole = at + ".absent_in[" + std::to_string(i) + "]";
    if (layer.absent_in[i].size() < 3)
      problem(hole, "has fewer than three corners", "give its corners in order");
    else
      polygon(layer.absent_in[i], hole);
  }
  const auto& facts = tables::material_facts(doc::word_of(layer.material));
  const bool decking = layer.grade == Grade::decking_select || layer.grade == Grade::decking_commercial;
  if (decking && facts.kind != "deck") problem(at + ".grade", "is a decking grade on " + facts.spoken, "leave it out, or correct the material");
}

void Judge::wall(const Wall& wall, const std::string& at) {
  line(wall.from_in, wall.to_in, at, "wall");
  if (wall.carries_plf && (wall.dead_plf || wall.live_plf || wall.snow_plf))
    warning(at + ".carries_plf", "stands beside dead, live or snow apart", "the loads apart are used; leave carries_plf out");
  if (wall.bearing == false && (wall.carries_plf.value_or(0) > 0 || wall.dead_plf.value_or(0) > 0 || wall.live_plf.value_or(0) > 0))
    warning(at + ".bearing", "is false, and yet the wall carries a load", "the load is counted; correct one of the two");
}

bool Judge::reference(const std::string& at, const std::string& id, const std::vector<std::string>& known, const char* what) {
  if (std::find(known.begin(), known.end(), id) != known.end()) return true;
  const auto near = nearest_words(id, known);
  problem(at, "is '" + id + "'; there is no such " + what,
          near.empty() ? (known.empty() ? std::string("the job has none") : "use one of " + doc::a_list(known)) : "did you mean " + doc::a_list(near) + "?");
  return false;
}

void validate(const Job& job, Problems& problems, Problems& warnings) { Judge(job, problems, warnings).all(); }

}  // namespace awlmark
