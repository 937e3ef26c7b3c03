// What rests on what, and what is never invented.
#include "plan/framing.hpp"

#include <gtest/gtest.h>

namespace awlmark::plan {
namespace {

Support member(const std::string& id, SupportRole role, Point from, Point to, const std::string& size, std::vector<double> rests = {}) {
  Support support;
  support.id = id;
  support.role = role;
  support.from_in = from;
  support.to_in = to;
  support.size = section_of(size);
  support.rests_at_in = std::move(rests);
  return support;
}

Job room() {
  Job job;
  job.room.outline_in = rectangle(0, 0, 120, 144);
  return job;
}

TEST(Framing, ATailRestsOnItsHeaderAndTheHeaderOnTrimmers) {
  auto job = room();
  job.supports = {member("left", SupportRole::joist, {24, 0}, {24, 144}, "2x10", {0, 144}),
                  member("tail", SupportRole::joist, {40, 0}, {40, 88}, "2x10", {0, 88}),
                  member("right", SupportRole::joist, {56, 0}, {56, 144}, "2x10", {0, 144}),
                  member("header", SupportRole::joist, {24.75, 90}, {55.25, 90}, "2x10", {0, 30.5})};
  const auto framing = framing_of(job);
  const auto& tail = framing.members[1];
  EXPECT_FALSE(tail.rests[0].carrier.known());
  ASSERT_TRUE(tail.rests[1].carrier.known());
  EXPECT_EQ(tail.rests[1].carrier.of(), 3u);
  EXPECT_NEAR(tail.rests[1].along_carrier_in, 15.25, 1e-9);
  EXPECT_EQ(framing.members[3].rests[0].carrier.of(), 0u);
  EXPECT_EQ(framing.members[3].rests[1].carrier.of(), 2u);
  EXPECT_NEAR(framing.members[3].rests[1].along_carrier_in, 90, 1e-9);
  // Trimmers pass by the header's ends: they do not rest on it.
  for (const auto& rest : framing.members[0].rests) EXPECT_FALSE(rest.carrier.known());
}

TEST(Framing, NoRestIsInvented) {
  auto job = room();
  job.supports = {member("one", SupportRole::joist, {40, 0}, {40, 80}, "2x10", {0}), member("open", SupportRole::joist, {60, 0}, {60, 80}, "2x10"),
                  member("whole", SupportRole::joist, {80, 0}, {80, 144}, "2x10")};
  SupportRest seen;
  seen.end = LineEnd::to;
  seen.on = RestOn::nothing;
  const auto framing = framing_of(job);
  EXPECT_EQ(framing.members[0].rests.size(), 1u);  // recorded with one
  EXPECT_EQ(framing.members[1].rests.size(), 1u);  // its far end hangs in the open
  EXPECT_EQ(framing.members[2].rests.size(), 2u);  // both ends at the room's edge
  EXPECT_EQ(framing.assumed.size(), 2u);
}

TEST(Framing, AGirderIsNeverCarriedByAJoistAndBearingComesFromWhatIsThere) {
  auto job = room();
  job.supports = {member("j", SupportRole::joist, {40, 0}, {40, 144}, "2x10", {0, 72, 144}),
                  member("g", SupportRole::girder, {0, 72}, {120, 72}, "4x10", {0, 40, 120})};
  const auto framing = framing_of(job);
  ASSERT_TRUE(framing.members[0].rests[1].carrier.known());
  EXPECT_EQ(framing.members[0].rests[1].on, RestOn::girder);
  EXPECT_NEAR(framing.members[0].rests[1].bearing_in, 3.5, 1e-9);  // the girder's breadth
  EXPECT_TRUE(framing.members[0].rests[1].bearing_known);
  EXPECT_FALSE(framing.members[0].rests[0].bearing_known);
  for (const auto& rest : framing.members[1].rests) EXPECT_FALSE(rest.carrier.known());
}

TEST(Framing, TheOrderPutsEachMemberBeforeWhatCarriesIt) {
  const auto order = load_order({{2}, {0}, {}, {4}, {3}, {3}});
  ASSERT_EQ(order.order.size(), 4u);
  EXPECT_EQ(order.order[0], 1u);
  EXPECT_EQ(order.order[1], 5u);
  EXPECT_EQ(order.in_ring, (std::vector<std::size_t>{3, 4}));
}

TEST(Framing, AGirderUnderAWallIsFound) {
  auto job = room();
  job.supports = {member("g", SupportRole::girder, {0, 72}, {120, 72}, "4x10", {0, 120})};
  Wall wall;
  wall.id = "w";
  wall.from_in = {0, 70};
  wall.to_in = {120, 70};
  wall.below = UnderWall::girder;
  job.walls = {wall};
  const auto framing = framing_of(job);
  ASSERT_TRUE(framing.walls[0].girder.known());
  EXPECT_TRUE(framing.walls[0].held_below());
}

}  // namespace
}  // namespace awlmark::plan
