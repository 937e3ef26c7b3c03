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

namespace awlmark::floor {
namespace {

constexpr double kWaste = 1.1;

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
  const auto checks = check_deck(model);
  return std::all_of(checks.checks.begin(), checks.checks.end(), [](const Check& check) { return check.ok; });
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

// Blocking that the cut-back asks for, as it lists it.
void cut_back_blocking(OptionPlan& plan, const Site& site) {
  std::map<long, std::pair<double, int>> lengths;  // by sixteenths, so that equal blocks are counted together
  for (const auto& block : site.cut_back.blocking) {
    if (!(block.length_in > 0)) continue;
    auto& entry = lengths[static_cast<long>(std::floor(block.length_in * 16 + 0.5))];
    entry.first = block.length_in;
    ++entry.second;
    FramingLine line;
    line.id = block.id;
    line.kind = "blocking";
    line.from_in = block.from_in;
    line.to_in = block.to_in;
    line.size = "2x6";
    line.b_in = 1.5;
    line.d_in = 5.5;
    line.note = block.why;
    plan.option.framing.push_back(line);
  }
  for (const auto& [key, entry] : lengths)
    add_blocking(plan, site, entry.second, entry.first, "under the cut edges of the deck", {goods::Extent::blocking_ft, {}});
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
  static const char* const ratings[] = {"24/16", "32/16", "40/20", "48/24"};
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

void lay_overlay(OptionPlan& plan, const Site& site, const std::string& rating) {
  const auto* row = mechanics::panel_by_rating(mechanics::PanelKind::sheathing, rating);
  if (!row) return;
  plan.model.deck.overlay_rating = rating;
  const double sf = room_sf(site);
  add_good(
      plan, site,
      goods::panels(goods::Kind::overlay, "plywood " + row->category + " in., rated " + rating + ", over the deck", row->category_in, rating, sf * kWaste));
  add_good(plan, site, goods::fasteners(sf * kWaste));
  add_hours(plan, "lay_panel", sf);
  plan.build_up_in += row->category_in;
  set_dead(plan, site, plan.deck_psf + row->category_in * tables::material_facts("plywood").weight_psf_per_in);
  plan.option.deck.insert(plan.option.deck.begin(),
                          part_of("plywood " + row->category + " in. over the deck", row->category_in, plan.model.deck.degrees, {site.found.room}));
  plan.option.steps.push_back("Glue and screw " + row->category + " in. plywood (" + rating +
                              ") over the whole deck, face grain along the boards, 1/8 in. gaps, joints off the joints below.");
}

void mend_planks(OptionPlan& plan, const Site& site) {
  auto& deck = plan.model.deck;
  deck.cut_ins = cut_ins(plan.model, site.cut_back);
  if (deck.tongues) deck.cut_in_link = CutInLink::splined;
  const std::string size = deck.spoken + " " + format_inches(deck.thickness_in) + " x " + format_inches(deck.plank_width_in);
  double inches = 0;
  for (const auto& cut : deck.cut_ins) {
    const double length = cut.to_in - cut.from_in;
    inches += length;
    add_good(plan, site, goods::planks(size, {goods::nominal_in(deck.thickness_in), goods::nominal_in(deck.plank_width_in), 1}, length, 1), with_deck(site));
  }
  const double sf = std::max(cut_sf(site), inches * deck.plank_width_in / 144);
  if (sf > 0) {
    add_hours(plan, "take_up_plank", sf, with_deck(site));
    add_hours(plan, "lay_plank", sf, with_deck(site));
    if (deck.tongues) add_hours(plan, "spline", inches / 12, with_deck(site));
    add_good(plan, site, goods::fasteners(sf), with_deck(site));
    plan.option.deck.push_back(part_of(size + (deck.tongues ? ", splined in" : ""), deck.thickness_in, deck.degrees, cut_outlines(site)));
    plan.option.steps.push_back(
        "Cut in " + std::to_string(deck.cut_ins.size()) + " pieces of " + size +
        (deck.tongues ? ", each groove splined to its neighbours: a plank cut in without its tongue shares no load." : ", ends on supports or on blocking."));
  }
}

void mend_panels(OptionPlan& plan, const Site& site) {
  auto& deck = plan.model.deck;
  const double sf = cut_sf(site);
  if (!(sf > 0)) return;
  add_good(plan, site,
           goods::panels(goods::Kind::deck_panel, deck.spoken + " " + format_inches(deck.thickness_in), deck.thickness_in, deck.panel_rating, sf * kWaste),
           with_deck(site));
  add_good(plan, site, goods::fasteners(sf * kWaste), with_deck(site));
  add_hours(plan, "take_up_panel", sf, with_deck(site));
  add_hours(plan, "lay_panel", sf, with_deck(site));
  plan.option.deck.push_back(part_of(deck.spoken + " " + format_inches(deck.thickness_in), deck.thickness_in, deck.degrees, cut_outlines(site)));
  plan.option.steps.push_back("Lay " + deck.spoken + " " + format_inches(deck.thickness_in) +
                              " into the opening, glued and screwed, every edge on a support or a block.");
}

// Boxes of `outer` along u between two neighbouring supports that hold the whole of `ring`.
struct Gap {
  bool found = false;
  double clear_in = 0;
  std::size_t low = 0, high = 0;
};

Gap gap_around(const Model& model, const Polygon& ring) {
  Gap gap;
  const auto supports = deck_supports(model);
  const auto hits = crossings(model, supports, centroid(ring));
  const double radians = model.deck.degrees * 3.14159265358979323846 / 180;
  const Point u{det_cos(radians), det_sin(radians)}, c = centroid(ring);
  double low = 1e300, high = -1e300;
  for (const Point& p : ring) {
    const double along = (p.x_in - c.x_in) * u.x_in + (p.y_in - c.y_in) * u.y_in;
    low = std::min(low, along);
    high = std::max(high, along);
  }
  for (std::size_t h = 0; h + 1 < hits.size(); ++h) {
    const double half_a = model.members[hits[h].member].section.b_in / 2, half_b = model.members[hits[h + 1].member].section.b_in / 2;
    if (hits[h].at_in + half_a <= low + 0.5 && hits[h + 1].at_in - half_b >= high - 0.5)
      gap = {true, hits[h + 1].at_in - hits[h].at_in - half_a - half_b, hits[h].member, hits[h + 1].member};
  }
  return gap;
}

// How far the shower floor's deck has to lie below the room's: bed at the drain, fall, less what the
// finish outside adds; rounded up to quarters. The height budget of the shower stage settles it.
double recess_in(const Site& site) {
  const auto& shower = *site.job.shower;
  const Point drain = shower.drain && shower.drain->at_in ? *shower.drain->at_in : centroid(shower.outline_in);
  double farthest = 0;
  for (const Point& p : shower.outline_in) farthest = std::max(farthest, distance_in(p, drain));
  const double fall = shower.least_fall_in_per_ft.value_or(0.25) * farthest / 12;
  constexpr double kBedAtDrain_in = 0.75;
  return std::ceil((kBedAtDrain_in + fall) * 4 - 1e-9) / 4;
}

}  // namespace

void mend_deck(OptionPlan& plan, const Site& site) {
  if (site.found.deck.kind == DeckModel::Kind::none) return;
  if (site.found.deck.kind == DeckModel::Kind::planks)
    mend_planks(plan, site);
  else
    mend_panels(plan, site);
  cut_back_blocking(plan, site);
  const double old_underlayment = std::max(0.0, site.old_build_up_in - site.found.deck.thickness_in);
  // Thin old underlayment comes back as the thinnest rated panel; tile asks for one wherever the deck alone is too soft.
  const bool bare_passes = deck_passes(plan.model);
  if (!bare_passes || old_underlayment >= 0.2) {
    // An underlayment that was there is matched to within 1/8 in. where the choice is free.
    const std::string rating = choose_overlay(plan.model, bare_passes ? std::max(0.0, old_underlayment - 0.13) : 0.0);
    if (!rating.empty()) lay_overlay(plan, site, rating);
  }
}

void lay_panels(OptionPlan& plan, const Site& site, const std::vector<std::string>& ratings) {
  auto& deck = plan.model.deck;
  deck.kind = DeckModel::Kind::panels;
  deck.layer = site.found.deck.layer.empty() ? "deck" : site.found.deck.layer;
  deck.spoken = "plywood";
  deck.cut_ins.clear();
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
  const double sf = room_sf(site);
  plan.build_up_in = row->category_in;
  add_good(plan, site,
           goods::panels(goods::Kind::deck_panel, "tongue-and-groove plywood " + row->category + " in., rated " + row->rating, row->category_in, row->rating,
                         sf * kWaste));
  add_good(plan, site, goods::fasteners(sf * kWaste));
  add_hours(plan, site.found.deck.kind == DeckModel::Kind::planks ? "take_up_plank" : "take_up_panel", sf);
  add_hours(plan, "lay_panel", sf);
  const double spacing = widest_spacing_in(plan.model);
  plan.option.deck.push_back(part_of("tongue-and-groove plywood " + row->category + " in., " + row->rating, row->category_in, deck.degrees, {site.found.room}));
  plan.option.steps.push_back("Cut the old deck along the walls; leave what walls stand on, held by cleats on both sides. Lay " + row->category +
                              " in. tongue-and-groove plywood (" + row->rating +
                              "), strength axis across the supports, glued and screwed, 1/8 in. gaps at the ends.");
  edge_blocking(plan, site, spacing > 0 ? spacing : 16);
}

bool drop_bay(OptionPlan& plan, const Site& site) {
  if (!site.job.shower || site.job.shower->outline_in.size() < 3 || site.found.members.empty()) return false;
  const auto& outline = site.job.shower->outline_in;
  const double recess = recess_in(site);
  const double area_sf = area_in2(outline) / 144;
  const auto gap = gap_around(site.found, outline);
  auto bay = part_of("plywood 23/32 in. over the shower, " + format_inches(recess) + " lower", 23.0 / 32, plan.model.deck.degrees + 90, {outline});
  bay.top_drop_in = recess;
  if (gap.found) {
    // Cross joists between two supports, on ledgers: nothing of the old framing is cut.
    const Box box = bounds(outline);
    const double along_supports = std::max(box.width_in(), box.height_in());
    const int count = std::max(2, static_cast<int>(std::ceil(along_supports / 16)) + 1);
    Member joist;
    joist.id = "bay";
    joist.role = SupportRole::joist;
    joist.from = {0, 0};
    joist.to = {gap.clear_in, 0};
    joist.section = mechanics::section_from(*section_of("2x6"));
    joist.grade = Grade::no_2;
    joist.values = mechanics::design_values(Species::unknown, Grade::no_2, joist.section);
    joist.rests_in = {0, gap.clear_in};
    Model trial = plan.model;
    trial.loads.clear();
    trial.members = {joist};
    trial.deck.degrees = 90;
    MemberLoads loads;
    // A mortar bed, membrane and tile weigh more than the floor outside: 2 in. of bed and the tile.
    const double dead_psf = 2 * tables::material_facts("mortar_bed").weight_psf_per_in + finish_psf(plan.model.finish);
    loads.dead.lines.push_back(mechanics::uniform(dead_psf * 16 / 144, 0, gap.clear_in));
    loads.live.lines.push_back(mechanics::uniform(plan.model.live_psf * 16 / 144, 0, gap.clear_in));
    FloorChecks checks;
    check_one_member(trial, joist, loads, checks);
    for (auto check : checks.checks) {
      check.id = "dropped_" + check.id;
      plan.option.checks.push_back(check);
    }
    PlanLoad bed;
    bed.item = "shower bed";
    bed.area = outline;
    bed.lb = std::max(0.0, dead_psf - plan.model.dead_psf) * area_sf;
    plan.model.loads.push_back(bed);
    for (int k = 0; k < count; ++k) {
      FramingLine line;
      line.id = "bay" + std::to_string(k + 1);
      line.kind = "added_joist";
      const auto& a = site.found.members[gap.low];
      const auto& b = site.found.members[gap.high];
      const bool tall = box.height_in() >= box.width_in();
      const double t = (tall ? box.y0_in : box.x0_in) + (tall ? box.height_in() : box.width_in()) * k / (count - 1);
      const Point probe = tall ? Point{centroid(outline).x_in, t} : Point{t, centroid(outline).y_in};
      line.from_in = a.at(along_segment_in(probe, a.from, a.to));
      line.to_in = b.at(along_segment_in(probe, b.from, b.to));
      line.size = "2x6";
      line.b_in = 1.5;
      line.d_in = 5.5;
      line.top_drop_in = std::max(0.0, recess + 23.0 / 32 - plan.model.deck.thickness_in);
      line.note = "on ledgers, top " + format_inches(recess + 23.0 / 32) + " below the old deck's top";
      plan.option.framing.push_back(line);
    }
    add_good(plan, site, goods::lumber(goods::Kind::added_joist, "2x6 dropped joist, No. 2", {2, 6, 1}, gap.clear_in, count));
    add_good(plan, site, goods::lumber(goods::Kind::ledger, "2x4 ledger", {2, 4, 1}, along_supports, 2));
    plan.option.steps.push_back("Between " + site.found.members[gap.low].id + " and " + site.found.members[gap.high].id +
                                ": screw ledgers to their sides and set " + std::to_string(count) +
                                " 2x6 joists on them, 16 in. apart, so that 23/32 in. plywood lies " + format_inches(recess) + " below the deck outside.");
  } else {
    // Supports run through the shower: their tops are ripped down over it and sistered.
    std::vector<std::size_t> ripped;
    for (std::size_t i = 0; i < plan.model.members.size(); ++i) {
      auto& member = plan.model.members[i];
      if (member.role == SupportRole::ledger || member.role == SupportRole::wall) continue;
      double from = 1e300, to = -1e300;
      const double length = member.length_in();
      for (int k = 0; k <= 200; ++k)
        if (contains(outline, member.at(length * k / 200))) from = std::min(from, length * k / 200), to = std::max(to, length * k / 200);
      if (to - from < 2) continue;
      DecayZone rip;
      rip.rot = false;
      rip.from_in = std::max(0.0, from - 1.5);
      rip.to_in = std::min(length, to + 1.5);
      rip.loss.top_in = recess;
      rip.why = "ripped for the shower";
      member.decay.push_back(rip);
      ripped.push_back(i);
    }
    if (ripped.empty()) return false;
    std::string names;
    for (const std::size_t i : ripped) {
      // A sister of the lowered depth runs the whole length, so that it clears the recess too.
      auto& member = plan.model.members[i];
      const double depth = std::max(1.5, member.section.d_in - recess);
      for (int plies = 1; plies <= 3; ++plies) {
        member.sister = mechanics::rectangle(1.5 * plies, depth, plies);
        member.sister_values = mechanics::design_values(member.species, Grade::no_2, mechanics::rectangle(1.5, depth));
        const auto checks = check_members(plan.model);
        if (std::none_of(checks.checks.begin(), checks.checks.end(), [&](const Check& check) { return check.member == member.id && !check.ok; })) break;
      }
      FramingLine line;
      line.id = member.id;
      line.kind = "sister";
      line.from_in = member.from;
      line.to_in = member.to;
      line.size = mechanics::section_words(*member.sister);
      line.b_in = member.sister->b_in;
      line.d_in = member.sister->d_in;
      line.top_drop_in = recess;
      line.rests_at_in = member.rests_in;
      line.note =
          "ripped to " + format_inches(depth) + " deep, beside " + member.id + ", whose top is taken down " + format_inches(recess) + " over the shower";
      plan.option.framing.push_back(line);
      add_good(plan, site,
               goods::lumber(goods::Kind::sister, "2x sister ripped to " + format_inches(depth), {2, goods::nominal_in(member.section.d_in), 1},
                             member.length_in(), member.sister->plies));
      add_hours(plan, "sister", 1.5 * member.sister->plies);
      names += (names.empty() ? "" : ", ") + member.id;
    }
    plan.option.engineer_for.push_back("tops of members taken down under the shower, which is no notch that IRC R502.8 allows by itself");
    plan.option.steps.push_back("Shore, set full-length sisters beside " + names + ", then rip their tops down by " + format_inches(recess) +
                                " over the shower and lay 23/32 in. plywood there.");
  }
  add_good(plan, site, goods::panels(goods::Kind::deck_panel, "plywood 23/32 in., dropped bay", 23.0 / 32, "", area_sf * kWaste));
  add_good(plan, site, goods::fasteners(area_sf * kWaste));
  add_hours(plan, "dropped_bay", std::max(1.0, std::ceil(area_sf / 8)));
  plan.option.deck.push_back(bay);
  return true;
}

}  // namespace awlmark::floor
