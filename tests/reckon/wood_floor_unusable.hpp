// The cases of tests/outside/wood_floor.json that no figure of the mechanics is compared with, and why.
// A case of the file that is neither tested nor listed here fails the suite. An entry is an id, an id
// with ".key" for a single figure, or a beginning of ids with "*".
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace awlmark::testing {

inline const std::vector<std::pair<std::string, std::string>>& wood_floor_unusable() {
  static const std::vector<std::pair<std::string, std::string>> list = {
      {"JF-02", "two readings of what a table span means; the topic gives the span between bearing points"},
      {"LS-06", "a rule of laying in words"},
      {"LS-07", "a permission to leave the subfloor out; the floor stage judges the layers"},
      {"PN-04.assumes_min_spans", "a condition in words; the answer says it in its key"},
      {"PN-04.strength_axis", "a condition in words; the answer says it in its key"},
      {"PN-20", "an edge rule for underlayment, in words"},
      {"DK-08", "text of a section; its coefficients are DK-01 to DK-07"},
      {"DK-15", "a rule of laying in words"},
      {"DK-16", "nailing of decking, in words"},
      {"DK-17", "a rule of laying in words"},
      {"DK-18", "a rule of laying in words"},
      {"DK-19", "nailing of decking, in words"},
      {"NF-37", "bracing by depth and breadth, in words; the factors give CL instead"},
      {"WH-*", "clear-wood averages, never design values; nothing is reckoned from them"},
      {"DC-*", "decay in words; rotten wood counts for nothing, which residual sections of tests/floor check"},
      {"DL-02", "roof and other members, not floors"},
      {"DL-06", "limits by finish belong to the floor stage (data/deflection.csv)"},
      {"DL-07", "limits by finish belong to the floor stage (data/deflection.csv)"},
      {"DL-08", "limits by finish belong to the floor stage (data/deflection.csv)"},
      {"DL-10", "an example of a load outside the span tables, no figure to reckon"},
      {"LL-*", "live loads belong to the floor stage (data/floor_loads.csv)"},
      {"DD-*", "dead loads belong to the floor stage and the materials table"},
      {"DN-*", "densities belong to the floor stage and the materials table"},
      {"TB-*", "loads of fixtures belong to the floor stage"},
      {"NH-stiff", "stiffness of a notched joist, in words"},
      {"BR-02.sill_min_nominal_area_in2", "masonry under a sill is outside what the tool looks at"},
      {"BR-03", "laps of joists, in words"},
      {"FO-*", "framing of openings, in words"},
      {"GR-01", "headers under roof and snow, not floors"},
      {"GR-02", "headers under roof and snow, not floors"},
      {"GR-03", "headers under roof and snow, not floors"},
      {"GR-04", "headers under roof and snow, not floors"},
      {"GR-05", "headers under roof and snow, not floors"},
      {"GR-06", "a multiplier of the header tables; the engine reckons CL instead"},
      {"GR-07", "interpolation between snow loads in a header table"},
      {"PC-08.max_le_over_d_during_construction", "a limit for erection; the answer speaks of service"},
      {"SH-*", "shoring belongs to the floor stage"},
      {"FT-07", "wall footings by storeys; the tool looks at pads under posts"},
      {"FT-08", "wall footings by storeys; the tool looks at pads under posts"},
      {"FT-09", "wall footings by storeys; the tool looks at pads under posts"},
      {"FT-10", "wall footings by storeys; the tool looks at pads under posts"},
      {"FT-11", "wall footings by storeys; the tool looks at pads under posts"},
      {"WE-02.live_deflection_in", "the live share of the load is not among the inputs of the case"},
      {"WE-02.deflection_passes", "the live share of the load is not among the inputs of the case"},
  };
  return list;
}

inline bool is_unusable(const std::string& id, const std::string& key) {
  for (const auto& [entry, why] : wood_floor_unusable()) {
    if (entry == id || entry == id + "." + key) return true;
    if (entry.back() == '*' && id.compare(0, entry.size() - 1, entry, 0, entry.size() - 1) == 0) return true;
  }
  return false;
}

}  // namespace awlmark::testing
