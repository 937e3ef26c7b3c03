#include "measure/measure.hpp"

#include <gtest/gtest.h>

#include "base/random.hpp"

namespace awlmark::measure {
namespace {

// Two boards end to end, the wall at the far end of the second, a plate and its wallboard.
Map small_map() {
  Map map;
  map.layers = 2;
  map.parts = {{Part::What::layer, 1, 4.0}, {Part::What::layer, 1, 2.0}, {Part::What::plate, kNone, 1.5}, {Part::What::wallboard, kNone, 3.0}};
  map.lines = {{0, 1, 0.5, true, false}, {1, kNone, 0.5, true, true}, {0, kNone, 2.0, false, false}};
  map.blocking_ft = 1;
  return map;
}

TEST(Measure, EachLabelCountsOnceAndASeamIsNotSawn) {
  const Map map = small_map();
  const auto first = quantities(map, {1, 0, 0, 0}, {});
  EXPECT_EQ(first.layer_sf, (std::vector<double>{0, 4}));
  EXPECT_EQ(first.saw_ft, 0.5);  // the open joint at its other end is not sawn
  EXPECT_EQ(first.blocking_ft, 1);
  const auto both = quantities(map, {1, 1, 1, 1}, {});
  EXPECT_EQ(both.layer_sf[1], 6);
  EXPECT_EQ(both.saw_ft, 0.5);  // between them nothing is cut, at the wall it is
  EXPECT_EQ(both.blocking_ft, 1.5);
  EXPECT_EQ(both.plate_ft, 1.5);
  EXPECT_EQ(both.wallboard_sf, 3);
}

TEST(Measure, TheSameLabelsGiveTheSameBits) {
  Random random(7);
  Map map;
  map.layers = 3;
  for (int p = 0; p < 200; ++p) {
    const double amount = random.uniform();
    map.parts.push_back({Part::What::layer, p % 3, amount});
  }
  for (int p = 0; p + 1 < 200; ++p) {
    const double length = random.uniform();
    map.lines.push_back({p, p + 1, length, p % 2 == 0, p % 5 == 0});
  }
  std::vector<char> out(200);
  for (auto& label : out) label = random.uniform() < 0.5;
  const auto once = quantities(map, out, {MemberState::decayed}), again = quantities(map, out, {MemberState::decayed});
  EXPECT_TRUE(once == again);
  out[17] = !out[17];
  EXPECT_FALSE(once == quantities(map, out, {MemberState::decayed}));
}

}  // namespace
}  // namespace awlmark::measure
