// The deck lowered over a shower for a flush entry, on joists of its own.
//
// Where two supports stand clear of the shower on both sides, bay joists hang between them and nothing of
// the old framing is cut. Where joists run through it they are headed off at its edges and lower joists hang
// between the headers (option_bay_headed.cpp); never a girder, and never a joist under a wall that bears:
// then there is no dropped bay, and the reason is said.
#include "floor/option_bay.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "floor/build.hpp"
#include "floor/deck_checks.hpp"
#include "floor/layout.hpp"
#include "floor/option_plan.hpp"
#include "floor/paths.hpp"
#include "tables/materials.hpp"
#include "tables/usual.hpp"

namespace awlmark::floor {
namespace {

constexpr double kBed_in = 2;  // mean depth of the mortar bed

// Two neighbouring supports with the whole ring between their lines; an edge on a line counts as clear.
struct Gap {
  bool found = false;
  double clear_in = 0;
  std::size_t low = 0, high = 0;
};

Gap gap_around(const Model& model, const Polygon& ring) {
  Gap gap;
  const Point u = direction(model.deck.degrees), c = centroid(ring);
  double low = 1e300, high = -1e300;
  for (const Point& p : ring) {
    const double along = (p.x_in - c.x_in) * u.x_in + (p.y_in - c.y_in) * u.y_in;
    low = std::min(low, along);
    high = std::max(high, along);
  }
  const auto hits = crossings(model, deck_supports(model), c);
  for (std::size_t h = 0; h + 1 < hits.size(); ++h) {
    const double half_a = model.members[hits[h].member].section.b_in / 2, half_b = model.members[hits[h + 1].member].section.b_in / 2;
    if (hits[h].at_in <= low + 0.5 && hits[h + 1].at_in >= high - 0.5)
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

// Bay joists of one size between the two supports, across the shower; the model with them in it.
Model with_joists(const OptionPlan& plan, const Site& site, const Gap& gap, const char* size, double spacing_in, double panel_in) {
  Model trial = plan.model;
  const auto& outline = site.job.shower->outline_in;
  const Point u = direction(trial.deck.degrees), v{-u.y_in, u.x_in};
  double low = 1e300, high = -1e300;
  for (const Point& p : outline) {
    low = std::min(low, p.x_in * v.x_in + p.y_in * v.y_in);
    high = std::max(high, p.x_in * v.x_in + p.y_in * v.y_in);
  }
  const int bays = std::max(1, static_cast<int>(std::ceil((high - low - 1.5) / spacing_in - 1e-6)));
  Bay bay;
  bay.outline = outline;
  bay.degrees = trial.deck.degrees + 90;
  bay.dead_psf = bay_dead_psf(plan, site, panel_in);
  const auto section = mechanics::section_from(*section_of(size));
  const Point c = centroid(outline);
  const double along = c.x_in * u.x_in + c.y_in * u.y_in;
  for (int k = 0; k <= bays; ++k) {
    const double across = low + 0.75 + (high - low - 1.5) * k / bays;
    const Point p{along * u.x_in + across * v.x_in, along * u.y_in + across * v.y_in};
    const auto hits = crossings(trial, {gap.low, gap.high}, p);
    if (hits.size() != 2) continue;
    Member joist;
    joist.id = "bay" + std::to_string(bay.supports.size() + 1);
    joist.section = section;
    joist.grade = Grade::no_2;
    joist.values = lumber_values(site, SupportRole::joist, Species::unknown, section);
    joist.new_wood = joist.in_bay = true;
    joist.repetitive = bays >= 2;
    const double from = hits[0].at_in + trial.members[hits[0].member].section.b_in / 2, to = hits[1].at_in - trial.members[hits[1].member].section.b_in / 2;
    joist.from = {p.x_in + u.x_in * from, p.y_in + u.y_in * from};
    joist.to = {p.x_in + u.x_in * to, p.y_in + u.y_in * to};
    joist.rests = {hung_at(trial, hits[0].member, 0, joist.from), hung_at(trial, hits[1].member, to - from, joist.to)};
    bay.supports.push_back(trial.members.size());
    trial.members.push_back(joist);
  }
  trial.bay = bay;
  return trial;
}

void say_gap(OptionPlan& plan, const Site& site, const Gap& gap, double recess, const char* size, const mechanics::PanelRow& panel) {
  const auto& model = plan.model;
  const std::size_t count = model.bay->supports.size();
  for (const std::size_t i : model.bay->supports) {
    const auto& joist = model.members[i];
    auto line = line_of(joist, "bay_joist", joist.section, "in hangers, top " + format_inches(recess + panel.category_in) + " below the old deck's top");
    line.top_drop_in = std::max(0.0, recess + panel.category_in - model.deck.thickness_in);
    plan.option.framing.push_back(line);
    buy_lumber(plan, site, goods::Kind::added_joist, std::string(size) + " bay joist, No. 2", joist.section, joist.length_in(), {});
  }
  add_good(plan, site, goods::connectors(2.0 * static_cast<double>(count)));
  plan.option.steps.push_back(
      "Between " + model.members[gap.low].id + " and " + model.members[gap.high].id + ": hang " + std::to_string(count) + " " + size + " joists " +
      format_inches(model.members[model.bay->supports.front()].length_in()) + " long, " + format_inches(bay_spacing_in(model)) +
      " apart, in hangers with every hole nailed, so that " + panel.category + " in. plywood lies " + format_inches(recess) +
      " below the deck outside; the old deck's planks, splines and overlay stop at the bay, their ends on a 2x rim that stands on its joists.");
}

// The panel laid in the bay; null when it cannot be framed there.
const mechanics::PanelRow* frame_gap(OptionPlan& plan, const Site& site, const Gap& gap, double recess) {
  for (const double spacing : {16.0, 12.0})
    for (const char* rating : kBayPanels) {
      const auto& panel = bay_panel(rating);
      Model trial = with_joists(plan, site, gap, "2x6", spacing, panel.category_in);
      if (trial.bay->supports.size() < 2) return nullptr;
      FloorChecks deck;
      check_bay_deck(trial, panel, bay_spacing_in(trial), deck);
      const bool last = spacing < 13 && rating == kBayPanels[2];
      if (!deck.ok && !last) continue;
      for (const char* size : {"2x4", "2x6", "2x8", "2x10"}) {
        trial = with_joists(plan, site, gap, size, spacing, panel.category_in);
        if (!bay_passes(trial) && std::string(size) != "2x10") continue;
        plan.model = trial;
        plan.bay_checks = deck.checks;
        say_gap(plan, site, gap, recess, size, panel);
        return &panel;
      }
    }
  return nullptr;
}

}  // namespace

const mechanics::PanelRow& bay_panel(const char* rating) { return *mechanics::panel_by_rating(mechanics::PanelKind::single_floor, rating); }

double bay_dead_psf(const OptionPlan& plan, const Site& site, double panel_in) {
  return kBed_in * tables::material_facts("mortar_bed").weight_psf_per_in + finish_psf(plan.model.finish) +
         panel_in * tables::material_facts("plywood").weight_psf_per_in + site.ceiling_psf;
}

bool bay_passes(const Model& model) {
  // What is bought anyway is sized for the most that a wall may bring.
  const auto checks = check_members(model, load_paths(model, model.open_walls.empty() ? Case::known : Case::high)).checks;
  const auto in_bay = [&](const Check& check) {
    return std::any_of(model.members.begin(), model.members.end(), [&](const Member& member) { return member.in_bay && member.id == check.member; });
  };
  return std::none_of(checks.begin(), checks.end(), [&](const Check& check) { return failing(check) && in_bay(check); });
}

double bay_spacing_in(const Model& model) {
  double widest = 0;
  for (std::size_t k = 1; k < model.bay->supports.size(); ++k)
    widest = std::max(widest, distance_in(model.members[model.bay->supports[k - 1]].from, model.members[model.bay->supports[k]].from));
  return widest;
}

std::string drop_bay(OptionPlan& plan, const Site& site) {
  if (!site.job.shower || site.job.shower->outline_in.size() < 3 || site.found.members.empty()) return "no framing is recorded under the shower";
  const double recess = recess_in(site);
  const auto gap = gap_around(site.found, site.job.shower->outline_in);
  const bool wide = gap.found && gap.clear_in >= 6;
  const mechanics::PanelRow* panel = nullptr;
  std::string why = "its joists do not pass";
  if (wide)
    panel = frame_gap(plan, site, gap, recess);
  else
    why = head_off_bay(plan, site, recess, panel);
  if (!panel) return why;
  const auto& outline = plan.model.bay->outline;
  const double area_sf = area_in2(outline) / 144;
  add_good(plan, site,
           goods::panels(goods::Kind::deck_panel, "plywood " + panel->category + " in., dropped bay", panel->category_in, panel->rating,
                         area_sf * (1 + tables::usual().waste_share)));
  add_good(plan, site, goods::fasteners(area_sf * (1 + tables::usual().waste_share)));
  add_hours(plan, "dropped_bay", std::max(1.0, std::ceil(area_sf / 8)));
  plan.option.takes_out.push_back({site.found.deck.layer, false, {outline}});
  DeckPart part;
  part.words = "plywood " + panel->category + " in. over the shower, " + format_inches(recess) + " lower";
  part.thickness_in = panel->category_in;
  part.runs_degrees = plan.model.bay->degrees;
  part.top_drop_in = recess;
  part.outlines_in = {outline};
  plan.option.deck.push_back(part);
  return "";
}

}  // namespace awlmark::floor
