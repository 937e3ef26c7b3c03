#include "plan/turn.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/special.hpp"
#include "plan/redraw.hpp"

namespace awlmark::plan {
namespace {

constexpr double kGrid = 1073741824.0;  // 2^30 to the inch
constexpr double kSame = 1e-6;          // features closer than this are the same

double on_grid(double inches) { return std::isfinite(inches) && std::fabs(inches) < 1e6 ? std::floor(inches * kGrid + 0.5) / kGrid : inches; }

double half_turn(double degrees) {
  double d = std::fmod(degrees, 180.0);
  if (d < 0) d += 180;
  return d >= 180 - 1e-9 ? 0 : d;
}

using Features = std::vector<Point>;

// A line has no sense of direction: what tells its mirror images and quarter turns apart.
Point line_feature(double degrees) {
  const double radians = half_turn(degrees) * kPi / 180;
  const double c = det_cos(radians), s = det_sin(radians);
  return {c * s, std::fabs(c)};
}

// What the floor looks like under a turn, most telling first. Every entry moves with the drawing, and
// all lists are in the document's order, so that turning the job and looking through another turn
// give the same features.
class Looks {
 public:
  Looks(const Job& job, const Turn& turn) : job_(job), turn_(turn) {
    supports();
    for (const Layer& layer : job.layers)
      if (layer.runs) list_.push_back(line_feature(turn.own_degrees(layer.runs->degrees)));
    list_.push_back({0, turn.swap ? turn.height_in : turn.width_in});  // wide rather than high
    for (const Wall& wall : job.walls) span(wall.from_in, wall.to_in);
    places();
  }

  const Features& features() const { return list_; }

 private:
  Point vector(Point from, Point to) const {
    const Point a = turn_.own(from), b = turn_.own(to);
    return {b.x_in - a.x_in, b.y_in - a.y_in};
  }
  Point middle() const { return {turn_.drawn_low_in.x_in + turn_.width_in / 2, turn_.drawn_low_in.y_in + turn_.height_in / 2}; }
  void at(Point p) { list_.push_back(vector(middle(), p)); }
  void span(Point from, Point to) {
    const Point v = vector(from, to);
    list_.push_back({v.y_in, v.x_in});  // first walls run along x, the next up
  }
  void ring(const Polygon& ring) {
    if (!ring.empty()) at(centroid(ring));
  }

  void supports() {
    const Support* before = nullptr;
    for (const bool carries : {true, false})
      for (const Support& support : job_.supports) {
        if (carries_deck(job_, support) != carries) continue;
        list_.push_back(vector(support.from_in, support.to_in));
        if (before) list_.push_back(vector(before->from_in, support.from_in));
        before = &support;
      }
  }

  void places() {
    for (const Source& source : job_.sources)
      if (source.at_in) at(*source.at_in);
    for (const Fixture& fixture : job_.fixtures) ring(fixture.outline_in);
    for (const Door& door : job_.room.doors) at(door.from_in), at(door.to_in);
    for (const Mark& mark : job_.marks)
      if (const auto place = place_of(job_, mark)) at(*place);
    for (const Wall& wall : job_.walls) at(wall.from_in);
    for (const Support& support : job_.supports) at(support.from_in);
    for (const Layer& layer : job_.layers) {
      if (layer.outline_in) ring(*layer.outline_in);
      for (const Polygon& hole : layer.absent_in) ring(hole);
    }
    if (job_.shower) ring(job_.shower->outline_in);
    ring(job_.room.outline_in);
    for (const Point& p : job_.room.outline_in) at(p);
  }

  const Job& job_;
  const Turn& turn_;
  Features list_;
};

// Whether the floor looks better so: up before along, and to the right.
bool better(const Features& a, const Features& b) {
  for (std::size_t i = 0; i < a.size() && i < b.size(); ++i) {
    if (std::fabs(a[i].y_in - b[i].y_in) > kSame) return a[i].y_in > b[i].y_in;
    if (std::fabs(a[i].x_in - b[i].x_in) > kSame) return a[i].x_in > b[i].x_in;
  }
  return false;
}

}  // namespace

Point Turn::own(Point p) const {
  const double x = p.x_in - drawn_low_in.x_in, y = p.y_in - drawn_low_in.y_in;
  const double across = flip_x ? (swap ? height_in - y : width_in - x) : (swap ? y : x);
  const double up = flip_y ? (swap ? width_in - x : height_in - y) : (swap ? x : y);
  return {on_grid(across), on_grid(up)};
}

Point Turn::drawn(Point p) const {
  const double across = flip_x ? (swap ? height_in : width_in) - p.x_in : p.x_in;
  const double up = flip_y ? (swap ? width_in : height_in) - p.y_in : p.y_in;
  return {(swap ? up : across) + drawn_low_in.x_in, (swap ? across : up) + drawn_low_in.y_in};
}

double Turn::own_degrees(double degrees) const {
  double d = half_turn(degrees);
  if (swap) d = 90 - d;
  if (flip_x != flip_y) d = -d;
  return half_turn(d);
}

double Turn::drawn_degrees(double degrees) const {
  double d = half_turn(degrees);
  if (flip_x != flip_y) d = -d;
  if (swap) d = 90 - d;
  return half_turn(d);
}

Turn own_turn(const Job& job) {
  Turn best;
  if (job.room.outline_in.size() < 3) return best;
  const Box box = bounds(job.room.outline_in);
  best.drawn_low_in = {box.x0_in, box.y0_in};
  best.width_in = box.width_in();
  best.height_in = box.height_in();
  Features looks = Looks(job, best).features();
  for (int k = 1; k < 8; ++k) {
    Turn turn = best;
    turn.swap = (k & 4) != 0;
    turn.flip_x = (k & 1) != 0;
    turn.flip_y = (k & 2) != 0;
    Features other = Looks(job, turn).features();
    if (!better(other, looks)) continue;
    best = turn;
    looks = std::move(other);
  }
  return best;
}

void settle_ring(Polygon& ring) {
  if (ring.size() < 3) return;
  if (signed_area_in2(ring) < 0) std::reverse(ring.begin(), ring.end());
  const auto lower = [](const Point& a, const Point& b) { return a.y_in < b.y_in || (a.y_in == b.y_in && a.x_in < b.x_in); };
  std::rotate(ring.begin(), std::min_element(ring.begin(), ring.end(), lower), ring.end());
}

Job turned(const Job& job, const Turn& turn) {
  Job own = job;
  for (Mark& mark : own.marks)
    if (!mark.at_in && mark.plank) mark.at_in = place_of(job, mark);
  redraw(own, ToOwn{turn});
  return own;
}

}  // namespace awlmark::plan
