#include "base/geometry.hpp"

#include <algorithm>
#include <boost/polygon/polygon.hpp>
#include <cmath>
#include <cstdint>

#include "base/special.hpp"

namespace awlmark {
namespace {

namespace bp = boost::polygon;
constexpr double kUnitsPerInch = 256;
using GridPoint = bp::point_data<int>;
using GridPolygon = bp::polygon_with_holes_data<int>;
using GridSet = bp::polygon_set_data<int>;

int to_grid(double length_in) { return static_cast<int>(std::lround(length_in * kUnitsPerInch)); }
double from_grid(int units) { return units / kUnitsPerInch; }

std::vector<GridPoint> grid_ring(const Polygon& ring) {
  std::vector<GridPoint> points;
  points.reserve(ring.size());
  for (const Point& p : ring) points.emplace_back(to_grid(p.x_in), to_grid(p.y_in));
  return points;
}

void insert(GridSet& set, const Region& region) {
  for (const auto& part : region) {
    GridSet one;
    const auto outer = grid_ring(part.outline);
    bp::polygon_data<int> polygon(outer.begin(), outer.end());
    one.insert(polygon);
    for (const auto& hole : part.holes) {
      const auto ring = grid_ring(hole);
      one.insert(bp::polygon_data<int>(ring.begin(), ring.end()), true);
    }
    using namespace bp::operators;
    set += one;
  }
}

template <class Iterator>
Polygon plan_ring(Iterator begin, Iterator end, bool counter_clockwise) {
  Polygon ring;
  for (auto it = begin; it != end; ++it) {
    const Point p{from_grid(it->x()), from_grid(it->y())};
    if (ring.empty() || !(ring.back() == p)) ring.push_back(p);
  }
  if (ring.size() > 1 && ring.front() == ring.back()) ring.pop_back();
  if ((signed_area_in2(ring) > 0) != counter_clockwise) std::reverse(ring.begin(), ring.end());
  return ring;
}

Region to_region(const GridSet& set) {
  std::vector<GridPolygon> polygons;
  set.get(polygons);
  Region region;
  for (const auto& polygon : polygons) {
    PolygonWithHoles part;
    part.outline = plan_ring(polygon.begin(), polygon.end(), true);
    for (auto hole = polygon.begin_holes(); hole != polygon.end_holes(); ++hole) part.holes.push_back(plan_ring(hole->begin(), hole->end(), false));
    region.push_back(std::move(part));
  }
  return region;
}

double cross(Point o, Point a, Point b) { return (a.x_in - o.x_in) * (b.y_in - o.y_in) - (a.y_in - o.y_in) * (b.x_in - o.x_in); }

bool on_segment(Point p, Point a, Point b) {
  return std::fabs(cross(a, b, p)) <= 1e-9 && p.x_in >= std::min(a.x_in, b.x_in) - 1e-9 && p.x_in <= std::max(a.x_in, b.x_in) + 1e-9 &&
         p.y_in >= std::min(a.y_in, b.y_in) - 1e-9 && p.y_in <= std::max(a.y_in, b.y_in) + 1e-9;
}

bool segments_meet(Point a, Point b, Point c, Point d) {
  const double d1 = cross(a, b, c), d2 = cross(a, b, d), d3 = cross(c, d, a), d4 = cross(c, d, b);
  if (((d1 > 0) != (d2 > 0)) && ((d3 > 0) != (d4 > 0)) && d1 != 0 && d2 != 0 && d3 != 0 && d4 != 0) return true;
  return on_segment(c, a, b) || on_segment(d, a, b) || on_segment(a, c, d) || on_segment(b, c, d);
}

}  // namespace

double distance_in(Point a, Point b) {
  const double dx = b.x_in - a.x_in, dy = b.y_in - a.y_in;
  return std::sqrt(dx * dx + dy * dy);
}

double along_segment_in(Point p, Point a, Point b) {
  const double length = distance_in(a, b);
  if (length == 0) return 0;
  const double along = ((p.x_in - a.x_in) * (b.x_in - a.x_in) + (p.y_in - a.y_in) * (b.y_in - a.y_in)) / length;
  return std::clamp(along, 0.0, length);
}

double distance_to_segment_in(Point p, Point a, Point b) {
  const double length = distance_in(a, b);
  if (length == 0) return distance_in(p, a);
  const double t = along_segment_in(p, a, b) / length;
  return distance_in(p, {a.x_in + t * (b.x_in - a.x_in), a.y_in + t * (b.y_in - a.y_in)});
}

double line_degrees(Point from, Point to) {
  const double dx = to.x_in - from.x_in, dy = to.y_in - from.y_in;
  if (dy == 0) return 0;
  if (dx == 0) return 90;
  // atan2 by bisection of the angle: this runs once a member, and std::atan2 differs between targets
  // in the last place. A line has no sense of direction: 0 to 180 is enough. Atan by its series after
  // halving the angle twice: atan t = 2 atan(t / (1 + sqrt(1 + t t))).
  double t = std::fabs(dy / dx);
  const bool steep = t > 1;
  if (steep) t = 1 / t;
  for (int i = 0; i < 2; ++i) t = t / (1 + std::sqrt(1 + t * t));
  double sum = 0;
  for (int n = 21; n >= 1; n -= 2) sum = 1.0 / n - t * t * sum;
  double degrees = 4 * t * sum * 180 / kPi;
  if (steep) degrees = 90 - degrees;
  return (dy > 0) == (dx > 0) ? degrees : 180 - degrees;
}

double signed_area_in2(const Polygon& ring) {
  double twice = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point& a = ring[i];
    const Point& b = ring[(i + 1) % ring.size()];
    twice += a.x_in * b.y_in - b.x_in * a.y_in;
  }
  return twice / 2;
}

double area_in2(const Polygon& ring) { return std::fabs(signed_area_in2(ring)); }

double area_in2(const Region& region) {
  double area = 0;
  for (const auto& part : region) {
    area += area_in2(part.outline);
    for (const auto& hole : part.holes) area -= area_in2(hole);
  }
  return area;
}

Box bounds(const Polygon& ring) {
  if (ring.empty()) return {};
  Box box{ring[0].x_in, ring[0].y_in, ring[0].x_in, ring[0].y_in};
  for (const Point& p : ring) {
    box.x0_in = std::min(box.x0_in, p.x_in);
    box.y0_in = std::min(box.y0_in, p.y_in);
    box.x1_in = std::max(box.x1_in, p.x_in);
    box.y1_in = std::max(box.y1_in, p.y_in);
  }
  return box;
}

bool contains(const Polygon& ring, Point p) {
  bool inside = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const Point& a = ring[i];
    const Point& b = ring[j];
    if (on_segment(p, a, b)) return true;
    if ((a.y_in > p.y_in) != (b.y_in > p.y_in) && p.x_in < (b.x_in - a.x_in) * (p.y_in - a.y_in) / (b.y_in - a.y_in) + a.x_in) inside = !inside;
  }
  return inside;
}

double distance_to_in(const Polygon& ring, Point p) {
  if (ring.empty() || contains(ring, p)) return 0;
  double least = distance_to_segment_in(p, ring.back(), ring.front());
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) least = std::min(least, distance_to_segment_in(p, ring[i], ring[i + 1]));
  return least;
}

bool is_simple(const Polygon& ring) {
  const std::size_t n = ring.size();
  if (n < 3) return false;
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = ring[i], b = ring[(i + 1) % n];
    if (a == b) return false;
    for (std::size_t j = i + 1; j < n; ++j) {
      const Point c = ring[j], d = ring[(j + 1) % n];
      const bool next = j == i + 1, wraps = (j + 1) % n == i;
      if (next && on_segment(d, a, b) && n > 3) return false;  // an edge that runs back over its neighbour
      if (!next && !wraps && segments_meet(a, b, c, d)) return false;
    }
  }
  return area_in2(ring) > 1e-9;
}

Point centroid(const Polygon& ring) {
  const double area = signed_area_in2(ring);
  if (std::fabs(area) < 1e-12) return ring.empty() ? Point{} : ring[0];
  double x = 0, y = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point& a = ring[i];
    const Point& b = ring[(i + 1) % ring.size()];
    const double c = a.x_in * b.y_in - b.x_in * a.y_in;
    x += (a.x_in + b.x_in) * c;
    y += (a.y_in + b.y_in) * c;
  }
  return {x / (6 * area), y / (6 * area)};
}

Polygon rectangle(double x0_in, double y0_in, double x1_in, double y1_in) { return {{x0_in, y0_in}, {x1_in, y0_in}, {x1_in, y1_in}, {x0_in, y1_in}}; }

Polygon clip_left_of(const Polygon& ring, Point a, Point b) {
  Polygon clipped;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point p = ring[i], q = ring[(i + 1) % ring.size()];
    const double sp = cross(a, b, p), sq = cross(a, b, q);
    if (sp >= 0) clipped.push_back(p);
    if ((sp > 0 && sq < 0) || (sp < 0 && sq > 0)) {
      const double t = sp / (sp - sq);
      clipped.push_back({p.x_in + t * (q.x_in - p.x_in), p.y_in + t * (q.y_in - p.y_in)});
    }
  }
  return clipped;
}

Region as_region(const Polygon& ring) { return unite({ring}); }

Region unite(const std::vector<Polygon>& rings) {
  GridSet set;
  for (const auto& ring : rings) {
    const auto points = grid_ring(ring);
    set.insert(bp::polygon_data<int>(points.begin(), points.end()));
  }
  return to_region(set);
}

Region intersect(const Region& a, const Region& b) {
  using namespace bp::operators;
  GridSet sa, sb;
  insert(sa, a);
  insert(sb, b);
  sa *= sb;
  return to_region(sa);
}

Region subtract(const Region& a, const Region& b) {
  using namespace bp::operators;
  GridSet sa, sb;
  insert(sa, a);
  insert(sb, b);
  sa -= sb;
  return to_region(sa);
}

}  // namespace awlmark
