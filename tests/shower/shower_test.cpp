// The shower as a stage: heights, drain run, flood test, conflicts; on jobs made here and on 200 random pans.
#include "shower/shower.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "shower/bath.hpp"
#include "shower/pan.hpp"
#include "support/outside.hpp"
#include "support/property.hpp"

namespace awlmark::shower {
namespace {

TEST(Shower, StacksAddUpAndMeet) {
  const auto job = tiled_bath();
  const auto floor = joists(16);
  const auto found = shower(job, &floor);
  ASSERT_FALSE(found.answers.empty());
  for (const auto& answer : found.answers) {
    SCOPED_TRACE(answer.id);
    for (const auto& stack : answer.stacks) {
      double sum = 0;
      for (const auto& part : stack.parts) sum += part.thickness_in;
      EXPECT_NEAR(sum, stack.top_in, 1e-9) << stack.at;
    }
    EXPECT_NEAR(answer.step_at_door_in, stack_at(answer, "door").top_in - (0.71875 + 0.75), 1e-9);
    if (answer.id == "curb") continue;
    EXPECT_NEAR(answer.step_at_entry_in, stack_at(answer, "shower_edge").top_in - stack_at(answer, "room").top_in, 1e-9);
    EXPECT_NEAR(stack_at(answer, "shower_edge").top_in - stack_at(answer, "drain").top_in, found.pan->edge_height_in, 1e-9);
  }
  EXPECT_TRUE(found.answers.front().as_asked);
  EXPECT_NEAR(found.answers.front().step_at_entry_in, 0, 1.0 / 32);
}

// Joists 16 in. apart let plywood lie between them: the shower comes down by the deck's thickness and the
// room need not rise. On girders 48 in. apart it cannot, so the room rises, or the floor drops a bay.
TEST(Shower, DropsBetweenJoistsNotBetweenGirders) {
  const auto job = tiled_bath();
  const auto near = joists(16), far = joists(48);
  EXPECT_NE(answer_of(shower(job, &near), "between_supports"), nullptr);
  EXPECT_EQ(answer_of(shower(job, &far), "between_supports"), nullptr);
  const auto dropped = shower(job, &near), raised = shower(job, &far);
  EXPECT_LT(std::fabs(dropped.answers.front().step_at_door_in), std::fabs(answer_of(raised, "raised_room")->step_at_door_in));
}

TEST(Shower, BayOfTheFloorIsTaken) {
  const auto job = tiled_bath();
  auto floor = joists(48);
  floor::Option option;
  option.id = "dropped_bay";
  option.ok = true;
  floor::DeckPart part;
  part.top_drop_in = 1.75;
  part.outlines_in = {job.shower->outline_in};
  option.deck.push_back(part);
  floor.options.push_back(option);
  floor.chosen = "dropped_bay";
  const auto found = shower(job, &floor);
  EXPECT_EQ(found.chosen, "dropped_bay");
  EXPECT_NEAR(found.answers.front().drop_in, 1.75, 1e-9);
  EXPECT_NEAR(found.answers.front().step_at_entry_in, 0, 1.0 / 32);
  EXPECT_LE(std::fabs(found.answers.front().step_at_door_in), 0.25);
}

// HB-013: recess of 1.21875 in. where 0.75 in. lies outside and 1.96875 in. at the entry: the stage's own
// layers give the same comparison.
TEST(Shower, PublishedRecess) {
  const auto file = testing::outside_file("shower_and_work.json");
  for (const auto& one : file.at("height_budget")) {
    if (one.at("id") != "HB-013") continue;
    const auto& out = one.at("expected");
    EXPECT_NEAR(out.at("shower_total_at_entry_in").get<double>() - out.at("outside_total_in").get<double>(), out.at("recess_needed_in"), 1e-9);
    Job job = tiled_bath(60, 36);
    job.shower->outline_in = rectangle(0, 48, 60, 84);
    job.shower->drain = Drain{DrainKind::line, {}, Point{0, 84}, Point{60, 84}};
    const auto floor = joists(48);
    const auto found = shower(job, &floor);
    const auto* step = answer_of(found, "step");
    ASSERT_TRUE(step);
    // With 0.75 in. of bed and 0.75 in. of fall the shower stands higher than the room by just the recess.
    double room = stack_at(*step, "room").top_in - 0.71875;
    EXPECT_NEAR(found.pan->edge_height_in, 0.75, 1e-9);
    EXPECT_NEAR(stack_at(*step, "shower_edge").top_in - 0.71875, out.at("shower_total_at_entry_in"), 1e-6);
    EXPECT_NEAR(step->step_at_entry_in, out.at("shower_total_at_entry_in").get<double>() - room, 1e-6);
  }
}

// FALL-013 and PAN-018: four planes cannot keep 1:48 and 1/4 in. a foot; one plane can.
TEST(Shower, AccessibleLimitNeedsOnePlane) {
  Job job = tiled_bath(36, 36);
  job.shower->accessible = true;
  const auto floor = joists(16);
  EXPECT_TRUE(says(shower(job, &floor).conflicts, "1 in 48"));
  job.shower->drain = Drain{DrainKind::line, {}, Point{0, 84}, Point{36, 84}};
  EXPECT_FALSE(says(shower(job, &floor).conflicts, "1 in 48"));
}

// PAN-005: a drain 12 in. from the end of a 60 in. pan cannot keep both falls; the places offered can.
TEST(Shower, ConflictNamesPlacesThatCan) {
  Job job = tiled_bath(60, 36);
  job.shower->drain->at_in = Point{12, 66};
  const auto floor = joists(16);
  const auto found = shower(job, &floor);
  EXPECT_NEAR(found.pan->steepest_in_per_ft, 1.068, 1e-3);
  ASSERT_TRUE(says(found.conflicts, "these can: a point drain at"));
  job.shower->drain->at_in = Point{30, 66};
  EXPECT_FALSE(says(shower(job, &floor).conflicts, "keep both"));
}

// PAN-019 and PAN-020: water of the flood test.
TEST(Shower, FloodTestAsPublished) {
  const auto floor = joists(16);
  const auto file = testing::outside_file("shower_and_work.json");
  int seen = 0;
  for (const auto& one : file.at("pan_geometry")) {
    const auto& out = one.at("expected");
    Job job = tiled_bath(60, 36);
    if (one.at("id") == "PAN-020") job.shower->drain = Drain{DrainKind::line, {}, Point{0, 84}, Point{60, 84}};
    if (one.at("id") != "PAN-019" && one.at("id") != "PAN-020") continue;
    const auto test = *shower(job, &floor).flood_test;
    EXPECT_NEAR(test.volume_gal, out.at("water_gal"), 1e-3 * out.at("water_gal").get<double>());
    EXPECT_NEAR(test.weight_lb, out.at("water_lb"), 1e-3 * out.at("water_lb").get<double>());
    EXPECT_NEAR(test.mean_load_psf, out.at("mean_load_psf"), 1e-3 * out.at("mean_load_psf").get<double>());
    EXPECT_EQ(test.hours, 24);
    EXPECT_GT(test.dam_length_in, 0);
    ++seen;
  }
  EXPECT_EQ(seen, 2);
}

TEST(Shower, LineDrainNearTheWallIsTheWalls) {
  Job job = tiled_bath(60, 36);
  job.shower->drain = Drain{DrainKind::line, {}, Point{3, 82}, Point{57, 82}};
  const auto floor = joists(16);
  const auto found = shower(job, &floor);
  ASSERT_TRUE(found.pan);
  EXPECT_EQ(found.pan->planes.size(), 1u);
  EXPECT_NEAR(found.pan->edge_height_in, 34 * 0.25 / 12, 1e-9);
}

TEST(Shower, DrainCrossesJoistsOrHangsBelow) {
  Job job = tiled_bath(60, 36);
  job.shower->drain_run = awlmark::DrainRun{};
  job.shower->drain_run->vent_in = Point{30, 84};
  const auto along = joists(16);
  const auto straight = *shower(job, &along).drain_run;
  EXPECT_TRUE(straight.ok);
  EXPECT_TRUE(straight.crosses.empty());
  EXPECT_NEAR(straight.length_ft, 1.5, 1e-9);
  job.shower->drain_run->vent_in = Point{96, 66};
  const auto far = *shower(job, &along).drain_run;  // 5.5 ft through three joists
  EXPECT_EQ(far.crosses.size(), 4u);
  EXPECT_TRUE(far.ok);
  EXPECT_NEAR(far.total_fall_in, 5.5 * 0.25, 1e-9);
  for (const auto& cross : far.crosses) {
    EXPECT_GE(cross.from_top_in, 2 - 1e-9);
    EXPECT_LE(cross.from_top_in + cross.hole_in, 9.25 - 2 + 1e-9);
  }
  job.job.plumbing_code = PlumbingCode::upc;
  EXPECT_FALSE(shower(job, &along).drain_run->ok) << "5 ft is the longest 2 in. arm of the UPC";
  job.job.plumbing_code = PlumbingCode::irc;
  const auto shallow = joists(16, 5.5);
  const auto below = *shower(job, &shallow).drain_run;
  EXPECT_TRUE(below.crosses.empty());
  EXPECT_FALSE(below.passes_under.empty());
  job.job.below = Below::room;
  const auto closed = shower(job, &shallow);
  EXPECT_FALSE(closed.drain_run->ok);
  EXPECT_TRUE(says(closed.conflicts, "more than a third"));
}

TEST(Shower, DrainOverAJoist) {
  Job job = tiled_bath(60, 36);
  job.shower->drain->at_in = Point{24, 66};
  const auto floor = joists(16);
  EXPECT_TRUE(says(shower(job, &floor).conflicts, "The drain lies"));
}

TEST(Shower, RefusedOutlineSaysWhy) {
  Job job = tiled_bath();
  job.shower->outline_in = {{0, 0}, {60, 0}, {60, 20}, {20, 20}, {20, 60}, {0, 60}};
  job.shower->drain->at_in = Point{55, 10};
  const auto found = shower(job, nullptr);
  EXPECT_FALSE(found.pan);
  EXPECT_TRUE(says(found.conflicts, "cannot be laid"));
  EXPECT_FALSE(warnings(job).empty());
}

TEST(Shower, TileLayoutHasNoSlivers) {
  const auto job = tiled_bath();
  const auto floor = joists(16);
  const auto found = shower(job, &floor);
  ASSERT_EQ(found.tile_layouts.size(), 2u);
  const auto& room = found.tile_layouts[0];
  EXPECT_GE(room.least_cut_in, 5.9);
  // Whole and cut tiles cover the floor without joints: more than its area, less than a tile more all round.
  const double area = 96 * 84 - 60 * 36;
  EXPECT_GT(room.tiles * 144.0 * 1.03, area);
  EXPECT_LT(room.tiles * 144.0, area * 1.6);
}

// Tile from a line is laid from that line; where it leaves a sliver the layout says where and what cures it.
TEST(Shower, TileFromALine) {
  auto job = tiled_bath();
  job.shower->outline_in = rectangle(0, 48, 60, 84);
  job.rebuild->tile = TilePlan{12, 12, 0.125, Point{1.0, 0.25}};
  const auto floor = joists(16);
  const auto found = shower(job, &floor);
  const auto& room = found.tile_layouts.at(0);
  EXPECT_EQ(room.start_in.x_in, 1.0);
  EXPECT_NEAR(room.least_cut_in, 0.625, 1e-9);  // between the wall's joint and the line's
  EXPECT_NE(room.sliver.find("x 0"), std::string::npos);
  EXPECT_NE(room.sliver.find("move the line by"), std::string::npos);
  EXPECT_TRUE(says(found.conflicts, "a cut of"));
  for (const auto& ask : found.asks) EXPECT_EQ(ask.find("rebuild.tile"), std::string::npos);
  job.rebuild->tile.reset();
  EXPECT_TRUE(says(shower(job, &floor).asks, "rebuild.tile"));
}

// A hall of 30 ft parts twice, at joints of the tile, no field longer than 12 ft.
TEST(Shower, MovementJoints) {
  auto job = tiled_bath();
  job.room.outline_in = rectangle(0, 0, 360, 84);
  const auto room = shower(job, nullptr).tile_layouts.at(0);
  ASSERT_EQ(room.joints_in.size(), 2u);
  double before = 0;
  for (const auto& line : room.joints_in) {
    EXPECT_LE(line[0].x_in - before, 144 + 12.125);
    EXPECT_NEAR(std::remainder(line[0].x_in + 0.0625 - room.start_in.x_in, 12.125), 0, 1e-9);
    before = line[0].x_in;
  }
}

// The floor's rules of a hole judge the drain's: other cuts near by, lost wood, ripped and sistered members.
TEST(Shower, HolesAsTheFloorAllowsThem) {
  Job job = tiled_bath(60, 36);
  job.shower->drain_run = awlmark::DrainRun{};
  job.shower->drain_run->vent_in = Point{66, 66};
  auto floor = joists(16);
  const auto whole = shower(job, &floor);
  ASSERT_EQ(whole.drain_run->crosses.size(), 2u);
  EXPECT_TRUE(whole.drain_run->ok);
  EXPECT_EQ(std::count_if(whole.checks.begin(), whole.checks.end(), [](const Check& c) { return c.id.rfind("drain_run.", 0) == 0; }), 6);
  const auto bored = whole.drain_run->crosses[0];
  Support same;
  same.id = bored.member;
  MemberCut cut;
  cut.along_in = bored.at_in.y_in + 10 + 3;
  cut.hole_diameter_in = 1;
  same.cuts = {cut};
  job.supports = {same};
  EXPECT_FALSE(shower(job, &floor).drain_run->ok) << "3 in. from a hole of 1 in. leaves less than 2";
  job.supports.clear();
  for (auto& line : floor.framing)
    if (line.id == bored.member) line.lost.push_back({70, 80, 1, 1.5, "top"});
  EXPECT_TRUE(says(shower(job, &floor).conflicts, "lost wood"));
  floor = joists(16);
  for (auto& line : floor.framing) line.ripped_to_in = 6;
  job.job.below = Below::room;
  EXPECT_FALSE(shower(job, &floor).drain_run->ok) << "a ripped joist is as deep as it was ripped to";
}

// 15 in. to each side of the toilet's middle; 21 in. before it by one family, 24 by the other.
TEST(Shower, ToiletByCodeFamily) {
  Job job = tiled_bath(36, 36);
  Fixture toilet, vanity;
  toilet.id = "toilet";
  toilet.kind = FixtureKind::toilet;
  toilet.outline_in = rectangle(60, 56, 80, 84);
  vanity.id = "vanity";
  vanity.kind = FixtureKind::vanity;
  vanity.outline_in = rectangle(50, 0, 90, 33.5);
  job.fixtures = {toilet, vanity};
  const auto check = [&](const std::string& id) {
    const auto found = shower(job, nullptr);
    for (const auto& c : found.checks)
      if (c.id == id) return c;
    ADD_FAILURE() << id;
    return Check{};
  };
  EXPECT_NEAR(check("toilet.front").capacity, 22.5, 0.51);
  EXPECT_TRUE(check("toilet.front").ok);
  job.job.plumbing_code = PlumbingCode::upc;
  EXPECT_FALSE(check("toilet.front").ok);
  EXPECT_NEAR(check("toilet.side").capacity, 26, 0.51);  // the wall at 96
  job.fixtures[0].outline_in = rectangle(76, 56, 94, 84);
  EXPECT_FALSE(check("toilet.side").ok);
  job.shower->accessible = true;
  EXPECT_FALSE(check("accessible.toilet.side").ok);
  EXPECT_FALSE(check("accessible.toilet.out").ok);
}

}  // namespace
}  // namespace awlmark::shower
