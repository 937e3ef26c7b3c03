#include "shower/pan.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"

namespace awlmark::shower {
namespace {

constexpr double kCrumb_in = 1e-7;

double cross(Point o, Point a, Point b) { return (a.x_in - o.x_in) * (b.y_in - o.y_in) - (a.y_in - o.y_in) * (b.x_in - o.x_in); }
double dot(Point a, Point b) { return a.x_in * b.x_in + a.y_in * b.y_in; }
Point minus(Point a, Point b) { return {a.x_in - b.x_in, a.y_in - b.y_in}; }

// Counter-clockwise, without repeated corners or corners on a straight run.
Polygon tidy(Polygon ring) {
  if (signed_area_in2(ring) < 0) std::reverse(ring.begin(), ring.end());
  for (bool changed = true; changed && ring.size() > 3;) {
    changed = false;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point before = ring[(i + ring.size() - 1) % ring.size()], here = ring[i], next = ring[(i + 1) % ring.size()];
      const double straight = std::fabs(cross(before, here, next)) / std::max(kCrumb_in, distance_in(before, next));
      if (distance_in(before, here) > kCrumb_in && straight > kCrumb_in) continue;
      ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(i));
      changed = true;
      break;
    }
  }
  return ring;
}

// What of the drain an edge faces: one end (both indices the same) or all of it.
struct Faces {
  int first = 0;  // met first when walking the outline counter-clockwise
  int second = 0;
};

class Builder {
 public:
  Builder(const PanQuestion& question, const Polygon& ring) : ring_(ring), end_{question.drain_from_in, question.drain_to_in} {
    point_ = distance_in(end_[0], end_[1]) <= kCrumb_in;
  }

  // A triangle or trapezoid with its corners on the edge and on the drain.
  struct Face {
    Polygon on_edge;
    Polygon on_drain;
  };

  std::vector<Face> faces(std::vector<Polygon>& valleys) const {
    std::vector<Face> found;
    const std::size_t n = ring_.size();
    for (std::size_t i = 0; i < n; ++i) {
      const Point a = ring_[i], b = ring_[(i + 1) % n];
      const Faces here = facing(i), next = facing((i + 1) % n);
      Face face;
      face.on_edge = {a, b};
      face.on_drain = {end_[here.second]};
      if (here.first != here.second) face.on_drain.push_back(end_[here.first]);
      found.push_back(face);
      valleys.push_back({b, end_[here.second]});
      if (point_ || here.second == next.first) continue;
      found.push_back({{b}, {end_[next.first], end_[here.second]}});
      valleys.push_back({b, end_[next.first]});
    }
    return found;
  }

 private:
  Faces facing(std::size_t i) const {
    if (point_) return {0, 0};
    const Point a = ring_[i], b = ring_[(i + 1) % ring_.size()];
    const double length = distance_in(a, b);
    const Point outward{(b.y_in - a.y_in) / length, -(b.x_in - a.x_in) / length};
    const double farther = dot(minus(end_[1], end_[0]), outward);
    if (farther > kCrumb_in) return {1, 1};
    if (farther < -kCrumb_in) return {0, 0};
    // Parallel: the whole drain, its ends in the order of the walk along the edge.
    return dot(minus(end_[1], end_[0]), minus(b, a)) > 0 ? Faces{0, 1} : Faces{1, 0};
  }

  const Polygon& ring_;
  Point end_[2];
  bool point_ = false;
};

Polygon ring_of(const Builder::Face& face) {
  Polygon ring = face.on_edge;
  ring.insert(ring.end(), face.on_drain.begin(), face.on_drain.end());
  return ring;
}

// Distance from the level stretch (or corner) to the drain's end (or line): height over it is the slope.
double run_of(const Builder::Face& face, Point& downhill) {
  const auto& line = face.on_edge.size() == 2 ? face.on_edge : face.on_drain;
  const Point other = face.on_edge.size() == 2 ? face.on_drain.front() : face.on_edge.front();
  const double length = distance_in(line[0], line[1]);
  const Point along{(line[1].x_in - line[0].x_in) / length, (line[1].y_in - line[0].y_in) / length};
  const double side = along.x_in * (other.y_in - line[0].y_in) - along.y_in * (other.x_in - line[0].x_in);
  const double toward = face.on_edge.size() == 2 ? 1 : -1;  // from the edge to the drain
  const double sign = (side >= 0 ? 1 : -1) * toward;
  downhill = {-along.y_in * sign, along.x_in * sign};
  return std::fabs(side);
}

double mean_height_share(const Builder::Face& face) {
  // Of H, over the face: triangles carry the mean of their corners; a trapezoid is two of them.
  if (face.on_edge.size() == 2 && face.on_drain.size() == 2) {
    const double wide = distance_in(face.on_edge[0], face.on_edge[1]), narrow = distance_in(face.on_drain[0], face.on_drain[1]);
    return (2.0 / 3 * wide + 1.0 / 3 * narrow) / (wide + narrow);
  }
  return static_cast<double>(face.on_edge.size()) / 3;
}

void check(const PanQuestion& question, const Polygon& ring, Problems& problems) {
  const bool point = distance_in(question.drain_from_in, question.drain_to_in) <= kCrumb_in;
  if (!(question.least_fall_in_per_ft > 0)) problems.push_back({"least_fall_in_per_ft", "must be above 0", "codes ask for 0.25"});
  if (!(question.least_thickness_in >= 0)) problems.push_back({"least_thickness_in", "must be at least 0", "give the bed at the drain"});
  for (const Point end : {question.drain_from_in, question.drain_to_in}) {
    if (distance_to_in(ring, end) <= kCrumb_in) continue;
    problems.push_back({"drain", "lies outside the outline", "put it inside"});
    return;
  }
  if (!point) return;
  for (std::size_t i = 0; i < ring.size(); ++i)
    if (distance_to_segment_in(question.drain_from_in, ring[i], ring[(i + 1) % ring.size()]) <= kCrumb_in) {
      problems.push_back({"drain.at_in", "lies on the edge, so the edge cannot be level", "move it inside, or use a line drain along the wall"});
      return;
    }
}

Problem not_seen(const PanQuestion& question, const Polygon& ring, bool point) {
  std::string where;
  if (point)
    for (std::size_t i = 0; i < ring.size() && where.empty(); ++i)
      if (cross(ring[i], ring[(i + 1) % ring.size()], question.drain_from_in) <= kCrumb_in)
        where = " (the edge from " + format_number(ring[i].x_in, 2) + ", " + format_number(ring[i].y_in, 2) + " to " +
                format_number(ring[(i + 1) % ring.size()].x_in, 2) + ", " + format_number(ring[(i + 1) % ring.size()].y_in, 2) + " turns its back to it)";
  return {"outline_in", "is not seen whole from the drain" + where + ", so the floor cannot fall to it all over",
          "move the drain, or split the floor into parts with a drain each"};
}

}  // namespace

Outcome<Pan> pan_fall(const PanQuestion& question) {
  Outcome<Pan> outcome;
  if (question.outline_in.size() < 3 || !is_simple(question.outline_in) || area_in2(question.outline_in) <= kCrumb_in) {
    outcome.problems.push_back({"outline_in", "is not an outline that encloses a floor", "give at least three corners in order, without crossings"});
    return outcome;
  }
  const Polygon ring = tidy(question.outline_in);
  check(question, ring, outcome.problems);
  if (!outcome.problems.empty()) return outcome;
  const bool point = distance_in(question.drain_from_in, question.drain_to_in) <= kCrumb_in;
  Pan pan;
  std::vector<Polygon> valleys;
  const auto faces = Builder(question, ring).faces(valleys);
  // Covering without overlap: no part turned over, and the parts add up to the whole.
  double covered = 0;
  bool turned = false;
  for (const auto& face : faces) {
    const double area = signed_area_in2(ring_of(face));
    turned = turned || area < -1e-6;
    covered += area;
  }
  const double whole = area_in2(ring);
  if (turned || std::fabs(covered - whole) > 1e-6 * whole) {
    outcome.problems.push_back(not_seen(question, ring, point));
    return outcome;
  }
  for (const auto& valley : valleys) {
    const double run = distance_in(valley[0], valley[1]);
    if (run <= kCrumb_in) continue;
    pan.longest_run_in = std::max(pan.longest_run_in, run);
    if (std::find(pan.valleys_in.begin(), pan.valleys_in.end(), valley) == pan.valleys_in.end()) pan.valleys_in.push_back(valley);
  }
  pan.edge_height_in = question.least_fall_in_per_ft / 12 * pan.longest_run_in;
  pan.flattest_in_per_ft = question.least_fall_in_per_ft;
  pan.area_sf = whole / 144;
  pan.flattest_plane_in_per_ft = 1e300;
  double volume_in3 = whole * question.least_thickness_in;
  for (const auto& face : faces) {
    const Polygon outline = ring_of(face);
    const double area = signed_area_in2(outline);
    if (area <= 1e-9 * whole) continue;  // a wall that runs into the drain: no floor there
    PanPlane plane;
    plane.outline_in = outline;
    plane.slope_in_per_ft = 12 * pan.edge_height_in / run_of(face, plane.falls_toward);
    pan.steepest_in_per_ft = std::max(pan.steepest_in_per_ft, plane.slope_in_per_ft);
    pan.flattest_plane_in_per_ft = std::min(pan.flattest_plane_in_per_ft, plane.slope_in_per_ft);
    volume_in3 += area * mean_height_share(face) * pan.edge_height_in;
    pan.planes.push_back(std::move(plane));
  }
  pan.bed_volume_ft3 = volume_in3 / 1728;
  outcome.value = std::move(pan);
  return outcome;
}

double pan_height_in(const Pan& pan, Point p) {
  for (const auto& plane : pan.planes) {
    if (distance_to_in(plane.outline_in, p) > 1e-6) continue;
    // The first corner of a plane lies on the level edge.
    const double down = dot(minus(p, plane.outline_in.front()), plane.falls_toward);
    return pan.edge_height_in - plane.slope_in_per_ft / 12 * down;
  }
  return 0;
}

double pan_water_ft3(const Pan& pan, double depth_at_edge_in) {
  double volume_in3 = pan.area_sf * 144 * depth_at_edge_in;
  for (const auto& plane : pan.planes) {
    // Below the edge: H less the mean height of the plane, exactly, by its triangles.
    for (std::size_t i = 1; i + 1 < plane.outline_in.size(); ++i) {
      const Polygon part{plane.outline_in[0], plane.outline_in[i], plane.outline_in[i + 1]};
      double below = 0;
      for (const Point corner : part) below += dot(minus(corner, plane.outline_in.front()), plane.falls_toward) * plane.slope_in_per_ft / 12;
      volume_in3 += signed_area_in2(part) * below / 3;
    }
  }
  return volume_in3 / 1728;
}

}  // namespace awlmark::shower
