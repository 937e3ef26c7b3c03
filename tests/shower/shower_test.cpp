// The shower as a stage: heights, drain run, flood test, conflicts; on jobs made here and on 200 random pans.
#include "shower/shower.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "shower/pan.hpp"
#include "support/outside.hpp"
#include "support/property.hpp"

namespace awlmark::shower {
namespace {

Job tiled_bath(double length = 60, double width = 36) {
  Job job;
  job.job.below = Below::crawl_space;
  job.room.outline_in = rectangle(0, 0, 96, 84);
  job.room.doors.push_back({});
  job.room.doors.back().id = "d1";
  job.room.doors.back().from_in = {96, 10};
  job.room.doors.back().to_in = {96, 42};
  job.room.doors.back().meets_height_in = 0.75;
  Layer deck;
  deck.id = "deck";
  deck.material = Material::plywood;
  deck.thickness_in = 0.71875;
  job.layers = {deck};
  Rebuild rebuild;
  rebuild.finish = Finish::porcelain_tile;
  job.rebuild = rebuild;
  ShowerPlan shower;
  shower.outline_in = rectangle(0, 84 - width, length, 84);
  shower.entry = Entry::flush;
  shower.drain = Drain{DrainKind::point, Point{length / 2, 84 - width / 2}, {}, {}};
  job.shower = shower;
  return job;
}

floor::Floor joists(double spacing, double d = 9.25) {
  floor::Floor floor;
  for (int i = 0; i * spacing <= 112; ++i) {
    floor::FramingLine line;
    line.id = "j" + std::to_string(i + 1);
    line.kind = "joist";
    line.from_in = {-8 + i * spacing, -10};
    line.to_in = {-8 + i * spacing, 94};
    line.b_in = 1.5;
    line.d_in = d;
    floor.framing.push_back(line);
  }
  return floor;
}

const HeightStack& stack_at(const ShowerAnswer& answer, const std::string& at) {
  const auto it = std::find_if(answer.stacks.begin(), answer.stacks.end(), [&](const HeightStack& s) { return s.at == at; });
  EXPECT_NE(it, answer.stacks.end());
  return *it;
}

const ShowerAnswer* answer_of(const Shower& found, const std::string& id) {
  for (const auto& answer : found.answers)
    if (answer.id == id) return &answer;
  return nullptr;
}

bool says(const std::vector<std::string>& list, const std::string& part) {
  return std::any_of(list.begin(), list.end(), [&](const std::string& s) { return s.find(part) != std::string::npos; });
}

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

// 200 random pans: water runs everywhere to the drain, volume by quadrature, limits as said.
TEST(Shower, RandomPans) {
  int laid = 0;
  testing::for_each_seed(200, [&](Random& random) {
    Job job = tiled_bath();
    const int corners = 3 + static_cast<int>(random.below(6));
    Polygon ring;
    for (int i = 0; i < corners; ++i) {
      const double radius = testing::between(random, 20, 44), angle = 6.283185307 * (i + 0.8 * random.uniform()) / corners;
      ring.push_back({48 + radius * std::cos(angle), 42 + radius * std::sin(angle)});
    }
    if (!is_simple(ring)) return;
    job.shower->outline_in = ring;
    const double x = testing::between(random, 40, 56), y = testing::between(random, 34, 50);
    job.shower->drain->at_in = Point{x, y};
    job.shower->least_fall_in_per_ft = testing::between(random, 0.25, 0.4);
    const auto floor = joists(16);
    const auto found = shower(job, &floor);
    if (!found.pan) {
      EXPECT_FALSE(found.conflicts.empty());
      return;
    }
    ++laid;
    const auto& pan = *found.pan;
    PanQuestion q;
    q.outline_in = ring;
    q.drain_from_in = q.drain_to_in = {x, y};
    q.least_fall_in_per_ft = *job.shower->least_fall_in_per_ft;
    const auto kernel = *pan_fall(q).value;
    const Box box = bounds(ring);
    double volume = 0, cells = 0;
    const double step = 0.5;
    for (double px = box.x0_in + step / 2; px < box.x1_in; px += step)
      for (double py = box.y0_in + step / 2; py < box.y1_in; py += step) {
        if (!contains(ring, {px, py})) continue;
        const double h = pan_height_in(kernel, {px, py});
        volume += (h + pan.bed_at_drain_in) * step * step;
        ++cells;
        // A step toward the drain always goes down.
        const double reach = distance_in({px, py}, {x, y});
        if (reach < 2) continue;
        const Point nearer{px + (x - px) / reach, py + (y - py) / reach};
        EXPECT_LT(pan_height_in(kernel, nearer), h + 1e-9);
      }
    EXPECT_NEAR(volume / 1728, pan.bed_volume_ft3, 0.02 * pan.bed_volume_ft3);
    EXPECT_NEAR(pan.flattest_in_per_ft, *job.shower->least_fall_in_per_ft, 1e-9);
    EXPECT_EQ(pan.steepest_in_per_ft > 0.5 + 1e-9, says(found.conflicts, "keep both limits"));
    for (const auto& corner : ring) EXPECT_NEAR(pan_height_in(kernel, corner), pan.edge_height_in, 1e-6);
  });
  EXPECT_GT(laid, 60);
}

}  // namespace
}  // namespace awlmark::shower
