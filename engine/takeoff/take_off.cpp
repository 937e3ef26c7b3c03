#include <algorithm>

#include "base/length.hpp"
#include "takeoff/parts.hpp"

namespace awlmark::takeoff {

std::string figure_text(double value, int digits) { return format_number(value, digits); }
std::string waste_words(double share) { return "with " + format_number(share * 100, 0) + " percent waste"; }

void add_line(TakeOff& found, const std::string& id, const Stocked& what, double quantity, const std::string& from, const std::string& group,
              const goods::Growth& grows) {
  if (quantity <= 0) return;
  found.lines.push_back({id, what.item, quantity, what.unit, from, group, what.price, grows});
}

TakeOff take_off(const Job& job, const cutback::CutBack& cut_back, const floor::Floor& floor, const ShowerAmounts& shower) {
  Site site{job, cut_back, floor, nullptr, shower};
  const auto chosen = std::find_if(floor.options.begin(), floor.options.end(), [&](const floor::Option& o) { return o.id == floor.chosen; });
  if (chosen != floor.options.end()) site.option = &*chosen;
  TakeOff found;
  take_out(site, found);
  put_back_floor(site, found);
  put_back_finish(site, found);
  put_in_shower(site, found);
  protect(site, found);
  one_more(site, found);
  found.notes.push_back("Prices of goods are starting values that the contractor sets, counter prices with sales tax in them.");
  if (found.debris_lb > 0)
    found.notes.push_back("Public tables of debris weights spread by half for one material: treat weight and volume as within a third either way.");
  return found;
}

}  // namespace awlmark::takeoff
