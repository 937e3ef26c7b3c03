#include "tables/usual.hpp"

#include <stdexcept>
#include <string>

#include "tables/table.hpp"

namespace awlmark::tables {
namespace {

double value_of(const char* file, const char* id) {
  const Row* row = table(file).find("id", id);
  if (row == nullptr) throw std::logic_error(std::string("data/") + file + " has no row for " + id);
  return row->number("value");
}

Usual read() {
  const auto of = [](const char* id) { return value_of("usual.csv", id); };
  constexpr double kIn3PerGal = 231, kIn3PerFt3 = 1728;
  Usual u;
  u.member_depth_in = of("member_depth_in");
  u.wallboard_in = of("wallboard_in");
  u.plate_thickness_in = of("plate_thickness_in");
  u.plate_width_in = of("plate_width_in");
  u.waste_share = of("waste_share");
  u.waste_grout_share = of("waste_grout_share");
  u.waste_bed_share = of("waste_bed_share");
  u.bag_limit_lb = of("bag_limit_lb");
  u.bag_ft3 = of("bag_gal") * kIn3PerGal / kIn3PerFt3;
  u.bag_fill_share = of("bag_fill_share");
  u.pace_spread = of("pace_spread");
  u.market_spread = of("market_spread");
  return u;
}

}  // namespace

const Usual& usual() {
  static const Usual once = read();
  return once;
}

double pin_meter(const char* id) { return value_of("pin_meter.csv", id); }

}  // namespace awlmark::tables
