#include "money/money.hpp"

#include <algorithm>

#include "tables/materials.hpp"

namespace awlmark::money {
namespace {

template <class T>
const T* own(const Job& job, std::vector<T> Rates::*list, const std::string& id) {
  if (!job.rates) return nullptr;
  const auto& all = (*job.rates).*list;
  const auto found = std::find_if(all.begin(), all.end(), [&](const T& one) { return one.id == id; });
  return found == all.end() ? nullptr : &*found;
}

double given(const Job& job, std::optional<double> Rates::*member, const char* id) {
  if (job.rates && (*job.rates).*member) return *((*job.rates).*member);
  return tables::rate(id).value;
}

TaskHours own_hours(const Job& job, const tables::Row& row, const std::string& id) {
  const TaskHours hours{row.number("low"), row.number("likely"), row.number("high")};
  const auto* task = own(job, &Rates::tasks, id);
  if (!task || !task->likely) return hours;
  const double moved = hours.likely > 0 ? *task->likely / hours.likely : 1;
  return {std::min(*task->likely, task->low.value_or(hours.low * moved)), *task->likely, std::max(*task->likely, task->high.value_or(hours.high * moved))};
}

double scale(const Job& job) { return job.rates ? job.rates->material_scale.value_or(1) : 1; }

}  // namespace

double rate(const Job& job, const std::string& id) {
  const auto* price = own(job, &Rates::prices, id);
  return price ? price->price : tables::rate(id).value;
}

double price_of_stock(const Job& job, const std::string& id) {
  const auto* price = own(job, &Rates::prices, id);
  return price ? price->price : tables::rate(id).value * scale(job);
}

double price_of_goods(const Job& job, const std::string& id) {
  const auto* price = own(job, &Rates::prices, id);
  return price ? price->price : tables::table("goods.csv").find("id", id)->number("price") * scale(job);
}

Stakes stakes_of(const Job& job) {
  Stakes stakes;
  stakes.leave_unsound_per_sf = given(job, &Rates::leave_unsound_per_sf, "leave_unsound_per_sf");
  stakes.tear_out_sound_per_sf = given(job, &Rates::tear_out_sound_per_sf, "tear_out_sound_per_sf");
  stakes.labour_per_hour = given(job, &Rates::labour_per_hour, "labour_per_hour");
  stakes.opening = job.rates && job.rates->opening ? *job.rates->opening : rate(job, "opening_hours") * stakes.labour_per_hour;
  stakes.patch_per_opening = rate(job, "patch_per_opening");
  stakes.only_toilet_per_day = rate(job, "only_toilet_per_day");
  stakes.rip_per_ft = rate(job, "rip_per_ft");
  stakes.cross_on_support_per_ft = rate(job, "cross_on_support_per_ft");
  stakes.cross_in_air_per_ft = rate(job, "cross_in_air_per_ft");
  stakes.blocking_per_ft = rate(job, "blocking_per_ft");
  return stakes;
}

TaskHours hours_of(const Job& job, const tables::Row& row) { return own_hours(job, row, row.text("id")); }
TaskHours floor_hours_of(const Job& job, const tables::Row& row) { return own_hours(job, row, kFloorTask + row.text("id")); }

TaskMoney money_of(const Job& job, const tables::Row& row) {
  TaskMoney money{row.number("fee"), row.number("fee_each"), row.number("day_fee"), row.number("rate_scale")};
  if (const auto* task = own(job, &Rates::tasks, row.text("id"))) {
    money.fee = task->fee.value_or(money.fee);
    money.fee_each = task->fee_each.value_or(money.fee_each);
    money.day_fee = task->day_fee.value_or(money.day_fee);
    money.rate_scale = task->rate_scale.value_or(money.rate_scale);
  }
  return money;
}

Markup markup_of(const Job& job) {
  Markup markup;
  markup.by_margin = job.rates && job.rates->margin_percent;
  if (markup.by_margin) {
    markup.margin = *job.rates->margin_percent / 100;
    markup.times = 1 / (1 - markup.margin);
    return markup;
  }
  markup.overhead = given(job, &Rates::overhead_percent, "overhead_percent") / 100;
  markup.profit = given(job, &Rates::profit_percent, "profit_percent") / 100;
  markup.times = (1 + markup.overhead) * (1 + markup.profit);
  markup.margin = 1 - 1 / markup.times;
  return markup;
}

SalesTax sales_tax_of(const Job& job) {
  if (!job.rates) return {};
  return {job.rates->sales_tax_on, job.rates->sales_tax_percent.value_or(0) / 100};
}

}  // namespace awlmark::money
