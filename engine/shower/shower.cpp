#include "shower/shower.hpp"

#include <algorithm>

#include "base/length.hpp"
#include "shower/site.hpp"

namespace awlmark::shower {

Shower shower(const Job& job, const floor::Floor* floor) {
  Shower found;
  const Place place = place_of(job);
  found.assumed = place.assumed;
  found.asks = place.asks;
  for (const auto& side : place.sides)
    if (side.open) found.entry_in.push_back({side.from, side.to});
  fall_conflicts(place, found);
  if (place.ring.size() >= 3) clearances(place, found);
  found.cautions = {
      "The plumbing code of the place and its inspector decide on drain, vent, fall and test; a licensed plumber does the work where the law asks for one.",
      "Do not fill a shower for its test over framing that is not finished: "
      "the water weighs as much as a person."};
  for (const auto& check : found.checks)
    if (!check.ok && check.kind == "clearance")
      found.conflicts.push_back((check.id.rfind("accessible", 0) == 0 ? "The accessible-design standard asks for more: " : "The code asks for more: ") +
                                check.reason.rule + " is " + format_number(check.capacity, 1) + " " + check.reason.unit + ", at least " +
                                format_number(check.demand, 0) + " is asked.");
  if (!place.pan) return found;
  found.answers = answers(place, floor, found);
  const auto taken = std::find_if(found.answers.begin(), found.answers.end(), [&](const ShowerAnswer& a) { return a.id == found.chosen; });
  const ShowerAnswer* answer = taken == found.answers.end() ? nullptr : &*taken;
  if (answer) {
    found.checks.insert(found.checks.end(), answer->checks.begin(), answer->checks.end());
    accessible_step(place, *answer, found);
  }
  found.pan = pan_findings(place, answer ? answer->bed_at_drain_in : usual_in("bed"));
  found.drain_run = drain_run(place, floor, answer, found);
  found.flood_test = flood_test(place);
  found.checks.push_back(found.flood_test->check);
  found.wet_area = wet_area(place);
  found.tile_layouts = tile_layouts(place, found);
  return found;
}

}  // namespace awlmark::shower
