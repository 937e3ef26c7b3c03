#include "price/change.hpp"

#include <gtest/gtest.h>

#include "price/csv.hpp"
#include "support/small_site.hpp"

namespace awlmark::price {
namespace {

TEST(Csv, FieldsAreQuotedAndNoTextIsTakenForAFormula) {
  takeoff::TakeOff found;
  found.lines = {{"a", "=cmd(), \"x\"", 2, "sf", "how", "put_back", 1.5, {}}};
  const auto text = take_off_csv(found);
  EXPECT_NE(text.find("\"'=cmd(), \"\"x\"\"\""), std::string::npos) << text;
  EXPECT_NE(text.find(",2.00,sf,1.50,3.00,how\r\n"), std::string::npos) << text;
}

TEST(ChangeOrder, SaysWhatWasFoundAddedTakenAwayAndTheDays) {
  Job before = testing::small_laundry(), after = before;
  Mark gone;
  gone.id = "m9";
  gone.layer = "deck";
  gone.at_in = Point{60, 30};
  gone.tool = Tool::awl;
  gone.reads = Reading::gone;
  after.marks.push_back(gone);
  const floor::Floor floor;
  work::Work then, now;
  then.finish.p50_days = 5, now.finish.p50_days = 6.5;
  Price old, fresh;
  old.base = 3000, old.cap = 3500, fresh.base = 3800;
  old.base_quantities = {{"board", 10, "sf"}, {"bottom plate", 3, "ft"}};
  fresh.base_quantities = {{"board", 14, "sf"}, {"blocking", 2, "ft"}};
  old.unit_prices = {{"board", "sf", 40, {}}, {"bottom plate", "ft", 30, {}}};
  const auto order = change_order({before, floor, then, old}, {after, floor, now, fresh});
  ASSERT_EQ(order.found.size(), 1u);
  EXPECT_NE(order.found[0].find("m9"), std::string::npos);
  ASSERT_EQ(order.added.size(), 2u);
  EXPECT_EQ(order.added[0].money, 160);
  EXPECT_EQ(order.added[1].unit_price, 0);
  ASSERT_EQ(order.taken_away.size(), 1u);
  EXPECT_EQ(order.taken_away[0].money, -90);
  EXPECT_EQ(order.money, 800);
  EXPECT_EQ(order.at_unit_prices, 70);
  EXPECT_EQ(order.days, 1.5);
  EXPECT_NE(order.words.front().find("cap"), std::string::npos);
}

}  // namespace
}  // namespace awlmark::price
