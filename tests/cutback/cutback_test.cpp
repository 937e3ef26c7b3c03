// The promises of cutback.hpp on whole jobs.
#include "cutback/cutback.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "floors.hpp"

namespace awlmark::cutback {
namespace {

using namespace awlmark::cutback::testing;
using awlmark::testing::between;
using awlmark::testing::for_each_seed;

TEST(CutBack, PiecesFillEveryLayerExactly) {
  Random random(1);
  Job job = laundry();
  job.layers[1].absent_in = {rectangle(20, 20, 50.5, 41)};
  job.layers[2].outline_in = rectangle(0, 0, 100, 72);
  const auto cut = cut_back(plan::as_drawn(job), survey_of(job, random, 20), {}).findings;
  EXPECT_NEAR(area_in2(covered(cut, "sheet")), 108 * 72, 0.01);
  EXPECT_NEAR(area_in2(covered(cut, "under")), 108 * 72 - 30.5 * 21, 0.01);
  EXPECT_NEAR(area_in2(covered(cut, "deck")), 100 * 72, 0.01);
  double sum = 0;
  for (const auto& piece : cut.pieces)
    if (piece.layer == "deck") sum += area_in2(piece.outline_in);
  EXPECT_NEAR(sum, 100 * 72, 0.01) << "pieces of a layer overlap";
  // Boards of 5 1/2 in. across joists at 16 in.: the piece over (20, 8) is board 2 between j1 and j2.
  const Piece* board = piece_at(cut, "deck", {20, 8});
  ASSERT_TRUE(board);
  EXPECT_EQ(board->plank, 2);
  EXPECT_NEAR(board->area_sf, 16 * 5.5 / 144, 1e-6);
}

TEST(CutBack, ChanceOfAPieceIsJoint) {
  // Two draws: in one the left half is unsound, in the other the right half. Every cell has chance
  // 1/2, yet the piece is unsound for certain; and two cells that rot together have chance 1/2.
  Job job;
  job.room.outline_in = rectangle(0, 0, 16, 5.5);
  job.layers = {layer("deck", Material::board)};
  job.layers[0].runs = Runs{0};
  job.supports = {joist("a", {0, 0}, {0, 6}), joist("b", {16, 0}, {16, 6})};
  survey::Result survey;
  survey.draws.count = 2;
  survey.draws.grid = survey.findings.grid = {4, 4, 2, {0, 0}};
  std::vector<std::uint8_t> apart(16, survey::kSound), together(16, survey::kSound);
  for (const int c : {0, 1, 4, 5}) apart[c] = survey::kSoft;
  for (const int c : {2, 3, 6, 7}) apart[8 + c] = survey::kSoft;
  for (const int c : {0, 3}) together[c] = survey::kSoft;
  survey.draws.layers = {{"deck", apart}};
  const auto certain = cut_back(plan::as_drawn(job), survey, {}).findings;
  ASSERT_EQ(certain.pieces.size(), 1u);
  EXPECT_DOUBLE_EQ(certain.pieces[0].p_unsound, 1);
  EXPECT_NEAR(certain.pieces[0].unsound_sf, 8 * 5.5 / 144, 1e-9);
  survey.draws.layers = {{"deck", together}};
  EXPECT_DOUBLE_EQ(cut_back(plan::as_drawn(job), survey, {}).findings.pieces[0].p_unsound, 0.5);
}

TEST(CutBack, KnownDecayGoesEvenAtAbsurdCost) {
  for_each_seed(12, [](Random& random) {
    Job job = laundry();
    job.rates = Rates{};
    job.rates->leave_unsound_per_sf = 0;
    job.rates->tear_out_sound_per_sf = 1e9;
    job.cut_rules = no_rules();
    const double x = between(random, 1, 107);
    const Point at{x, between(random, 1, 71)};
    job.marks = {awl("m1", "deck", at, random.below(2) ? Reading::soft : Reading::gone)};
    const auto cut = cut_back(plan::as_drawn(job), survey_of(job, random, 10), {}).findings;
    const Piece* piece = piece_at(cut, "deck", at);
    ASSERT_TRUE(piece);
    EXPECT_TRUE(piece->out);
    EXPECT_TRUE(piece->known_decay);
    EXPECT_TRUE(piece_at(cut, "sheet", at)->out) << "what lies over it goes";
    EXPECT_GT(cut.cost, 1e8);
  });
}

TEST(CutBack, SoundFloorStaysWhole) {
  Random random(3);
  const Job job = laundry();
  const auto result = cut_back(plan::as_drawn(job), survey_of(job, random, 50, spot({500, 500}, 1)), {});
  EXPECT_EQ(total_out_sf(result.findings), 0);
  EXPECT_EQ(result.findings.cost, 0);
  EXPECT_EQ(result.findings.expected_loss_left, 0);
  EXPECT_TRUE(result.findings.edges.empty());
  for (const auto& draw : result.draws)
    for (const double sf : draw.layer_sf) EXPECT_EQ(sf, 0);
}

// Every lower piece that goes lies, with its lap, inside what goes of each layer above it, as far as
// that layer is there.
void expect_nested(const Job& job, const CutBack& cut, double lap_in) {
  for (std::size_t low = 1; low < job.layers.size(); ++low)
    for (std::size_t up = 0; up < low; ++up) {
      const Region above = removed(cut, job.layers[up].id), whole = covered(cut, job.layers[up].id);
      std::vector<Polygon> wanted;
      const double lap = job.layers[up].material == Material::board ? 0 : lap_in;
      for (const auto& piece : cut.pieces) {
        if (!piece.out || piece.layer != job.layers[low].id) continue;
        wanted.push_back(piece.outline_in);
        const Box box = bounds(piece.outline_in);
        if (std::fabs(box.width_in() * box.height_in() - area_in2(piece.outline_in)) < 1e-6) {  // straight: its lap as two boxes
          wanted.push_back(rectangle(box.x0_in - lap, box.y0_in, box.x1_in + lap, box.y1_in));
          wanted.push_back(rectangle(box.x0_in, box.y0_in - lap, box.x1_in, box.y1_in + lap));
        }
      }
      const Region missing = subtract(intersect(unite(wanted), whole), above);
      EXPECT_LT(area_in2(missing), 8) << job.layers[up].id << " over " << job.layers[low].id;
    }
}

TEST(CutBack, EachLayerLiesInsideWhatGoesAboveIt) {
  for_each_seed(14, [](Random& random) {
    Job job = laundry();
    if (random.below(2)) job.layers[2].runs = Runs{45};
    if (random.below(2)) job.layers[1].absent_in = {rectangle(30, 10, 61, 40)};
    if (random.below(3) == 0) job.layers[2] = layer("deck", Material::plywood);
    job.rates = Rates{};
    job.rates->leave_unsound_per_sf = 600;
    const double x = between(random, 10, 98);
    const Oval oval{{x, between(random, 10, 62)}, between(random, 6, 30), 10, 5, 0.3};
    const auto result = cut_back(plan::as_drawn(job), survey_of(job, random, 40, oval), {});
    EXPECT_GT(result.findings.area_sf.at("deck"), 0);
    expect_nested(job, result.findings, 2);
  });
}

TEST(CutBack, LeavingDearerNeverTakesLessAndTearingDearerNeverMore) {
  for_each_seed(6, [](Random& random) {
    Job job = laundry();
    job.cut_rules = no_rules();
    job.rates = Rates{};
    const auto survey = survey_of(job, random, 60);
    std::set<std::string> before;
    const auto out_now = [&] {
      std::set<std::string> ids;
      for (const auto& piece : cut_back(plan::as_drawn(job), survey, {}).findings.pieces)
        if (piece.out) ids.insert(piece.id);
      return ids;
    };
    job.rates->tear_out_sound_per_sf = 30;
    for (const double leave : {5.0, 30.0, 90.0, 300.0, 3000.0}) {
      job.rates->leave_unsound_per_sf = leave;
      const auto now = out_now();
      EXPECT_TRUE(std::includes(now.begin(), now.end(), before.begin(), before.end())) << leave;
      before = now;
    }
    for (const double tear : {40.0, 90.0, 400.0, 4000.0}) {
      job.rates->tear_out_sound_per_sf = tear;
      const auto now = out_now();
      EXPECT_TRUE(std::includes(before.begin(), before.end(), now.begin(), now.end())) << tear;
      before = now;
    }
  });
}

TEST(CutBack, CostsAddUpAndTheLeastIsABound) {
  for_each_seed(10, [](Random& random) {
    Job job = laundry();
    job.marks = {awl("m1", "deck", {between(random, 5, 100), 30}, Reading::soft)};
    const auto cut = cut_back(plan::as_drawn(job), survey_of(job, random, 40), {}).findings;
    EXPECT_GE(cut.cost + cut.expected_loss_left, cut.least_cost - 1e-9);
    double added = 0;
    for (const auto& rule : cut.rules) {
      EXPECT_GE(rule.added_cost, -1e-9) << rule.rule;
      EXPECT_FALSE(rule.words.empty());
      EXPECT_FALSE(rule.reason.compares.empty());
      added += rule.added_cost;
    }
    EXPECT_NEAR(cut.least_cost + added, cut.cost + cut.expected_loss_left, 0.005) << "the rules' prices are the whole difference";
  });
}

TEST(CutBack, SupportsAlongTheBoardsDoNotSplitThem) {
  Random random(5);
  Job job = laundry();
  job.layers[2].runs = Runs{90};  // along the joists
  const auto cut = cut_back(plan::as_drawn(job), survey_of(job, random, 5), {}).findings;
  for (const auto& edge : cut.edges) EXPECT_TRUE(edge.layer != "deck" || edge.kind == EdgeKind::at_wall || edge.support.empty()) << edge.why;
  for (const auto& piece : cut.pieces)
    EXPECT_TRUE(piece.layer != "deck" || piece.plank != 1 || std::fabs(bounds(piece.outline_in).x1_in - 5.5) < 0.01) << "counted from the left";
}

TEST(CutBack, DiagonalBoardsAreCutOnTheSlantOfTheirJoists) {
  Random random(6);
  Job job = laundry();
  job.layers[2].runs = Runs{45};
  const auto cut = cut_back(plan::as_drawn(job), survey_of(job, random, 30), {}).findings;
  EXPECT_NEAR(area_in2(covered(cut, "deck")), 108 * 72, 3);
  bool any = false;
  for (const auto& edge : cut.edges) {
    if (edge.layer != "deck" || edge.kind != EdgeKind::cross_on_support) continue;
    any = true;
    EXPECT_NEAR(edge.from_in.x_in, edge.to_in.x_in, 0.05) << "along the joist";
    EXPECT_NEAR(std::fmod(edge.from_in.x_in, 16), 0, 0.05) << "on its middle";
  }
  EXPECT_TRUE(any);
}

TEST(CutBack, PlankOfAMarkIsThePlankCountedOut) {
  for (const double runs : {0.0, 30.0, 45.0, 90.0, 120.0, 135.0}) {
    Random random(7);
    Job job = laundry();
    job.layers[2].runs = Runs{runs};
    Mark mark = awl("m1", "deck", {}, Reading::gone);
    mark.at_in.reset();
    mark.plank = 9;
    mark.tape_in = 60;
    job.marks = {mark};
    job.cut_rules = no_rules();
    const auto at = place_of(job, mark);
    ASSERT_TRUE(at);
    if (!contains(job.room.outline_in, *at)) continue;
    const auto cut = cut_back(plan::as_drawn(job), survey_of(job, random, 3, spot({500, 500}, 1)), {}).findings;
    int known = 0;
    for (const auto& piece : cut.pieces)
      if (piece.known_decay) {
        ++known;
        EXPECT_EQ(piece.plank, 9) << runs;
      }
    EXPECT_EQ(known, 1) << runs;
  }
}

TEST(CutBack, EveryEdgeHasAReasonAndTheOutlineIsTheirSum) {
  for_each_seed(8, [](Random& random) {
    Job job = laundry();
    job.room.doors = {{"d1", {60, 0}, {92, 0}, {}, {}}};
    const double x = between(random, 20, 90);
    const auto cut = cut_back(plan::as_drawn(job), survey_of(job, random, 30, {{x, 8}, 20, 10, 4, 0.2}), {}).findings;
    double edges = 0, outline = 0, merged = 0, pieces = 0;
    for (const auto& edge : cut.edges) {
      EXPECT_FALSE(edge.why.empty());
      EXPECT_NEAR(edge.length_in, distance_in(edge.from_in, edge.to_in), 0.05);
      if (edge.layer == "deck") edges += edge.length_in;
    }
    for (const auto& ring : cut.outlines_in.at("deck")) {
      merged += signed_area_in2(ring);
      for (std::size_t k = 0; k < ring.size(); ++k) outline += distance_in(ring[k], ring[(k + 1) % ring.size()]);
    }
    for (const auto& piece : cut.pieces)
      if (piece.out && piece.layer == "deck") pieces += area_in2(piece.outline_in);
    EXPECT_NEAR(edges, outline, 0.3) << "the edges run once round what goes";
    EXPECT_NEAR(merged, pieces, 0.3);
    EXPECT_NEAR(pieces / 144, cut.area_sf.at("deck"), 1e-6);
  });
}

TEST(CutBack, DamageAtADoorIsSaid) {
  Random random(13);
  Job job = laundry();
  job.room.doors = {{"d1", {60, 0}, {92, 0}, {}, {}}};
  const auto cut = cut_back(plan::as_drawn(job), survey_of(job, random, 30, {{76, 4}, 14, 10, 1, 0.1}), {}).findings;
  EXPECT_TRUE(std::any_of(cut.notes.begin(), cut.notes.end(), [](const std::string& n) { return n.find("door d1") != std::string::npos; }));
  EXPECT_TRUE(
      std::any_of(cut.edges.begin(), cut.edges.end(), [](const Edge& e) { return e.kind == EdgeKind::at_wall && e.why.find("door d1") != std::string::npos; }));
  EXPECT_FALSE(cut.words.empty());
}

TEST(CutBack, WoodThatGoesThoughItIsLikelySoundIsSaid) {
  Random random(15);
  Job job = laundry();
  job.rates = Rates{};
  job.rates->leave_unsound_per_sf = 900;
  auto survey = survey_of(job, random, 10, spot({500, 500}, 1));
  auto& degree = survey.draws.layers[2].degree;
  for (std::size_t k = 0; k < degree.size() * 4 / 10; ++k) degree[k] = survey::kSoft;  // four draws of ten, everywhere
  const auto cut = cut_back(plan::as_drawn(job), survey, {}).findings;
  EXPECT_NEAR(cut.area_sf.at("deck"), 54, 0.01);
  EXPECT_TRUE(std::any_of(cut.notes.begin(), cut.notes.end(), [](const std::string& n) { return n.find("54.0 are more likely sound") != std::string::npos; }));
}

TEST(CutBack, MembersReachAsFarAsTheDrawsAndNoFartherThanASoundReading) {
  Random random(14);
  Job job = laundry();
  job.supports[2].size = SectionSize{"2x8", 1, 1.5, 7.25};
  const auto probe = [](const std::string& id, double along, Reading reads) {
    Mark mark;
    mark.id = id;
    mark.support = "j3";
    mark.along_in = along;
    mark.tool = Tool::awl;
    mark.reads = reads;
    mark.depth_in = 0.5;
    mark.width_in = 1.5;
    return mark;
  };
  job.marks = {probe("m1", 40, Reading::soft), probe("m2", 52, Reading::sound)};
  auto survey = survey_of(job, random, 20, spot({500, 500}, 1));
  auto& line = survey.draws.supports[2];
  for (int d = 0; d < 20; ++d)
    for (std::size_t k = 0; k < line.along_in.size(); ++k)
      if (line.along_in[k] > 20 && line.along_in[k] < 60) line.degree[d * line.along_in.size() + k] = survey::kSoft;
  const auto cut = cut_back(plan::as_drawn(job), survey, {}).findings;
  ASSERT_FALSE(cut.members.empty());
  const auto& member = cut.members[0];
  EXPECT_EQ(member.support, "j3");
  EXPECT_TRUE(member.known);
  EXPECT_NEAR(member.from_in, 21, 1e-9);
  EXPECT_LE(member.to_in, 52);
  EXPECT_NEAR(member.depth_in, 0.5, 1e-9);
  EXPECT_NEAR(member.width_in.value_or(0), 1.5, 1e-9);
}

}  // namespace
}  // namespace awlmark::cutback
