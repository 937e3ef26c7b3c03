// A sheet of paper for one drawing: SVG in real inches, so that it prints to scale, with the plan's
// inches carried over at an architect's scale.
//
// Guarantee: printed at 100 %, one foot of the house measures `scale().paper_in_per_ft` inches.
// All words go through the label space: what `labels()` returns is every piece of text drawn.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/geometry.hpp"
#include "papers/drawing/labels.hpp"
#include "papers/language.hpp"
#include "papers/markup.hpp"

namespace awlmark::papers {

struct Scale {
  double paper_in_per_ft = 0.5;
  std::string name = "1/2\" = 1'-0\"";
  double pt_per_in() const { return paper_in_per_ft * 72 / 12; }
};

// The largest usual scale at which this many inches of house fit into this many inches of paper, not
// larger than `at_most` paper inches a foot. Past the smallest usual scale: a round one, 1" = n'.
Scale scale_to_fit(double width_in, double height_in, double paper_width_in, double paper_height_in, double at_most);

// Smallest type on a drawing in print.
inline constexpr double kLeastType_pt = 9;

struct Frame {
  double left_pt = 20, top_pt = 20, right_pt = 20, bottom_pt = 20;
};

class Canvas {
 public:
  // `name` is ours and unique on the paper: patterns and clips are named after it.
  Canvas(std::string name, std::string title, Box plan_in, Scale scale, Frame frame);

  PaperPoint at(Point plan_in) const;
  double pt(double length_in) const { return length_in * scale_.pt_per_in(); }
  const Scale& scale() const { return scale_; }
  Box plan() const { return plan_in_; }
  double width_pt() const { return width_pt_; }
  double height_pt() const { return height_pt_; }
  PaperBox plan_box() const;

  void line(PaperPoint a, PaperPoint b, std::string_view css);
  void box(const PaperBox& box, std::string_view css, std::string_view fill = {});
  void circle(PaperPoint middle, double radius_pt, std::string_view css);
  void path(std::string_view commands, std::string_view css, std::string_view fill = {});
  void ring(const Polygon& ring_in, std::string_view css, std::string_view fill = {});
  void shape(const std::vector<PaperPoint>& points, std::string_view css, bool closed = true);
  std::string ring_path(const Polygon& ring_in) const;

  // Words centred in the box the label space gave them.
  void words(const Label& label, double size_pt, std::string_view css = "");
  // Words centred at a place; nothing when the place is taken. Tells whether they were drawn.
  bool words_at(PaperPoint middle, const std::string& text, double size_pt = kLeastType_pt, std::string_view css = "", bool upright = false);
  // Words near a symbol, with a leader when they had to move away. Tells whether they were drawn.
  bool words_near(PaperPoint at, double half_pt, const std::string& text, double size_pt = kLeastType_pt, std::string_view css = "", double reach_pt = 42);

  // Words of the drawing's own, in its language.
  void speak(Language language) { language_ = language; }
  std::string said(std::string_view english) const { return papers::said(language_, english); }

  LabelSpace& space() { return space_; }
  Markup& out() { return out_; }
  const std::string& name() const { return name_; }
  void note(std::string text) { notes_.push_back(std::move(text)); }
  const std::vector<std::string>& notes() const { return notes_; }

  // The whole drawing as one <svg>.
  Markup svg() const;

 private:
  std::string name_;
  std::string title_;
  Box plan_in_;
  Scale scale_;
  Frame frame_;
  double width_pt_;
  double height_pt_;
  LabelSpace space_;
  Markup out_;
  Language language_ = Language::english;
  std::vector<std::string> notes_;
};

// A number for an SVG attribute.
std::string coordinate(double value);

// What a finished drawing hands on.
struct Drawing {
  Markup svg;
  Scale scale;
  std::vector<Label> labels;
  std::vector<std::string> notes;  // what there was no room to write on it
};

}  // namespace awlmark::papers
