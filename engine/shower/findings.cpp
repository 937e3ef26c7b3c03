// Pan findings: planes, contours, heights at named points, volume of the bed.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "shower/site.hpp"

namespace awlmark::shower {
namespace {

// Where a plane's outline crosses a height: a segment, or nothing.
std::optional<Polygon> level_line(const Pan& pan, const PanPlane& plane, double height_in) {
  Polygon hits;
  const auto height = [&](Point p) {
    const Point first = plane.outline_in.front();
    const double down = (p.x_in - first.x_in) * plane.falls_toward.x_in + (p.y_in - first.y_in) * plane.falls_toward.y_in;
    return pan.edge_height_in - plane.slope_in_per_ft / 12 * down;
  };
  const std::size_t n = plane.outline_in.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = plane.outline_in[i], b = plane.outline_in[(i + 1) % n];
    const double ha = height(a) - height_in, hb = height(b) - height_in;
    if ((ha > 0) == (hb > 0)) continue;
    hits.push_back(between(a, b, ha / (ha - hb)));
  }
  if (hits.size() < 2 || distance_in(hits[0], hits[1]) < 1e-6) return std::nullopt;
  return Polygon{hits[0], hits[1]};
}

std::vector<ContourLine> contours(const Pan& pan) {
  std::vector<ContourLine> out;
  const double step = pan.edge_height_in > 1.5 ? 0.25 : 0.125;
  for (double height = step; height < pan.edge_height_in - 1e-6; height += step) {
    ContourLine line{height, {}};
    for (const auto& plane : pan.planes)
      if (const auto cut = level_line(pan, plane, height)) line.lines_in.push_back(*cut);
    if (!line.lines_in.empty()) out.push_back(std::move(line));
  }
  return out;
}

void name(std::vector<NamedHeight>& heights, const Place& place, double bed_in, const std::string& at, Point p) {
  const double height = place.height_in(p);
  heights.push_back({at, p, height, bed_in + height});
}

std::vector<NamedHeight> heights(const Place& place, double bed_in) {
  std::vector<NamedHeight> out;
  const Point drain = between(place.question.drain_from_in, place.question.drain_to_in, 0.5);
  name(out, place, bed_in, "drain", drain);
  for (std::size_t i = 0; i < place.ring.size(); ++i) name(out, place, bed_in, "corner " + std::to_string(i + 1), place.ring[i]);
  for (std::size_t i = 0; i < place.sides.size(); ++i) {
    const auto& side = place.sides[i];
    const Point middle = between(side.from, side.to, 0.5);
    name(out, place, bed_in, side.open ? "entry, middle" : "side " + std::to_string(i + 1) + ", middle", middle);
  }
  for (std::size_t i = 0; i < place.ring.size(); ++i)
    name(out, place, bed_in, "half way from corner " + std::to_string(i + 1) + " to the drain", between(place.ring[i], drain, 0.5));
  return out;
}

}  // namespace

PanFindings pan_findings(const Place& place, double bed_at_drain_in) {
  const Pan& pan = *place.pan;
  PanFindings out;
  out.edge_height_in = pan.edge_height_in;
  out.steepest_in_per_ft = pan.steepest_in_per_ft;
  out.flattest_in_per_ft = pan.flattest_in_per_ft;
  out.longest_run_in = pan.longest_run_in;
  out.area_sf = area_in2(place.ring) / 144;
  out.bed_at_drain_in = bed_at_drain_in;
  out.bed_volume_ft3 = pan.bed_volume_ft3 + (pan.area_sf * 144 + place.strip_in2) * bed_at_drain_in / 1728;
  out.drain_from_in = place.question.drain_from_in;
  out.drain_to_in = place.question.drain_to_in;
  for (const auto& plane : pan.planes) out.planes.push_back({plane.outline_in, plane.slope_in_per_ft, plane.falls_toward});
  out.valleys_in = pan.valleys_in;
  out.contours = contours(pan);
  out.heights = heights(place, bed_at_drain_in);
  return out;
}

FloodTest flood_test(const Place& place) {
  FloodTest test;
  const auto code = place.job.job.plumbing_code;
  const Pan& pan = *place.pan;
  test.depth_in = rule("flood_depth", code);
  // The water stands this deep over the highest point of the entry.
  const double at_edge_in = std::max(0.0, test.depth_in + place.entry_high_in - pan.edge_height_in);
  const double ft3 = pan_water_ft3(pan, at_edge_in) + place.strip_in2 * (at_edge_in + pan.edge_height_in) / 1728;
  test.volume_gal = ft3 * 1728 / 231;
  test.weight_lb = ft3 * rule("water_weight");
  test.mean_load_psf = test.weight_lb / (area_in2(place.ring) / 144);
  test.legal_hours = rule("flood_legal", code);
  test.trade_hours = rule("flood_trade");
  test.hours = std::max(test.legal_hours, test.trade_hours);
  if (place.plan.entry != Entry::curb) {
    test.dam_length_in = place.open_length_in();
    test.dam_height_in = test.depth_in + rule("dam_freeboard");
  }
  const double live_psf = place.job.rebuild && place.job.rebuild->live_psf ? *place.job.rebuild->live_psf : 40;
  Reason load = rule_reason("water_weight");
  load.rule = "mean load of the test's water against the live load that the floor is checked for";
  load.unit = "psf";
  load.steps = {format_number(ft3, 2) + " ft3 over " + format_number(area_in2(place.ring) / 144, 1) + " sq ft"};
  test.check = make_check("flood_test.load", "shower", "flood_load", test.mean_load_psf, live_psf, load);
  test.reason = rule_reason("flood_depth", code);
  return test;
}

}  // namespace awlmark::shower
