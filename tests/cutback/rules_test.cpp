// Each rule of the trade on and off, and what the draws do with the plan.
#include <gtest/gtest.h>

#include <algorithm>

#include "cutback/cutback.hpp"
#include "floors.hpp"

namespace awlmark::cutback {
namespace {

using namespace awlmark::cutback::testing;
using awlmark::testing::between;
using awlmark::testing::for_each_seed;

TEST(CutBackRules, MarginKeepsItsDistanceAlongTheBoard) {
  for_each_seed(20, [](Random& random) {
    Job job = laundry();
    const double x = between(random, 14, 94);
    const Point at{x, between(random, 1, 71)};
    job.marks = {awl("m1", "deck", at, Reading::soft)};
    const double margin = between(random, 3, 30);
    job.cut_rules = CutRules{};
    job.cut_rules->margin_in = margin;
    const auto cut = cut_back(plan::as_drawn(job), survey_of(job, random, 5, spot({500, 500}, 1)), {}).findings;
    for (double d = -margin + 0.6; d < margin - 0.5; d += 0.5) {
      const Point p{std::clamp(at.x_in + d, 0.01, 107.9), at.y_in};
      EXPECT_TRUE(piece_at(cut, "deck", p)->out) << d;
    }
    job.cut_rules->margin_in = 0;
    const auto bare = cut_back(plan::as_drawn(job), survey_of(job, random, 5, spot({500, 500}, 1)), {}).findings;
    EXPECT_FALSE(effect(bare, "margin").on);
    EXPECT_LE(bare.area_sf.at("deck"), cut.area_sf.at("deck"));
  });
}

TEST(CutBackRules, PlanksOnGirdersBearOnTwoSupports) {
  // Planks on girders at 4 ft may be cut in the air; a new piece then has one support only.
  for_each_seed(10, [](Random& random) {
    Job job;
    job.room.outline_in = rectangle(0, 0, 144, 70);
    job.layers = {layer("deck", Material::plank_tg)};
    job.layers[0].runs = Runs{0};
    for (int k = 0; k < 4; ++k) job.supports.push_back(joist("g" + std::to_string(k + 1), {48.0 * k, 0}, {48.0 * k, 70}, SupportRole::girder));
    job.cut_rules = CutRules{};
    job.cut_rules->margin_in = 0;
    job.marks = {awl("m1", "deck", {between(random, 50, 94), 33}, Reading::gone)};
    const auto sound = survey_of(job, random, 5, spot({500, 500}, 1));
    const auto cut = cut_back(plan::as_drawn(job), sound, {}).findings;
    double low = 1e9, high = -1e9;
    for (const auto& piece : cut.pieces)
      if (piece.out) {
        low = std::min(low, bounds(piece.outline_in).x0_in);
        high = std::max(high, bounds(piece.outline_in).x1_in);
      }
    EXPECT_NEAR(low, 48, 0.01);
    EXPECT_NEAR(high, 96, 0.01);
    EXPECT_GT(effect(cut, "two_supports").pieces_changed, 0);
    job.cut_rules->two_supports = false;
    const auto air = cut_back(plan::as_drawn(job), sound, {}).findings;
    EXPECT_LT(air.area_sf.at("deck"), cut.area_sf.at("deck"));
    EXPECT_TRUE(std::any_of(air.edges.begin(), air.edges.end(), [](const Edge& e) { return e.kind == EdgeKind::cross_in_air; }));
    EXPECT_FALSE(air.blocking.empty()) << "an end in the air has its blocking";
  });
}

TEST(CutBackRules, ContaminatedLayersGoWhateverTheirStrength) {
  Random random(8);
  Job job = laundry();
  const auto survey = survey_of(job, random, 10, spot({500, 500}, 1));
  const auto cut = cut_back(plan::as_drawn(job), survey, {"under"}).findings;
  EXPECT_NEAR(cut.area_sf.at("under"), 54, 0.01);
  EXPECT_NEAR(cut.area_sf.at("sheet"), 54, 0.01);
  EXPECT_EQ(cut.area_sf.at("deck"), 0);
  EXPECT_GT(effect(cut, "contaminated_goes").added_cost, 0);
  job.cut_rules = CutRules{};
  job.cut_rules->contaminated_goes = false;
  EXPECT_EQ(cut_back(plan::as_drawn(job), survey, {"under"}).findings.area_sf.at("under"), 0);
}

TEST(CutBackRules, BearingWallsAreSparedUntilLookedAt) {
  Random random(9);
  Job job = laundry();
  // A third of the draws rot the foot of w1 (bearing) and of w3 (not bearing).
  for (const double y : {0.0, 72.0}) {
    survey::Result survey = survey_of(job, random, 30, spot({500, 500}, 1));
    auto& line = survey.draws.walls[y == 0 ? 0 : 2];
    for (int d = 0; d < 10; ++d)
      for (std::size_t k = 0; k < line.along_in.size(); ++k) line.degree[d * line.along_in.size() + k] = survey::kSoft;
    const auto cut = cut_back(plan::as_drawn(job), survey, {}).findings;
    const auto bare = [&] {
      Job open = job;
      open.cut_rules = no_rules();
      return cut_back(plan::as_drawn(open), survey, {}).findings;
    }();
    const std::string id = y == 0 ? "w1" : "w3";
    EXPECT_EQ(cut.plate_ft.count(id), y == 0 ? 0u : bare.plate_ft.count(id));
  }
  // A plate that the awl found soft goes, bearing or not, with the wallboard over it.
  Mark mark;
  mark.id = "m1";
  mark.wall = "w1";
  mark.along_in = 50;
  mark.part = WallPart::plate;
  mark.tool = Tool::awl;
  mark.reads = Reading::gone;
  job.marks = {mark};
  const auto known = cut_back(plan::as_drawn(job), survey_of(job, random, 10, spot({500, 500}, 1)), {}).findings;
  EXPECT_GT(known.plate_ft.at("w1"), 2) << "the piece and its margin along the plate";
  EXPECT_GT(known.wallboard_sf.at("w1"), 0);
  EXPECT_TRUE(std::any_of(known.notes.begin(), known.notes.end(), [](const std::string& n) { return n.find("shore") != std::string::npos; }));
}

TEST(CutBackRules, NoStripTooNarrowIsLeft) {
  for_each_seed(10, [](Random& random) {
    Job job = laundry();
    job.layers.erase(job.layers.begin(), job.layers.begin() + 2);
    job.room.outline_in = rectangle(0, 0, 108, 67.5);  // twelve boards and a strip of 1 1/2 in.
    const double x = between(random, 5, 100);
    job.marks = {awl("m1", "deck", {x, 64}, Reading::soft)};
    const auto cut = cut_back(plan::as_drawn(job), survey_of(job, random, 5, spot({500, 500}, 1)), {}).findings;
    EXPECT_TRUE(piece_at(cut, "deck", {x, 67})->out);
    EXPECT_GT(effect(cut, "no_slivers").pieces_changed, 0);
  });
}

TEST(CutBackRules, JointsOnOneSupportAreStaggeredOrBlocked) {
  Random random(11);
  Job job = laundry();
  const auto survey = survey_of(job, random, 40, {{60, 36}, 20, 14, 2, 0.1});
  const auto cut = cut_back(plan::as_drawn(job), survey, {}).findings;
  EXPECT_TRUE(std::any_of(cut.blocking.begin(), cut.blocking.end(), [](const Blocking& b) { return b.id.rfind("joint.", 0) == 0; }));
  job.cut_rules = CutRules{};
  job.cut_rules->stagger = false;
  const auto loose = cut_back(plan::as_drawn(job), survey, {}).findings;
  EXPECT_LT(loose.blocking.size(), cut.blocking.size());
  EXPECT_FALSE(effect(loose, "stagger").on);
}

TEST(CutBackDraws, NeverLessThanThePlanAndEqualWhereTheDrawsAreSound) {
  for_each_seed(6, [](Random& random) {
    const Job job = laundry();
    const auto result = cut_back(plan::as_drawn(job), survey_of(job, random, 60), {});
    ASSERT_EQ(result.draws.size(), 60u);
    const auto& plan = result.findings.quantities;
    bool more = false;
    for (const auto& draw : result.draws) {
      ASSERT_EQ(draw.layer_sf.size(), job.layers.size());
      for (std::size_t i = 0; i < draw.layer_sf.size(); ++i) {
        EXPECT_GE(draw.layer_sf[i], plan.layer_sf[i]);
        EXPECT_LE(draw.layer_sf[i], 54.001);
      }
      EXPECT_GE(draw.plate_ft, plan.plate_ft);
      more = more || !(draw == plan);
    }
    EXPECT_TRUE(more);
    // Draws without rot anywhere show nothing that is not planned: the same labels, the same bits.
    auto sound = survey_of(job, random, 3, spot({500, 500}, 1));
    const auto known = cut_back(plan::as_drawn(job), sound, {});
    for (const auto& draw : known.draws) EXPECT_TRUE(draw == known.findings.quantities);
  });
}

TEST(CutBackDraws, RotIsFollowedUntilItIsSound) {
  // A plank read gone; in the one draw rot runs on from there along two boards to x = 90, and an
  // island of rot that touches nothing stays unseen.
  Random random(16);
  Job job = laundry();
  job.layers.erase(job.layers.begin(), job.layers.begin() + 2);
  job.walls.clear();
  job.cut_rules = no_rules();
  job.rates = Rates{};
  job.rates->leave_unsound_per_sf = 0;
  job.marks = {awl("m1", "deck", {24, 8}, Reading::gone)};
  auto survey = survey_of(job, random, 1, spot({500, 500}, 1));
  auto& degree = survey.draws.layers[0].degree;
  const int nx = survey.draws.grid.nx;
  for (int i = 18 / 3; i < 90 / 3; ++i) degree[(8 / 3) * nx + i] = survey::kSoft;
  degree[(60 / 3) * nx + 100 / 3] = survey::kGone;
  const auto result = cut_back(plan::as_drawn(job), survey, {});
  EXPECT_NEAR(result.findings.area_sf.at("deck"), 16 * 5.5 / 144, 1e-6);
  // Board 2 (5 1/2 to 11) from 16 to 96: five bays of 16 in.
  EXPECT_NEAR(result.draws[0].layer_sf[0], 80 * 5.5 / 144, 1e-6);
}

TEST(CutBackDraws, AMemberCountsOnceItIsSeen) {
  Random random(17);
  Job job = laundry();
  auto survey = survey_of(job, random, 2, spot({500, 500}, 1));
  auto& line = survey.draws.supports[1];
  for (std::size_t k = 0; k < line.along_in.size(); ++k) line.degree[k] = survey::kSoft;  // draw 0 only
  const auto states = [&] {
    std::vector<measure::MemberState> out;
    for (const auto& draw : cut_back(plan::as_drawn(job), survey, {}).draws) out.push_back(draw.members[1]);
    return out;
  };
  using measure::MemberState;
  EXPECT_EQ(states(), (std::vector<MemberState>{MemberState::whole, MemberState::whole})) << "nothing is opened, so nobody sees it";
  job.marks = {awl("m1", "deck", {30, 30}, Reading::gone)};
  // Soft along all of it, its rests too.
  EXPECT_EQ(states(), (std::vector<MemberState>{MemberState::decayed_at_rest, MemberState::whole}));
}

}  // namespace
}  // namespace awlmark::cutback
