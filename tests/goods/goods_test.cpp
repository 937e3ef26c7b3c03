#include "goods/goods.hpp"

#include <gtest/gtest.h>

namespace awlmark::goods {
namespace {

TEST(Goods, LumberIsPricedByTheNominalBoardFootOfOnePly) {
  Job job;
  // Three pairs of 2x8, 96 in. long: 6 sticks of 8 ft, each 2 x 8 / 12 board feet a foot.
  const Good pair = lumber(Kind::joist, "2-2x8 joist", {2, 8, 2}, 96, 3);
  EXPECT_DOUBLE_EQ(pair.quantity, 48);
  EXPECT_NEAR(cost(job, pair), 48 * 16.0 / 12 * 1.15, 1e-9);
  job.rates = Rates{};
  job.rates->material_scale = 2;
  EXPECT_NEAR(cost(job, pair), 2 * 48 * 16.0 / 12 * 1.15, 1e-9);
}

TEST(Goods, PanelsCostByThicknessShoresByTheNumber) {
  const Job job;
  EXPECT_NEAR(cost(job, panels(Kind::overlay, "plywood", 0.5, "24/16", 64)), 64 * 0.5 * 2.1, 1e-9);
  EXPECT_NEAR(cost(job, shores(3)), 66, 1e-9);
  EXPECT_NEAR(cost(job, planks("plank", {2, 6, 1}, 60, 2)), 10 * 2.6, 1e-9);
}

TEST(Goods, TheSameGoodIsOneLineAndAnotherLengthOrGrowthIsNot) {
  std::vector<Good> list;
  add(list, lumber(Kind::blocking, "2x6 blocking", {2, 6, 1}, 14.5, 2));
  add(list, lumber(Kind::blocking, "2x6 blocking", {2, 6, 1}, 14.5, 3));
  ASSERT_EQ(list.size(), 1u);
  EXPECT_NEAR(list.front().quantity, 5 * 14.5 / 12, 1e-12);
  add(list, lumber(Kind::blocking, "2x6 blocking", {2, 6, 1}, 20, 1));
  Good grows = lumber(Kind::blocking, "2x6 blocking", {2, 6, 1}, 20, 1);
  grows.grows.with = Extent::blocking_ft;
  add(list, grows);
  EXPECT_EQ(list.size(), 3u);
  add(list, shores(0));
  EXPECT_EQ(list.size(), 3u);
}

}  // namespace
}  // namespace awlmark::goods
