#include "price/change.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/length.hpp"

namespace awlmark::price {
namespace {

constexpr double kNothing = 0.05;  // of a square foot, a foot, a piece

std::string place(const Mark& mark) {
  if (mark.support) return "on " + *mark.support + (mark.along_in ? " at " + format_length(*mark.along_in) : std::string());
  if (mark.wall) return "at wall " + *mark.wall + (mark.along_in ? " at " + format_length(*mark.along_in) : std::string());
  return "on " + mark.layer.value_or("the floor") +
         (mark.at_in ? " at (" + format_length(mark.at_in->x_in) + ", " + format_length(mark.at_in->y_in) + ")" : std::string());
}

std::vector<std::string> found_between(const Job& before, const Job& after) {
  std::set<std::string> known;
  for (const auto& mark : before.marks) known.insert(mark.id);
  std::vector<std::string> found;
  for (const auto& mark : after.marks) {
    if (known.count(mark.id)) continue;
    std::string words = "mark " + mark.id + " " + place(mark) + ": ";
    if (mark.reads) words += doc::spoken(*mark.reads);
    if (mark.mc_percent) words += (mark.reads ? ", " : "") + format_number(*mark.mc_percent, 1) + " percent moisture";
    if (mark.depth_in) words += ", " + format_inches(*mark.depth_in) + " deep";
    found.push_back(words);
  }
  const auto results = [](const Job& job) { return job.hazards ? job.hazards->facts.laboratory : std::vector<LaboratoryResult>{}; };
  const auto then = results(before);
  for (const auto& result : results(after)) {
    const bool old = std::any_of(then.begin(), then.end(), [&](const LaboratoryResult& r) {
      return r.layer == result.layer && r.wall == result.wall && r.part == result.part && r.result == result.result;
    });
    if (!old)
      found.push_back("laboratory: " + result.layer.value_or(result.wall.value_or("sample")) + " " +
                      (result.result == LaboratoryWord::clear ? "clear of asbestos" : "holds asbestos"));
  }
  return found;
}

double unit_price_of(const Price& price, const std::string& item) {
  for (const auto& unit : price.unit_prices)
    if (unit.item == item) return unit.price;
  return 0;
}

double quantity_of(const Price& price, const std::string& item) {
  for (const auto& one : price.base_quantities)
    if (one.item == item) return one.quantity;
  return 0;
}

std::string way(const floor::Floor& floor) {
  for (const auto& option : floor.options)
    if (option.id == floor.chosen) return option.title;
  return {};
}

}  // namespace

ChangeOrder change_order(const JobState& before, const JobState& after) {
  ChangeOrder out;
  out.found = found_between(before.job, after.job);
  const auto compare = [&](const BaseItem& one) {
    const double more = quantity_of(after.price, one.item) - quantity_of(before.price, one.item);
    if (std::fabs(more) < kNothing) return;
    const double price = unit_price_of(before.price, one.item);
    (more > 0 ? out.added : out.taken_away).push_back({one.item, std::fabs(more), one.unit, price, more * price});
    out.at_unit_prices += more * price;
  };
  for (const auto& one : after.price.base_quantities) compare(one);
  for (const auto& one : before.price.base_quantities)
    if (quantity_of(after.price, one.item) == 0) compare(one);
  out.way_before = way(before.floor);
  out.way_after = way(after.floor);
  out.total_before = before.price.base;
  out.total_after = after.price.base;
  out.money = out.total_after - out.total_before;
  out.days = after.work.finish.p50_days - before.work.finish.p50_days;
  out.finish_before = before.work.finish.p50;
  out.finish_after = after.work.finish.p50;
  if (out.way_before != out.way_after) out.words.push_back("The way to rebuild changes from \"" + out.way_before + "\" to \"" + out.way_after + "\".");
  if (out.total_after > before.price.cap)
    out.words.push_back("With this change the work goes past the cap agreed before: it stops, safe, until the owner has signed.");
  out.words.push_back("Signed by owner and contractor before its work starts; measured together and photographed before it is covered.");
  return out;
}

}  // namespace awlmark::price
