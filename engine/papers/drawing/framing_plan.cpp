#include "papers/drawing/framing_plan.hpp"

#include <algorithm>
#include <cmath>

#include "papers/drawing/dimension.hpp"
#include "papers/drawing/room.hpp"
#include "papers/drawing/symbols.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

constexpr double kUsualBreadth_in = 1.5;

double breadth_of(const DrawnMember& member) { return member.line.b_in > 0 ? member.line.b_in : kUsualBreadth_in; }

// A strip along part of a member, `low` to `high` across it.
Polygon member_strip(const DrawnMember& member, double from_in, double to_in, double low_in, double high_in) {
  const auto a = member.line.from_in, b = member.line.to_in;
  const double length = distance_in(a, b);
  const double nx = -(b.y_in - a.y_in) / length, ny = (b.x_in - a.x_in) / length;
  const auto p = point_along(a, b, from_in), q = point_along(a, b, to_in);
  return {{p.x_in + nx * low_in, p.y_in + ny * low_in},
          {q.x_in + nx * low_in, q.y_in + ny * low_in},
          {q.x_in + nx * high_in, q.y_in + ny * high_in},
          {p.x_in + nx * high_in, p.y_in + ny * high_in}};
}

class FramingPainter {
 public:
  FramingPainter(Canvas& canvas, const Job& job, const Findings& findings, const Framing& framing, const FramingPlanStyle& style)
      : canvas_(canvas), job_(job), findings_(findings), framing_(framing), style_(style) {}

  void draw() {
    draw_room(canvas_, job_, {true, false, false, true});
    for (const auto& member : framing_.members)
      if (!member.added || style_.rebuilt) draw_member(member);
    draw_cut();
    draw_blocking();
    for (const auto& decay : framing_.decay) draw_decay(decay);
    draw_shores();
    draw_chains();
    name_all();
  }

 private:
  void draw_member(const DrawnMember& member) {
    double from = 0, to = 0;
    if (!part_inside(member.line.from_in, member.line.to_in, framing_.reach, from, to)) return;
    const double half = breadth_of(member) / 2;
    canvas_.ring(member_strip(member, from, to, -half, half), member.added ? "dnew" : "dmember");
    if (member.line.kind != "blocking")
      canvas_.line(canvas_.at(point_along(member.line.from_in, member.line.to_in, from)), canvas_.at(point_along(member.line.from_in, member.line.to_in, to)),
                   "dcentre");
    const double length = distance_in(member.line.from_in, member.line.to_in);
    if (from > 0.5) draw_break(member, from);
    if (to < length - 0.5) draw_break(member, to);
    for (const double rest : member.line.rests_at_in) {
      if (rest < from - 0.01 || rest > to + 0.01) continue;
      const auto p = canvas_.at(point_along(member.line.from_in, member.line.to_in, rest));
      const double side = std::max(canvas_.pt(half) + 2.5, 4.0);
      canvas_.shape({{p.x - side, p.y - side * 0.8}, {p.x - side, p.y + side * 0.8}, {p.x - 0.6, p.y}}, "drest");
      canvas_.shape({{p.x + side, p.y - side * 0.8}, {p.x + side, p.y + side * 0.8}, {p.x + 0.6, p.y}}, "drest");
      canvas_.space().keep_clear(box_around(p, 2 * side, 2 * side));
    }
  }

  // The member runs on past the drawing.
  void draw_break(const DrawnMember& member, double along) {
    const auto p = canvas_.at(point_along(member.line.from_in, member.line.to_in, along));
    const double r = canvas_.pt(breadth_of(member) / 2) + 2.5;
    if (framing_.run_along_y)
      canvas_.shape({{p.x - r - 2, p.y}, {p.x - 1.5, p.y}, {p.x - 0.5, p.y - 3}, {p.x + 0.5, p.y + 3}, {p.x + 1.5, p.y}, {p.x + r + 2, p.y}}, "dl", false);
    else
      canvas_.shape({{p.x, p.y - r - 2}, {p.x, p.y - 1.5}, {p.x - 3, p.y - 0.5}, {p.x + 3, p.y + 0.5}, {p.x, p.y + 1.5}, {p.x, p.y + r + 2}}, "dl", false);
  }

  void draw_cut() {
    for (const auto& ring : deck_cut(job_, findings_)) canvas_.ring(ring, "dcut");
  }

  void draw_blocking() {
    if (!findings_.cut_back) return;
    for (const auto& block : findings_.cut_back->blocking) {
      if (!finite(block.from_in) || !finite(block.to_in) || distance_in(block.from_in, block.to_in) <= 0) continue;
      DrawnMember piece;
      piece.line.from_in = block.from_in, piece.line.to_in = block.to_in;
      canvas_.ring(member_strip(piece, 0, distance_in(block.from_in, block.to_in), -0.75, 0.75), "dblock");
    }
  }

  void draw_decay(const DrawnDecay& decay) {
    const auto& member = framing_.members[decay.member];
    double from = 0, to = 0;
    if (!part_inside(member.line.from_in, member.line.to_in, framing_.reach, from, to)) return;
    from = std::max(from, decay.from_in), to = std::min(to, decay.to_in);
    if (to <= from) return;
    const double breadth = breadth_of(member);
    const double width = decay.width_in > 0 ? std::min(decay.width_in, breadth) : breadth;
    hatch(canvas_.out(), decay.known ? 5 : 3, canvas_.ring_path(member_strip(member, from, to, -width / 2, width / 2)), canvas_.plan_box(),
          canvas_.name() + "-" + decay.key, decay.known ? "ddecay" : "ddecay dmaybe");
  }

  void draw_shores() {
    if (!findings_.floor) return;
    for (const auto& shore : shores_of(findings_)) {
      if (!finite(shore.at_in)) continue;
      const auto p = canvas_.at(shore.at_in);
      const double h = 5;
      canvas_.box(box_around(p, 2 * h, 2 * h), "dshore");
      canvas_.path("M" + coordinate(p.x - h) + " " + coordinate(p.y - h) + "L" + coordinate(p.x + h) + " " + coordinate(p.y + h) + "M" + coordinate(p.x - h) +
                       " " + coordinate(p.y + h) + "L" + coordinate(p.x + h) + " " + coordinate(p.y - h),
                   "dshore");
      canvas_.space().keep_clear(box_around(p, 2 * h + 1, 2 * h + 1));
    }
  }

  // Where members cross, measured across them; where they rest, measured along.
  void draw_chains() {
    const auto box = canvas_.plan_box();
    std::vector<double> across, along, cut_across, cut_along;
    Box room = job_.room.outline_in.empty() ? canvas_.plan() : bounds(job_.room.outline_in);
    const auto pick = [&](Point p, bool x) { return x ? p.x_in : p.y_in; };
    const bool x_across = framing_.run_along_y;
    for (const auto& member : framing_.members) {
      if ((member.added && !style_.rebuilt) || member.line.kind == "blocking" || member.line.kind == "sister" || member.line.kind == "trimmer") continue;
      const bool upright = std::fabs(member.line.to_in.y_in - member.line.from_in.y_in) >= std::fabs(member.line.to_in.x_in - member.line.from_in.x_in);
      double from = 0, to = 0;
      if (!part_inside(member.line.from_in, member.line.to_in, framing_.reach, from, to)) continue;
      if (upright == framing_.run_along_y)
        across.push_back(pick(point_along(member.line.from_in, member.line.to_in, (from + to) / 2), x_across));
      else
        along.push_back(pick(point_along(member.line.from_in, member.line.to_in, (from + to) / 2), !x_across));
      for (const double rest : member.line.rests_at_in)
        if (rest >= from - 0.01 && rest <= to + 0.01 && upright == framing_.run_along_y)
          along.push_back(pick(point_along(member.line.from_in, member.line.to_in, rest), !x_across));
    }
    for (const auto& ring : deck_cut(job_, findings_))
      for (const auto& corner : ring) cut_across.push_back(pick(corner, x_across)), cut_along.push_back(pick(corner, !x_across));
    const auto room_ends = [&](std::vector<double>& stops, bool x) {
      stops.push_back(x ? room.x0_in : room.y0_in), stops.push_back(x ? room.x1_in : room.y1_in);
    };
    auto& below = x_across ? across : along;
    auto& beside = x_across ? along : across;
    auto& above = x_across ? cut_across : cut_along;
    auto& right = x_across ? cut_along : cut_across;
    if (!above.empty()) room_ends(above, true), room_ends(right, false);
    draw_chain(canvas_, {true, box.y1 + 20, box.y1, below, x_across ? "member spacings" : "distances between rests"});
    draw_chain(canvas_, {true, box.y1 + 20 + kChainDepth_pt, box.y1, {room.x0_in, room.x1_in}, "overall dimensions"});
    draw_chain(canvas_, {false, box.x0 - 20, box.x0, beside, x_across ? "distances between rests" : "member spacings"});
    draw_chain(canvas_, {false, box.x0 - 20 - kChainDepth_pt, box.x0, {room.y0_in, room.y1_in}, "overall dimensions"});
    draw_chain(canvas_, {true, box.y0 - 18, box.y0, above, "cut-back dimensions"});
    draw_chain(canvas_, {false, box.x1 + 18, box.x1, right, "cut-back dimensions"});
  }

  void name_all() {
    for (const auto& decay : framing_.decay) {
      const auto& line = framing_.members[decay.member].line;
      double from = 0, to = 0;
      if (!part_inside(line.from_in, line.to_in, framing_.reach, from, to) || decay.to_in <= from || decay.from_in >= to) continue;
      canvas_.words_near(canvas_.at(point_along(line.from_in, line.to_in, (std::max(from, decay.from_in) + std::min(to, decay.to_in)) / 2)), 5, decay.key,
                         kLeastType_pt, "db dacc", 60);
    }
    const auto shores = shores_of(findings_);
    for (std::size_t i = 0; i < shores.size(); ++i)
      if (finite(shores[i].at_in)) canvas_.words_near(canvas_.at(shores[i].at_in), 6, "P" + std::to_string(i + 1), kLeastType_pt, "db dacc", 60);
    if (findings_.cut_back)
      for (std::size_t i = 0; i < findings_.cut_back->blocking.size(); ++i) {
        const auto& block = findings_.cut_back->blocking[i];
        const Point middle{(block.from_in.x_in + block.to_in.x_in) / 2, (block.from_in.y_in + block.to_in.y_in) / 2};
        if (finite(middle)) canvas_.words_near(canvas_.at(middle), 2, "B" + std::to_string(i + 1), kLeastType_pt, "", 40);
      }
    std::size_t unnamed = 0;
    for (const auto& member : framing_.members) {
      if (member.added && (!style_.rebuilt || beside(member) != nullptr)) continue;
      if (!name_member(member)) ++unnamed;
    }
    if (unnamed > 0) canvas_.note(count_of(unnamed, "member has", "members have") + " no room for a name on the drawing; the table gives every place.");
    name_room(canvas_, job_, {true, true, false, true});
  }

  // The member found that a sister or a replacement shares its line with: one label names both.
  const DrawnMember* beside(const DrawnMember& added) const {
    if (!added.added) return nullptr;
    for (const auto& member : framing_.members)
      if (!member.added && member.line.id == added.line.id && distance_in(member.line.from_in, added.line.from_in) < 1 &&
          distance_in(member.line.to_in, added.line.to_in) < 1)
        return &member;
    return nullptr;
  }

  // The name stands at an end of the member, or where along it there is room.
  bool name_member(const DrawnMember& member) {
    double from = 0, to = 0;
    if (!part_inside(member.line.from_in, member.line.to_in, framing_.reach, from, to)) return true;
    auto text = member.name + (member.line.size.empty() ? "" : "  " + shortened(member.line.size, 14));
    if (style_.rebuilt)
      for (const auto& other : framing_.members)
        if (beside(other) == &member) text += " + " + other.name + "  " + shortened(other.line.size, 14);
    const bool upright = std::fabs(member.line.to_in.y_in - member.line.from_in.y_in) > std::fabs(member.line.to_in.x_in - member.line.from_in.x_in);
    const double aside = canvas_.pt(breadth_of(member) / 2) + 7;
    for (const double share : {0.88, 0.12, 0.7, 0.3, 0.5, 0.6, 0.4, 0.8, 0.2}) {
      const auto p = canvas_.at(point_along(member.line.from_in, member.line.to_in, from + share * (to - from)));
      for (const double side : {1.0, -1.0}) {
        const PaperPoint middle = upright ? PaperPoint{p.x - side * aside, p.y} : PaperPoint{p.x, p.y - side * aside};
        if (canvas_.words_at(middle, text, kLeastType_pt, member.added ? "di" : "db", upright)) return true;
      }
    }
    return canvas_.words_at(canvas_.at(point_along(member.line.from_in, member.line.to_in, (from + to) / 2)), member.name, kLeastType_pt, "", upright);
  }

  Canvas& canvas_;
  const Job& job_;
  const Findings& findings_;
  const Framing& framing_;
  const FramingPlanStyle& style_;
};

}  // namespace

Drawing framing_plan(const Job& job, const Findings& findings, const Framing& framing, const FramingPlanStyle& style) {
  std::vector<Point> more;
  Box plan = plan_bounds(job);
  const auto grow = [&](Point p) {
    if (!finite(p)) return;
    plan.x0_in = std::min(plan.x0_in, p.x_in - 2), plan.x1_in = std::max(plan.x1_in, p.x_in + 2);
    plan.y0_in = std::min(plan.y0_in, p.y_in - 2), plan.y1_in = std::max(plan.y1_in, p.y_in + 2);
  };
  for (const auto& member : framing.members) {
    double from = 0, to = 0;
    if (!part_inside(member.line.from_in, member.line.to_in, framing.reach, from, to)) continue;
    grow(point_along(member.line.from_in, member.line.to_in, from)), grow(point_along(member.line.from_in, member.line.to_in, to));
  }
  if (findings.floor)
    for (const auto& shore : shores_of(findings)) grow(shore.at_in);
  const Frame frame{20 + kChainDepth_pt + 22, 18 + 26, 18 + 30, 20 + kChainDepth_pt + 26 + 22};
  const auto scale = scale_to_fit(plan.width_in(), plan.height_in(), style.width_in - (frame.left_pt + frame.right_pt) / 72,
                                  style.height_in - (frame.top_pt + frame.bottom_pt) / 72, 0.75);
  Canvas canvas(style.name, "Framing plan", plan, scale, frame);
  FramingPainter(canvas, job, findings, framing, style).draw();
  draw_scale_bar(canvas, {frame.left_pt, canvas.height_pt() - 18}, canvas.width_pt() - frame.left_pt - 60);
  const PaperPoint north{canvas.width_pt() - 16, canvas.height_pt() - 14};
  canvas.circle(north, 9, "dl");
  canvas.words_near(north, 9, "N: mark on site");
  return {canvas.svg(), scale, canvas.space().labels(), canvas.notes()};
}

Markup framing_legend() {
  Markup out;
  const auto item = [&](std::string_view css, bool block, int band, const std::string& words) {
    out.open("li").open("svg", {{"class", "swatch"}, {"width", "30"}, {"height", "16"}, {"viewBox", "0 0 22 12"}, {"aria-hidden", "true"}});
    const std::string prefix = "fkey" + std::to_string(band);
    if (band >= 0) {
      hatch(out, band, "M1 3.5H21V8.5H1Z", {1, 3.5, 21, 8.5}, prefix, css);
    } else if (block) {
      out.leaf("rect", {{"x", "1"}, {"y", "3.5"}, {"width", "20"}, {"height", "5"}, {"class", std::string(css)}});
    } else {
      out.leaf("line", {{"x1", "1"}, {"y1", "6"}, {"x2", "21"}, {"y2", "6"}, {"class", std::string(css)}});
    }
    out.close().element("span", words).close();
  };
  out.open("ul", {{"class", "legend"}});
  item("dmember", true, -1, "member as found, with its centre line");
  item("dnew", true, -1, "new member of the chosen way (N)");
  item("ddecay", true, 5, "decay read in a member (D)");
  item("ddecay dmaybe", true, 3, "decay likely, not read (D)");
  item("dcut", false, -1, "deck comes out inside this line");
  item("dblock", true, -1, "new blocking under a cut edge (B)");
  out.open("li").open("svg", {{"class", "swatch"}, {"width", "30"}, {"height", "16"}, {"viewBox", "0 0 22 12"}, {"aria-hidden", "true"}});
  out.leaf("path", {{"d", "M4 2V10L10.5 6ZM18 2V10L11.5 6Z"}, {"class", "drest"}}).close().element("span", "rest: post, wall or beam under the member").close();
  out.open("li").open("svg", {{"class", "swatch"}, {"width", "30"}, {"height", "16"}, {"viewBox", "0 0 22 12"}, {"aria-hidden", "true"}});
  out.leaf("path", {{"d", "M6 1H16V11H6ZM6 1L16 11M6 11L16 1"}, {"class", "dshore"}}).close().element("span", "shore while the floor is open (P)").close();
  out.close();
  return out;
}

}  // namespace awlmark::papers
