#include "floor/deck_checks.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "floor/deck_grillage.hpp"
#include "floor/layout.hpp"
#include "floor/limits.hpp"
#include "mechanics/decking.hpp"
#include "mechanics/factors.hpp"

namespace awlmark::floor {
namespace {

std::string bay_words(double span_in) { return "bay of " + format_inches(span_in) + " along the board"; }

// A strip of the room over which no support is recorded.
void say_bare(double width_in, FloorChecks& out) {
  if (width_in <= 0) return;
  out.words.push_back("Under a strip of the deck " + format_inches(width_in) + " wide no support is recorded: that part could not be checked.");
  if (width_in > 12) out.ok = false;
}

bool tile(Finish finish) { return finish == Finish::porcelain_tile || finish == Finish::ceramic_tile || finish == Finish::stone_tile; }

void layup_checks(const Model& model, const PlankValues& values, double span_in, mechanics::Layup layup, const std::string& suffix, FloorChecks& out) {
  const auto& deck = model.deck;
  const auto limit = model.as_found ? live_limit(Finish::other, std::nullopt) : live_limit(model.finish, model.deflection_over);
  const auto capacity = mechanics::decking_capacity(layup, values.fb_psi, values.e_psi, deck.thickness_in, span_in, limit.over);
  Reason reason = capacity.reason;
  reason.unit = "psf";
  for (const auto& step : values.reason.steps) reason.steps.push_back(step);
  reason.steps.push_back(bay_words(span_in) + ", layup " + doc::word_of(layup));
  auto bending = reason;
  bending.compares = "dead and live load on the " + deck.spoken + " against its bending capacity";
  add_deck(model, make_check("deck.bending" + suffix, deck.layer, "deck_bending", model.dead_psf + model.live_psf, capacity.bending_psf, bending), out);
  reason.compares = "live load on the " + deck.spoken + " against what bends it to span / " + format_number(limit.over, 0);
  reason.steps.push_back("limit: " + limit.reason.source + ", " + limit.reason.rule);
  add_deck(model, make_check("deck.deflection" + suffix, deck.layer, "deck_deflection", model.live_psf, capacity.deflection_psf, reason), out);
}

void point_stiffness(const Model& model, const PlankValues& values, const PointOnDeck& worst, const std::string& suffix, FloorChecks& out) {
  const auto& deck = model.deck;
  const auto limit = point_limit(model.finish, model.deflection_over);
  Reason reason = limit.reason;
  reason.compares = "movement of the " + deck.spoken + " under " + format_number(model.point_lb, 0) + " lb against its limit";
  reason.unit = "in";
  reason.steps.push_back(bay_words(worst.span_in));
  reason.steps.push_back(worst.words);
  reason.steps.push_back("the loaded board carries " + format_number(100 * worst.share, 0) + " % of the moment, as a grillage; imbalance " +
                         format_number(worst.residual * 1e6, 3) + " parts a million");
  reason.steps.push_back("E' = " + format_number(values.e_psi, 0) + " psi");
  add(out, make_check("deck.point_deflection" + suffix, deck.layer, "deck_point_deflection", worst.deflection_in, worst.span_in / limit.over, reason));
}

void point_strength(const Model& model, const PlankValues& values, const PointOnDeck& worst, const std::string& suffix, FloorChecks& out) {
  const auto& deck = model.deck;
  Reason strength = values.reason;
  strength.compares = "bending stress in one board of the " + deck.spoken + " under " + format_number(model.point_lb, 0) + " lb and dead load";
  strength.unit = "psi";
  strength.rule = "NDS 3.3.1 on the board's own share of the moment";
  strength.steps.push_back(worst.words);
  const double s = deck.plank_width_in * worst.thickness_in * worst.thickness_in / 6;
  auto check = make_check("deck.point_bending" + suffix, deck.layer, "deck_point_bending", worst.moment_inlb / s,
                          worst.linked ? values.fb_psi : values.fb_single_psi, strength);
  if (suffix.empty())
    add_deck(model, check, out);
  else
    add(out, check);
}

// The rule of the tile trade judges new tile only; a plank of 2-in. decking that was cut in must carry a
// person on its own strength whatever lies on it. Thinner boards have no design values: the code's table judges them.
void point_checks(const Model& model, const PlankValues& values, const PointOnDeck& worst, const std::string& suffix, FloorChecks& out) {
  const bool new_tile = !model.as_found && tile(model.finish);
  constexpr double kDecking_in = 1.25;
  if (new_tile) point_stiffness(model, values, worst, suffix, out);
  if (model.deck.thickness_in >= kDecking_in && (new_tile || !suffix.empty())) point_strength(model, values, worst, suffix, out);
}

// IRC Table R503.1: least thickness of a lumber subfloor for its support spacing.
void thickness_check(const Model& model, const PlankValues& values, FloorChecks& out) {
  const auto& deck = model.deck;
  const double spacing = widest_spacing_in(model);
  const auto row = mechanics::board_subfloor(spacing);
  Reason reason;
  double span = 0;
  for (const auto& line : board_lines(model, deck.plank_width_in))
    if (!line.supports_in.empty()) span = std::max(span, line.longest_in);
  const bool diagonal = spacing > 0 && span > 1.15 * spacing;
  std::optional<double> needed;  // empty: the code allows no such deck
  if (row) {
    reason = row->reason;
    if (diagonal && row->diagonal_thickness_in)
      needed = *row->diagonal_thickness_in;
    else if (!diagonal)
      needed = row->thickness_in;
    if (row->tongue_and_groove && !deck.tongues) needed.reset(), reason.steps.push_back("at this spacing the code asks for tongue and groove");
    if (row->e_psi && values.e_psi < *row->e_psi)
      reason.steps.push_back("the code asks for E of " + format_number(*row->e_psi, 0) + " psi here; " + format_number(values.e_psi, 0) + " counts");
  } else {
    reason.source = "IRC";
    reason.edition = "2018";
    reason.rule = "Table R503.1 ends at 60 in. between supports";
    reason.status = SourceStatus::read;
  }
  reason.compares = "least net thickness of a lumber subfloor over supports " + format_inches(spacing) + " apart against what lies there";
  reason.unit = "in";
  reason.steps.push_back(diagonal ? "boards run diagonally" : "boards run across the supports");
  if (needed)
    add_deck(model, make_check("deck.thickness", deck.layer, "deck_thickness", *needed, deck.thickness_in, reason), out);
  else
    add_deck(model, forbidden_check("deck.thickness", deck.layer, "deck_thickness", deck.thickness_in, reason), out);
}

void rot_checks(const Model& model, const PlankValues& values, FloorChecks& out) {
  if (!(model.deck.rot_depth_in > 0)) return;
  const auto worst = point_at_rot(model, values);
  if (!worst) return;
  if (worst->thickness_in > 0) {
    // Wood that would have to bend by a twelfth of its bay breaks long before: then strength alone says it.
    constexpr double kBreaksFirst = 12;
    if (!model.as_found && tile(model.finish) && worst->deflection_in * kBreaksFirst <= worst->span_in) point_stiffness(model, values, *worst, "_at_rot", out);
    point_strength(model, values, *worst, "_at_rot", out);
    return;
  }
  Reason gone;
  gone.compares = format_number(model.point_lb, 0) + " lb on the " + model.deck.spoken + " where it is rotten through";
  gone.unit = "lb";
  gone.rule = "rotten wood counts for nothing";
  gone.source = "trade and engineering practice";
  gone.status = SourceStatus::common_practice;
  gone.steps.push_back(worst->words);
  if (model.deck.no_depth) gone.steps.push_back("how deep the rot goes was not measured: it counts as right through");
  add(out, make_check("deck.point_bending_at_rot", model.deck.layer, "deck_point_bending", model.point_lb, 0, gone));
}

void check_planks(const Model& model, FloorChecks& out) {
  const auto values = plank_values(model.deck);
  const auto lines = board_lines(model, model.deck.plank_width_in);
  double span = 0;
  std::size_t bays = 0;
  std::size_t bare = 0;
  for (const auto& line : lines) {
    if (line.supports_in.empty()) ++bare;
    if (line.supports_in.empty()) continue;
    span = std::max(span, line.longest_in);
    bays = std::max(bays, line.supports_in.size() + (line.edge_bay_start ? 1 : 0) + (line.edge_bay_end ? 1 : 0));
  }
  if (!(span > 0) || bays < 2) {
    out.words.push_back("Fewer than two supports are recorded under the boards: the deck could not be checked.");
    out.ok = false;
    return;
  }
  say_bare(static_cast<double>(bare) * model.deck.plank_width_in, out);
  layup_checks(model, values, span, bays > 2 ? mechanics::Layup::mixed : mechanics::Layup::simple, "", out);
  if (const auto worst = point_on_deck(model, values)) point_checks(model, values, *worst, "", out);
  thickness_check(model, values, out);
  if (!model.deck.cut_ins.empty()) {
    double longest = 0;
    std::size_t fewest = 99;
    cut_in_spans(model, longest, fewest);
    if (longest > 0) layup_checks(model, values, longest, fewest < 2 ? mechanics::Layup::simple : mechanics::Layup::two_span, "_cut_in", out);
    if (const auto worst = point_on_cut_ins(model, values)) point_checks(model, values, *worst, "_cut_in", out);
  }
  rot_checks(model, values, out);
}

void check_panels(const Model& model, FloorChecks& out) {
  const auto& deck = model.deck;
  double span = 0;
  std::size_t bays = 0;
  std::size_t bare = 0;
  for (const auto& line : board_lines(model, 12)) {
    if (line.supports_in.empty()) ++bare;
    if (line.supports_in.empty()) continue;
    span = std::max(span, line.longest_in);
    bays = std::max(bays, line.supports_in.size() + (line.edge_bay_start ? 1 : 0) + (line.edge_bay_end ? 1 : 0));
  }
  if (!(span > 0) || bays < 2) {
    out.words.push_back("Fewer than two supports are recorded under the panels: the deck could not be checked.");
    out.ok = false;
    return;
  }
  say_bare(12.0 * static_cast<double>(bare), out);
  const auto* row = panel_row(deck);
  Reason rating;
  if (row) rating = row->reason;
  rating.compares = "spacing of the supports against the panel's floor span rating";
  rating.unit = "in";
  rating.steps.push_back(row ? "panel " + row->rating + ", category " + row->category : "no floor panel is as thin as " + format_inches(deck.thickness_in));
  if (!row) {
    rating.rule = "panels over supports carry a floor span rating";
    add(out, forbidden_check("deck.span_rating", deck.layer, "deck_span_rating", span, rating));
    return;
  }
  add_deck(model, make_check("deck.span_rating", deck.layer, "deck_span_rating", span, row->floor_span_in, rating), out);
  const auto live = model.as_found ? live_limit(Finish::other, std::nullopt) : live_limit(model.finish, model.deflection_over);
  const auto point = point_limit(model.finish, model.deflection_over);
  const int spans = std::clamp(static_cast<int>(bays) - 1, 1, 3);
  auto capacity = mechanics::panel_capacity(*row, span, spans, live.over, deck.wet);
  if (const auto* over = deck.overlay_rating.empty() ? nullptr : mechanics::panel_by_rating(mechanics::PanelKind::sheathing, deck.overlay_rating)) {
    // Two layers bend together without acting as one section: stiffnesses add.
    const double gain = 1 + over->ei_lbin2_per_ft / row->ei_lbin2_per_ft;
    capacity.bending_psf *= gain;
    capacity.deflection_psf *= gain;
    capacity.point_deflection_in /= gain;
    capacity.reason.steps.push_back("second layer " + over->rating + ": stiffnesses add, " + format_number(gain, 2) + " times the lower panel alone");
  }
  Reason reason = capacity.reason;
  reason.unit = "psf";
  reason.steps.push_back("panel " + row->rating + " over " + format_inches(span) + ", " + std::to_string(spans) + (spans == 1 ? " span" : " spans"));
  auto bending = reason;
  bending.compares = "dead and live load on the panels against their bending capacity";
  add_deck(model, make_check("deck.bending", deck.layer, "deck_bending", model.dead_psf + model.live_psf, capacity.bending_psf, bending), out);
  reason.compares = "live load on the panels against what bends them to span / " + format_number(live.over, 0);
  reason.steps.push_back("limit: " + live.reason.source + ", " + live.reason.rule);
  add_deck(model, make_check("deck.deflection", deck.layer, "deck_deflection", model.live_psf, capacity.deflection_psf, reason), out);
  Reason spot = point.reason;
  spot.compares = "movement of the panels under " + format_number(model.point_lb, 0) + " lb between supports against its limit";
  spot.unit = "in";
  for (const auto& step : capacity.reason.steps) spot.steps.push_back(step);
  if (!model.as_found && tile(model.finish))
    add(out,
        make_check("deck.point_deflection", deck.layer, "deck_point_deflection", capacity.point_deflection_in * model.point_lb / 300, span / point.over, spot));
  if (deck.rot_depth_in > 0) {
    Reason rot;
    rot.compares = "load on the panels where an awl found them soft or gone";
    rot.unit = "psf";
    rot.rule = "rotten wood counts for nothing; a panel that is soft in part has lost its glue lines";
    rot.source = "trade and engineering practice";
    rot.status = SourceStatus::common_practice;
    add(out, make_check("deck.bending_at_rot", deck.layer, "deck_bending", model.dead_psf + model.live_psf, 0, rot));
  }
}

}  // namespace

// The old deck keeps its former strength, as its members do (member_checks.hpp).
void add_deck(const Model& model, Check check, FloorChecks& out) {
  const bool stiffness =
      check.kind == "deck_deflection" || check.kind == "deck_point_deflection" || check.kind == "deck_thickness" || check.kind == "deck_span_rating";
  const bool forbidden = check.state == CheckState::not_allowed && check.kind == "deck_thickness";
  if (!check.ok && model.deck.as_it_was && (check.state == CheckState::fails || forbidden) && (stiffness || check.ratio <= kDangerous)) {
    check.state = CheckState::stands;
    check.standing = doc::word_of(Standing::old);
    check.reason.steps.push_back("old, sound and not asked for more than before: it keeps its former strength (existing-building rules)");
  }
  add(out, std::move(check));
}

// Thickest row not thicker than what lies there by more than 1/32 in.; of equals the shortest span.
const mechanics::PanelRow* panel_row(const DeckModel& deck) {
  if (!deck.panel_rating.empty()) return mechanics::panel_by_rating(deck.panel_kind, deck.panel_rating);
  const mechanics::PanelRow* best = nullptr;
  for (const auto& row : mechanics::panel_rows()) {
    if (row.kind != deck.panel_kind || row.category_in > deck.thickness_in + 1.0 / 32 + 1e-9) continue;
    if (!best || row.category_in > best->category_in + 1e-9 ||
        (std::fabs(row.category_in - best->category_in) < 1e-9 && row.floor_span_in < best->floor_span_in))
      best = &row;
  }
  return best;
}

void check_bay_deck(const Model& model, const mechanics::PanelRow& panel, double spacing_in, FloorChecks& out) {
  const auto point = point_limit(model.finish, model.deflection_over);
  const auto live = live_limit(model.finish, model.deflection_over);
  const auto capacity = mechanics::panel_capacity(panel, spacing_in, 2, live.over, false);
  Reason reason = capacity.reason;
  reason.unit = "psf";
  reason.steps.push_back("panel " + panel.rating + " over joists " + format_inches(spacing_in) + " apart, two spans");
  reason.compares = "dead and live load on the dropped bay's panels against their bending capacity";
  add(out, make_check("bay.deck.bending", "bay", "deck_bending", model.bay->dead_psf + model.live_psf, capacity.bending_psf, reason));
  reason.compares = "live load on the dropped bay's panels against what bends them to span / " + format_number(live.over, 0);
  add(out, make_check("bay.deck.deflection", "bay", "deck_deflection", model.live_psf, capacity.deflection_psf, reason));
  Reason spot = point.reason;
  spot.compares = "movement of the dropped bay's panels under " + format_number(model.point_lb, 0) + " lb between joists against its limit";
  spot.unit = "in";
  for (const auto& step : capacity.reason.steps) spot.steps.push_back(step);
  add(out, make_check("bay.deck.point_deflection", "bay", "deck_point_deflection", capacity.point_deflection_in * model.point_lb / 300, spacing_in / point.over,
                      spot));
}

PlankValues plank_values(const DeckModel& deck) {
  PlankValues out;
  const auto section = mechanics::rectangle(deck.plank_width_in, deck.thickness_in);
  mechanics::Conditions conditions;
  conditions.wet = deck.wet;
  conditions.flat = true;
  conditions.repetitive = true;
  auto alone = conditions;
  alone.repetitive = false;
  mechanics::DesignValues values;
  if (deck.material == Material::plank_tg) {
    values = mechanics::design_values(deck.species, deck.grade, mechanics::Use::decking, section);
  } else {
    // Boards under 2 in. are not in the NDS: dimension lumber of the species stands for them.
    values = mechanics::design_values(deck.species, deck.grade, mechanics::Use::dimension, section);
  }
  const auto shared = mechanics::adjust(values, section, conditions);
  const auto single = mechanics::adjust(values, section, alone);
  out.fb_psi = shared.fb_psi;
  out.fb_single_psi = std::min(single.fb_psi, shared.fb_psi);
  out.fv_psi = shared.fv_psi;
  out.e_psi = shared.e_psi;
  out.reason = shared.reason;
  for (const auto& line : values.assumed) out.assumed.push_back(line);
  return out;
}

FloorChecks check_deck(const Model& model) {
  FloorChecks out;
  if (model.deck.kind == DeckModel::Kind::planks) check_planks(model, out);
  if (model.deck.kind == DeckModel::Kind::panels) check_panels(model, out);
  if (model.deck.kind == DeckModel::Kind::none) {
    out.words.push_back("No structural deck is recorded: only the members could be checked.");
    out.ok = false;
  }
  return out;
}

}  // namespace awlmark::floor
