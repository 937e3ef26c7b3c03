#include "mechanics/beam.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "mechanics/beam_pieces.hpp"

namespace awlmark::mechanics {
namespace {

using Piece = BeamResult::Piece;

// One span with its pieces (indices into the result's list) and what its own loads do to it as a
// simple span: the left reaction and the end rotations, and the rotations from unit end moments.
struct Span {
  std::size_t first = 0, last = 0;  // pieces [first, last)
  double from_in = 0, to_in = 0;
  double reaction_left_lb = 0;
  double turn_left = 0, turn_right = 0;
  double f_ll = 0, f_lr = 0, f_rr = 0;
  double length_in() const { return to_in - from_in; }
};

// Loads inside a span, as seen from its left end: total and moment about the right end.
double simple_left_reaction(const std::vector<Piece>& pieces, const Span& span, const std::vector<double>& point_at_start) {
  double about_right = 0;
  for (std::size_t i = span.first; i < span.last; ++i) {
    const Piece& p = pieces[i];
    const double h = p.to_in - p.from_in;
    about_right += p.w_pli * h * (span.to_in - p.from_in - h / 2) + p.w_rise * h * h / 2 * (span.to_in - p.from_in - 2 * h / 3);
    if (i > span.first) about_right += point_at_start[i] * (span.to_in - p.from_in);
  }
  return about_right / span.length_in();
}

// Shear and moment at the start of every piece of the span, from those at its left end.
void run_statics(std::vector<Piece>& pieces, const Span& span, const std::vector<double>& point_at_start, double shear_lb, double moment_inlb) {
  for (std::size_t i = span.first; i < span.last; ++i) {
    Piece& p = pieces[i];
    if (i > span.first) shear_lb -= point_at_start[i];
    p.shear_lb = shear_lb;
    p.moment_inlb = moment_inlb;
    const double h = p.to_in - p.from_in;
    moment_inlb = value(moment_of(p), h);
    shear_lb = value(shear_of(p), h);
  }
}

// End rotations by the unit-load theorem: integral of M m / EI with m = 1 - x/L and x/L.
void find_rotations(std::vector<Piece>& pieces, Span& span, const std::vector<double>& point_at_start) {
  span.reaction_left_lb = simple_left_reaction(pieces, span, point_at_start);
  run_statics(pieces, span, point_at_start, span.reaction_left_lb, 0);
  const double length = span.length_in();
  for (std::size_t i = span.first; i < span.last; ++i) {
    const Piece& p = pieces[i];
    const double h = p.to_in - p.from_in, a = (p.from_in - span.from_in) / length, b = 1 - a;
    const Polynomial m = moment_of(p);
    double whole = 0, first = 0;  // integrals of M and of M t over the piece
    double power = h;
    for (std::size_t k = 0; k < 4; ++k, power *= h) {
      whole += m[k] * power / static_cast<double>(k + 1);
      first += m[k] * power * h / static_cast<double>(k + 2);
    }
    span.turn_left += (b * whole - first / length) / p.ei_lbin2;
    span.turn_right += (a * whole + first / length) / p.ei_lbin2;
    const double c = h / length;
    span.f_ll += h * (b * b - b * c + c * c / 3) / p.ei_lbin2;
    span.f_lr += h * (a * b + c * (b - a) / 2 - c * c / 3) / p.ei_lbin2;
    span.f_rr += h * (a * a + a * c + c * c / 3) / p.ei_lbin2;
  }
}

// Tridiagonal equations for the unknown support moments, by elimination; the matrix is symmetric and
// diagonally dominant, so no exchange of rows is needed.
std::vector<double> solve_three_moments(std::vector<double> diagonal, const std::vector<double>& side, std::vector<double> right) {
  const std::size_t n = diagonal.size();
  for (std::size_t i = 1; i < n; ++i) {
    const double factor = side[i - 1] / diagonal[i - 1];
    diagonal[i] -= factor * side[i - 1];
    right[i] -= factor * right[i - 1];
  }
  for (std::size_t i = n; i-- > 0;) {
    if (i + 1 < n) right[i] -= side[i] * right[i + 1];
    right[i] /= diagonal[i];
  }
  return right;
}

class Solver {
 public:
  explicit Solver(const Beam& beam) : beam_(beam), laid_(lay_out(beam)) { find_spans(); }

  BeamResult solve() {
    run_overhangs();
    find_support_moments();
    for (std::size_t k = 0; k < inner_.size(); ++k) {
      Span& s = inner_[k];
      run_statics(laid_.pieces, s, laid_.point_at_start, s.reaction_left_lb + (moments_[k + 1] - moments_[k]) / s.length_in(), moments_[k]);
      run_forward(s, s.turn_left + s.f_ll * moments_[k] + s.f_lr * moments_[k + 1]);
    }
    deflect_overhangs();
    return collect();
  }

 private:
  void find_spans() {
    double at = 0;
    std::size_t piece = 0;
    std::vector<Span> spans;
    for (const double length : beam_.spans_in) {
      Span s;
      s.from_in = at;
      s.to_in = at + length;
      s.first = piece;
      while (piece < laid_.pieces.size() && laid_.pieces[piece].from_in < s.to_in - kSame_in) ++piece;
      s.last = piece;
      spans.push_back(s);
      at = s.to_in;
    }
    if (beam_.left == End::free) {
      left_ = spans.front();
      spans.erase(spans.begin());
    }
    if (beam_.right == End::free) {
      right_ = spans.back();
      spans.pop_back();
    }
    inner_ = std::move(spans);
    for (Span& s : inner_) find_rotations(laid_.pieces, s, laid_.point_at_start);
  }

  // Overhangs are statically determinate: the left one from its tip, the right one from its root.
  void run_overhangs() {
    if (left_) {
      run_statics(laid_.pieces, *left_, laid_.point_at_start, -laid_.point_at_start[left_->first], 0);
      moment_left_ = value(moment_of(laid_.pieces[left_->last - 1]), left_->length_in() - (laid_.pieces[left_->last - 1].from_in - left_->from_in));
    }
    if (right_) {
      double shear = laid_.point_at_end, about_root = laid_.point_at_end * right_->length_in();
      for (std::size_t i = right_->first; i < right_->last; ++i) {
        const Piece& p = laid_.pieces[i];
        const double h = p.to_in - p.from_in, arm = p.from_in - right_->from_in;
        shear += p.w_pli * h + p.w_rise * h * h / 2;
        about_root += p.w_pli * h * (arm + h / 2) + p.w_rise * h * h / 2 * (arm + 2 * h / 3);
        if (i > right_->first) {
          shear += laid_.point_at_start[i];
          about_root += laid_.point_at_start[i] * arm;
        }
      }
      moment_right_ = -about_root;
      run_statics(laid_.pieces, *right_, laid_.point_at_start, shear, moment_right_);
    }
  }

  void find_support_moments() {
    const std::size_t n = inner_.size();
    moments_.assign(n + 1, 0.0);
    if (n == 0) return;
    if (left_) moments_[0] = moment_left_;
    if (right_) moments_[n] = moment_right_;
    const std::size_t low = beam_.left == End::fixed ? 0 : 1, high = beam_.right == End::fixed ? n : n - 1;  // unknown: [low, high]
    if (low > high) return;
    std::vector<double> diagonal, side, right;
    for (std::size_t j = low; j <= high; ++j) {
      double d = 0, r = 0;
      if (j > 0) {
        d += inner_[j - 1].f_rr;
        r -= inner_[j - 1].turn_right;
        if (j == low) r -= inner_[j - 1].f_lr * moments_[j - 1];
      }
      if (j < n) {
        d += inner_[j].f_ll;
        r -= inner_[j].turn_left;
        if (j == high)
          r -= inner_[j].f_lr * moments_[j + 1];
        else
          side.push_back(inner_[j].f_lr);
      }
      diagonal.push_back(d);
      right.push_back(r);
    }
    const auto found = solve_three_moments(diagonal, side, right);
    for (std::size_t j = low; j <= high; ++j) moments_[j] = found[j - low];
  }

  // Slope and deflection from a support on, towards the right; the last values are kept for an overhang.
  void run_forward(const Span& s, double slope) {
    double deflection = 0;
    for (std::size_t i = s.first; i < s.last; ++i) {
      Piece& p = laid_.pieces[i];
      p.slope = slope;
      p.deflection_in = deflection;
      const double h = p.to_in - p.from_in;
      slope = value(slope_of(p), h);
      deflection = value(deflection_of(p), h);
    }
    slope_at_right_ = slope;
    deflection_right_ = deflection;
  }

  void deflect_overhangs() {
    if (right_)
      run_forward(*right_, inner_.empty() ? 0.0 : slope_at_right_);
    else
      deflection_right_ = 0;
    if (!left_) return;
    double slope = inner_.empty() ? 0.0 : laid_.pieces[inner_.front().first].slope, deflection = 0;
    for (std::size_t i = left_->last; i-- > left_->first;) {
      Piece& p = laid_.pieces[i];
      const double h = p.to_in - p.from_in;
      p.slope = 0;
      p.deflection_in = 0;
      p.slope = slope - value(slope_of(p), h);
      p.deflection_in = deflection - value(deflection_of(p), h);
      slope = p.slope;
      deflection = p.deflection_in;
    }
  }

  std::vector<double> find_reactions() const {
    // From one side of a support to the other the shear jumps by the reaction less a load that stands
    // right on the support.
    std::vector<double> reactions;
    const auto& pieces = laid_.pieces;
    const double length = beam_.length_in();
    for (const double at : support_places(beam_)) {
      double before = 0, after = 0, load = 0;
      for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (std::fabs(pieces[i].to_in - at) <= kSame_in) before = value(shear_of(pieces[i]), pieces[i].to_in - pieces[i].from_in);
        if (std::fabs(pieces[i].from_in - at) <= kSame_in) {
          after = pieces[i].shear_lb;
          load = laid_.point_at_start[i];
        }
      }
      if (at >= length - kSame_in) load = laid_.point_at_end;
      reactions.push_back(after - before + load);
    }
    return reactions;
  }

  BeamResult collect() {
    BeamResult r;
    r.supports_in = support_places(beam_);
    r.reactions_lb = find_reactions();
    r.pieces = std::move(laid_.pieces);
    if (beam_.left == End::fixed) r.fixing_left_inlb = r.pieces.front().moment_inlb;
    if (beam_.right == End::fixed) r.fixing_right_inlb = value(moment_of(r.pieces.back()), r.pieces.back().to_in - r.pieces.back().from_in);
    r.deflection_left_in = left_ ? r.pieces.front().deflection_in : 0;
    r.deflection_right_in = right_ ? deflection_right_ : 0;
    find_extremes(beam_, r);
    return r;
  }

  const Beam& beam_;
  LaidOut laid_;
  std::vector<Span> inner_;
  std::optional<Span> left_, right_;
  double moment_left_ = 0, moment_right_ = 0;
  std::vector<double> moments_;
  double slope_at_right_ = 0, deflection_right_ = 0;
};

}  // namespace

LineLoad uniform(double w_pli, double from_in, double to_in) { return {w_pli, w_pli, from_in, to_in}; }

double Beam::length_in() const {
  double sum = 0;
  for (const double span : spans_in) sum += span;
  return sum;
}

Beam prismatic(std::vector<double> spans_in, double e_psi, double i_in4, Loads loads, End left, End right) {
  Beam beam;
  beam.spans_in = std::move(spans_in);
  beam.left = left;
  beam.right = right;
  beam.stiffness = {{beam.length_in(), e_psi * i_in4}};
  beam.loads = std::move(loads);
  return beam;
}

BeamResult solve(const Beam& beam) {
  const auto problems = check(beam);
  if (!problems.empty()) throw std::invalid_argument("beam: " + describe(problems.front()));
  return Solver(beam).solve();
}

}  // namespace awlmark::mechanics
