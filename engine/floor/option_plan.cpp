#include "floor/option_plan.hpp"

#include <algorithm>
#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "floor/bearing_walls.hpp"
#include "floor/build.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::floor {
namespace {

constexpr double kThinset_in = 0.1875;
constexpr double kBacker_in = 0.25;

double material_psf(const char* id, double thickness_in) { return tables::material_facts(id).weight_psf_per_in * thickness_in; }

std::string joined(const std::vector<std::string>& items) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i) out += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
  return out;
}

// Members that a bearing wall loads away from their rests, split by whether the option works on them.
void ask_about_walls(OptionPlan& plan, const Site& site) {
  for (const auto& bearing : bearing_walls(site.job)) {
    std::vector<std::string> loaded, touched;
    double farthest_in = 0;
    for (const auto& off : off_rests(site.found, *bearing.wall)) {
      const auto& id = site.found.members[off.member].id;
      loaded.push_back(id);
      farthest_in = std::max(farthest_in, off.from_rest_in);
      if (std::any_of(plan.option.framing.begin(), plan.option.framing.end(),
                      [&](const FramingLine& line) { return line.id == id && (line.kind == "sister" || line.kind == "new_member"); }))
        touched.push_back(id);
    }
    if (loaded.empty()) continue;
    if (!bearing.load_given)
      plan.option.engineer_for.push_back("wall " + bearing.wall->id + " stands on " + joined(loaded) + " up to " + format_length(farthest_in) +
                                         " from a rest, and its load (" + format_number(bearing.plf(), 0) +
                                         " lb/ft) is only assumed: IRC R502.4 asks that the members be sized for it");
    if (!touched.empty())
      plan.option.engineer_for.push_back("how wall " + bearing.wall->id + " is held while " + joined(touched) + (touched.size() == 1 ? " is" : " are") +
                                         " worked on under it");
  }
}

// Girders that the option works on.
void ask_about_girders(OptionPlan& plan, const Site& site) {
  std::vector<std::string> names;
  for (const auto& member : site.found.members) {
    if (member.role != SupportRole::girder) continue;
    if (std::any_of(plan.option.framing.begin(), plan.option.framing.end(),
                    [&](const FramingLine& line) { return line.id == member.id && (line.kind == "sister" || line.kind == "new_member"); }))
      names.push_back(member.id);
  }
  if (!names.empty())
    plan.option.engineer_for.push_back("fastening, shores and footings of " + std::string(names.size() == 1 ? "girder " : "girders ") + joined(names) +
                                       ", which this way changes");
}

void ask_about_checks(OptionPlan& plan) {
  if (plan.option.ok) return;
  std::vector<std::string> failed;
  for (const auto& check : plan.option.checks)
    if (!check.ok) failed.push_back(check.id);
  constexpr std::size_t kNamed = 6;
  const std::size_t more = failed.size() > kNamed ? failed.size() - kNamed : 0;
  failed.resize(failed.size() - more);
  plan.option.engineer_for.push_back(failed.empty()
                                         ? "what is recorded is not enough to check this way"
                                         : "checks that are not met: " + joined(failed) + (more > 0 ? " and " + std::to_string(more) + " more" : ""));
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

Site site_of(const Job& job, const Model& found, const cutback::CutBack& cut_back, std::size_t shores) {
  Site site{job, found, cut_back};
  site.labour_per_hour = job.rates && job.rates->labour_per_hour ? *job.rates->labour_per_hour : tables::rate("labour_per_hour").value;
  site.shores = shores;
  for (const auto& layer : job.layers) {
    const auto& kind = tables::material_facts(doc::word_of(layer.material)).kind;
    if (!layer.outline_in && (kind == "deck" || kind == "underlayment")) site.old_build_up_in += thickness_in(layer);
  }
  double layers = 0;
  for (const auto& layer : job.layers)
    if (!layer.outline_in) layers += layer_psf(layer);
  site.ceiling_psf = std::max(0.0, found.dead_psf - layers);
  return site;
}

OptionPlan plan_from(const Site& site, const std::string& id, const std::string& title) {
  OptionPlan plan;
  plan.model = site.found;
  plan.option.id = id;
  plan.option.title = title;
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
  labour.hours = {row->number("low") * times, row->number("likely") * times, row->number("high") * times};
  labour.grows = std::move(grows);
  plan.option.hours.low += labour.hours.low;
  plan.option.hours.likely += labour.hours.likely;
  plan.option.hours.high += labour.hours.high;
  plan.option.labour.push_back(std::move(labour));
}

void add_good(OptionPlan& plan, const Site& site, goods::Good good, goods::Growth grows) {
  if (!(good.quantity > 0)) return;
  good.grows = std::move(grows);
  plan.material_cost += goods::cost(site.job, good);
  goods::add(plan.option.goods, std::move(good));
}

goods::Section yard_section(const mechanics::Section& section) {
  return {goods::nominal_in(section.ply_b_in()), goods::nominal_in(section.d_in), section.plies};
}

goods::Growth with_deck(const Site& site) { return {goods::Extent::layer_sf, site.found.deck.layer}; }

void finish_plan(OptionPlan& plan, const Site& site) {
  auto& option = plan.option;
  const auto checks = check_model(plan.model);
  option.checks = checks.checks;
  option.ok = checks.ok;
  for (const auto& word : checks.words) option.cautions.push_back(word);
  option.height_change_in = plan.build_up_in - site.old_build_up_in;
  option.weight_psf = plan.model.dead_psf;
  if (site.shores > 0) {
    add_hours(plan, "shore", static_cast<double>(site.shores));
    add_good(plan, site, goods::shores(static_cast<double>(site.shores)));
  }
  option.cost = plan.material_cost + option.hours.likely * site.labour_per_hour;
  ask_about_walls(plan, site);
  ask_about_girders(plan, site);
  ask_about_checks(plan);
  option.needs_engineer = !option.engineer_for.empty();
  option.cautions.push_back("Strength and stiffness reckoned by the NDS (ASD); the local code and the building department decide.");
}

}  // namespace awlmark::floor
