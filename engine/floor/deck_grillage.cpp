#include "floor/deck_grillage.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/grillage.hpp"
#include "floor/layout.hpp"
#include "mechanics/panel.hpp"

namespace awlmark::floor {
namespace {

constexpr int kWindow = 9;                // planks
constexpr double kOverlayCross = 0.25;    // a panel's stiffness across its strength axis, of that along it; common practice, low
constexpr double kNailedShear_psi = 2e4;  // edge stiffness that an overlay screwed across the joint gives, low

struct Strip {
  double origin_in = 0;  // of the deck, from the board line's start
  double length_in = 0;
  std::vector<double> supports_in;  // in the deck's own measure
};

// Supports of one line, the assumed ones at an open edge included.
Strip strip_of(const BoardLine& line) {
  std::vector<double> places = line.supports_in;
  if (line.edge_bay_start) places.insert(places.begin(), 0.0);
  if (line.edge_bay_end) places.push_back(line.length_in);
  Strip strip;
  if (places.size() < 2) return strip;
  strip.origin_in = std::min(0.0, places.front());
  strip.length_in = std::max(line.length_in, places.back()) - strip.origin_in;
  for (const double at : places) strip.supports_in.push_back(at - strip.origin_in);
  return strip;
}

const mechanics::PanelRow* overlay_of(const DeckModel& deck) {
  if (deck.overlay_rating.empty()) return nullptr;
  return mechanics::panel_by_rating(mechanics::PanelKind::sheathing, deck.overlay_rating);
}

DeckPlank plank_for(const DeckModel& deck, double e_psi, double thickness_in) {
  DeckPlank plank;
  plank.width_in = deck.plank_width_in;
  plank.ei_lbin2 = e_psi * deck.plank_width_in * thickness_in * thickness_in * thickness_in / 12;
  // Shear modulus of softwood: E / 16 (Wood Handbook, mean ratio; from memory).
  plank.gj_lbin2 = e_psi / 16 * torsion_constant_in4(deck.plank_width_in, thickness_in);
  if (const auto* row = overlay_of(deck)) plank.ei_lbin2 += row->ei_lbin2_per_ft / 12 * deck.plank_width_in;
  return plank;
}

DeckLink link_for(const DeckModel& deck, double e_psi, bool tongue) {
  DeckLink link;
  if (tongue) link.shear_psi = tongue_shear_psi(e_psi / 16, deck.thickness_in);
  if (const auto* row = overlay_of(deck)) {
    link.shear_psi = std::max(link.shear_psi, kNailedShear_psi);
    link.bending_lbin_per_in = kOverlayCross * row->ei_lbin2_per_ft / 12 / deck.plank_width_in;
  }
  return link;
}

// Of the moment in a plank with its overlay, the plank's own part.
double own_part(const DeckModel& deck, double e_psi, double thickness_in) {
  const double own = e_psi * deck.plank_width_in * thickness_in * thickness_in * thickness_in / 12;
  const auto* row = overlay_of(deck);
  const double over = row ? row->ei_lbin2_per_ft / 12 * deck.plank_width_in : 0;
  return own + over > 0 ? own / (own + over) : 1;
}

PointOnDeck answer(const Model& model, const PlankValues& values, const DeckResult& result, int plank, double span_in, double thickness_in) {
  const auto& one = result.planks[static_cast<std::size_t>(plank)];
  PointOnDeck out;
  out.span_in = span_in;
  out.deflection_in = one.deflection_in;
  out.moment_inlb = std::max(one.moment_max_inlb, -one.moment_min_inlb) * own_part(model.deck, values.e_psi, thickness_in);
  out.thickness_in = thickness_in;
  out.share = one.share;
  out.residual = result.residual;
  return out;
}

bool active(const DeckLink& link) { return link.shear_psi > 0 || link.bending_lbin_per_in > 0 || !link.blocked_at_in.empty(); }

// Only what the load is felt by: planks linked to the loaded one, and one bay to either side of its own
// (two bays away the movement is below 2 % of that under the load). `plank` and `at_in` move along.
Deck around(const Deck& whole, std::size_t bay, int& plank, double& at_in) {
  std::size_t low = static_cast<std::size_t>(plank), high = low;
  while (low > 0 && active(whole.links[low - 1])) --low;
  while (high + 1 < whole.planks.size() && active(whole.links[high])) ++high;
  const std::size_t first = bay > 0 ? bay - 1 : 0, last = std::min(whole.supports_in.size() - 1, bay + 2);
  const double from = first == 0 ? 0.0 : whole.supports_in[first];
  const double to = last + 1 == whole.supports_in.size() ? whole.length_in : whole.supports_in[last];
  Deck deck = whole;
  deck.length_in = to - from;
  deck.supports_in.clear();
  for (std::size_t s = first; s <= last; ++s) deck.supports_in.push_back(whole.supports_in[s] - from);
  deck.planks.clear();
  deck.links.clear();
  const auto inside = [&](const std::vector<double>& places) {
    std::vector<double> out;
    for (const double place : places)
      if (place > from + 1e-6 && place < to - 1e-6) out.push_back(place - from);
    return out;
  };
  for (std::size_t p = low; p <= high; ++p) {
    deck.planks.push_back(whole.planks[p]);
    deck.planks.back().breaks_in = inside(whole.planks[p].breaks_in);
    if (p == high) break;
    deck.links.push_back(whole.links[p]);
    deck.links.back().blocked_at_in = inside(whole.links[p].blocked_at_in);
  }
  plank -= static_cast<int>(low);
  at_in -= from;
  return deck;
}

// The point at the middle of one bay of one plank: deflection from the point alone, moment with dead load.
std::optional<PointOnDeck> solve_point(const Model& model, const PlankValues& values, const Deck& whole, int plank, std::size_t bay, double thickness_in) {
  const double span_in = whole.supports_in[bay + 1] - whole.supports_in[bay];
  double at_in = (whole.supports_in[bay] + whole.supports_in[bay + 1]) / 2;
  Deck deck = around(whole, bay, plank, at_in);
  DeckLoad point;
  point.kind = DeckLoad::Kind::point;
  point.lb = model.point_lb;
  point.at_in = at_in;
  point.plank = plank;
  deck.loads = {point};
  const auto alone = solve_deck(deck);
  if (!alone.stable) return std::nullopt;
  DeckLoad dead;
  dead.psf = model.dead_psf;
  deck.loads.push_back(dead);
  const auto both = solve_deck(deck);
  auto out = answer(model, values, alone, plank, span_in, thickness_in);
  out.moment_inlb = answer(model, values, both, plank, span_in, thickness_in).moment_inlb;
  return out;
}

void keep_worse(std::optional<PointOnDeck>& worst, const std::optional<PointOnDeck>& next) {
  if (!next) return;
  const auto ratio = [](const PointOnDeck& p) { return p.span_in > 0 ? p.deflection_in / p.span_in : 0.0; };
  if (!worst || ratio(*next) > ratio(*worst) * (1 + 1e-9)) worst = next;
}

// The bays between two places where a spot load can be worst: the first, the last and the widest.
std::vector<std::size_t> bays_to_try(const std::vector<double>& supports_in, double from_in, double to_in) {
  std::vector<std::size_t> bays;
  for (std::size_t s = 0; s + 1 < supports_in.size(); ++s)
    if (std::min(supports_in[s + 1], to_in) - std::max(supports_in[s], from_in) >= 3) bays.push_back(s);
  if (bays.size() < 3) return bays;
  std::size_t widest = bays[0];
  for (const std::size_t s : bays)
    if (supports_in[s + 1] - supports_in[s] > supports_in[widest + 1] - supports_in[widest] + 1e-6) widest = s;
  // Of equal bays an inner one stands for the rest: its neighbours hold it on both sides.
  if (widest == bays.front() || widest == bays.back()) widest = bays[bays.size() / 2];
  std::vector<std::size_t> out = {bays.front(), widest};
  if (bays.back() != widest) out.push_back(bays.back());
  return out;
}

// The line with the longest bay; of equals the first.
const BoardLine* worst_line(const std::vector<BoardLine>& lines) {
  const BoardLine* worst = nullptr;
  for (const auto& line : lines) {
    const std::size_t held = line.supports_in.size() + (line.edge_bay_start ? 1u : 0u) + (line.edge_bay_end ? 1u : 0u);
    if (line.supports_in.empty() || held < 2) continue;
    if (!worst || line.longest_in > worst->longest_in + 1e-6) worst = &line;
  }
  return worst;
}

}  // namespace

std::optional<PointOnDeck> point_on_deck(const Model& model, const PlankValues& values) {
  const auto lines = board_lines(model, model.deck.plank_width_in);
  const auto* line = worst_line(lines);
  if (!line) return std::nullopt;
  const Strip strip = strip_of(*line);
  if (strip.supports_in.size() < 2) return std::nullopt;
  const int planks = std::min<int>(kWindow, static_cast<int>(lines.size()));
  const int loaded = planks / 2;
  Deck deck;
  deck.length_in = strip.length_in;
  deck.supports_in = strip.supports_in;
  for (int p = 0; p < planks; ++p) {
    auto plank = plank_for(model.deck, values.e_psi, model.deck.thickness_in);
    // Joints were not recorded: every other course is jointed over each support, the loaded one too.
    if ((p - loaded) % 2 == 0)
      for (std::size_t s = 1; s + 1 < strip.supports_in.size(); ++s) plank.breaks_in.push_back(strip.supports_in[s]);
    deck.planks.push_back(plank);
    if (p > 0) deck.links.push_back(link_for(model.deck, values.e_psi, model.deck.tongues));
  }
  std::optional<PointOnDeck> worst;
  for (const std::size_t bay : bays_to_try(strip.supports_in, -1e300, 1e300))
    keep_worse(worst, solve_point(model, values, deck, loaded, bay, model.deck.thickness_in));
  if (worst) {
    worst->linked = planks > 1 && (model.deck.tongues || overlay_of(model.deck));
    worst->words = model.deck.tongues ? "tongues whole; joints not recorded, so every other course counts as jointed over each support"
                                      : "square-edged boards share nothing; the loaded one counts as jointed over each support";
    if (overlay_of(model.deck)) worst->words += "; panels " + model.deck.overlay_rating + " over them carry and spread their part";
  }
  return worst;
}

void cut_in_spans(const Model& model, double& longest_in, std::size_t& fewest_bays) {
  const auto lines = board_lines(model, model.deck.plank_width_in);
  longest_in = 0;
  fewest_bays = 99;
  for (const auto& cut : model.deck.cut_ins) {
    if (cut.plank < 0 || cut.plank >= static_cast<int>(lines.size())) continue;
    const Strip strip = strip_of(lines[static_cast<std::size_t>(cut.plank)]);
    std::size_t bays = 0;
    for (std::size_t s = 0; s + 1 < strip.supports_in.size(); ++s) {
      const double from = strip.supports_in[s] + strip.origin_in, to = strip.supports_in[s + 1] + strip.origin_in;
      if (std::min(to, cut.to_in) - std::max(from, cut.from_in) < 3) continue;
      ++bays;
      longest_in = std::max(longest_in, to - from);
    }
    if (bays > 0) fewest_bays = std::min(fewest_bays, bays);
  }
}

namespace {

// Whether the end of a plank lies at the dropped bay, whose rim holds it.
bool at_bay(const Model& model, const BoardLine& line, double along_in) {
  if (!model.bay) return false;
  const Point u = direction(model.deck.degrees), p{line.start.x_in + u.x_in * along_in, line.start.y_in + u.y_in * along_in};
  const auto& ring = model.bay->outline;
  for (std::size_t i = 0; i < ring.size(); ++i)
    if (distance_to_segment_in(p, ring[i], ring[(i + 1) % ring.size()]) < 3) return true;
  return false;
}

}  // namespace

std::optional<PointOnDeck> point_on_cut_ins(const Model& model, const PlankValues& values) {
  const auto lines = board_lines(model, model.deck.plank_width_in);
  const int count = static_cast<int>(lines.size());
  std::optional<PointOnDeck> worst;
  // Planks that reach over the same stretch answer alike; the one in the middle of them stands for all,
  // and the first and last have a whole neighbour, so look at a few of each stretch.
  std::vector<std::pair<double, double>> seen;
  for (const auto& cut : model.deck.cut_ins) {
    if (cut.plank < 0 || cut.plank >= count) continue;
    bool known = false;
    for (const auto& [from, to] : seen) known = known || (std::fabs(from - cut.from_in) < 1 && std::fabs(to - cut.to_in) < 1);
    if (known || seen.size() >= 6) continue;
    seen.emplace_back(cut.from_in, cut.to_in);
    const Strip strip = strip_of(lines[static_cast<std::size_t>(cut.plank)]);
    if (strip.supports_in.size() < 2) continue;
    const int first = std::clamp(cut.plank - kWindow / 2, 0, std::max(0, count - kWindow));
    const int last = std::min(count, first + kWindow);
    Deck deck;
    deck.length_in = strip.length_in;
    deck.supports_in = strip.supports_in;
    std::vector<bool> is_cut;
    std::vector<double> in_air;  // joints of this plank that no support is under
    for (int p = first; p < last; ++p) {
      auto plank = plank_for(model.deck, values.e_psi, model.deck.thickness_in);
      bool mine = false;
      const std::vector<double> before = in_air;
      in_air.clear();
      for (const auto& other : model.deck.cut_ins) {
        if (other.plank != p) continue;
        mine = true;
        for (const double end : {other.from_in - strip.origin_in, other.to_in - strip.origin_in}) {
          bool on_support = false;
          for (std::size_t s = 0; s < strip.supports_in.size(); ++s)
            if (std::fabs(strip.supports_in[s] - end) < 3) {
              on_support = true;
              if (s > 0 && s + 1 < strip.supports_in.size()) plank.breaks_in.push_back(strip.supports_in[s]);
            }
          if (on_support || end <= 1 || end >= strip.length_in - 1 || at_bay(model, lines[static_cast<std::size_t>(p)], end + strip.origin_in)) continue;
          // A joint in mid-bay: the plank is broken there; its splines and the block under it hand the load over.
          if (model.deck.cut_in_link == CutInLink::splined) {
            plank.breaks_in.push_back(end);
            in_air.push_back(end);
          }
        }
      }
      if (!mine && (p - first) % 2 == 1)
        for (std::size_t s = 1; s + 1 < strip.supports_in.size(); ++s) plank.breaks_in.push_back(strip.supports_in[s]);
      std::sort(plank.breaks_in.begin(), plank.breaks_in.end());
      plank.breaks_in.erase(std::unique(plank.breaks_in.begin(), plank.breaks_in.end()), plank.breaks_in.end());
      is_cut.push_back(mine);
      deck.planks.push_back(plank);
      if (p == first) continue;
      const bool touches = mine || is_cut[is_cut.size() - 2];
      auto link = link_for(model.deck, values.e_psi, touches ? model.deck.cut_in_link == CutInLink::splined : model.deck.tongues);
      link.blocked_at_in.insert(link.blocked_at_in.end(), before.begin(), before.end());
      link.blocked_at_in.insert(link.blocked_at_in.end(), in_air.begin(), in_air.end());
      std::sort(link.blocked_at_in.begin(), link.blocked_at_in.end());
      link.blocked_at_in.erase(std::unique(link.blocked_at_in.begin(), link.blocked_at_in.end()), link.blocked_at_in.end());
      if (touches && model.deck.cut_in_link == CutInLink::blocked)
        for (std::size_t s = 0; s + 1 < strip.supports_in.size(); ++s) link.blocked_at_in.push_back((strip.supports_in[s] + strip.supports_in[s + 1]) / 2);
      deck.links.push_back(link);
    }
    for (const std::size_t bay : bays_to_try(strip.supports_in, cut.from_in - strip.origin_in, cut.to_in - strip.origin_in))
      keep_worse(worst, solve_point(model, values, deck, cut.plank - first, bay, model.deck.thickness_in));
  }
  if (worst) {
    worst->linked = model.deck.cut_in_link != CutInLink::none || overlay_of(model.deck);
    worst->words = model.deck.cut_in_link == CutInLink::none      ? "a plank cut in has no tongue and shares nothing"
                   : model.deck.cut_in_link == CutInLink::splined ? "planks cut in are splined to their neighbours"
                                                                  : "planks cut in are blocked to their neighbours at mid-span";
    if (overlay_of(model.deck)) worst->words += "; panels " + model.deck.overlay_rating + " over them carry and spread their part";
  }
  return worst;
}

std::optional<PointOnDeck> point_at_rot(const Model& model, const PlankValues& values) {
  const auto lines = board_lines(model, model.deck.plank_width_in);
  const auto* line = worst_line(lines);
  if (!line) return std::nullopt;
  const Strip strip = strip_of(*line);
  const double left = std::max(0.0, model.deck.thickness_in - model.deck.rot_depth_in);
  double span = 0;
  for (std::size_t s = 0; s + 1 < strip.supports_in.size(); ++s) span = std::max(span, strip.supports_in[s + 1] - strip.supports_in[s]);
  if (!(span > 0)) return std::nullopt;
  PointOnDeck out;
  out.span_in = span;
  out.thickness_in = left;
  out.moment_inlb = model.point_lb * span / 4 + model.dead_psf / 144 * model.deck.plank_width_in * span * span / 8;
  const double ei = values.e_psi * model.deck.plank_width_in * left * left * left / 12;
  // Nothing left: there is no movement to reckon, only a load that nothing takes.
  out.deflection_in = ei > 0 ? model.point_lb * span * span * span / (48 * ei) : 0;
  out.words = "rot " + format_inches(model.deck.rot_depth_in) + " deep leaves " + (left > 0 ? format_inches(left) : std::string("nothing")) +
              " of the board; its tongues count for nothing";
  return out;
}

}  // namespace awlmark::floor
