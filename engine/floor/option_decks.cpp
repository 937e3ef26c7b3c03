// Decks in a rebuild option: mended in kind, panels over all, a bay dropped for the shower.
#include <algorithm>
#include <cmath>
#include <map>

#include "base/described.hpp"
#include "base/length.hpp"
#include "base/special.hpp"
#include "floor/build.hpp"
#include "floor/deck_checks.hpp"
#include "floor/layout.hpp"
#include "floor/option_plan.hpp"
#include "tables/materials.hpp"
#include "tables/usual.hpp"

namespace awlmark::floor {
namespace {

double room_sf(const Site& site) { return area_in2(site.found.room) / 144; }

std::vector<Polygon> cut_outlines(const Site& site) {
  const auto found = site.cut_back.outlines_in.find(site.found.deck.layer);
  return found == site.cut_back.outlines_in.end() ? std::vector<Polygon>{} : found->second;
}

double cut_sf(const Site& site) {
  const auto found = site.cut_back.area_sf.find(site.found.deck.layer);
  if (found != site.cut_back.area_sf.end()) return found->second;
  double sum = 0;
  for (const auto& ring : cut_outlines(site)) sum += area_in2(ring) / 144;
  return sum;
}

void set_dead(OptionPlan& plan, const Site& site, double deck_psf) {
  plan.deck_psf = deck_psf;
  if (!(site.job.rebuild && site.job.rebuild->dead_psf)) plan.model.dead_psf = deck_psf + finish_psf(plan.model.finish) + site.ceiling_psf;
}

bool deck_passes(const Model& model) {
  auto checks = check_deck(model);
  check_deck_loads(model, Case::known, checks);
  return std::all_of(checks.checks.begin(), checks.checks.end(), [](const Check& check) { return !failing(check); });
}

DeckPart part_of(const std::string& words, double thickness_in, double degrees, std::vector<Polygon> outlines) {
  DeckPart part;
  part.words = words;
  part.thickness_in = thickness_in;
  part.runs_degrees = degrees;
  part.outlines_in = std::move(outlines);
  return part;
}

void add_blocking(OptionPlan& plan, const Site& site, double count, double length_in, const std::string& why, const goods::Growth& grows) {
  if (!(count > 0)) return;
  add_good(plan, site, goods::lumber(goods::Kind::blocking, "2x6 blocking", {2, 6, 1}, length_in, count), grows);
  add_hours(plan, "blocking", count, grows);
  plan.option.steps.push_back("Set " + format_number(count, 0) + (count > 1 ? " blocks " : " block ") + format_inches(length_in) + " long: " + why + ".");
}

// Where members run across a line, from its start: the stretches between their faces.
std::vector<std::pair<double, double>> between_members(const Model& model, Point a, Point b) {
  constexpr double kShortest_in = 3;
  const double length = distance_in(a, b);
  if (length < kShortest_in) return {};
  const Point u{(b.x_in - a.x_in) / length, (b.y_in - a.y_in) / length};
  std::vector<std::pair<double, double>> faces;
  for (const auto& member : model.members) {
    const double long_in = member.length_in();
    if (long_in < 1 || member.lies_on) continue;
    const Point w{(member.to.x_in - member.from.x_in) / long_in, (member.to.y_in - member.from.y_in) / long_in};
    const double sine = u.x_in * w.y_in - u.y_in * w.x_in;
    if (std::fabs(sine) < 0.26) continue;
    const double dx = member.from.x_in - a.x_in, dy = member.from.y_in - a.y_in;
    const double at = (dx * w.y_in - dy * w.x_in) / sine, half = member.section.b_in / 2 / std::fabs(sine);
    const double sister = member.sister ? member.sister->b_in / std::fabs(sine) : 0;
    // A sister stands on one side of it: to the left of a member that runs left to right as one goes along.
    const bool ahead = member.sister_side * sine < 0;
    const Point there{a.x_in + u.x_in * at, a.y_in + u.y_in * at};
    if (distance_to_segment_in(there, member.from, member.to) < 0.5) faces.emplace_back(at - half - (ahead ? 0 : sister), at + half + (ahead ? sister : 0));
  }
  std::sort(faces.begin(), faces.end());
  std::vector<std::pair<double, double>> out;
  double open = 0;
  for (const auto& [from, to] : faces) {
    if (std::min(from, length) - open >= kShortest_in) out.emplace_back(open, std::min(from, length));
    open = std::max(open, to);
  }
  if (length - open >= kShortest_in) out.emplace_back(open, length);
  return out;
}

// Blocks along every wall for the cut edge of a whole new deck.
void edge_blocking(OptionPlan& plan, const Site& site, double spacing_in) {
  double around = 0;
  const auto& room = site.found.room;
  for (std::size_t i = 0; i < room.size(); ++i) around += distance_in(room[i], room[(i + 1) % room.size()]);
  const double length = std::max(6.0, spacing_in - 1.5);
  add_blocking(plan, site, std::ceil(around / 2 / std::max(6.0, spacing_in)), length, "along the walls, where panel edges lie between supports", {});
}

// The least overlay, not thinner than the old underlayment, with which the deck passes.
std::string choose_overlay(const Model& model, double least_in) {
  static const char* const ratings[] = {"32/16", "40/20", "48/24"};
  std::string last;
  for (const char* rating : ratings) {
    const auto* row = mechanics::panel_by_rating(mechanics::PanelKind::sheathing, rating);
    if (!row || row->category_in < least_in - 1e-9) continue;
    Model trial = model;
    trial.deck.overlay_rating = last = rating;
    if (deck_passes(trial)) return rating;
  }
  return last;
}

// Over the whole deck. Tile bonds to a face that is made for it: underlayment grade, never sheathing.
void lay_overlay(OptionPlan& plan, const Site& site, const std::string& rating) {
  const auto* row = mechanics::panel_by_rating(mechanics::PanelKind::sheathing, rating);
  if (!row) return;
  plan.model.deck.overlay_rating = rating;
  const double sf = room_sf(site);
  const bool tile = tile_finish(plan.model.finish);
  const std::string words = (tile ? "underlayment plywood " : "plywood ") + row->category + " in.";
  add_good(plan, site,
           goods::panels(goods::Kind::overlay, words + ", " + (tile ? "exterior glue" : "rated " + rating) + ", over the deck", row->category_in,
                         tile ? "underlayment" : rating, sf * (1 + tables::usual().waste_share)));
  add_good(plan, site, goods::fasteners(sf * (1 + tables::usual().waste_share)));
  add_hours(plan, "lay_panel", sf);
  // It lies on the bare deck: what lies there now comes up, all of it.
  for (const auto& layer : site.job.layers) {
    if (layer.id == site.found.deck.layer) break;
    plan.option.takes_out.push_back({layer.id, true, {}});
  }
  plan.build_up_in += row->category_in;
  set_dead(plan, site, plan.deck_psf + row->category_in * tables::material_facts("plywood").weight_psf_per_in);
  plan.option.deck.insert(plan.option.deck.begin(), part_of(words + " over the deck", row->category_in, plan.model.deck.degrees, {site.found.room}));
  plan.option.steps.push_back("Glue and screw " + row->category + " in. " +
                              (tile ? "underlayment plywood (exterior glue, sanded or plugged face)" : "plywood (" + rating + ")") +
                              " over the whole deck, face grain along the boards: #8 x 1 1/4 in. screws, 6 in. apart at edges and 8 in. in the field, 1/8 in. "
                              "gaps, joints off the joints below.");
}

// Only where the deck was opened, as thick as the old underlayment around it.
void patch_underlayment(OptionPlan& plan, const Site& site, double thickness_in) {
  const double sf = cut_sf(site);
  const std::string words = "underlayment plywood " + format_inches(thickness_in);
  add_good(plan, site,
           goods::panels(goods::Kind::overlay, words + ", where the deck was opened", thickness_in, "underlayment", sf * (1 + tables::usual().waste_share)),
           with_deck(site));
  add_good(plan, site, goods::fasteners(sf * (1 + tables::usual().waste_share)), with_deck(site));
  add_hours(plan, "lay_panel", sf, with_deck(site));
  plan.build_up_in += thickness_in;
  set_dead(plan, site, plan.deck_psf + thickness_in * tables::material_facts("plywood").weight_psf_per_in);
  plan.option.deck.insert(plan.option.deck.begin(), part_of(words + " over the mended deck", thickness_in, plan.model.deck.degrees, cut_outlines(site)));
  plan.option.steps.push_back("Lay " + words +
                              " where the deck was opened, flush with the old underlayment around it: ring-shank nails or staples 3 in. apart at edges and 6 "
                              "in. in the field, joints filled.");
}

// Planks that the dropped bay takes away are not laid again.
void drop_inside(const OptionPlan& plan, std::vector<CutIn>& cuts) {
  const auto lines = board_lines(plan.model, plan.model.deck.plank_width_in);
  const Point u = direction(plan.model.deck.degrees);
  std::vector<CutIn> out;
  for (const auto& cut : cuts) {
    if (cut.plank < 0 || cut.plank >= static_cast<int>(lines.size())) continue;
    const Point start = lines[static_cast<std::size_t>(cut.plank)].start;
    const int parts = std::max(1, static_cast<int>(std::ceil((cut.to_in - cut.from_in) / 2)));
    std::optional<CutIn> open;
    for (int k = 0; k < parts; ++k) {
      const double a = cut.from_in + (cut.to_in - cut.from_in) * k / parts, b = cut.from_in + (cut.to_in - cut.from_in) * (k + 1) / parts, m = (a + b) / 2;
      const bool stays = !contains(plan.model.bay->outline, {start.x_in + m * u.x_in, start.y_in + m * u.y_in});
      if (stays && open) open->to_in = b;
      if (stays && !open) open = CutIn{cut.plank, a, b};
      if (!stays && open) out.push_back(*open), open.reset();
    }
    if (open) out.push_back(*open);
  }
  cuts = out;
}

bool passes_with_overlay(const Model& model) {
  Model trial = model;
  trial.deck.overlay_rating = choose_overlay(model, 0);
  return deck_passes(trial);
}

// The same planks with every end that lies between supports carried on to the next one, as far as the deck goes.
std::vector<CutIn> to_supports(const Model& model) {
  constexpr double kOn_in = 3;
  const auto lines = board_lines(model, model.deck.plank_width_in);
  std::vector<CutIn> out;
  for (auto cut : model.deck.cut_ins) {
    const auto& line = lines[static_cast<std::size_t>(std::clamp<int>(cut.plank, 0, static_cast<int>(lines.size()) - 1))];
    double from = 0, to = line.length_in;
    for (const double at : line.supports_in) {
      if (at <= cut.from_in + kOn_in) from = std::max(from, at);
      if (at >= cut.to_in - kOn_in) to = std::min(to, at);
    }
    cut.from_in = std::min(cut.from_in, from);
    cut.to_in = std::max(cut.to_in, to);
    if (!out.empty() && out.back().plank == cut.plank && cut.from_in <= out.back().to_in + 1)
      out.back().to_in = std::max(out.back().to_in, cut.to_in);
    else
      out.push_back(cut);
  }
  return out;
}

// A splined joint between supports breaks its plank there. Where that is too soft for the finish the ends go
// to the supports, past the cut-back's own lines.
bool lengthen(OptionPlan& plan, const Site& site) {
  auto& deck = plan.model.deck;
  if (deck.cut_ins.empty() || plan.model.bay || passes_with_overlay(plan.model)) return false;
  Model longer = plan.model;
  longer.deck.cut_ins = to_supports(plan.model);
  if (!passes_with_overlay(longer)) return false;
  const auto lines = board_lines(plan.model, deck.plank_width_in);
  const Point u = direction(deck.degrees), v{-u.y_in, u.x_in};
  TakeOut more{site.found.deck.layer, false, {}};
  for (const auto& cut : longer.deck.cut_ins) {
    const Point start = lines[static_cast<std::size_t>(cut.plank)].start;
    const auto corner = [&](double along_in, double across_in) {
      return Point{start.x_in + u.x_in * along_in + v.x_in * across_in, start.y_in + u.y_in * along_in + v.y_in * across_in};
    };
    const double half = deck.plank_width_in / 2;
    more.outlines_in.push_back({corner(cut.from_in, -half), corner(cut.to_in, -half), corner(cut.to_in, half), corner(cut.from_in, half)});
  }
  plan.option.takes_out.push_back(std::move(more));
  deck.cut_ins = longer.deck.cut_ins;
  return true;
}

void mend_planks(OptionPlan& plan, const Site& site) {
  auto& deck = plan.model.deck;
  deck.cut_ins = cut_ins(plan.model, site.cut_back);
  if (plan.model.bay) drop_inside(plan, deck.cut_ins);
  if (deck.tongues) deck.cut_in_link = CutInLink::splined;
  const bool longer = lengthen(plan, site);
  const std::string size = deck.spoken + " " + format_inches(deck.thickness_in) + " x " + format_inches(deck.plank_width_in);
  double inches = 0;
  for (const auto& cut : deck.cut_ins) {
    const double length = cut.to_in - cut.from_in;
    inches += length;
    add_good(plan, site, goods::planks(size, {goods::nominal_in(deck.thickness_in), goods::nominal_in(deck.plank_width_in), 1}, length, 1), with_deck(site));
  }
  const double laid_sf = inches * deck.plank_width_in / 144, sf = plan.model.bay ? laid_sf : std::max(cut_sf(site), laid_sf);
  if (sf > 0) {
    add_hours(plan, "take_up_plank", sf, with_deck(site));
    add_hours(plan, "lay_plank", sf, with_deck(site));
    if (deck.tongues) add_hours(plan, "spline", inches / 12, with_deck(site));
    add_good(plan, site, goods::fasteners(sf), with_deck(site));
    plan.option.deck.push_back(part_of(size + (deck.tongues ? ", splined in" : ""), deck.thickness_in, deck.degrees, cut_outlines(site)));
    plan.option.steps.push_back(
        "Cut in " + std::to_string(deck.cut_ins.size()) + " pieces of " + size +
        (longer ? ", their ends carried on to the supports past the lines of the cut-back: a joint between supports is too soft for this floor" : "") +
        (deck.tongues ? ", each groove splined to its neighbours: a plank cut in without its tongue shares no load." : ", ends on supports or on blocking."));
  }
}

void mend_panels(OptionPlan& plan, const Site& site) {
  auto& deck = plan.model.deck;
  const double sf = cut_sf(site);
  if (!(sf > 0)) return;
  add_good(plan, site,
           goods::panels(goods::Kind::deck_panel, deck.spoken + " " + format_inches(deck.thickness_in), deck.thickness_in, deck.panel_rating,
                         sf * (1 + tables::usual().waste_share)),
           with_deck(site));
  add_good(plan, site, goods::fasteners(sf * (1 + tables::usual().waste_share)), with_deck(site));
  add_hours(plan, "take_up_panel", sf, with_deck(site));
  add_hours(plan, "lay_panel", sf, with_deck(site));
  plan.option.deck.push_back(part_of(deck.spoken + " " + format_inches(deck.thickness_in), deck.thickness_in, deck.degrees, cut_outlines(site)));
  plan.option.steps.push_back("Lay " + deck.spoken + " " + format_inches(deck.thickness_in) +
                              " into the opening, glued, and 8d ring-shank nails or #8 x 2 in. screws 6 in. apart at edges and 12 in. in the field, every edge "
                              "on a support or a block.");
}

}  // namespace

void cut_back_blocking(OptionPlan& plan, const Site& site) {
  std::map<long, std::pair<double, int>> lengths;  // by sixteenths, so that equal blocks are counted together
  for (const auto& block : site.cut_back.blocking) {
    if (!(block.length_in > 0)) continue;
    const Point u{(block.to_in.x_in - block.from_in.x_in) / block.length_in, (block.to_in.y_in - block.from_in.y_in) / block.length_in};
    int piece = 0;
    for (const auto& [from, to] : between_members(plan.model, block.from_in, block.to_in)) {
      const double middle = (from + to) / 2;
      if (plan.model.bay && contains(plan.model.bay->outline, {block.from_in.x_in + u.x_in * middle, block.from_in.y_in + u.y_in * middle})) continue;
      auto& entry = lengths[static_cast<long>(std::floor((to - from) * 16 + 0.5))];
      entry.first = to - from;
      ++entry.second;
      FramingLine line;
      line.id = block.id + (piece++ > 0 ? "." + std::to_string(piece) : "");
      line.kind = "blocking";
      line.from_in = {block.from_in.x_in + u.x_in * from, block.from_in.y_in + u.y_in * from};
      line.to_in = {block.from_in.x_in + u.x_in * to, block.from_in.y_in + u.y_in * to};
      line.size = "2x6";
      line.b_in = 1.5;
      line.d_in = 5.5;
      line.note = block.why;
      plan.option.framing.push_back(line);
    }
  }
  for (const auto& [key, entry] : lengths)
    add_blocking(plan, site, entry.second, entry.first, "under the cut edges of the deck", {goods::Extent::blocking_ft, {}});
}

void mend_deck(OptionPlan& plan, const Site& site) {
  if (site.found.deck.kind == DeckModel::Kind::none) return;
  if (site.found.deck.kind == DeckModel::Kind::planks)
    mend_planks(plan, site);
  else
    mend_panels(plan, site);
  plan.blocks = true;
  settle_standing(plan, site);
  const double old_underlayment = std::max(0.0, site.old_build_up_in - site.found.deck.thickness_in);
  // Under tile on boards a panel always goes in; else where the deck alone is too soft or too weak, and
  // where the old underlayment was opened it comes back as it was.
  const bool boards = site.found.deck.kind == DeckModel::Kind::planks;
  const bool bare_passes = deck_passes(plan.model);
  const bool whole = !bare_passes || (boards && tile_finish(plan.model.finish));
  if (!whole && old_underlayment < 0.2) return;
  if (!whole && !(cut_sf(site) > 0)) {
    plan.build_up_in += old_underlayment;
    return;
  }
  if (!whole) {
    patch_underlayment(plan, site, old_underlayment);
    return;
  }
  // An underlayment that was there is matched to within 1/8 in. where the choice is free.
  const std::string rating = choose_overlay(plan.model, bare_passes ? std::max(0.0, old_underlayment - 0.13) : 0.0);
  if (!rating.empty()) lay_overlay(plan, site, rating);
}

double cut_out_sf(const Site& site) { return cut_sf(site); }

void lay_panels(OptionPlan& plan, const Site& site, const std::vector<std::string>& ratings) {
  auto& deck = plan.model.deck;
  deck.kind = DeckModel::Kind::panels;
  deck.layer = site.found.deck.layer.empty() ? "deck" : site.found.deck.layer;
  deck.spoken = "plywood";
  deck.cut_ins.clear();
  deck.new_deck = true;
  deck.as_it_was = false;
  deck.overlay_rating.clear();
  deck.panel_kind = mechanics::PanelKind::single_floor;
  const mechanics::PanelRow* row = nullptr;
  for (const auto& rating : ratings) {
    const auto* next = mechanics::panel_by_rating(mechanics::PanelKind::single_floor, rating);
    if (!next) continue;
    row = next;
    deck.panel_rating = rating;
    deck.thickness_in = row->category_in;
    set_dead(plan, site, row->category_in * tables::material_facts("plywood").weight_psf_per_in);
    if (deck_passes(plan.model)) break;
  }
  if (!row) return;
  plan.option.takes_out.push_back({site.found.deck.layer, true, {}});
  const double sf = room_sf(site);
  plan.build_up_in = row->category_in;
  add_good(plan, site,
           goods::panels(goods::Kind::deck_panel, "tongue-and-groove plywood " + row->category + " in., rated " + row->rating, row->category_in, row->rating,
                         sf * (1 + tables::usual().waste_share)));
  add_good(plan, site, goods::fasteners(sf * (1 + tables::usual().waste_share)));
  add_hours(plan, site.found.deck.kind == DeckModel::Kind::planks ? "take_up_plank" : "take_up_panel", sf);
  add_hours(plan, "lay_panel", sf);
  const double spacing = widest_spacing_in(plan.model);
  plan.option.deck.push_back(part_of("tongue-and-groove plywood " + row->category + " in., " + row->rating, row->category_in, deck.degrees, {site.found.room}));
  plan.option.steps.push_back("Cut the old deck along the walls; leave what walls stand on, held by cleats on both sides. Lay " + row->category +
                              " in. tongue-and-groove plywood (" + row->rating +
                              "), strength axis across the supports, glued, and 8d ring-shank nails or #8 x 2 in. screws, 6 in. apart at edges and 12 in. in "
                              "the field; 1/8 in. gaps at the ends.");
  edge_blocking(plan, site, spacing > 0 ? spacing : 16);
}

}  // namespace awlmark::floor
