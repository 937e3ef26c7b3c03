#include "floor/option_plan.hpp"

#include <algorithm>
#include <cmath>

#include "base/doc.hpp"
#include "base/length.hpp"
#include "floor/build.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::floor {
namespace {

constexpr double kThinset_in = 0.1875;
constexpr double kBacker_in = 0.25;

double material_psf(const char* id, double thickness_in) { return tables::material_facts(id).weight_psf_per_in * thickness_in; }

bool touches_bearing_wall(const OptionPlan& plan, const Site& site, std::string& wall_id) {
  for (const auto& wall : site.job.walls) {
    if (!wall.bearing.value_or(false) || wall.stands_on == StandsOn::framing) continue;
    for (const auto& line : plan.option.framing) {
      if (line.kind != "sister" && line.kind != "new_member") continue;
      // A wall over the end of a member stands over its rest; elsewhere its load goes through the member.
      for (int k = 0; k <= 20; ++k) {
        const Point p{line.from_in.x_in + (line.to_in.x_in - line.from_in.x_in) * k / 20, line.from_in.y_in + (line.to_in.y_in - line.from_in.y_in) * k / 20};
        if (distance_to_segment_in(p, wall.from_in, wall.to_in) < distance_in(line.from_in, line.to_in) / 20 + 2) {
          wall_id = wall.id;
          return true;
        }
      }
    }
  }
  return false;
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
  site.material_scale = job.rates && job.rates->material_scale ? *job.rates->material_scale : 1.0;
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

void add_hours(OptionPlan& plan, const std::string& id, double quantity) {
  const auto* row = tables::table("floor_hours.csv").find("id", id);
  if (!row || !(quantity > 0)) return;
  const double times = quantity / row->number("per");
  plan.option.hours.low += row->number("low") * times;
  plan.option.hours.likely += row->number("likely") * times;
  plan.option.hours.high += row->number("high") * times;
}

void add_material(OptionPlan& plan, const Site& site, const std::string& item, double quantity, const std::string& unit, std::optional<double> piece_length_in,
                  double cost) {
  if (!(quantity > 0)) return;
  plan.material_cost += cost * site.material_scale;
  for (auto& need : plan.option.materials) {
    const bool same_length =
        need.piece_length_in.has_value() == piece_length_in.has_value() && (!piece_length_in || std::fabs(*need.piece_length_in - *piece_length_in) < 1.0 / 32);
    if (need.item == item && need.unit == unit && same_length) {
      need.quantity += quantity;
      return;
    }
  }
  plan.option.materials.push_back({item, quantity, unit, piece_length_in});
}

double lumber_cost(const Site& site, const mechanics::Section& section, double length_in) {
  (void)site;
  const double feet = length_in / 12;
  const double board_feet = mechanics::nominal_thickness(section) * section.plies * mechanics::nominal_width(section) / 12.0 * feet;
  return board_feet * tables::rate("lumber_per_bf").value;
}

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
    plan.material_cost += static_cast<double>(site.shores) * tables::rate("shore_each").value * site.material_scale;
  }
  option.cost = plan.material_cost + option.hours.likely * site.labour_per_hour;
  std::string wall;
  if (touches_bearing_wall(plan, site, wall)) {
    option.needs_engineer = true;
    option.cautions.push_back("Wall " + wall +
                              " bears load and stands over a member that this option touches: have an engineer say how it is held (IRC R502.4).");
  }
  const bool girder = std::any_of(option.framing.begin(), option.framing.end(), [&](const FramingLine& line) {
    return (line.kind == "sister" || line.kind == "new_member") && std::any_of(site.found.members.begin(), site.found.members.end(), [&](const Member& member) {
             return member.role == SupportRole::girder && line.id.find(member.id) == 0;
           });
  });
  if (girder) {
    option.needs_engineer = true;
    option.cautions.push_back("This option changes a girder: an engineer settles its fastening, shores and footings.");
  }
  if (!option.ok) {
    option.needs_engineer = true;
    std::string list;
    for (const auto& check : option.checks)
      if (!check.ok) list += (list.empty() ? "" : ", ") + check.id;
    option.cautions.push_back(list.empty() ? "What is recorded is not enough to check this option." : "These checks are not met: " + list + ".");
  }
  option.cautions.push_back("Strength and stiffness reckoned by the NDS (ASD); the local code and the building department decide.");
}

}  // namespace awlmark::floor
