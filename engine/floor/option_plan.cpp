#include "floor/option_plan.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/described.hpp"
#include "base/length.hpp"
#include "floor/bearing_walls.hpp"
#include "floor/build.hpp"
#include "floor/paths.hpp"
#include "floor/sills.hpp"
#include "floor/while_open.hpp"
#include "money/money.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::floor {
namespace {

constexpr double kMoreLoad = 1.05;  // an increase up to 5 percent leaves a member as it was (IEBC 2018 805.2, from memory)
constexpr double kThinset_in = 0.1875;
constexpr double kBacker_in = 0.25;
constexpr double kJoistsOffSoil_in = 18, kGirdersOffSoil_in = 12;  // IRC R317.1

double material_psf(const char* id, double thickness_in) { return tables::material_facts(id).weight_psf_per_in * thickness_in; }

std::string joined(const std::vector<std::string>& items) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i) out += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
  return out;
}

bool works_on(const OptionPlan& plan, const std::string& id) {
  return std::any_of(plan.option.framing.begin(), plan.option.framing.end(),
                     [&](const FramingLine& line) { return line.id == id && (line.kind == "sister" || line.kind == "trimmer" || line.kind == "new_member"); });
}

// A wall over members that are worked on stands on shores of its own, in pairs, with the load that they take.
void hold_wall(OptionPlan& plan, const Site& site, const BearingWall& bearing, double from_in, double to_in, const std::vector<std::string>& touched) {
  const auto& wall = *bearing.wall;
  plan.option.cautions.push_back("Hold wall " + wall.id + " (" + bearing.carries() + (bearing.known ? "" : ", assumed") + ") on shores of its own before " +
                                 joined(touched) + (touched.size() == 1 ? " is" : " are") + " worked on under it.");
  if (std::any_of(site.open.shores.begin(), site.open.shores.end(), [&](const Shore& shore) { return shore.under == wall.id; })) return;
  const double length = distance_in(wall.from_in, wall.to_in), each = bearing.high.sum() * kWallHeld_ft / 2;
  const int pairs = std::max(1, static_cast<int>(std::ceil((to_in - from_in) / (12 * kWallHeld_ft) - 1e-9)));
  for (int k = 0; k < pairs; ++k) {
    const double t = std::clamp((from_in + (to_in - from_in) * (k + 0.5) / pairs) / std::max(1.0, length), 0.0, 1.0);
    const Point at{wall.from_in.x_in + (wall.to_in.x_in - wall.from_in.x_in) * t, wall.from_in.y_in + (wall.to_in.y_in - wall.from_in.y_in) * t};
    for (const char* side : {"one side", "the other side"})
      plan.option.shores.push_back(
          shore_of(site.found, site.open.shores.size() + plan.option.shores.size() + 1, wall.id, at, each,
                   "half of what wall " + wall.id + " brings over " + format_number(kWallHeld_ft, 0) + " ft, on the shore on " + side + " of it"));
  }
  plan.option.steps.insert(plan.option.steps.begin(), "Hold wall " + wall.id + " first: a beam on each side of it on " + std::to_string(2 * pairs) +
                                                          " shores, " + format_number(each, 0) + " lb on each" +
                                                          (bearing.known ? "." : " at the most that it may carry."));
}

// What to ask of walls whose load nobody knows, and how walls are held over members that are worked on.
void say_walls(OptionPlan& plan, const Site& site) {
  for (const auto& bearing : bearing_walls(site.job, plan::framing_of(site.job))) {
    std::vector<std::string> touched;
    double from = 1e300, to = -1e300;
    for (const auto& off : off_rests(site.found, *bearing.wall)) {
      const auto& member = site.found.members[off.member];
      if (!works_on(plan, member.id)) continue;
      touched.push_back(member.id);
      const double at = along_segment_in(member.at(off.along_in), bearing.wall->from_in, bearing.wall->to_in);
      from = std::min(from, at), to = std::max(to, at);
    }
    if (!touched.empty() && bearing.high.sum() > 0) hold_wall(plan, site, bearing, from, to, touched);
    if (!bearing.known && plan.option.verdict != Verdict::passes && plan.option.verdict != Verdict::fails)
      plan.option.asks.push_back("What wall " + bearing.wall->id + " carries decides this way: look in the attic, or have an engineer say it (" +
                                 bearing.carries() + " run here).");
  }
}

// Pipes, wires and ducts that other new wood meets; those beside sisters were asked about when their side was chosen.
void say_obstacles(OptionPlan& plan, const Site& site) {
  for (const auto& obstacle : site.job.in_bays)
    for (const auto& member : plan.model.members) {
      if (!member.new_wood) continue;
      const Point middle{(obstacle.from_in.x_in + obstacle.to_in.x_in) / 2, (obstacle.from_in.y_in + obstacle.to_in.y_in) / 2};
      double off = 1e300;
      for (const Point& p : {obstacle.from_in, middle, obstacle.to_in}) off = std::min(off, distance_to_segment_in(p, member.from, member.to));
      if (off > member.section.b_in / 2 + obstacle.diameter_in.value_or(1.0) / 2 + 0.25) continue;
      if (obstacle.can_move.value_or(false)) add_hours(plan, "move_pipe", 1);
      plan.option.asks.push_back(doc::word_of(obstacle.kind) + " " + obstacle.id + " runs where " + member.id + " goes: " +
                                 (!obstacle.can_move   ? "can it move? Until then this way stands under that question."
                                  : *obstacle.can_move ? "moved first, its hours are counted."
                                                       : "it stays; another way, or new wood beside it."));
      break;
    }
}

// Rotten structural wood is cut out or bypassed, or the way does not pass.
void refuse_rot(OptionPlan& plan) {
  for (const auto& member : plan.model.members) {
    const bool rot = std::any_of(member.decay.begin(), member.decay.end(), [](const DecayZone& zone) { return zone.rot; });
    if (!rot || member.sister || member.cleated) continue;
    plan.option.fails_for.push_back("known rot stays in " + member.id + ", which nothing bypasses");
    plan.option.verdict = Verdict::fails;
  }
}

// New joists closer than 18 in. to soil, girders closer than 12 in., are treated (IRC R317.1).
void say_treated(OptionPlan& plan, const Site& site) {
  if (site.job.job.below != Below::crawl_space || plan.option.framing.empty()) return;
  if (!site.job.job.headroom_in)
    plan.option.asks.push_back(
        "Measure from the soil up to the framing: new joists closer than 18\", girders closer than 12\" are bought treated, with hot-dipped or stainless "
        "fasteners (IRC R317.1).");
  else if (site.treated_joists)
    plan.option.cautions.push_back(
        "The soil is closer than 18\" to the joists: new " + std::string(site.treated_girders ? "wood" : "joists and blocks") +
        " are bought treated; hangers, nails, screws and bolts in them are hot-dipped or stainless, and every cut end gets two coats of "
        "copper naphthenate (IRC R317.1, R317.1.1, R317.3).");
}

// How the new wood gets in, and what else must be opened for it.
void say_length(OptionPlan& plan, const Site& site) {
  double longest = 0;
  for (const auto& line : plan.option.framing)
    if (line.kind == "sister" || line.kind == "trimmer" || line.kind == "new_member") longest = std::max(longest, distance_in(line.from_in, line.to_in));
  if (longest <= 0 || site.found.room.size() < 3) return;
  const Box box = bounds(site.found.room);
  const double room = std::sqrt(box.width_in() * box.width_in() + box.height_in() * box.height_in());
  if (longest <= room - 12) return;
  const bool room_below = site.job.job.below == Below::room || site.job.job.storey == Storey::upper;
  plan.option.steps.push_back("Pieces " + format_length(longest) + " long do not turn in through this room: " +
                              (room_below ? "open the ceiling below along them, or the floor of the next room."
                                          : "bring them in from below, through the hatch or an opening in the foundation wall; measure it first."));
  if (room_below) add_hours(plan, "open_ceiling", longest / 12);
}

// A floor out of level or out of flat: brought level with the new work, or followed.
void say_level(OptionPlan& plan, const Site& site) {
  constexpr double kFlat_in = 0.25;  // in 10 ft, under tile
  if (!site.job.rebuild) return;
  const auto& rebuild = *site.job.rebuild;
  const double out = rebuild.out_of_level_in.value_or(0);
  if (rebuild.level == LevelPlan::level && out > 0.125) {
    const double sf = area_in2(site.found.room) / 144;
    add_hours(plan, "level", sf);
    plan.option.steps.push_back(
        "Bring the floor level by " + format_inches(out) +
        ": set the tops of new members and sisters to one line, tapered strips glued and nailed on the others, before any deck is laid.");
  } else if (out > 0.125) {
    plan.option.cautions.push_back("The new floor follows the old one, " + format_inches(out) +
                                   " out of level: doors, cabinets and the shower's fall are set out from it.");
  }
  if (tile_finish(plan.model.finish) && rebuild.out_of_flat_in.value_or(0) > kFlat_in)
    plan.option.steps.push_back(
        "Plane or pack the deck to within 1/4\" in 10 ft before the tile's underlayment (1/8\" under tiles with a side of 15\" or more); it is " +
        format_inches(*rebuild.out_of_flat_in) + " now.");
}

// Girders that the option works on stand on posts and pads, which must be seen before the load goes over.
void ask_about_girders(OptionPlan& plan, const Site& site) {
  std::vector<std::string> names;
  for (const auto& member : site.found.members) {
    if (member.role != SupportRole::girder || !works_on(plan, member.id)) continue;
    if (std::any_of(member.rests.begin(), member.rests.end(), [](const plan::Rest& rest) { return !rest.carrier.known() && !rest.pad_in; }))
      names.push_back(member.id);
  }
  if (!names.empty())
    plan.option.asks.push_back("Look at the posts and measure the footings under " + std::string(names.size() == 1 ? "girder " : "girders ") + joined(names) +
                               " before work starts: this way counts on them.");
}

// "bending of j2 and j3; deflection total of j4": every check that fails, kind by kind.
std::string failed_words(const std::vector<Check>& checks) {
  std::vector<std::string> kinds;
  std::map<std::string, std::vector<std::string>> members;
  for (const auto& check : checks) {
    if (!failing(check)) continue;
    std::string kind = check.kind;
    std::replace(kind.begin(), kind.end(), '_', ' ');
    auto& of = members[kind];
    if (of.empty()) kinds.push_back(kind);
    const std::string member = check.member.empty() ? "the deck" : check.member;
    if (std::find(of.begin(), of.end(), member) == of.end()) of.push_back(member);
  }
  std::string words;
  for (const auto& kind : kinds) words += (words.empty() ? "" : "; ") + kind + " of " + joined(members[kind]);
  return words;
}

void ask_about_checks(OptionPlan& plan) {
  if (plan.option.verdict == Verdict::ask) {
    // The question comes first; whoever cannot answer it asks an engineer.
    return;
  }
  if (plan.option.verdict != Verdict::fails && plan.option.verdict != Verdict::engineer) return;
  const auto failed = failed_words(plan.option.checks);
  plan.option.engineer_for.push_back(failed.empty() ? "what is recorded is not enough to check this way" : "checks that are not met: " + failed);
}

}  // namespace

double finish_psf(Finish finish) {
  switch (finish) {
    case Finish::sheet_vinyl:
      return material_psf("sheet_vinyl", 0.09);
    case Finish::ceramic_tile:
      return material_psf("ceramic_tile", 0.3125) + material_psf("cement_board", kBacker_in) + material_psf("mortar_bed", kThinset_in);
    case Finish::stone_tile:
      return material_psf("stone_tile", 0.5) + material_psf("cement_board", kBacker_in) + material_psf("mortar_bed", kThinset_in);
    case Finish::porcelain_tile:
    case Finish::other:  // not known: as heavy as porcelain
      break;
  }
  return material_psf("porcelain_tile", 0.375) + material_psf("cement_board", kBacker_in) + material_psf("mortar_bed", kThinset_in);
}

Site site_of(const Job& job, const Model& found, const cutback::CutBack& cut_back, const WhileOpen& open) {
  Site site{job, found, cut_back, open, 0, 0, 0, false, false, {}};
  site.labour_per_hour = money::stakes_of(job).labour_per_hour;
  for (const auto& loads : load_paths(found, Case::low).loads) site.found_lb.push_back(total_lb(loads.full));
  for (const auto& layer : job.layers) {
    const auto& kind = tables::material_facts(doc::word_of(layer.material)).kind;
    if (!layer.outline_in && (kind == "deck" || kind == "underlayment")) site.old_build_up_in += thickness_in(layer);
  }
  double layers = 0;
  for (const auto& layer : job.layers)
    if (!layer.outline_in) layers += layer_psf(layer);
  site.ceiling_psf = std::max(0.0, found.dead_psf - layers);
  const bool soil = job.job.below == Below::crawl_space && job.job.headroom_in.has_value();
  site.treated_joists = soil && *job.job.headroom_in < kJoistsOffSoil_in;
  site.treated_girders = soil && *job.job.headroom_in < kGirdersOffSoil_in;
  return site;
}

OptionPlan plan_from(const Site& site, const std::string& id, const std::string& title) {
  OptionPlan plan;
  plan.job = &site.job;
  plan.model = site.found;
  plan.option.id = id;
  plan.option.title = title;
  plan.model.as_found = false;
  plan.model.deck.rot_depth_in = 0;
  plan.model.deck.wet = false;
  for (auto& member : plan.model.members) member.wet = false;
  // Patches of old layers go or come back under the new finish; the finish's own weight covers them.
  auto& loads = plan.model.loads;
  loads.erase(std::remove_if(loads.begin(), loads.end(),
                             [&](const PlanLoad& load) {
                               return std::any_of(site.job.layers.begin(), site.job.layers.end(), [&](const Layer& layer) {
                                 return layer.outline_in && load.area == *layer.outline_in &&
                                        load.item == tables::material_facts(doc::word_of(layer.material)).spoken + " " + layer.id;
                               });
                             }),
              loads.end());
  for (const auto& layer : site.job.layers)
    if (tables::material_facts(doc::word_of(layer.material)).kind == "deck" && !layer.outline_in) plan.deck_psf += layer_psf(layer);
  plan.build_up_in = site.found.deck.kind == DeckModel::Kind::none ? 0 : site.found.deck.thickness_in;
  plan.model.dead_psf =
      site.job.rebuild && site.job.rebuild->dead_psf ? *site.job.rebuild->dead_psf : plan.deck_psf + finish_psf(plan.model.finish) + site.ceiling_psf;
  return plan;
}

void add_hours(OptionPlan& plan, const std::string& row_id, double quantity, goods::Growth grows) {
  const auto* row = tables::table("floor_hours.csv").find("id", row_id);
  if (!row || !(quantity > 0)) return;
  const double times = quantity / row->number("per");
  Labour labour;
  labour.row = row_id;
  labour.part = doc::from_word<Part>(row->text("part")).value_or(Part::framing);
  labour.quantity = quantity;
  labour.unit = row->text("unit");
  const auto hours = money::floor_hours_of(*plan.job, *row);
  labour.hours = {hours.low * times, hours.likely * times, hours.high * times};
  labour.grows = std::move(grows);
  plan.option.hours.low += labour.hours.low;
  plan.option.hours.likely += labour.hours.likely;
  plan.option.hours.high += labour.hours.high;
  plan.option.labour.push_back(std::move(labour));
}

bool treated(const Site& site, SupportRole role) { return role == SupportRole::girder ? site.treated_girders : site.treated_joists; }

mechanics::DesignValues lumber_values(const Site& site, SupportRole role, Species species, const mechanics::Section& section) {
  auto values = mechanics::design_values(species, Grade::no_2, section);
  if (!treated(site, role) || species == Species::southern_pine) return values;
  values.incised = true;
  return values;
}

void add_good(OptionPlan& plan, const Site& site, goods::Good good, goods::Growth grows) {
  if (!(good.quantity > 0)) return;
  if (good.treatment == goods::Treatment::none && goods::framing(good.kind) &&
      treated(site, good.kind == goods::Kind::girder ? SupportRole::girder : SupportRole::joist))
    goods::treat(good);
  good.grows = std::move(grows);
  plan.material_cost += goods::cost(site.job, good);
  goods::add(plan.option.goods, std::move(good));
}

goods::Section yard_section(const mechanics::Section& section) {
  return {goods::nominal_in(section.ply_b_in()), goods::nominal_in(section.d_in), section.plies};
}

goods::Growth with_deck(const Site& site) { return {goods::Extent::layer_sf, site.found.deck.layer}; }

bool tile_finish(Finish finish) { return finish == Finish::porcelain_tile || finish == Finish::ceramic_tile || finish == Finish::stone_tile; }

void settle_standing(OptionPlan& plan, const Site& site) {
  auto& model = plan.model;
  const auto loads = load_paths(model, Case::low).loads;
  for (std::size_t i = 0; i < model.members.size(); ++i) {
    auto& member = model.members[i];
    const bool more = i >= site.found_lb.size() || total_lb(loads[i].full) > kMoreLoad * site.found_lb[i];
    member.as_it_was = model.former_strength && !more && !member.was_damaged && !member.new_wood && !member.changed;
  }
  // The deck: new tile is judged as new; else by what lies on it.
  const double now = model.dead_psf + model.live_psf, then = site.found.dead_psf + site.found.live_psf;
  model.deck.as_it_was = model.former_strength && !model.deck.new_deck && !tile_finish(model.finish) && now <= kMoreLoad * then;
}

void finish_plan(OptionPlan& plan, const Site& site) {
  auto& option = plan.option;
  if (plan.blocks) cut_back_blocking(plan, site);
  settle_standing(plan, site);
  auto judged = judge(plan.model);
  option.verdict = judged.verdict;
  option.balance = judged.balance;
  option.checks.insert(option.checks.begin(), judged.checks.begin(), judged.checks.end());
  option.fails_for.insert(option.fails_for.end(), judged.fails_for.begin(), judged.fails_for.end());
  if (std::any_of(plan.bay_checks.begin(), plan.bay_checks.end(), [](const Check& check) { return failing(check); })) option.verdict = Verdict::fails;
  option.checks.insert(option.checks.end(), plan.bay_checks.begin(), plan.bay_checks.end());
  for (const auto& word : judged.words) option.cautions.push_back(word);
  option.asks.insert(option.asks.end(), judged.asks.begin(), judged.asks.end());
  refuse_rot(plan);
  if (!option.fails_for.empty()) option.verdict = Verdict::fails;
  option.height_change_in = plan.build_up_in - site.old_build_up_in;
  option.weight_psf = plan.model.dead_psf;
  mend_edges(plan, site);
  say_obstacles(plan, site);
  say_length(plan, site);
  say_level(plan, site);
  say_treated(plan, site);
  say_walls(plan, site);
  const double shores = static_cast<double>(site.open.shores.size() + option.shores.size());
  add_hours(plan, "shore", shores);
  add_good(plan, site, goods::shores(shores));
  option.cost = plan.material_cost + option.hours.likely * site.labour_per_hour;
  ask_about_girders(plan, site);
  ask_about_checks(plan);
  option.needs_engineer = !option.engineer_for.empty();
  if (option.needs_engineer && option.verdict != Verdict::fails) option.verdict = Verdict::engineer;
  option.ok = option.verdict != Verdict::fails;
  if (tile_finish(plan.model.finish) && std::fabs(option.height_change_in) > 0.03)
    option.cautions.push_back("The floor ends " + format_inches(std::fabs(option.height_change_in)) + (option.height_change_in > 0 ? " higher" : " lower") +
                              " below the finish: look at the door, the next room and the toilet's flange.");
  option.cautions.push_back("Strength and stiffness reckoned by the NDS (ASD); the local code and the building department decide.");
}

}  // namespace awlmark::floor
