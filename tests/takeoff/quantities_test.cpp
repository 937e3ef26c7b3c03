#include "takeoff/quantities.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/outside.hpp"
#include "support/property.hpp"
#include "tables/usual.hpp"
#include "takeoff/goods.hpp"
#include "takeoff/sheets.hpp"

namespace awlmark::takeoff {
namespace {

nlohmann::json outside_case(const char* topic, const std::string& id) {
  const auto file = testing::outside_file("shower_and_work.json");
  for (const auto& one : file.at(topic))
    if (one.at("id") == id) return one;
  ADD_FAILURE() << id;
  return {};
}

TEST(Debris, DensityAndBags) {
  const auto one = outside_case("debris", "DEB-016");
  for (std::size_t i = 0; i < one["inputs"]["bulking_factor"].size(); ++i)
    EXPECT_NEAR(loose_density(one["inputs"]["solid_lb_per_ft3"], one["inputs"]["bulking_factor"][i]), one["expected"]["loose_lb_per_yd3"][i], 1e-6);
  EXPECT_NEAR(tables::usual().bag_ft3, outside_case("debris", "DEB-018")["expected"]["bag_ft3"][1], 1e-6);
  EXPECT_EQ(bags_for(100, 0), 2);
  EXPECT_EQ(bags_for(101, 0), 3);
  EXPECT_EQ(bags_for(10, filled_bag_ft3() * 3 / 27), 3);
  EXPECT_EQ(bags_for(0, 0), 0);
}

// Tile and mortar weigh far more than they fill; flooring boards fill more than they weigh.
TEST(Debris, WeightAndBulkByMaterial) {
  const auto tile = debris_of(Material::ceramic_tile, 10, 0.3125), board = debris_of(Material::board, 10, 0.75);
  EXPECT_GT(tile.lb / tile.yd3, 1400);
  EXPECT_LT(tile.lb / tile.yd3, 3200);
  EXPECT_GT(board.lb / board.yd3, 267);  // the spread of public tables, DEB-003 to DEB-023
  EXPECT_LT(board.lb / board.yd3, 500);
  EXPECT_FALSE(tile.reason.source.empty());
}

// QTY-002: 300 mm tile, 5 mm joint, 10 mm deep, 1.7 kg/l: 0.566667 kg/m2 by the makers' formula.
TEST(Grout, MakersFormulaAndExactVolume) {
  const auto one = outside_case("tile_quantity", "QTY-002");
  const double mm = 1 / 25.4, m2_sf = 1 / 0.09290304;
  const auto grout = grout_volume(300 * mm, 300 * mm, 5 * mm, 10 * mm, m2_sf);
  const double litres_per_in3 = 0.016387064;
  EXPECT_NEAR(grout.rough_in3 * litres_per_in3 * 1.7, one["expected"]["kg_per_m2"], 1e-5);
  EXPECT_LT(grout.volume_in3, grout.rough_in3);
  // Exact by hand: 63 sf of 12 in. tile with 1/8 joints 3/8 deep.
  EXPECT_NEAR(grout_volume(12, 12, 0.125, 0.375, 63).volume_in3, 63 * 144 * 0.375 * (1 - 144 / (12.125 * 12.125)), 1e-9);
}

TEST(Packs, GuardAgainstCrumbs) {
  const auto one = outside_case("tile_quantity", "QTY-006");
  EXPECT_EQ(packs(one["inputs"]["area_ft2"], one["inputs"]["box_ft2"]), one["expected"]["boxes"].get<double>());
  EXPECT_EQ(packs(0.1 + 0.2, 0.1), 3);
  EXPECT_EQ(packs(0, 5), 0);
}

TEST(Sheets, LaidOutNotGuessed) {
  const auto one = outside_case("tile_quantity", "QTY-011");  // 8 x 5 ft floor, 4 x 8 sheets
  EXPECT_EQ(lay_sheets({rectangle(0, 0, 96, 60)}, 0).sheets, one["expected"]["sheets_by_layout"].get<int>());
  EXPECT_EQ(lay_sheets({rectangle(0, 0, 96, 48)}, 0).sheets, 1);
  EXPECT_EQ(lay_sheets({rectangle(0, 0, 40, 40), rectangle(200, 0, 240, 40)}, 0).sheets, 1);  // both from one sheet
  EXPECT_EQ(lay_sheets({rectangle(0, 0, 48, 96)}, 90).sheets, 1);
  EXPECT_EQ(lay_sheets({}, 0).sheets, 0);
}

TEST(Sheets, NeverFewerThanTheAreaAsks) {
  testing::for_each_seed(60, [](Random& random) {
    std::vector<Polygon> outlines;
    double area = 0;
    for (std::uint64_t i = 0; i <= random.below(4); ++i) {
      const double w = testing::between(random, 6, 150), h = testing::between(random, 6, 150), x = 400.0 * static_cast<double>(i);
      outlines.push_back(rectangle(x, 0, x + w, h));
      area += w * h / 144;
    }
    const auto count = lay_sheets(outlines, 0);
    EXPECT_GE(count.sheets * 32 + 1e-6, area);
    EXPECT_NEAR(count.area_sf, area, 0.05 * area + 0.1);
    EXPECT_LE(count.sheets, count.pieces);
  });
}

// Joists along y at 16 in., a room of 144 x 96 in.: sheets across them, ends on a joist, every second
// course half a sheet on.
TEST(Sheets, EndsFallOnSupportsAndStagger) {
  Job job;
  for (int k = 0; k <= 9; ++k) {
    Support joist;
    joist.id = "j" + std::to_string(k);
    joist.from_in = {k * 16.0, 0}, joist.to_in = {k * 16.0, 96};
    job.supports.push_back(joist);
  }
  const auto across = across_supports(job);
  EXPECT_EQ(across.runs_degrees, 0);
  EXPECT_TRUE(across.joints.stagger);
  const auto laid = lay_sheets({rectangle(0, 0, 144, 96)}, across.runs_degrees, {}, 0.125, across.joints);
  // First course 96 + 48, second 48 + 96: three sheets, none of their ends beside another's.
  EXPECT_EQ(laid.pieces, 4);
  EXPECT_EQ(laid.sheets, 4);  // a saw cut makes the halves 47 15/16 in. at most
  EXPECT_NEAR(laid.area_sf, 96, 1e-9);
  for (auto& support : job.supports) std::swap(support.from_in.x_in, support.from_in.y_in), std::swap(support.to_in.x_in, support.to_in.y_in);
  EXPECT_EQ(across_supports(job).runs_degrees, 90);
}

}  // namespace
}  // namespace awlmark::takeoff
