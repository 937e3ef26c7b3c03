#include "measure/measure.hpp"

#include <utility>

namespace awlmark::measure {

bool operator==(const Quantities& a, const Quantities& b) {
  return a.layer_sf == b.layer_sf && a.saw_ft == b.saw_ft && a.blocking_ft == b.blocking_ft && a.plate_ft == b.plate_ft && a.wallboard_sf == b.wallboard_sf &&
         a.members == b.members;
}

Quantities quantities(const Map& map, const std::vector<char>& out, std::vector<MemberState> members) {
  Quantities sum;
  sum.layer_sf.assign(map.layers, 0);
  sum.members = std::move(members);
  for (std::size_t p = 0; p < map.parts.size(); ++p) {
    if (!out[p]) continue;
    const Part& part = map.parts[p];
    if (part.what == Part::What::plate)
      sum.plate_ft += part.amount;
    else if (part.what == Part::What::wallboard)
      sum.wallboard_sf += part.amount;
    else if (part.layer != kNone)
      sum.layer_sf[static_cast<std::size_t>(part.layer)] += part.amount;
  }
  sum.blocking_ft = map.blocking_ft;
  for (const auto& line : map.lines) {
    const bool a = out[static_cast<std::size_t>(line.a)] != 0, b = line.b != kNone && out[static_cast<std::size_t>(line.b)] != 0;
    if (line.b == kNone ? !a : a == b) continue;
    if (line.sawn) sum.saw_ft += line.length_ft;
    if (line.blocked) sum.blocking_ft += line.length_ft;
  }
  return sum;
}

}  // namespace awlmark::measure
