#include "papers/drawing/pieces_plan.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "papers/drawing/dimension.hpp"
#include "papers/drawing/framing_lines.hpp"
#include "papers/drawing/room.hpp"
#include "papers/drawing/symbols.hpp"
#include "papers/keys.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

std::string edge_css(cutback::EdgeKind kind) {
  switch (kind) {
    case cutback::EdgeKind::rip:
      return "dedge drip";
    case cutback::EdgeKind::cross_on_support:
      return "dedge";
    case cutback::EdgeKind::cross_in_air:
      return "dedge dair";
    case cutback::EdgeKind::at_wall:
      return "dedge dwalledge";
    case cutback::EdgeKind::seam:
      return "dedge dseam";
  }
  return "dedge";
}

// Cells of sheet goods have no outline of their own: what shows is the region. Boards show one by one.
void draw_pieces(Canvas& canvas, const cutback::CutBack& cut, const std::string& layer) {
  std::string stays, goes[2];
  bool boards = false;
  for (const auto& piece : cut.pieces) {
    if (piece.layer != layer || piece.outline_in.size() < 3) continue;
    boards = boards || piece.plank > 0;
    if (piece.out)
      goes[piece.known_decay ? 1 : 0] += canvas.ring_path(piece.outline_in);
    else if (piece.plank > 0)
      stays += canvas.ring_path(piece.outline_in);
  }
  if (!stays.empty()) canvas.path(stays, "dpiece");
  for (int known = 0; known < 2; ++known)
    if (!goes[known].empty())
      hatch(canvas.out(), known ? 4 : 2, goes[known], canvas.plan_box(), canvas.name() + "-c" + std::to_string(known), boards ? "dpiece" : "dcell");
}

// Plank numbers at the left end of the planks that are cut, once each.
void name_planks(Canvas& canvas, const cutback::CutBack& cut, const std::string& layer) {
  std::vector<int> named;
  for (const auto& piece : cut.pieces) {
    if (piece.layer != layer || piece.plank <= 0 || !piece.out || piece.outline_in.size() < 3) continue;
    if (std::find(named.begin(), named.end(), piece.plank) != named.end()) continue;
    if (canvas.words_at(canvas.at(centroid(piece.outline_in)), std::to_string(piece.plank), kLeastType_pt, "db")) named.push_back(piece.plank);
  }
}

void draw_edges(Canvas& canvas, const cutback::CutBack& cut, const std::string& layer, bool named) {
  for (const auto& edge : cut.edges)
    if (edge.layer == layer && finite(edge.from_in) && finite(edge.to_in)) canvas.line(canvas.at(edge.from_in), canvas.at(edge.to_in), edge_css(edge.kind));
  std::size_t number = 0, unnamed = 0;
  for (const auto* edge : sawn_edges(cut, layer)) {
    const auto a = canvas.at(edge->from_in), b = canvas.at(edge->to_in);
    const std::string name = "C" + std::to_string(++number);
    if (named && !canvas.words_near({(a.x + b.x) / 2, (a.y + b.y) / 2}, 2, name, kLeastType_pt, "db dacc")) ++unnamed;
  }
  if (unnamed > 0) canvas.note(count_of(unnamed, "saw line has", "saw lines have") + " no room for a name; the table gives the place.");
}

void draw_supports(Canvas& canvas, const Framing& framing, const Box& room) {
  for (const auto& member : framing.members) {
    if (member.added) continue;
    double from = 0, to = 0;
    if (!part_inside(member.line.from_in, member.line.to_in, {room.x0_in - 8, room.y0_in - 8, room.x1_in + 8, room.y1_in + 8}, from, to)) continue;
    const auto a = canvas.at(point_along(member.line.from_in, member.line.to_in, from)), b = canvas.at(point_along(member.line.from_in, member.line.to_in, to));
    canvas.line(a, b, "dcentre");
    canvas.words_near(b.y < a.y || b.x > a.x ? b : a, 3, member.name, kLeastType_pt, "", 30);
  }
}

}  // namespace

std::string edge_words(cutback::EdgeKind kind) {
  switch (kind) {
    case cutback::EdgeKind::rip:
      return "rip, along the board";
    case cutback::EdgeKind::cross_on_support:
      return "cross-cut on the middle of a support";
    case cutback::EdgeKind::cross_in_air:
      return "cross-cut between supports, on new blocking";
    case cutback::EdgeKind::at_wall:
      return "at a wall";
    case cutback::EdgeKind::seam:
      return "along a seam";
  }
  return "";
}

std::vector<const cutback::Edge*> sawn_edges(const cutback::CutBack& cut, const std::string& layer) {
  std::vector<const cutback::Edge*> edges;
  for (const auto& edge : cut.edges)
    if (edge.layer == layer && edge.kind != cutback::EdgeKind::at_wall && edge.kind != cutback::EdgeKind::seam && finite(edge.from_in) && finite(edge.to_in))
      edges.push_back(&edge);
  return edges;
}

Drawing pieces_plan(const Job& job, const Findings& findings, const std::string& layer, const PiecesPlanStyle& style) {
  const auto& cut = *findings.cut_back;
  const auto framing = framing_of(job, findings);
  const auto plan = plan_bounds(job);
  const Box room = job.room.outline_in.empty() ? plan : bounds(job.room.outline_in);
  const Frame frame{20 + 34, 18 + 26, 18 + 30, 20 + 26 + 24};
  const auto scale = scale_to_fit(plan.width_in(), plan.height_in(), style.width_in - (frame.left_pt + frame.right_pt) / 72,
                                  style.height_in - (frame.top_pt + frame.bottom_pt) / 72, style.at_most_per_ft);
  Canvas canvas(style.name, said(style.language, "What comes out of") + " " + layer_title(job, layer), plan, scale, frame);
  canvas.speak(style.language);
  draw_room(canvas, job, {true, false, false, true});
  draw_pieces(canvas, cut, layer);
  draw_edges(canvas, cut, layer, style.saw_lines);
  std::vector<double> xs{room.x0_in, room.x1_in}, ys{room.y0_in, room.y1_in};
  std::vector<double> room_xs = xs, room_ys = ys;
  const auto outlines = cut.outlines_in.find(layer);
  if (outlines != cut.outlines_in.end())
    for (const auto& ring : outlines->second)
      for (const auto& corner : ring) xs.push_back(corner.x_in), ys.push_back(corner.y_in);
  const auto box = canvas.plan_box();
  draw_chain(canvas, {true, box.y0 - 18, box.y0, xs, "cut dimensions"});
  draw_chain(canvas, {false, box.x1 + 18, box.x1, ys, "cut dimensions"});
  draw_chain(canvas, {true, box.y1 + 20, box.y1, room_xs, "overall dimensions"});
  draw_chain(canvas, {false, box.x0 - 20, box.x0, room_ys, "overall dimensions"});
  name_planks(canvas, cut, layer);
  draw_supports(canvas, framing, room);
  name_room(canvas, job, {true, true, false, true});
  draw_scale_bar(canvas, {frame.left_pt, canvas.height_pt() - 18}, canvas.width_pt() - frame.left_pt - 60);
  return {canvas.svg(), scale, canvas.space().labels(), canvas.notes()};
}

Markup pieces_legend(Language language) {
  Markup out;
  out.open("ul", {{"class", "legend"}});
  const auto swatch = [&](int band, std::string_view css, const std::string& words) {
    out.open("li").open("svg", {{"class", "swatch"}, {"width", "30"}, {"height", "16"}, {"viewBox", "0 0 22 12"}, {"aria-hidden", "true"}});
    if (band >= 0) {
      hatch(out, band, "M1 1H21V11H1Z", {1, 1, 21, 11}, "pkey" + std::to_string(band), "dpiece");
    } else {
      out.leaf("line", {{"x1", "1"}, {"y1", "6"}, {"x2", "21"}, {"y2", "6"}, {"class", std::string(css)}});
    }
    out.close().element("span", said(language, words)).close();
  };
  swatch(4, "", "comes out: rot was read in it");
  swatch(2, "", "comes out: likely unsound, or in the way");
  for (const auto kind :
       {cutback::EdgeKind::rip, cutback::EdgeKind::cross_on_support, cutback::EdgeKind::cross_in_air, cutback::EdgeKind::at_wall, cutback::EdgeKind::seam})
    swatch(-1, edge_css(kind), edge_words(kind));
  out.close();
  return out;
}

}  // namespace awlmark::papers
