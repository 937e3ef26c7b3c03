#include "takeoff/quantities.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/described.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"
#include "tables/usual.hpp"

namespace awlmark::takeoff {
namespace {

const char* debris_kind(Material material) {
  switch (material) {
    case Material::ceramic_tile:
    case Material::porcelain_tile:
    case Material::stone_tile:
    case Material::mortar_bed:
    case Material::cement_board:
      return "mineral";
    case Material::board:
    case Material::plank_tg:
    case Material::wall_plate:
      return "boards";
    case Material::hardboard:
    case Material::particleboard:
    case Material::plywood_underlayment:
    case Material::plywood:
    case Material::osb:
      return "sheets";
    case Material::gypsum_board:
      return "gypsum";
    case Material::sheet_vinyl:
    case Material::sheet_linoleum:
    case Material::vinyl_tile:
    case Material::asphalt_tile:
    case Material::felt:
    case Material::adhesive:
      return "flexible";
  }
  return "boards";
}

}  // namespace

Debris debris_of(Material material, double area_sf, double thickness_in) {
  const auto* row = tables::table("debris.csv").find("id", debris_kind(material));
  if (!row) throw std::logic_error("data: debris.csv lacks a kind");
  const auto& facts = tables::material_facts(doc::word_of(material));
  Debris debris;
  debris.lb = area_sf * thickness_in * facts.weight_psf_per_in;
  debris.yd3 = area_sf * thickness_in / 12 * row->number("bulking") / 27;
  debris.reason = row->reason();
  debris.reason.compares = "weight and loose volume of " + facts.spoken;
  return debris;
}

double loose_density(double solid_lb_per_ft3, double bulking) { return solid_lb_per_ft3 * 27 / bulking; }

double filled_bag_ft3() { return tables::usual().bag_ft3 * tables::usual().bag_fill_share; }

int bags_for(double lb, double yd3) {
  const double by_weight = std::ceil(lb / tables::usual().bag_limit_lb - 1e-9), by_volume = std::ceil(yd3 * 27 / filled_bag_ft3() - 1e-9);
  return static_cast<int>(std::max({0.0, by_weight, by_volume}));
}

Grout grout_volume(double tile_length_in, double tile_width_in, double joint_in, double depth_in, double area_sf) {
  const double area_in2 = area_sf * 144;
  Grout grout;
  const double unit_in2 = (tile_length_in + joint_in) * (tile_width_in + joint_in);
  grout.volume_in3 = area_in2 * depth_in * (1 - tile_length_in * tile_width_in / unit_in2);
  grout.rough_in3 = area_in2 * joint_in * depth_in * (tile_length_in + tile_width_in) / (tile_length_in * tile_width_in);
  return grout;
}

}  // namespace awlmark::takeoff
