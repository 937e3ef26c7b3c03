// What a mistake, an opening and a foot of cut cost, and the contractor's rates: the job's own answers
// (`rates`, docs/rates.md) where it gives them, else the tables'. US dollars. Every other room asks here
// or in goods; none reads a price, a fee or hours of work from a table itself.
#pragma once

#include <string>

#include "job/job.hpp"
#include "tables/table.hpp"

namespace awlmark::money {

struct Stakes {
  double leave_unsound_per_sf = 0;   // what it costs later to have left unsound wood under a new floor
  double tear_out_sound_per_sf = 0;  // tearing out and putting back wood that was sound
  double opening = 0;                // one opening made and closed: its hours at the labour rate
  double patch_per_opening = 0;      // of a finish that stays, about a square foot
  double only_toilet_per_day = 0;    // a household without its only toilet
  double labour_per_hour = 0;
  double rip_per_ft = 0;  // cuts, by kind
  double cross_on_support_per_ft = 0;
  double cross_in_air_per_ft = 0;  // with its blocking
  double blocking_per_ft = 0;
};

Stakes stakes_of(const Job& job);

// A row of data/rates.csv (a fault of the program where there is none), or of goods.csv. The scale of
// material prices moves the table's prices of goods only.
double rate(const Job& job, const std::string& id);
double price_of_goods(const Job& job, const std::string& id);
// One of rates.csv by which goods are priced: lumber_per_bf, hanger_each.
double price_of_stock(const Job& job, const std::string& id);

// Hours of all hands for the measure of a row of tasks.csv, or of floor_hours.csv (whose rows a job names
// with "floor." before the id: both tables have a row for blocking, by the foot and by the piece).
struct TaskHours {
  double low = 0, likely = 0, high = 0;
};
TaskHours hours_of(const Job& job, const tables::Row& row);
TaskHours floor_hours_of(const Job& job, const tables::Row& row);
inline constexpr const char* kFloorTask = "floor.";
// Money beside the hours, of a row of tasks.csv.
struct TaskMoney {
  double fee = 0, fee_each = 0, day_fee = 0, rate_scale = 1;
};
TaskMoney money_of(const Job& job, const tables::Row& row);

// From cost to price. A margin is a share of the price: 25 percent of it is 33.3 percent on cost.
struct Markup {
  bool by_margin = false;
  double overhead = 0;  // share of cost
  double profit = 0;    // share of cost and overhead
  double margin = 0;    // share of the price, however it came about
  double times = 1;     // price over cost
};
Markup markup_of(const Job& job);

struct SalesTax {
  TaxOn on = TaxOn::in_prices;
  double share = 0;
  double on_goods() const { return on == TaxOn::goods ? 1 + share : 1; }
  double on_invoice() const { return on == TaxOn::invoice ? 1 + share : 1; }
};
SalesTax sales_tax_of(const Job& job);

}  // namespace awlmark::money
