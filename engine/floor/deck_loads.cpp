// Walls and heavy fixtures on the deck between its supports.
//
// A wall across the boards stands on each of them at one place; a wall along them stands on the one or two
// boards under its plate over the whole bay. Boards count as simple spans: where they are jointed is not
// recorded. Tongues let two boards share, never more.
#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "base/doc.hpp"
#include "base/length.hpp"
#include "floor/combinations.hpp"
#include "floor/deck_checks.hpp"
#include "floor/layout.hpp"

namespace awlmark::floor {
namespace {

constexpr double kPlate_in = 3.5;  // of a 2x4 plate
constexpr double kOver_in = 3;     // this near to a support's line the wall stands on it
constexpr double kSample_in = 6;
constexpr double kAlong = 0.5;  // sine of the angle below which a wall runs along the boards

struct Line {
  Point from, to;
  double dead_plf = 0, live_plf = 0, snow_plf = 0;
};

// In the document's order: names decide nothing.
std::vector<std::pair<std::string, Line>> lines_of(const Model& model, Case which) {
  std::vector<std::pair<std::string, Line>> out;
  const auto take = [&](const std::vector<PlanLoad>& loads) {
    for (const auto& load : loads) {
      if (!load.wall || !load.on_deck || load.onto >= 0) continue;
      auto at = std::find_if(out.begin(), out.end(), [&](const auto& entry) { return entry.first == load.wall_id; });
      if (at == out.end()) at = out.insert(out.end(), {load.wall_id, Line{}});
      auto& line = at->second;
      line.from = load.from;
      line.to = load.to;
      const double plf = load.lb / std::max(1e-6, distance_in(load.from, load.to) / 12);
      (load.kind == PlanLoad::Kind::dead ? line.dead_plf : load.kind == PlanLoad::Kind::live ? line.live_plf : line.snow_plf) += plf;
    }
  };
  take(model.loads);
  if (which == Case::low) take(model.low_loads);
  if (which == Case::high) take(model.high_loads);
  return out;
}

// What one board's section takes.
struct Board {
  double width_in = 12;
  double moment_inlb = 0;  // at CD 1.0
  double shear_lb = 0;     // 0: not checked (panels)
};

struct Worst {
  double ratio = -1, demand = 0, capacity = 0, span_in = 0;
  const char* words = "";
  bool shear = false;
};

// Boards under a wall's plate that runs along them.
int boards_under(const Model& model, const Board& board, Point p) {
  const Point u = direction(model.deck.degrees), v{-u.y_in, u.x_in};
  double low = 1e300;
  for (const Point& q : model.room) low = std::min(low, q.x_in * v.x_in + q.y_in * v.y_in);
  const double offset = p.x_in * v.x_in + p.y_in * v.y_in - low;
  const int first = static_cast<int>(std::floor((offset - kPlate_in / 2) / board.width_in + 1e-6));
  const int last = static_cast<int>(std::floor((offset + kPlate_in / 2) / board.width_in - 1e-6));
  const int under = std::max(1, last - first + 1);
  return model.deck.kind == DeckModel::Kind::planks && model.deck.tongues ? std::max(2, under) : under;
}

Worst worst_of(const Model& model, const Board& board, const Line& line) {
  Worst worst;
  const auto supports = deck_supports(model);
  const double length = distance_in(line.from, line.to);
  const Point u = direction(model.deck.degrees), w{(line.to.x_in - line.from.x_in) / length, (line.to.y_in - line.from.y_in) / length};
  const double sine = std::fabs(u.x_in * w.y_in - u.y_in * w.x_in);
  const int parts = std::max(2, static_cast<int>(std::ceil(length / kSample_in)));
  for (int k = 0; k < parts; ++k) {
    const double t = (k + 0.5) / parts;
    const Point p{line.from.x_in + t * (line.to.x_in - line.from.x_in), line.from.y_in + t * (line.to.y_in - line.from.y_in)};
    const auto hits = crossings(model, supports, p);
    std::size_t after = 0;
    while (after < hits.size() && hits[after].at_in < 0) ++after;
    if (after == 0 || after == hits.size()) continue;
    const double a = -hits[after - 1].at_in, b = hits[after].at_in, span = a + b;
    const bool along = sine < kAlong;
    if (!along && std::min(a, b) <= kOver_in) continue;
    const double share = along ? boards_under(model, board, p) : 1;
    for (const auto& c : kCombinations) {
      const double pli = (line.dead_plf + c.live * line.live_plf + c.snow * line.snow_plf) / 12;
      const double own_pli = (model.dead_psf + c.live * model.live_psf) / 144 * board.width_in;
      const double point = along ? 0 : pli * board.width_in / sine, spread = own_pli + (along ? pli / share : 0);
      const double moment = point * a * b / span + spread * span * span / 8, shear = point * std::max(a, b) / span + spread * span / 2;
      const auto offer = [&](double demand, double capacity, bool is_shear) {
        if (!(capacity > 0)) return;
        const double ratio = demand / (capacity * c.cd);
        if (ratio > worst.ratio) worst = {ratio, demand, capacity * c.cd, span, c.words, is_shear};
      };
      offer(moment, board.moment_inlb, false);
      offer(shear, board.shear_lb, true);
    }
  }
  return worst;
}

}  // namespace

void check_deck_loads(const Model& model, Case which, FloorChecks& out) {
  const auto& deck = model.deck;
  if (deck.kind == DeckModel::Kind::none) return;
  Board board;
  Reason base;
  if (deck.kind == DeckModel::Kind::planks) {
    const auto values = plank_values(deck);
    board.width_in = deck.plank_width_in;
    board.moment_inlb = values.fb_single_psi * deck.plank_width_in * deck.thickness_in * deck.thickness_in / 6;
    board.shear_lb = values.fv_psi * deck.plank_width_in * deck.thickness_in / 1.5;
    base = values.reason;
  } else {
    const auto* row = panel_row(deck);
    if (!row) return;
    board.moment_inlb = row->fbs_inlb_per_ft;
    base = row->mechanics_reason;
  }
  if (!deck.overlay_rating.empty())
    if (const auto* over = mechanics::panel_by_rating(mechanics::PanelKind::sheathing, deck.overlay_rating))
      board.moment_inlb += over->fbs_inlb_per_ft / 12 * board.width_in;
  for (const auto& [id, line] : lines_of(model, which)) {
    const Worst worst = worst_of(model, board, line);
    if (worst.ratio < 0) continue;
    Reason reason = base;
    reason.compares =
        std::string(worst.shear ? "shear" : "bending moment") + " in the " + deck.spoken + " under wall " + id + " against what it takes between its supports";
    reason.unit = worst.shear ? "lb" : "in-lb";
    reason.rule = worst.shear ? "NDS 3.4.1 on one board" : "NDS 3.3.1 on the boards that stand under the wall, simple spans";
    reason.steps.push_back("bay " + format_inches(worst.span_in) + "; governs: " + worst.words + "; " +
                           format_number(line.dead_plf + line.live_plf + line.snow_plf, 0) + " lb/ft in all");
    add_deck(model, make_check("deck.wall." + id, deck.layer, worst.shear ? "deck_wall_shear" : "deck_wall_bending", worst.demand, worst.capacity, reason),
             out);
  }
}

void check_deck_fixtures(const Model& model, FloorChecks& out) {
  if (model.deck.kind != DeckModel::Kind::planks) return;
  const auto values = plank_values(model.deck);
  double span = 0;
  for (const auto& line : board_lines(model, model.deck.plank_width_in)) span = std::max(span, line.longest_in);
  if (!(span > 0)) return;
  const double s_per_ft = 2 * model.deck.thickness_in * model.deck.thickness_in;  // 12 t^2 / 6
  const double capacity = 8 * values.fb_psi * s_per_ft / (span * span) * 12;      // psf on a simple span
  for (const auto& load : model.loads) {
    if (load.wall || load.area.size() < 3) continue;
    const double psf = load.lb / (area_in2(load.area) / 144);
    if (psf <= model.live_psf) continue;
    Reason reason = values.reason;
    reason.compares = load.item + " on the " + model.deck.spoken + " against its bending capacity between supports";
    reason.unit = "psf";
    reason.rule = "NDS 3.3.1: w L^2 / 8 over the longest bay, spread over the fixture's outline";
    reason.steps.push_back(format_number(load.lb, 0) + " lb over its outline, bay " + format_inches(span));
    add_deck(model, make_check("deck.fixture." + load.item, model.deck.layer, "deck_fixture_bending", psf + model.dead_psf, capacity, reason), out);
  }
}

}  // namespace awlmark::floor
