#include "papers/drawing/dimension.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/length.hpp"

namespace awlmark::papers {
namespace {

constexpr double kSame_in = 1.0 / 16;  // gaps within a sixteenth read the same

// The chain's own frame: `along` on the line, `away` from the drawing.
class ChainPainter {
 public:
  ChainPainter(Canvas& canvas, const Chain& chain) : canvas_(canvas), chain_(chain), away_(chain.at_pt >= chain.from_pt ? 1 : -1) {
    stops_in_ = chain.stops_in;
    std::sort(stops_in_.begin(), stops_in_.end());
    stops_in_.erase(std::unique(stops_in_.begin(), stops_in_.end(), [](double a, double b) { return std::fabs(a - b) < kSame_in; }), stops_in_.end());
  }

  void draw() {
    if (stops_in_.size() < 2) return;
    canvas_.line(paper(along(stops_in_.front()), 0), paper(along(stops_in_.back()), 0), "dl ddim");
    for (const double stop : stops_in_) draw_stop(along(stop));
    for (std::size_t i = 0; i + 1 < stops_in_.size();) i = label_from(i);
    if (unlabelled_ > 0)
      canvas_.note(std::to_string(unlabelled_) + " of the " + chain_.what + " had no room for their figure on the drawing; they stand in the table.");
  }

 private:
  double along(double stop_in) const {
    const auto box = canvas_.plan();
    return chain_.level ? canvas_.at({stop_in, box.y0_in}).x : canvas_.at({box.x0_in, stop_in}).y;
  }
  PaperPoint paper(double along_pt, double away_pt) const {
    const double across = chain_.at_pt + away_ * away_pt;
    return chain_.level ? PaperPoint{along_pt, across} : PaperPoint{across, along_pt};
  }
  void draw_stop(double at) {
    constexpr double kTick_pt = 3.2;
    constexpr double kClear_pt = 3;
    const double depth = std::fabs(chain_.at_pt - chain_.from_pt);
    canvas_.line(paper(at, -std::max(0.0, depth - kClear_pt)), paper(at, 3), "dl dext");
    const auto middle = paper(at, 0);
    canvas_.line({middle.x - kTick_pt, middle.y + kTick_pt}, {middle.x + kTick_pt, middle.y - kTick_pt}, "dl dtick");
  }
  double gap_in(std::size_t i) const { return stops_in_[i + 1] - stops_in_[i]; }
  double gap_pt(std::size_t i, std::size_t end) const { return std::fabs(along(stops_in_[end]) - along(stops_in_[i])); }

  bool put(const std::string& text, double middle_along, double away_pt) {
    return canvas_.words_at(paper(middle_along, away_pt), text, kLeastType_pt, "", !chain_.level);
  }

  // Labels the gap that starts at stop i, or the run of equal gaps there; returns the next stop.
  std::size_t label_from(std::size_t i) {
    constexpr double kRow0_pt = -7.5;  // between the line and the drawing
    const double middle = (along(stops_in_[i]) + along(stops_in_[i + 1])) / 2;
    const auto text = format_length(gap_in(i));
    if (text_width_pt(text, kLeastType_pt) + 5 <= gap_pt(i, i + 1) && put(text, middle, kRow0_pt)) return i + 1;
    std::size_t end = i + 1;
    while (end + 1 < stops_in_.size() && std::fabs(gap_in(end) - gap_in(i)) < kSame_in) ++end;
    if (end > i + 1) {
      const double run_middle = (along(stops_in_[i]) + along(stops_in_[end])) / 2;
      const auto count = std::to_string(end - i) + " x " + text;
      for (const auto& words : {count + " = " + format_length(stops_in_[end] - stops_in_[i]), count})
        if (text_width_pt(words, kLeastType_pt) + 5 <= gap_pt(i, end) && put(words, run_middle, kRow0_pt)) return end;
      if (stagger(count, run_middle)) return end;
    }
    if (!stagger(text, middle)) ++unlabelled_;
    return i + 1;
  }

  // A row further out, with a leader from the middle of the gap.
  bool stagger(const std::string& text, double middle) {
    const double half = text_width_pt(text, kLeastType_pt) / 2;
    constexpr std::array<double, 2> kRows_pt{8.5, 19};
    for (const double row : kRows_pt) {
      for (const double aside : {0.0, half * 0.6, -half * 0.6, half * 1.1, -half * 1.1}) {
        if (!put(text, middle + aside, row)) continue;
        const double reach = std::min(std::max(middle, middle + aside - half), middle + aside + half);
        canvas_.line(paper(middle, 0), paper(reach, row - 5), "dl dlead");
        return true;
      }
    }
    return false;
  }

  Canvas& canvas_;
  const Chain& chain_;
  double away_;
  std::vector<double> stops_in_;
  int unlabelled_ = 0;
};

}  // namespace

void draw_chain(Canvas& canvas, const Chain& chain) { ChainPainter(canvas, chain).draw(); }

void draw_scale_bar(Canvas& canvas, PaperPoint left, double room_pt) {
  constexpr std::array<double, 9> kFeet{1, 2, 4, 5, 10, 20, 50, 100, 500};
  double feet = 0.5;
  for (const double candidate : kFeet)
    if (canvas.pt(candidate * 12) <= std::min(room_pt, 160.0)) feet = candidate;
  const double length = canvas.pt(feet * 12);
  for (int part = 0; part < 4; ++part) {
    const PaperBox box{left.x + length * part / 4, left.y, left.x + length * (part + 1) / 4, left.y + 4};
    canvas.box(box, part % 2 == 0 ? "dink" : "dpaper");
  }
  canvas.space().keep_clear({left.x, left.y, left.x + length, left.y + 4});
  const auto inches = format_inches(length / 72);
  const std::string words = format_length(feet * 12) + "  (" + inches + " " + canvas.said("on paper at 100 %") + ")";
  canvas.words_at({left.x + text_width_pt(words, kLeastType_pt) / 2, left.y + 11}, words);
}

}  // namespace awlmark::papers
