#include "papers/drawing/canvas.hpp"

#include <array>
#include <cmath>
#include <utility>

#include "base/length.hpp"

namespace awlmark::papers {
namespace {

struct UsualScale {
  double paper_in_per_ft;
  std::string_view name;
};
constexpr std::array<UsualScale, 11> kScales{{{3, "3\" = 1'-0\""},
                                              {1.5, "1 1/2\" = 1'-0\""},
                                              {1, "1\" = 1'-0\""},
                                              {0.75, "3/4\" = 1'-0\""},
                                              {0.5, "1/2\" = 1'-0\""},
                                              {0.375, "3/8\" = 1'-0\""},
                                              {0.25, "1/4\" = 1'-0\""},
                                              {0.1875, "3/16\" = 1'-0\""},
                                              {0.125, "1/8\" = 1'-0\""},
                                              {0.09375, "3/32\" = 1'-0\""},
                                              {0.0625, "1/16\" = 1'-0\""}}};

}  // namespace

std::string coordinate(double value) {
  if (!std::isfinite(value)) return "0";
  std::string text = format_number(value, 2);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

Scale scale_to_fit(double width_in, double height_in, double paper_width_in, double paper_height_in, double at_most) {
  const auto fits = [&](double paper_in_per_ft) {
    return width_in / 12 * paper_in_per_ft <= paper_width_in && height_in / 12 * paper_in_per_ft <= paper_height_in;
  };
  for (const auto& usual : kScales)
    if (usual.paper_in_per_ft <= at_most && fits(usual.paper_in_per_ft)) return {usual.paper_in_per_ft, std::string(usual.name)};
  double feet = 20;
  while (!fits(1 / feet) && feet < 1e6) feet += feet < 100 ? 10 : feet;
  return {1 / feet, "1\" = " + format_number(feet, 0) + "'"};
}

Canvas::Canvas(std::string name, std::string title, Box plan_in, Scale scale, Frame frame)
    : name_(std::move(name)),
      title_(std::move(title)),
      plan_in_(plan_in),
      scale_(std::move(scale)),
      frame_(frame),
      width_pt_(frame.left_pt + frame.right_pt + plan_in.width_in() * scale_.pt_per_in()),
      height_pt_(frame.top_pt + frame.bottom_pt + plan_in.height_in() * scale_.pt_per_in()),
      space_({0, 0, width_pt_, height_pt_}) {}

PaperPoint Canvas::at(Point plan_in) const { return {frame_.left_pt + pt(plan_in.x_in - plan_in_.x0_in), frame_.top_pt + pt(plan_in_.y1_in - plan_in.y_in)}; }

PaperBox Canvas::plan_box() const {
  const auto low = at({plan_in_.x0_in, plan_in_.y0_in});
  const auto high = at({plan_in_.x1_in, plan_in_.y1_in});
  return {low.x, high.y, high.x, low.y};
}

void Canvas::line(PaperPoint a, PaperPoint b, std::string_view css) {
  out_.leaf("line", {{"x1", coordinate(a.x)}, {"y1", coordinate(a.y)}, {"x2", coordinate(b.x)}, {"y2", coordinate(b.y)}, {"class", std::string(css)}});
}

void Canvas::box(const PaperBox& box, std::string_view css, std::string_view fill) {
  const std::string x = coordinate(box.x0), y = coordinate(box.y0), w = coordinate(box.width()), h = coordinate(box.height());
  if (fill.empty()) {
    out_.leaf("rect", {{"x", x}, {"y", y}, {"width", w}, {"height", h}, {"class", std::string(css)}});
  } else {
    out_.leaf("rect", {{"x", x}, {"y", y}, {"width", w}, {"height", h}, {"class", std::string(css)}, {"style", "fill:" + std::string(fill)}});
  }
}

void Canvas::circle(PaperPoint middle, double radius_pt, std::string_view css) {
  out_.leaf("circle", {{"cx", coordinate(middle.x)}, {"cy", coordinate(middle.y)}, {"r", coordinate(radius_pt)}, {"class", std::string(css)}});
}

void Canvas::path(std::string_view commands, std::string_view css, std::string_view fill) {
  if (fill.empty()) {
    out_.leaf("path", {{"d", std::string(commands)}, {"class", std::string(css)}});
  } else {
    out_.leaf("path", {{"d", std::string(commands)}, {"class", std::string(css)}, {"style", "fill:" + std::string(fill)}});
  }
}

std::string Canvas::ring_path(const Polygon& ring_in) const {
  std::string commands;
  for (const auto& corner : ring_in) {
    const auto p = at(corner);
    commands += (commands.empty() ? "M" : "L") + coordinate(p.x) + " " + coordinate(p.y);
  }
  return commands.empty() ? commands : commands + "Z";
}

void Canvas::ring(const Polygon& ring_in, std::string_view css, std::string_view fill) {
  if (!ring_in.empty()) path(ring_path(ring_in), css, fill);
}

void Canvas::shape(const std::vector<PaperPoint>& points, std::string_view css, bool closed) {
  std::string commands;
  for (const auto& p : points) commands += (commands.empty() ? "M" : "L") + coordinate(p.x) + " " + coordinate(p.y);
  if (!commands.empty()) path(closed ? commands + "Z" : commands, css);
}

void Canvas::words(const Label& label, double size_pt, std::string_view css) {
  const auto middle = label.box.middle();
  // The middle of capitals lies about 0.35 em above the baseline.
  const double down = 0.35 * size_pt;
  const std::string style = "dw " + std::string(css);
  const std::string size = coordinate(size_pt);
  if (label.upright) {
    const std::string turn = "translate(" + coordinate(middle.x + down) + " " + coordinate(middle.y) + ") rotate(-90)";
    out_.element("text", label.text, {{"transform", turn}, {"font-size", size}, {"class", style}});
  } else {
    const double x = css.find("dstart") != std::string_view::npos ? label.box.x0 : middle.x;
    out_.element("text", label.text, {{"x", coordinate(x)}, {"y", coordinate(middle.y + down)}, {"font-size", size}, {"class", style}});
  }
}

bool Canvas::words_at(PaperPoint middle, const std::string& text, double size_pt, std::string_view css, bool upright) {
  const double along = text_width_pt(text, size_pt, css.find("db") != std::string_view::npos);
  const double across = size_pt * 1.05;
  const Label label{box_around(middle, upright ? across : along, upright ? along : across), text, upright};
  if (!space_.put(label)) return false;
  words(label, size_pt, css);
  return true;
}

bool Canvas::words_near(PaperPoint at, double half_pt, const std::string& text, double size_pt, std::string_view css, double reach_pt) {
  const auto box = space_.around(at, half_pt, text, size_pt, reach_pt, css.find("db") != std::string_view::npos);
  if (!box) return false;
  const auto middle = box->middle();
  const double dx = std::fmax(0.0, std::fabs(middle.x - at.x) - box->width() / 2);
  const double dy = std::fmax(0.0, std::fabs(middle.y - at.y) - box->height() / 2);
  if (std::fmax(dx, dy) > half_pt + 4) {
    const PaperPoint foot{std::fmin(std::fmax(at.x, box->x0), box->x1), std::fmin(std::fmax(at.y, box->y0), box->y1)};
    line(at, foot, "dl dlead");
  }
  words({*box, text, false}, size_pt, css);
  return true;
}

Markup Canvas::svg() const {
  Markup svg;
  svg.open("svg", {{"class", "drawing"},
                   {"role", "img"},
                   {"width", coordinate(width_pt_ / 72) + "in"},
                   {"height", coordinate(height_pt_ / 72) + "in"},
                   {"viewBox", "0 0 " + coordinate(width_pt_) + " " + coordinate(height_pt_)}});
  svg.element("title", title_).add(out_).close();
  return svg;
}

}  // namespace awlmark::papers
