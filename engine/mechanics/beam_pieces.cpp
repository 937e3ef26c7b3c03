#include "mechanics/beam_pieces.hpp"

#include <algorithm>
#include <cmath>

namespace awlmark::mechanics {
namespace {

using Piece = BeamResult::Piece;

std::vector<double> breaks_of(const Beam& beam) {
  const double length = beam.length_in();
  std::vector<double> all{0.0};
  double at = 0;
  for (const double span : beam.spans_in) all.push_back(at += span);
  for (const auto& s : beam.stiffness) all.push_back(s.to_in);
  for (const auto& l : beam.loads.lines) {
    all.push_back(l.from_in);
    all.push_back(l.to_in);
  }
  for (const auto& p : beam.loads.points) all.push_back(p.at_in);
  std::sort(all.begin(), all.end());
  std::vector<double> breaks;
  for (const double x : all) {
    const double inside = std::min(std::max(x, 0.0), length);
    if (breaks.empty() || inside - breaks.back() > kSame_in) breaks.push_back(inside);
  }
  // Supports keep their own place, so that spans begin and end exactly there.
  at = 0;
  for (const double span : beam.spans_in) {
    at += span;
    const auto near = std::min_element(breaks.begin(), breaks.end(), [at](double a, double b) { return std::fabs(a - at) < std::fabs(b - at); });
    *near = at;
  }
  return breaks;
}

double stiffness_at(const Beam& beam, double x) {
  for (const auto& s : beam.stiffness)
    if (x < s.to_in) return s.ei_lbin2;
  return beam.stiffness.back().ei_lbin2;
}

struct Extreme {
  double value = 0, at = 0;
  bool any = false;
  // A later place must be better by more than rounding, so that equal peaks report the first.
  void higher(double v, double x) {
    if (!any || v > value + 1e-12 * std::fabs(value)) *this = {v, x, true};
  }
  void lower(double v, double x) {
    if (!any || v < value - 1e-12 * std::fabs(value)) *this = {v, x, true};
  }
};

struct Extremes {
  Extreme shear, moment_max, moment_min, deflection_max, deflection_min;
};

void add_piece(const Piece& p, Extremes& e) {
  const double h = p.to_in - p.from_in;
  const Polynomial shear = shear_of(p), moment = moment_of(p), deflection = deflection_of(p);
  std::vector<double> places{0.0};
  for (const double t : roots_between(shear, 0, h)) places.push_back(t);
  for (const double t : roots_between(slope_of(p), 0, h)) places.push_back(t);
  for (const double t : roots_between(derivative(shear), 0, h)) places.push_back(t);
  places.push_back(h);
  std::sort(places.begin(), places.end());
  for (const double t : places) {
    const double x = p.from_in + t;
    e.shear.higher(std::fabs(value(shear, t)), x);
    e.moment_max.higher(value(moment, t), x);
    e.moment_min.lower(value(moment, t), x);
    e.deflection_max.higher(value(deflection, t), x);
    e.deflection_min.lower(value(deflection, t), x);
  }
}

// Rounding leaves 1e-13 where statics says nothing.
double snap(double v, double scale) { return std::fabs(v) <= 1e-12 * scale ? 0.0 : v; }

}  // namespace

std::vector<double> support_places(const Beam& beam) {
  std::vector<double> places;
  double at = 0;
  if (beam.left != End::free) places.push_back(0);
  for (std::size_t i = 0; i < beam.spans_in.size(); ++i) {
    at += beam.spans_in[i];
    if (i + 1 < beam.spans_in.size() || beam.right != End::free) places.push_back(at);
  }
  return places;
}

LaidOut lay_out(const Beam& beam) {
  LaidOut laid;
  const auto breaks = breaks_of(beam);
  for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
    Piece p;
    p.from_in = breaks[i];
    p.to_in = breaks[i + 1];
    const double middle = 0.5 * (p.from_in + p.to_in);
    p.ei_lbin2 = stiffness_at(beam, middle);
    for (const auto& l : beam.loads.lines) {
      if (middle < l.from_in || middle > l.to_in) continue;
      const double rise = (l.w_to_pli - l.w_from_pli) / (l.to_in - l.from_in);
      p.w_pli += l.w_from_pli + rise * (p.from_in - l.from_in);
      p.w_rise += rise;
    }
    laid.pieces.push_back(p);
  }
  laid.point_at_start.assign(laid.pieces.size(), 0.0);
  for (const auto& load : beam.loads.points) {
    std::size_t nearest = 0;
    for (std::size_t i = 1; i < breaks.size(); ++i)
      if (std::fabs(breaks[i] - load.at_in) < std::fabs(breaks[nearest] - load.at_in)) nearest = i;
    if (nearest < laid.pieces.size())
      laid.point_at_start[nearest] += load.p_lb;
    else
      laid.point_at_end += load.p_lb;
  }
  return laid;
}

// V' = -w, M' = V, slope' = -M / EI, deflection' = slope; loads and deflections downwards.
Polynomial shear_of(const Piece& p) { return {p.shear_lb, -p.w_pli, -p.w_rise / 2, 0, 0, 0}; }
Polynomial moment_of(const Piece& p) { return {p.moment_inlb, p.shear_lb, -p.w_pli / 2, -p.w_rise / 6, 0, 0}; }
Polynomial slope_of(const Piece& p) {
  const double f = 1 / p.ei_lbin2;
  return {p.slope, -p.moment_inlb * f, -p.shear_lb / 2 * f, p.w_pli / 6 * f, p.w_rise / 24 * f, 0};
}
Polynomial deflection_of(const Piece& p) {
  const double f = 1 / p.ei_lbin2;
  return {p.deflection_in, p.slope, -p.moment_inlb / 2 * f, -p.shear_lb / 6 * f, p.w_pli / 24 * f, p.w_rise / 120 * f};
}

void find_extremes(const Beam& beam, BeamResult& r) {
  double load_scale = 0, ei_least = r.pieces.front().ei_lbin2;
  for (const auto& p : r.pieces) {
    load_scale += (std::fabs(p.w_pli) + std::fabs(p.w_rise) * (p.to_in - p.from_in)) * (p.to_in - p.from_in);
    ei_least = std::min(ei_least, p.ei_lbin2);
  }
  for (const auto& p : beam.loads.points) load_scale += std::fabs(p.p_lb);
  const double length = beam.length_in(), moment_scale = load_scale * length, deflection_scale = moment_scale * length * length / ei_least;
  Extremes whole;
  std::size_t piece = 0;
  double at = 0;
  for (const double span : beam.spans_in) {
    SpanResult s;
    s.from_in = at;
    s.to_in = at += span;
    Extremes e;
    for (; piece < r.pieces.size() && r.pieces[piece].from_in < s.to_in - kSame_in; ++piece) {
      add_piece(r.pieces[piece], e);
      add_piece(r.pieces[piece], whole);
    }
    s.shear_max_lb = e.shear.value;
    s.moment_max_inlb = snap(e.moment_max.value, moment_scale), s.moment_max_at_in = e.moment_max.at;
    s.moment_min_inlb = snap(e.moment_min.value, moment_scale), s.moment_min_at_in = e.moment_min.at;
    s.deflection_max_in = snap(e.deflection_max.value, deflection_scale), s.deflection_max_at_in = e.deflection_max.at;
    s.deflection_min_in = snap(e.deflection_min.value, deflection_scale), s.deflection_min_at_in = e.deflection_min.at;
    r.spans.push_back(s);
  }
  r.shear_max_lb = whole.shear.value;
  r.moment_max_inlb = snap(whole.moment_max.value, moment_scale), r.moment_max_at_in = whole.moment_max.at;
  r.moment_min_inlb = snap(whole.moment_min.value, moment_scale), r.moment_min_at_in = whole.moment_min.at;
  r.deflection_max_in = snap(whole.deflection_max.value, deflection_scale), r.deflection_max_at_in = whole.deflection_max.at;
  r.deflection_min_in = snap(whole.deflection_min.value, deflection_scale), r.deflection_min_at_in = whole.deflection_min.at;
  for (double& reaction : r.reactions_lb) {
    reaction = snap(reaction, load_scale);
    r.uplift = r.uplift || reaction < 0;
  }
}

Station BeamResult::at(double x_in) const {
  std::size_t i = 0;
  while (i + 1 < pieces.size() && x_in >= pieces[i].to_in) ++i;
  const Piece& p = pieces[i];
  const double t = std::min(std::max(x_in, p.from_in), p.to_in) - p.from_in;
  return {p.from_in + t, value(shear_of(p), t), value(moment_of(p), t), value(slope_of(p), t), value(deflection_of(p), t)};
}

}  // namespace awlmark::mechanics
