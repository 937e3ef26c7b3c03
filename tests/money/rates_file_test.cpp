#include "money/rates_file.hpp"

#include <gtest/gtest.h>

#include "money/money.hpp"

namespace awlmark::money {
namespace {

std::string with(const std::string& rates) { return R"({"format":"awlmark-rates","version":1,"rates":)" + rates + "}"; }

bool complains(const Outcome<RatesFile>& file, const std::string& at, const std::string& word) {
  for (const auto& problem : file.problems)
    if (problem.at == at && describe(problem).find(word) != std::string::npos) return true;
  for (const auto& problem : file.problems) std::printf("    %s\n", describe(problem).c_str());
  return false;
}

TEST(RatesFile, EveryFormGivesTheSameFiguresAndTheSameBytesAgain) {
  const auto first = read_rates(with(R"({"labour_per_hour":88.25,"margin_percent":32.5,"sales_tax_on":"goods","sales_tax_percent":8.875,"date":"2026-01-02",
    "prices":[{"id":"tile","price":6.1,"unit":"sf"},{"id":"least_job","price":475}],
    "tasks":[{"id":"lift_fixtures","low":0.5,"likely":0.9,"high":2},{"id":"contain","day_fee":61},{"id":"floor.blocking","likely":0.3}]})"));
  ASSERT_TRUE(first) << describe(first.problems.front());
  const std::string csv = write_rates_csv(*first.value);
  const auto second = read_rates(csv);
  ASSERT_TRUE(second) << describe(second.problems.front());
  EXPECT_EQ(write_rates_csv(*second.value), csv);
  Job a, b;
  use_rates(first.value->rates, a), use_rates(second.value->rates, b);
  EXPECT_EQ(markup_of(a).times, markup_of(b).times);
  EXPECT_EQ(price_of_goods(b, "tile"), 6.1);
  EXPECT_EQ(rate(b, "least_job"), 475);
  EXPECT_EQ(stakes_of(b).labour_per_hour, 88.25);
  EXPECT_EQ(sales_tax_of(b).on_goods(), 1.08875);
  EXPECT_EQ(money_of(b, *tables::table("tasks.csv").find("id", "contain")).day_fee, 61);
  EXPECT_EQ(hours_of(b, *tables::table("tasks.csv").find("id", "lift_fixtures")).high, 2);
  EXPECT_EQ(floor_hours_of(b, *tables::table("floor_hours.csv").find("id", "blocking")).likely, 0.3);
  EXPECT_EQ(hours_of(b, *tables::table("tasks.csv").find("id", "blocking")).likely, 1.5) << "the row of the other table stays";
  const std::string json = write_rates_json(*first.value);
  EXPECT_EQ(write_rates_json(*read_rates(json).value), json);
}

TEST(RatesFile, TheEmptyTableIsReadBackAndMovesNothing) {
  const auto read = read_rates(write_rates_csv({}));
  ASSERT_TRUE(read) << describe(read.problems.front());
  EXPECT_TRUE(read.value->rates.prices.empty());
  EXPECT_TRUE(read.value->rates.tasks.empty());
  Job job;
  use_rates(read.value->rates, job);
  EXPECT_EQ(markup_of(job).times, markup_of(Job{}).times);
}

TEST(RatesFile, MistakesAreToldWithTheirPlaceAllAtOnce) {
  const auto json = read_rates(with(R"({"margin_percent":30,"overhead_percent":20,"sales_tax_on":"invoice","prices":[{"id":"tyle","price":4},
    {"id":"tile","price":4,"unit":"each"},{"id":"labour_per_hour","price":4}],"tasks":[{"id":"contain","low":5,"likely":3},{"id":"floor.shore","fee":3}]})"));
  EXPECT_FALSE(json);
  EXPECT_TRUE(complains(json, "rates.margin_percent", "share of the price"));
  EXPECT_TRUE(complains(json, "rates.sales_tax_percent", "missing"));
  EXPECT_TRUE(complains(json, "rates.prices[0].id", "tile"));
  EXPECT_TRUE(complains(json, "rates.prices[1].unit", "'sf'"));
  EXPECT_TRUE(complains(json, "rates.prices[2].id", "rates.labour_per_hour"));
  EXPECT_TRUE(complains(json, "rates.tasks[0].low", "more than likely"));
  EXPECT_TRUE(complains(json, "rates.tasks[1]", "no money"));
  const auto csv = read_rates("kind,id,figure,own\r\nprice,tile,,$4\r\nprice,tile,,4\r\nrate,overhed_percent,,20\r\ntask,contain,likley,2\r\nwhim,x,,1\r\n");
  EXPECT_TRUE(complains(csv, "line 2", "plain number"));
  EXPECT_TRUE(complains(csv, "line 3", "again"));
  EXPECT_TRUE(complains(csv, "line 4", "overhead_percent"));
  EXPECT_TRUE(complains(csv, "line 5", "low, likely, high"));
  EXPECT_TRUE(complains(csv, "line 6", "whim"));
  // A check of the JSON form is told by the line of the table.
  EXPECT_TRUE(complains(read_rates("kind,id,figure,own\nrate,margin_percent,,30\nprice,tile,,-2\n"), "line 3", "0"));
  EXPECT_TRUE(complains(read_rates("kind;id;figure;own\n"), "line 1", "semicolons"));
  EXPECT_FALSE(read_rates("")) << "nothing is no file of rates";
  EXPECT_FALSE(read_rates(R"({"format":"awlmark-job","version":1,"rates":{}})"));
}

TEST(Markup, AMarginIsAShareOfThePriceAndAMarkupOfTheCost) {
  Job job;
  job.rates = Rates{};
  job.rates->margin_percent = 25;
  EXPECT_NEAR(markup_of(job).times, 4.0 / 3, 1e-12);
  job.rates->margin_percent.reset();
  job.rates->overhead_percent = 25, job.rates->profit_percent = 10;
  EXPECT_NEAR(markup_of(job).times, 1.375, 1e-12);
  EXPECT_NEAR(markup_of(job).margin, 0.375 / 1.375, 1e-12);
  Rates margin;
  margin.margin_percent = 40;
  use_rates(margin, job);
  EXPECT_FALSE(job.rates->overhead_percent) << "one way takes the place of the other";
  EXPECT_NEAR(markup_of(job).times, 1 / 0.6, 1e-12);
}

TEST(RatesFile, OwnPricesAreNotScaled) {
  Job job;
  job.rates = Rates{};
  job.rates->material_scale = 2;
  job.rates->prices = {{"tile", 6, {}}, {"lumber_per_bf", 1.5, {}}};
  EXPECT_EQ(price_of_goods(job, "tile"), 6);
  EXPECT_EQ(price_of_goods(job, "base"), 2 * price_of_goods({}, "base"));
  EXPECT_EQ(price_of_stock(job, "lumber_per_bf"), 1.5);
}

}  // namespace
}  // namespace awlmark::money
