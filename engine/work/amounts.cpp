// How much there is of everything that tasks are reckoned by, and which kinds of task a job asks for.
#include <algorithm>
#include <cmath>

#include "tables/materials.hpp"
#include "tables/usual.hpp"
#include "takeoff/quantities.hpp"
#include "work/site.hpp"

namespace awlmark::work {
namespace {

constexpr double kLiftDefault_h = 1;
constexpr double kSmall_sf = 12;  // a hole that one visit mends

using goods::Extent;
using goods::Growth;

bool has_gate(const hazards::Hazards& found, const std::string& id) {
  return std::any_of(found.gates.begin(), found.gates.end(), [&](const hazards::Gate& g) { return g.id == id; });
}

bool tile_finish(const Job& job) {
  return job.rebuild && (job.rebuild->finish == awlmark::Finish::porcelain_tile || job.rebuild->finish == awlmark::Finish::ceramic_tile ||
                         job.rebuild->finish == awlmark::Finish::stone_tile);
}

double room_sf(const Job& job) {
  Region left = as_region(job.room.outline_in);
  if (job.shower) left = subtract(left, as_region(job.shower->outline_in));
  return area_in2(left) / 144;
}

double around_ft(const Polygon& ring) {
  double around_in = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) around_in += distance_in(ring[i], ring[(i + 1) % ring.size()]);
  return around_in / 12;
}

Growth with_layer(const Job& job, std::size_t layer) { return {Extent::layer_sf, job.layers[layer].id}; }

double bags(Material material, double area_sf, double thick_in) {
  const auto made = takeoff::debris_of(material, area_sf, thick_in);
  return std::max(made.lb / tables::usual().bag_limit_lb, made.yd3 * 27 / takeoff::filled_bag_ft3());
}

bool framing_work(const WorkSite& site) {
  if (!site.cut.members.empty()) return true;
  if (!site.option) return false;
  return std::any_of(site.option->goods.begin(), site.option->goods.end(), [](const goods::Good& good) {
    return goods::is_lumber(good.kind) && good.kind != goods::Kind::blocking && good.kind != goods::Kind::plank;
  });
}

double patch_sf(const WorkSite& site, std::size_t& layer) {
  double most = 0;
  for (std::size_t i = 0; i < site.job.layers.size(); ++i) {
    if (tables::material_facts(doc::word_of(site.job.layers[i].material)).kind != "finish") continue;
    if (layer == site.job.layers.size()) layer = i;
    if (layer_out_sf(site, i) > most) most = layer_out_sf(site, i), layer = i;
  }
  return most;
}

double bearing_walls_held(const WorkSite& site) {
  double count = 0;
  for (const auto& wall : site.job.walls) {
    const auto cut = site.cut.plate_ft.find(wall.id);
    count += wall.bearing != false && cut != site.cut.plate_ft.end() && cut->second > 0;
  }
  return count;
}

}  // namespace

double layer_out_sf(const WorkSite& site, std::size_t layer) { return layer < site.cut.quantities.layer_sf.size() ? site.cut.quantities.layer_sf[layer] : 0; }

bool lifted(const WorkSite& site, const Fixture& fixture) {
  if (!fixture.stands) return false;
  const bool built_in = fixture.kind == FixtureKind::tub || fixture.kind == FixtureKind::shower;
  if (site.job.rebuild && !built_in) return true;  // the new finish goes under it
  if (fixture.outline_in.size() < 3) return true;
  const Region under = as_region(fixture.outline_in);
  for (const auto& [layer, rings] : site.cut.outlines_in)
    for (const auto& ring : rings)
      if (ring.size() >= 3 && area_in2(intersect(under, as_region(ring))) > 1) return true;
  return false;
}

std::set<std::size_t> removed_layers(const WorkSite& site) {
  std::set<std::size_t> out;
  const auto kind = [&](std::size_t layer) { return tables::material_facts(doc::word_of(site.job.layers[layer].material)).kind; };
  for (const std::size_t layer : site.positive) {
    for (std::size_t above = 0; above <= layer; ++above) out.insert(above);
    if (layer + 1 < site.job.layers.size() && kind(layer + 1) == "underlayment") out.insert(layer + 1);
  }
  // The deck is the crew's, once what lay on it is gone and the room is cleared.
  const Layer* deck = structural_deck(site.job);
  for (std::size_t i = 0; i < site.job.layers.size(); ++i)
    if (&site.job.layers[i] == deck && !site.positive.count(i)) out.erase(i);
  return out;
}

std::set<std::string> flags_of(const WorkSite& site) {
  const auto& job = site.job;
  std::set<std::string> on{"always"};
  const auto set = [&](const char* name, bool yes) {
    if (yes) on.insert(name);
  };
  double widest_sf = 0;
  for (std::size_t i = 0; i < job.layers.size(); ++i) widest_sf = std::max(widest_sf, layer_out_sf(site, i));
  const bool small = widest_sf <= kSmall_sf && !job.rebuild && !job.shower;
  set(small ? "small" : "large", true);
  set("suspects", site.suspects > 0);
  set("asbestos", !site.positive.empty());
  set("engineer", site.option && site.option->needs_engineer);
  set("contain", has_gate(site.hazards, "lead_contain") || has_gate(site.hazards, "growth_limited") || has_gate(site.hazards, "growth_full"));
  set("lead", has_gate(site.hazards, "lead_cleaned"));
  set("dirty_water", has_gate(site.hazards, "water_black_clean") || has_gate(site.hazards, "water_grey_clean"));
  set("water_runs", has_gate(site.hazards, "water_stopped"));
  set("fixtures", std::any_of(job.fixtures.begin(), job.fixtures.end(), [&](const Fixture& f) { return lifted(site, f); }));
  set("reset", amounts_of(site).at("reset_hours").quantity > 0);
  set("only_toilet", job.job.only_toilet == true && job.job.occupied.value_or(true));
  set("shores", !site.floor.while_open.shores.empty());
  set("shower", job.shower.has_value());
  set("tile", tile_finish(job));
  set("sheet", job.rebuild && !tile_finish(job));
  set("patch", !job.rebuild);
  const bool granted = job.work && job.work->permit && job.work->permit->granted;
  const auto needed = job.work && job.work->permit ? job.work->permit->needed : std::optional<bool>{};
  const auto asked = job.settings ? job.settings->permit_required : std::optional<bool>{};
  set("permit", needed.value_or(asked.value_or(false) || job.shower || framing_work(site)));
  set("permit_open", on.count("permit") && !granted);
  set(site.option && site.option->hours.likely > 0 ? "option" : "no_option", true);
  set("cancellation", !job.settings || job.settings->cancellation_days.value_or(1) > 0);
  // An insurer who pays looks first; one who has denied does not.
  set("adjuster", job.claim && !job.claim->denied.value_or(false));
  // Without a reading it is not known to be dry: the fans are planned.
  double wettest = -1;
  for (const auto& mark : job.marks)
    if (mark.mc_percent) wettest = std::max(wettest, *mark.mc_percent);
  const bool released = site.drying && site.drying->released;
  set("wet", !released && (wettest < 0 || wettest > tables::moisture_percent("wet_where_none")));
  return on;
}

std::map<std::string, Amount> amounts_of(const WorkSite& site) {
  const auto& job = site.job;
  const auto& out = site.cut.quantities;
  std::map<std::string, Amount> has;
  has["one"] = {1, "job"};
  has["suspects"] = {static_cast<double>(site.suspects), "layer"};
  has["room_sf"] = {room_sf(job), "sf"};
  has["finish_sf"] = {room_sf(job), "sf"};
  const double shower_sf = job.shower ? area_in2(job.shower->outline_in) / 144 : 0;
  has["shower_sf"] = {shower_sf, "sf"};
  has["shower_one"] = {job.shower ? 1.0 : 0.0, "shower"};
  has["grout_sf"] = {room_sf(job) + shower_sf, "sf"};
  // Without a new finish the base comes off and goes back along the patch only.
  double patch_side_ft = 0;
  std::size_t patched = job.layers.size();
  const double patch = patch_sf(site, patched);
  patch_side_ft = std::min(around_ft(job.room.outline_in), 2 * std::sqrt(patch));
  has["base_ft"] = {job.rebuild ? around_ft(job.room.outline_in) : patch_side_ft, "ft"};
  double lift = 0, reset = 0;
  for (const auto& fixture : job.fixtures) {
    const double hours = fixture.lift_hours.value_or(kLiftDefault_h);
    if (lifted(site, fixture)) lift += hours;
    if (fixture.reset.value_or(lifted(site, fixture) || (!fixture.stands && fixture.kind == FixtureKind::toilet))) reset += hours;
  }
  has["lift_hours"] = {lift, "h"};
  has["reset_hours"] = {reset, "h"};
  has["shores"] = {static_cast<double>(site.floor.while_open.shores.size()), "shore"};
  has["bearing_walls"] = {bearing_walls_held(site), "wall"};
  has["edge_ft"] = {out.saw_ft, "ft", {{{Extent::saw_ft, {}}, 1}}};
  has["plate_ft"] = {out.plate_ft, "ft", {{{Extent::plate_ft, {}}, 1}}};
  has["wallboard_sf"] = {out.wallboard_sf, "sf", {{{Extent::wallboard_sf, {}}, 1}}};
  has["blocking_ft"] = {out.blocking_ft, "ft", {{{Extent::blocking_ft, {}}, 1}}};
  has["members"] = {static_cast<double>(std::count_if(out.members.begin(), out.members.end(), [](auto s) { return s != measure::MemberState::whole; })),
                    "member",
                    {{{Extent::members, {}}, 1}}};
  auto& carried = has["bags"] = {static_cast<double>(site.take_off.bags), "bag"};
  for (std::size_t i = 0; i < job.layers.size(); ++i)
    carried.grows.push_back({with_layer(job, i), bags(job.layers[i].material, 1, thickness_in(job.layers[i]))});
  carried.grows.push_back({{Extent::plate_ft, {}}, bags(Material::wall_plate, tables::usual().plate_width_in / 12, tables::usual().plate_thickness_in)});
  carried.grows.push_back({{Extent::wallboard_sf, {}}, bags(Material::gypsum_board, 1, tables::usual().wallboard_in)});
  auto& deck_sf = has["deck_sf"] = {0, "sf"};
  const Layer* deck = structural_deck(job);
  for (std::size_t i = 0; i < job.layers.size(); ++i)
    if (&job.layers[i] == deck) deck_sf = {layer_out_sf(site, i), "sf", {{with_layer(job, i), 1}}};
  auto& patch_amount = has["patch_sf"] = {patch, "sf"};
  if (patched < job.layers.size()) patch_amount.grows = {{with_layer(job, patched), 1}};
  // What is taken out under licence goes whole: where a new finish comes, all of it; else where the floor is cut.
  double suspect = 0;
  for (const std::size_t layer : site.positive) {
    const auto& one = job.layers[layer];
    const double whole = area_in2(one.outline_in ? *one.outline_in : job.room.outline_in) / 144;
    suspect = std::max(suspect, job.rebuild ? whole : layer_out_sf(site, layer));
  }
  has["suspect_sf"] = {suspect, "sf"};
  return has;
}

}  // namespace awlmark::work
