#include "papers/drawing/pan_plan.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "papers/drawing/dimension.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

void draw_drain(Canvas& canvas, const shower::PanFindings& pan) {
  const auto a = canvas.at(pan.drain_from_in), b = canvas.at(pan.drain_to_in);
  if (std::hypot(a.x - b.x, a.y - b.y) > 1) {
    canvas.line(a, b, "dl dedge");
    return;
  }
  canvas.circle(a, 5, "dpaper");
  canvas.circle(a, 2, "dink");
}

void draw_arrow(Canvas& canvas, const shower::PanFacet& plane) {
  if (area_in2(plane.outline_in) < 40) return;
  const Point middle = centroid(plane.outline_in);
  const double reach = std::min(4.0, 0.25 * std::sqrt(area_in2(plane.outline_in)));
  const Point tip{middle.x_in + plane.falls_toward.x_in * reach, middle.y_in + plane.falls_toward.y_in * reach};
  const Point tail{middle.x_in - plane.falls_toward.x_in * reach, middle.y_in - plane.falls_toward.y_in * reach};
  const auto p = canvas.at(tip), q = canvas.at(tail);
  canvas.line(q, p, "dl");
  const double length = std::max(1.0, std::hypot(p.x - q.x, p.y - q.y)), ux = (p.x - q.x) / length, uy = (p.y - q.y) / length;
  canvas.shape({p, {p.x - 5 * ux + 2.4 * uy, p.y - 5 * uy - 2.4 * ux}, {p.x - 5 * ux - 2.4 * uy, p.y - 5 * uy + 2.4 * ux}}, "dink");
  canvas.words_near(canvas.at(middle), 5, format_number(plane.slope_in_per_ft, 2) + "\"/ft", kLeastType_pt, "", 24);
}

// Corners outside the outline, the drain beside it; middles of sides only where the edge is not level.
void draw_heights(Canvas& canvas, const shower::PanFindings& pan, Point middle) {
  double low = 1e300, high = -1e300;
  for (const auto& height : pan.heights)
    if (height.at.rfind("corner", 0) == 0) low = std::min(low, height.above_drain_in), high = std::max(high, height.above_drain_in);
  const bool level = high - low < 1.0 / 64;
  const auto centre = canvas.at(middle);
  for (const auto& height : pan.heights) {
    const bool corner = height.at.rfind("corner", 0) == 0, drain = height.at == "drain";
    if (height.at.rfind("half", 0) == 0 || (level && !corner && !drain)) continue;
    // A corner by the number that the table of screed heights gives it.
    const std::string name = drain ? "drain " : corner ? height.at.substr(height.at.find(' ') + 1) + ": +" : "+";
    const std::string text = name + format_inches(height.above_drain_in);
    const auto p = canvas.at(height.at_in);
    const double away = std::max(1.0, std::hypot(p.x - centre.x, p.y - centre.y));
    constexpr double kOut_pt = 15;
    const bool drawn = corner && canvas.words_at({p.x + (p.x - centre.x) / away * kOut_pt, p.y + (p.y - centre.y) / away * kOut_pt}, text, kLeastType_pt, "db");
    if (!drawn) canvas.words_near(p, drain ? 7 : 4, text, kLeastType_pt, "db", 30);
  }
}

}  // namespace

Drawing pan_plan(const shower::Shower& shower, const Polygon& outline_in, const std::string& name) {
  const auto& pan = *shower.pan;
  const Box plan = bounds(outline_in);
  const Frame frame{54, 44, 54, 62};
  const auto scale =
      scale_to_fit(plan.width_in(), plan.height_in(), 6.9 - (frame.left_pt + frame.right_pt) / 72, 5.8 - (frame.top_pt + frame.bottom_pt) / 72, 1.0);
  Canvas canvas(name, "Shower pan: planes, contours and heights above the drain", plan, scale, frame);
  canvas.ring(outline_in, "doutline");
  for (const auto& valley : pan.valleys_in) canvas.line(canvas.at(valley[0]), canvas.at(valley[1]), "dcentre");
  for (const auto& contour : pan.contours)
    for (const auto& line : contour.lines_in) canvas.line(canvas.at(line[0]), canvas.at(line[1]), "dl dlead");
  for (const auto& entry : shower.entry_in) canvas.line(canvas.at(entry[0]), canvas.at(entry[1]), "dl dedge");
  draw_drain(canvas, pan);
  draw_heights(canvas, pan, centroid(outline_in));
  for (const auto& plane : pan.planes) draw_arrow(canvas, plane);
  std::vector<double> xs, ys;
  for (const Point& p : outline_in) xs.push_back(p.x_in), ys.push_back(p.y_in);
  xs.push_back((pan.drain_from_in.x_in + pan.drain_to_in.x_in) / 2);
  ys.push_back((pan.drain_from_in.y_in + pan.drain_to_in.y_in) / 2);
  const auto box = canvas.plan_box();
  draw_chain(canvas, {true, box.y1 + 24, box.y1, xs, "places of the drain"});
  draw_chain(canvas, {false, box.x0 - 26, box.x0, ys, "places of the drain"});
  return {canvas.svg(), scale, canvas.space().labels(), canvas.notes()};
}

Drawing height_section(const shower::ShowerAnswer& answer, const std::string& name) {
  double low = 0, high = 0.1;
  for (const auto& stack : answer.stacks) {
    double at = 0, lowered = 0;
    for (const auto& part : stack.parts) {
      at += part.thickness_in;
      lowered += std::min(0.0, part.thickness_in);
      low = std::min(low, lowered);
      low = std::min(low, at);
      high = std::max(high, at);
    }
  }
  const double width_pt = 500, height_pt = 150, per_in = (height_pt - 40) / (high - low);
  Canvas canvas(name, "Heights from the framing's top to the finish", {0, 0, width_pt / 72, height_pt / 72}, {12, ""}, {4, 4, 4, 4});
  const auto y = [&](double height_in) { return 14 + (high - height_in) * per_in; };
  canvas.line({4, y(0)}, {width_pt, y(0)}, "dcentre");
  const double each = (width_pt - 20) / static_cast<double>(std::max<std::size_t>(1, answer.stacks.size()));
  canvas.words_at({16 + 46 + (each - 46) / 2, y(0) - 7}, "old framing");
  for (std::size_t i = 0; i < answer.stacks.size(); ++i) {
    const auto& stack = answer.stacks[i];
    const double x = 16 + each * static_cast<double>(i);
    double at = 0;
    for (std::size_t k = 0; k < stack.parts.size(); ++k) {
      const auto& part = stack.parts[k];
      // A part that is then lowered is drawn where it comes to lie.
      if (k + 1 < stack.parts.size() && stack.parts[k + 1].thickness_in < 0) at += stack.parts[k + 1].thickness_in;
      if (part.thickness_in < 0) continue;
      const double next = at + part.thickness_in;
      if (part.thickness_in > 0) canvas.box({x, y(next), x + 46, y(at)}, part.what.rfind("bed", 0) == 0 ? "dnew" : "dmember");
      at = next;
    }
    canvas.words_at({x + 23, y(stack.top_in) - 7}, format_inches(stack.top_in), kLeastType_pt, "db");
    canvas.words_at({x + 23, height_pt - 8}, spoken_id(stack.at));
  }
  return {canvas.svg(), canvas.scale(), canvas.space().labels(), canvas.notes()};
}

}  // namespace awlmark::papers
