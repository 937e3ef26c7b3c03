// Where words may stand on a drawing: measured boxes, and the first free place among candidates.
//
// Paper coordinates are points (1/72 in.), x to the right, y down. Widths are upper bounds for
// common sans-serif fonts, so that labels that do not meet here do not meet on paper either.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace awlmark::papers {

struct PaperPoint {
  double x = 0;
  double y = 0;
};

struct PaperBox {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  double width() const { return x1 - x0; }
  double height() const { return y1 - y0; }
  PaperPoint middle() const { return {(x0 + x1) / 2, (y0 + y1) / 2}; }
};

bool overlap(const PaperBox& a, const PaperBox& b, double gap = 0);
PaperBox box_around(PaperPoint middle, double width, double height);

double text_width_pt(std::string_view text, double size_pt, bool bold = false);

struct Label {
  PaperBox box;
  std::string text;
  bool upright = false;  // reads from the bottom up
};

class LabelSpace {
 public:
  explicit LabelSpace(PaperBox sheet) : sheet_(sheet) {}

  bool free(const PaperBox& box) const;
  // Takes room that words must keep clear of (a symbol, a heavy line).
  void keep_clear(const PaperBox& box) { taken_.push_back(box); }
  // Takes room for words; false, and nothing taken, when it is not free.
  bool put(const Label& label);
  // The first free place for a level label around a symbol of this half size: beside it first, then
  // in widening rings. Nothing when the rings within `reach_pt` are full.
  std::optional<PaperBox> around(PaperPoint at, double half_pt, const std::string& text, double size_pt, double reach_pt, bool bold = false);

  const std::vector<Label>& labels() const { return labels_; }

 private:
  PaperBox sheet_;
  std::vector<PaperBox> taken_;
  std::vector<Label> labels_;
};

}  // namespace awlmark::papers
