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

void add_course(const Polygon& ring, double low_in, double high_in, SheetSize size, std::vector<Rect>& pieces) {
  const auto box = bounds(ring);
  const auto course = intersect(as_region(ring), as_region(rectangle(box.x0_in - 1, low_in, box.x1_in + 1, high_in)));
  for (const auto& part : course) {
    const auto extent = bounds(part.outline);
    for (double at = extent.x0_in; at < extent.x1_in - 0.01; at += size.along_in)
      pieces.push_back({std::min(size.along_in, extent.x1_in - at), std::min(size.across_in, extent.height_in())});
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

SheetCount lay_sheets(const std::vector<Polygon>& outlines_in, double runs_degrees, SheetSize size, double kerf_in) {
  std::vector<Rect> pieces;
  for (const auto& outline : outlines_in) {
    if (outline.size() < 3) continue;
    const auto ring = turned(outline, runs_degrees);
    const auto box = bounds(ring);
    for (double low = box.y0_in; low < box.y1_in - 0.01; low += size.across_in) add_course(ring, low, std::min(low + size.across_in, box.y1_in), size, pieces);
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
