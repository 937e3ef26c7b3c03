#include "plan/frame.hpp"

#include <algorithm>
#include <cmath>

#include "base/special.hpp"

namespace awlmark::plan {
namespace {

// Exactly 0 for the quarter turns, so that boards along x and y give clean rectangles.
double clean(double component) { return std::fabs(component) < 1e-12 ? 0 : component; }

void set_zero(Frame& frame, const Polygon& outline) {
  frame.along0_in = frame.across0_in = 0;
  double low_u = 1e300, low_v = 1e300;
  for (const Point& p : outline) {
    low_u = std::min(low_u, frame.u(p));
    low_v = std::min(low_v, frame.v(p));
  }
  frame.along0_in = outline.empty() ? 0 : low_u;
  frame.across0_in = outline.empty() ? 0 : low_v;
}

// Clips to the half-plane where sign * (coordinate - limit) <= 0.
Polygon clip_axis(const Polygon& ring, bool x, double limit, double sign) {
  Polygon out;
  out.reserve(ring.size() + 2);
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point& p = ring[i];
    const Point& q = ring[i + 1 == ring.size() ? 0 : i + 1];
    const double dp = sign * ((x ? p.x_in : p.y_in) - limit), dq = sign * ((x ? q.x_in : q.y_in) - limit);
    if (dp <= 0) out.push_back(p);
    if ((dp < 0 && dq > 0) || (dp > 0 && dq < 0)) {
      const double t = dp / (dp - dq);
      out.push_back({p.x_in + t * (q.x_in - p.x_in), p.y_in + t * (q.y_in - p.y_in)});
    }
  }
  return out;
}

bool crosses(Point a, Point b, Point c, Point d) {
  const auto side = [](Point o, Point p, Point q) { return (p.x_in - o.x_in) * (q.y_in - o.y_in) - (p.y_in - o.y_in) * (q.x_in - o.x_in); };
  const double d1 = side(a, b, c), d2 = side(a, b, d), d3 = side(c, d, a), d4 = side(c, d, b);
  return ((d1 > 0) != (d2 > 0)) && ((d3 > 0) != (d4 > 0)) && d1 != 0 && d2 != 0 && d3 != 0 && d4 != 0;
}

}  // namespace

Frame grain_frame(double degrees, const Polygon& outline) {
  Frame frame;
  const double radians = degrees * (kPi / 180);
  frame.along = {clean(det_cos(radians)), clean(det_sin(radians))};
  frame.across = {0 - frame.along.y_in, frame.along.x_in};
  // Boards that run up the plan are counted from the left: the same rule as place_of().
  if (frame.across.x_in < -1e-9 && frame.along.y_in > 0.7071) frame.across = {0 - frame.across.x_in, 0 - frame.across.y_in};
  set_zero(frame, outline);
  return frame;
}

Frame panel_frame(Point direction, const Polygon& outline) {
  const double length = std::sqrt(direction.x_in * direction.x_in + direction.y_in * direction.y_in);
  Frame frame;
  frame.across = length > 0 ? Point{clean(direction.x_in / length), clean(direction.y_in / length)} : Point{0, 1};
  if (frame.across.y_in < 0 || (frame.across.y_in == 0 && frame.across.x_in < 0)) frame.across = {0 - frame.across.x_in, 0 - frame.across.y_in};
  frame.along = {frame.across.y_in, 0 - frame.across.x_in};
  if (frame.along.x_in < 0 || (frame.along.x_in == 0 && frame.along.y_in < 0)) frame.along = {0 - frame.along.x_in, 0 - frame.along.y_in};
  set_zero(frame, outline);
  return frame;
}

Polygon frame_box(const Frame& frame, double u0_in, double v0_in, double u1_in, double v1_in) {
  return {frame.at(u0_in, v0_in), frame.at(u1_in, v0_in), frame.at(u1_in, v1_in), frame.at(u0_in, v1_in)};
}

double area_in_box_in2(const Polygon& ring, const Box& box) {
  const Box own = bounds(ring);
  if (own.x1_in <= box.x0_in || own.x0_in >= box.x1_in || own.y1_in <= box.y0_in || own.y0_in >= box.y1_in) return 0;
  Polygon part = ring;
  if (own.x0_in < box.x0_in) part = clip_axis(part, true, box.x0_in, -1);
  if (own.x1_in > box.x1_in) part = clip_axis(part, true, box.x1_in, 1);
  if (own.y0_in < box.y0_in) part = clip_axis(part, false, box.y0_in, -1);
  if (own.y1_in > box.y1_in) part = clip_axis(part, false, box.y1_in, 1);
  return part.size() < 3 ? 0 : area_in2(part);
}

double gap_in(const Polygon& a, const Polygon& b) {
  if (a.empty() || b.empty()) return 1e300;
  if (contains(a, b[0]) || contains(b, a[0])) return 0;
  double least = 1e300;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const Point p = a[i], q = a[(i + 1) % a.size()];
    for (std::size_t j = 0; j < b.size(); ++j) {
      const Point r = b[j], s = b[(j + 1) % b.size()];
      if (crosses(p, q, r, s)) return 0;
      least = std::min({least, distance_to_segment_in(p, r, s), distance_to_segment_in(r, p, q)});
    }
  }
  return least;
}

double shared_area_in2(const Polygon& a, const Polygon& b) {
  const Box box = bounds(a), other = bounds(b);
  if (box.x1_in <= other.x0_in || other.x1_in <= box.x0_in || box.y1_in <= other.y0_in || other.y1_in <= box.y0_in) return 0;
  // A rectangle on the axes is its own box; anything else goes through the exact union.
  if (std::fabs(box.width_in() * box.height_in() - area_in2(a)) < 1e-9) return area_in_box_in2(b, box);
  if (std::fabs(other.width_in() * other.height_in() - area_in2(b)) < 1e-9) return area_in_box_in2(a, other);
  return area_in2(intersect(as_region(a), as_region(b)));
}

Stretch along_segment(Point p, Point q, Point a, Point b, double slack_in) {
  const double length = distance_in(p, q);
  if (length <= 0 || distance_in(a, b) <= 0) return {};
  const double dx = (q.x_in - p.x_in) / length, dy = (q.y_in - p.y_in) / length;
  const auto place = [&](Point r) { return (r.x_in - p.x_in) * dx + (r.y_in - p.y_in) * dy; };
  const auto off = [&](Point r) { return (r.y_in - p.y_in) * dx - (r.x_in - p.x_in) * dy; };
  const double ta = place(a), tb = place(b);
  const double low = std::max(0.0, std::min(ta, tb)), high = std::min(length, std::max(ta, tb));
  // Lines that cross at more than about 12 degrees share no stretch, however wide the slack.
  if (high - low <= 1e-6 || std::fabs(tb - ta) < 0.98 * distance_in(a, b)) return {};
  const auto off_at = [&](double t) { return off(a) + (t - ta) / (tb - ta) * (off(b) - off(a)); };
  if (std::fabs(off_at(low)) > slack_in || std::fabs(off_at(high)) > slack_in) return {};
  return {{p.x_in + low * dx, p.y_in + low * dy}, {p.x_in + high * dx, p.y_in + high * dy}, high - low};
}

std::vector<Stretch> shared_edges(const Polygon& a, const Polygon& b, double slack_in) {
  std::vector<Stretch> stretches;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const Point p = a[i], q = a[(i + 1) % a.size()];
    for (std::size_t j = 0; j < b.size(); ++j) {
      const Point r = b[j], s = b[(j + 1) % b.size()];
      // Both rings run the same way round, so a shared edge runs against itself.
      if ((q.x_in - p.x_in) * (s.x_in - r.x_in) + (q.y_in - p.y_in) * (s.y_in - r.y_in) >= 0) continue;
      const Stretch stretch = along_segment(p, q, r, s, slack_in);
      if (stretch.length_in > 0) stretches.push_back(stretch);
    }
  }
  return stretches;
}

}  // namespace awlmark::plan
