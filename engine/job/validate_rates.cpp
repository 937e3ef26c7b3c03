// The contractor's rates: rows that there are, prices for their units, hours in order, one way to mark up.
#include "base/length.hpp"
#include "job/judge.hpp"
#include "tables/table.hpp"

namespace awlmark {
namespace {

// Rows of rates.csv that are keys of `rates` themselves.
bool is_a_key(const std::string& id) {
  for (const char* key : {"leave_unsound_per_sf", "tear_out_sound_per_sf", "labour_per_hour", "overhead_percent", "profit_percent"})
    if (id == key) return true;
  return false;
}

constexpr const char* kFloorTask = "floor.";

const tables::Row* price_row(const std::string& id) {
  for (const char* file : {"goods.csv", "rates.csv"})
    if (const auto* row = tables::table(file).find("id", id)) return row;
  return nullptr;
}

std::vector<std::string> price_ids() {
  std::vector<std::string> ids;
  for (const char* file : {"goods.csv", "rates.csv"})
    for (const auto& row : tables::table(file).rows())
      if (!is_a_key(row.text("id"))) ids.push_back(row.text("id"));
  return ids;
}

std::vector<std::string> task_ids() {
  std::vector<std::string> ids;
  for (const auto& row : tables::table("tasks.csv").rows()) ids.push_back(row.text("id"));
  for (const auto& row : tables::table("floor_hours.csv").rows()) ids.push_back(kFloorTask + row.text("id"));
  return ids;
}

}  // namespace

void Judge::rates(const Rates& rates) {
  ids("rates.prices", rates.prices);
  ids("rates.tasks", rates.tasks);
  date(rates.date, "rates.date");
  each("rates.prices", rates.prices, [&](const OwnPrice& own, const std::string& at) {
    if (is_a_key(own.id)) return problem(at + ".id", "is a key of its own", "give rates." + own.id);
    if (!reference(at + ".id", own.id, price_ids(), "price")) return;
    const auto& unit = price_row(own.id)->text("unit");
    if (own.unit && *own.unit != unit)
      problem(at + ".unit", "is '" + *own.unit + "'; " + own.id + " is priced by '" + unit + "'", "give the price for that unit");
  });
  each("rates.tasks", rates.tasks, [&](const OwnTask& own, const std::string& at) {
    if (!reference(at + ".id", own.id, task_ids(), "task")) return;
    const bool money = own.fee || own.fee_each || own.day_fee || own.rate_scale;
    if (money && own.id.rfind(kFloorTask, 0) == 0) problem(at, "is work of the floor, which has hours and no money of its own", "give low, likely, high alone");
    if ((own.low || own.high) && !own.likely) return problem(at + ".likely", "is missing beside low or high", "give the likely hours too");
    if (own.low.value_or(0) > own.likely.value_or(1e9)) problem(at + ".low", "is more than likely", "hours rise from low to likely to high");
    if (own.high && *own.high < *own.likely) problem(at + ".high", "is less than likely", "hours rise from low to likely to high");
  });
  if (rates.margin_percent && (rates.overhead_percent || rates.profit_percent))
    problem("rates.margin_percent", "stands beside overhead or profit; a margin is a share of the price, those are added to cost",
            "give one way: margin_percent, or overhead_percent and profit_percent");
  const bool adds_tax = rates.sales_tax_on == TaxOn::goods || rates.sales_tax_on == TaxOn::invoice;
  if (adds_tax && !rates.sales_tax_percent) problem("rates.sales_tax_percent", "is missing", "give the percent that is added");
  if (!adds_tax && rates.sales_tax_percent)
    problem("rates.sales_tax_on", "adds no tax, but a percent is given", "say goods or invoice, or leave the percent out");
}

}  // namespace awlmark
