#include "mechanics/footing.hpp"

#include <cmath>

#include "base/described.hpp"
#include "base/length.hpp"
#include "base/special.hpp"
#include "tables/table.hpp"

namespace awlmark::mechanics {

SoilRow soil_bearing(Soil soil) {
  const auto* row = tables::table("soils.csv").find("soil", doc::word_of(soil));
  return {row->number("bearing_psf"), row->reason()};
}

Pad pad_for(double load_lb, double soil_psf) {
  constexpr double kIn2PerFt2 = 144;
  Pad pad;
  pad.area_ft2 = soil_psf > 0 ? load_lb / soil_psf : 0;
  pad.square_side_in = std::sqrt(pad.area_ft2 * kIn2PerFt2);
  pad.round_diameter_in = std::sqrt(4 * pad.area_ft2 * kIn2PerFt2 / kPi);
  Reason& r = pad.reason;
  r.compares = "load on a pad against the soil's bearing value; the pad's own weight is not counted";
  r.unit = "sq ft";
  r.rule = "R403.1.1: area = load / soil bearing";
  r.source = "IRC";
  r.edition = "2018";
  r.status = SourceStatus::read;
  r.steps.push_back(format_number(load_lb, 0) + " lb / " + format_number(soil_psf, 0) + " psf = " + format_number(pad.area_ft2, 3) + " sq ft");
  return pad;
}

}  // namespace awlmark::mechanics
