#include "papers/drawing/condition_plan.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/dimension.hpp"
#include "papers/drawing/room.hpp"
#include "papers/drawing/symbols.hpp"
#include "papers/keys.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

constexpr double kSignHalf_pt = 3.6;

// Cells of one band as few rectangles: runs along x, then equal runs of following rows joined.
class BandShapes {
 public:
  BandShapes(const survey::GridFindings& grid, const std::vector<double>& p) : grid_(grid), p_(p) {}

  std::string commands(const Canvas& canvas, int band) const {
    struct Run {
      int i0, i1, j0;
    };
    std::string out;
    std::vector<Run> open;
    for (int j = 0; j <= grid_.ny; ++j) {
      std::vector<Run> now;
      for (int i = 0; j < grid_.ny && i < grid_.nx;) {
        if (band_at(i, j) != band) {
          ++i;
          continue;
        }
        int end = i;
        while (end < grid_.nx && band_at(end, j) == band) ++end;
        now.push_back({i, end, j});
        i = end;
      }
      for (const auto& run : open) {
        const auto same = std::find_if(now.begin(), now.end(), [&](const Run& other) { return other.i0 == run.i0 && other.i1 == run.i1; });
        if (same != now.end())
          same->j0 = run.j0;
        else
          out += rectangle_path(canvas, run.i0, run.i1, run.j0, j);
      }
      open = std::move(now);
    }
    return out;
  }

 private:
  int band_at(int i, int j) const {
    const double p = p_[static_cast<std::size_t>(j) * static_cast<std::size_t>(grid_.nx) + static_cast<std::size_t>(i)];
    return std::isfinite(p) ? band_of(p) : -1;
  }
  std::string rectangle_path(const Canvas& canvas, int i0, int i1, int j0, int j1) const {
    const auto low = canvas.at({grid_.origin_in.x_in + i0 * grid_.cell_in, grid_.origin_in.y_in + j0 * grid_.cell_in});
    const auto high = canvas.at({grid_.origin_in.x_in + i1 * grid_.cell_in, grid_.origin_in.y_in + j1 * grid_.cell_in});
    return "M" + coordinate(low.x) + " " + coordinate(low.y) + "H" + coordinate(high.x) + "V" + coordinate(high.y) + "H" + coordinate(low.x) + "Z";
  }
  const survey::GridFindings& grid_;
  const std::vector<double>& p_;
};

void draw_field(Canvas& canvas, const Job& job, const survey::Survey& survey, const survey::LayerField& field) {
  const bool clipped = job.room.outline_in.size() >= 3;
  const std::string clip = canvas.name() + "-room";
  if (clipped) {
    canvas.out().open("defs").open("clipPath", {{"id", clip}});
    canvas.out().leaf("path", {{"d", canvas.ring_path(job.room.outline_in)}}).close().close();
    canvas.out().open("g", {{"clip-path", "url(#" + clip + ")"}});
  }
  const BandShapes shapes(survey.grid, field.p_unsound);
  for (int band = 0; band < kBands; ++band) {
    const auto commands = shapes.commands(canvas, band);
    if (!commands.empty()) hatch(canvas.out(), band, commands, canvas.plan_box(), canvas.name() + "-b" + std::to_string(band), "dcell");
  }
  if (clipped) canvas.out().close();
}

void draw_sound_lines(Canvas& canvas, const survey::Survey& survey, const std::string& layer) {
  for (const auto& line : survey.sound_lines) {
    if (line.layer != layer) continue;
    for (const auto& ring : line.rings_in) canvas.ring(ring, line.confidence >= 0.9 ? "dsound" : "dsound dlikely");
  }
}

void draw_cut(Canvas& canvas, const cutback::CutBack& cut, const std::string& layer) {
  const auto outlines = cut.outlines_in.find(layer);
  if (outlines == cut.outlines_in.end()) return;
  for (const auto& ring : outlines->second) canvas.ring(ring, "dcut");
}

void name_sound_lines(Canvas& canvas, const survey::Survey& survey, const std::string& layer) {
  for (const auto& line : survey.sound_lines) {
    if (line.layer != layer || line.rings_in.empty() || line.rings_in[0].empty()) continue;
    const auto& ring = line.rings_in[0];
    const auto top = *std::max_element(ring.begin(), ring.end(), [](Point a, Point b) { return a.y_in < b.y_in; });
    canvas.words_near(canvas.at(top), 2, format_number(line.confidence * 100, 0) + " %", kLeastType_pt, "db");
  }
}

void draw_spot(Canvas& canvas, const Spot& spot) {
  constexpr std::size_t kSideBySide = 4;
  const auto p = canvas.at(spot.at_in);
  const std::size_t shown = std::min(spot.marks.size(), kSideBySide);
  const double step = 2 * kSignHalf_pt + 1.4;
  double x = p.x - step * static_cast<double>(shown - 1) / 2;
  for (std::size_t i = 0; i < shown; ++i, x += step) draw_sign(canvas.out(), sign_of(*spot.marks[i].mark), {x, p.y}, kSignHalf_pt);
  canvas.space().keep_clear(box_around(p, step * static_cast<double>(shown), 2 * kSignHalf_pt + 1));
}

void draw_openings(Canvas& canvas, const survey::Survey& survey) {
  for (std::size_t i = 0; i < survey.next_openings.size(); ++i) {
    const auto& opening = survey.next_openings[i];
    if (!std::isfinite(opening.at_in.x_in) || !std::isfinite(opening.at_in.y_in)) continue;
    const auto p = canvas.at(opening.at_in);
    canvas.circle(p, 7.5, "dnext");
    canvas.words_at(p, letter_of(i), 10, "db dnextw");
    canvas.space().keep_clear(box_around(p, 16, 16));
  }
}

void draw_marks(Canvas& canvas, const std::vector<Spot>& spots) {
  for (const auto& spot : spots) draw_spot(canvas, spot);
  std::size_t unnamed = 0;
  for (const auto& spot : spots) {
    const double half = kSignHalf_pt * static_cast<double>(std::min<std::size_t>(spot.marks.size(), 4));
    if (!canvas.words_near(canvas.at(spot.at_in), half, spot.label, kLeastType_pt, "dhalo")) unnamed += spot.marks.size();
  }
  if (unnamed > 0) canvas.note(count_of(unnamed, "mark has", "marks have") + " no room for a number on the plan; the table gives every place.");
}

// A flag where a photograph was taken, named as in the photo record.
void draw_photos(Canvas& canvas, const Job& job) {
  std::size_t number = 0, unnamed = 0;
  for (const auto& photo : job.photos) {
    ++number;
    const auto place = photo_place(job, photo);
    if (!place) continue;
    const auto p = canvas.at(*place);
    const PaperPoint flag{p.x + 5, p.y - 9};
    canvas.shape({p, {p.x, p.y - 12}, {p.x + 9, p.y - 9}, {p.x, p.y - 6}}, "dink");
    canvas.space().keep_clear(box_around(flag, 10, 8));
    if (!canvas.words_near(flag, 5, "ph " + std::to_string(number), kLeastType_pt, "di")) ++unnamed;
  }
  if (unnamed > 0) canvas.note(count_of(unnamed, "photo has", "photos have") + " no room for a number; the photo record gives every place.");
}

void draw_overall(Canvas& canvas, const Job& job) {
  if (job.room.outline_in.size() < 3) return;
  const auto room = bounds(job.room.outline_in);
  const auto box = canvas.plan_box();
  draw_chain(canvas, {true, box.y1 + 26, canvas.at({0, room.y0_in}).y, {room.x0_in, room.x1_in}, "overall dimensions"});
  draw_chain(canvas, {false, box.x0 - 24, canvas.at({room.x0_in, 0}).x, {room.y0_in, room.y1_in}, "overall dimensions"});
}

}  // namespace

Drawing condition_plan(const Job& job, const survey::Survey& survey, const survey::LayerField& field, const ConditionPlanStyle& style) {
  const auto marks = numbered(job);
  std::vector<Point> more;
  if (style.marks) {
    for (const auto& mark : marks)
      if (mark.at_in) more.push_back(*mark.at_in);
    for (const auto& opening : survey.next_openings) more.push_back(opening.at_in);
  }
  const auto plan = plan_bounds(job, more);
  const Frame frame = style.marks ? Frame{44, 10, 16, 62} : Frame{4, 4, 4, 4};
  const auto scale = scale_to_fit(plan.width_in(), plan.height_in(), style.width_in - (frame.left_pt + frame.right_pt) / 72,
                                  style.height_in - (frame.top_pt + frame.bottom_pt) / 72, style.at_most_per_ft);
  Canvas canvas(style.name, "Plan of the " + layer_title(job, field.layer) + ": how likely unsound wood is", plan, scale, frame);
  draw_field(canvas, job, survey, field);
  draw_sound_lines(canvas, survey, field.layer);
  if (style.cut_back) draw_cut(canvas, *style.cut_back, field.layer);
  const RoomStyle room{true, style.marks, style.marks, style.marks};
  draw_room(canvas, job, room);
  if (style.marks) {
    draw_openings(canvas, survey);
    draw_marks(canvas, spots_of(marks));
    draw_photos(canvas, job);
    name_sound_lines(canvas, survey, field.layer);
    name_room(canvas, job, room);
    draw_overall(canvas, job);
    draw_scale_bar(canvas, {frame.left_pt, canvas.height_pt() - 18}, canvas.width_pt() - frame.left_pt - 60);
    const PaperPoint north{canvas.width_pt() - 40, canvas.height_pt() - 14};
    canvas.circle(north, 9, "dl");
    canvas.words_near(north, 9, "N: mark on site");
  }
  return {canvas.svg(), scale, canvas.space().labels(), canvas.notes()};
}

Markup condition_legend(const Job& job, const survey::Survey& survey, bool cut) {
  Markup out;
  out.open("ul", {{"class", "legend"}});
  const auto item = [&](const Markup& swatch, const std::string& words) { out.open("li").add(swatch).element("span", words).close(); };
  for (int band = 0; band < kBands; ++band) item(band_swatch(band), band_words(band));
  std::set<Sign> signs;
  for (const auto& mark : job.marks) signs.insert(sign_of(mark));
  for (const auto sign : signs) item(sign_swatch(sign), sign_words(sign));
  const auto line_swatch = [](const std::string& css) {
    Markup swatch;
    swatch.open("svg", {{"class", "swatch"}, {"width", "30"}, {"height", "16"}, {"viewBox", "0 0 22 12"}, {"aria-hidden", "true"}});
    swatch.leaf("line", {{"x1", "1"}, {"y1", "6"}, {"x2", "21"}, {"y2", "6"}, {"class", css}}).close();
    return swatch;
  };
  bool strong = false, likely = false;
  for (const auto& line : survey.sound_lines) (line.confidence >= 0.9 ? strong : likely) = true;
  if (strong) item(line_swatch("dsound"), "sound line, 19 chances in 20: all lies inside");
  if (likely) item(line_swatch("dsound dlikely"), "sound line, 4 chances in 5");
  if (cut) item(line_swatch("dcut"), "cut line: what comes out");
  if (std::any_of(job.photos.begin(), job.photos.end(), [&](const Photo& photo) { return photo_place(job, photo).has_value(); })) {
    Markup flag;
    flag.open("svg", {{"class", "swatch"}, {"width", "16"}, {"height", "16"}, {"viewBox", "0 0 12 12"}, {"aria-hidden", "true"}});
    flag.leaf("path", {{"d", "M2 11V1L10 4L2 7"}, {"class", "dink"}}).close();
    item(flag, "photo, as numbered in the photo record");
  }
  if (!job.sources.empty()) {
    Markup drop;
    drop.open("svg", {{"class", "swatch"}, {"width", "16"}, {"height", "16"}, {"viewBox", "0 0 12 12"}, {"aria-hidden", "true"}});
    drop.leaf("path", {{"d", "M6 0.8C7 3.4 10 5.6 10 7.8A4 4 0 0 1 2 7.8C2 5.6 5 3.4 6 0.8Z"}, {"class", "dsource"}}).close();
    item(drop, "where the water came from");
  }
  if (!survey.next_openings.empty()) {
    Markup ring;
    ring.open("svg", {{"class", "swatch"}, {"width", "16"}, {"height", "16"}, {"viewBox", "0 0 12 12"}, {"aria-hidden", "true"}});
    ring.leaf("circle", {{"cx", "6"}, {"cy", "6"}, {"r", "5"}, {"class", "dnext"}}).close();
    item(ring, "next opening, A first");
  }
  out.close();
  return out;
}

}  // namespace awlmark::papers
