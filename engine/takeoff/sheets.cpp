#include "takeoff/sheets.hpp"

#include <algorithm>
#include <cmath>

#include "base/special.hpp"

namespace awlmark::takeoff {
namespace {

struct Rect {
  double along_in = 0;
  double across_in = 0;
};

// The outline with the strong way of the sheets along x.
Polygon turned(const Polygon& ring, double degrees) {
  const double angle = degrees * kPi / 180;
  double c = det_cos(angle), s = det_sin(angle);
  // Square rooms stay square to the last bit.
  if (std::fabs(c) < 1e-12) c = 0;
  if (std::fabs(s) < 1e-12) s = 0;
  Polygon out;
  for (const auto& p : ring) out.push_back({p.x_in * c + p.y_in * s, p.y_in * c - p.x_in * s});
  return out;
}

// The end of a sheet that starts at `from_in`: on the last place that it reaches, else where it ends.
double end_of(double from_in, double reach_in, const SheetJoints& joints) {
  constexpr double kShortest_in = 24;  // a shorter piece spans less than two bays
  double end = -1;
  for (const double at : joints.on_in)
    if (at > from_in + kShortest_in && at <= from_in + reach_in + 0.01) end = std::max(end, at);
  return end > 0 ? end : from_in + reach_in;
}

void add_course(const Polygon& ring, double low_in, double high_in, SheetSize size, const SheetJoints& joints, bool second, std::vector<Rect>& pieces) {
  const auto box = bounds(ring);
  const auto course = intersect(as_region(ring), as_region(rectangle(box.x0_in - 1, low_in, box.x1_in + 1, high_in)));
  for (const auto& part : course) {
    const auto extent = bounds(part.outline);
    double reach = joints.stagger && second ? size.along_in / 2 : size.along_in;
    for (double at = extent.x0_in; at < extent.x1_in - 0.01; reach = size.along_in) {
      const double end = extent.x1_in <= at + reach + 0.01 ? extent.x1_in : end_of(at, reach, joints);
      pieces.push_back({end - at, std::min(size.across_in, extent.height_in())});
      at = end;
    }
  }
}

// Guillotine: the free rectangle that leaves least, cut along its longer rest.
bool place(const Rect& piece, std::vector<Rect>& free, double kerf_in) {
  std::size_t best = free.size();
  double least = 1e300;
  for (std::size_t i = 0; i < free.size(); ++i) {
    if (piece.along_in > free[i].along_in + 1e-6 || piece.across_in > free[i].across_in + 1e-6) continue;
    const double left = free[i].along_in * free[i].across_in - piece.along_in * piece.across_in;
    if (left < least - 1e-6) {
      least = left;
      best = i;
    }
  }
  if (best == free.size()) return false;
  const Rect whole = free[best];
  free.erase(free.begin() + static_cast<std::ptrdiff_t>(best));
  const double along = whole.along_in - piece.along_in - kerf_in, across = whole.across_in - piece.across_in - kerf_in;
  const bool long_rest = along * whole.across_in >= across * whole.along_in;
  if (along > 1) free.push_back({along, long_rest ? whole.across_in : piece.across_in});
  if (across > 1) free.push_back({long_rest ? piece.along_in : whole.along_in, across});
  return true;
}

}  // namespace

AcrossSupports across_supports(const Job& job) {
  AcrossSupports across;
  const auto joist = std::find_if(job.supports.begin(), job.supports.end(), [](const Support& s) { return s.role == SupportRole::joist; });
  const auto girder = std::find_if(job.supports.begin(), job.supports.end(), [](const Support& s) { return s.role == SupportRole::girder; });
  const auto first = joist != job.supports.end() ? joist : girder;
  if (first == job.supports.end()) return across;
  const double dx = first->to_in.x_in - first->from_in.x_in, dy = first->to_in.y_in - first->from_in.y_in, length = std::sqrt(dx * dx + dy * dy);
  // Square framing only: other angles keep to sheet ends.
  if (!(length > 0) || (std::fabs(dx) > 1e-6 * length && std::fabs(dy) > 1e-6 * length)) return across;
  const bool along_x = std::fabs(dx) > std::fabs(dy);
  across.runs_degrees = along_x ? 90 : 0;
  across.joints.stagger = true;
  for (const auto& support : job.supports)
    if (support.role == first->role) across.joints.on_in.push_back(along_x ? support.from_in.y_in : support.from_in.x_in);
  return across;
}

SheetCount lay_sheets(const std::vector<Polygon>& outlines_in, double runs_degrees, SheetSize size, double kerf_in, const SheetJoints& joints) {
  std::vector<Rect> pieces;
  for (const auto& outline : outlines_in) {
    if (outline.size() < 3) continue;
    const auto ring = turned(outline, runs_degrees);
    const auto box = bounds(ring);
    bool second = false;
    for (double low = box.y0_in; low < box.y1_in - 0.01; low += size.across_in, second = !second)
      add_course(ring, low, std::min(low + size.across_in, box.y1_in), size, joints, second, pieces);
  }
  std::stable_sort(pieces.begin(), pieces.end(), [](const Rect& a, const Rect& b) { return a.along_in * a.across_in > b.along_in * b.across_in + 1e-6; });
  SheetCount count;
  std::vector<Rect> free;
  for (const auto& piece : pieces) {
    count.area_sf += piece.along_in * piece.across_in / 144;
    ++count.pieces;
    if (place(piece, free, kerf_in)) continue;
    ++count.sheets;
    free.push_back({size.along_in, size.across_in});
    place(piece, free, kerf_in);
  }
  return count;
}

}  // namespace awlmark::takeoff
