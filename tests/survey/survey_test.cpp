// The survey as the other rooms see it: what it answers, its guarantees, and odd input.
#include "survey/survey.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "money/money.hpp"
#include "support/property.hpp"
#include "survey/example_job.hpp"
#include "survey/glance.hpp"

namespace awlmark {
namespace {

using testing::awl_mark;
using testing::between;
using testing::for_each_seed;
using testing::job_from;
using testing::laundry;

survey::Options fields_only(double cell_in = 6) {
  survey::Options options;
  options.cell_in = cell_in;
  options.draws = 0;
  options.openings = 0;
  options.last_change = false;
  return options;
}

double at(const survey::Survey& s, std::size_t layer, double x, double y) {
  const int i = static_cast<int>((x - s.grid.origin_in.x_in) / s.grid.cell_in), j = static_cast<int>((y - s.grid.origin_in.y_in) / s.grid.cell_in);
  return s.layers[layer].p_unsound[static_cast<std::size_t>(j * s.grid.nx + i)];
}

Mark awl(const std::string& id, Point p, const std::string& layer, Reading reads) {
  Mark mark;
  mark.id = id;
  mark.at_in = p;
  mark.layer = layer;
  mark.reads = reads;
  return mark;
}

std::vector<Mark> random_marks(Random& random, int count) {
  std::vector<Mark> marks;
  const char* layers[] = {"under", "deck"};
  const Reading reads[] = {Reading::sound, Reading::soft, Reading::gone};
  for (int i = 0; i < count; ++i) {
    Point p;
    p.x_in = std::floor(between(random, 3, 105));
    p.y_in = std::floor(between(random, 3, 69));
    const auto layer = random.below(2), read = random.below(3);
    marks.push_back(awl("m" + std::to_string(i), p, layers[layer], reads[read]));
  }
  return marks;
}

TEST(Survey, AnswersWithoutMarks) {
  const auto result = survey::survey(laundry());
  const auto& s = result.findings;
  EXPECT_EQ(s.grid.nx, 36);
  EXPECT_EQ(s.grid.ny, 24);
  ASSERT_EQ(s.layers.size(), 3u);
  EXPECT_TRUE(s.inference.converged);
  EXPECT_GT(at(s, 2, 84, 66), 0.6);
  EXPECT_LT(at(s, 2, 4, 4), 0.2);
  EXPECT_FALSE(s.next_openings.empty());
  EXPECT_FALSE(s.stop);
  ASSERT_EQ(result.draws.layers.size(), 3u);
  EXPECT_EQ(result.draws.layers[2].degree.size(), 1000u * 36 * 24);
  ASSERT_EQ(s.supports.size(), 2u);
  EXPECT_EQ(s.supports[0].along_in.front(), 0);
  EXPECT_EQ(s.supports[0].along_in.back(), 72);
  EXPECT_EQ(result.draws.supports[1].degree.size(), 1000u * s.supports[1].along_in.size());
}

TEST(Survey, MarksDecideNearThem) {
  const std::string marks = "[" + awl_mark("a", 66, 60, "deck", "gone") + "," + awl_mark("b", 40, 30, "deck", "sound") + "]";
  const auto s = survey::survey(laundry(marks)).findings;
  EXPECT_GT(at(s, 2, 66, 60), 0.9);
  EXPECT_LT(at(s, 2, 40, 30), 0.1);
  // The draws say the same as the marginals.
  const auto range = s.unsound_sf.at("deck");
  EXPECT_LT(range.p10, range.p50);
  EXPECT_LT(range.p50, range.p90);
  ASSERT_TRUE(s.last_change);
  EXPECT_EQ(s.last_change->marks, std::vector<std::string>{"b"});
}

TEST(Survey, DrawsAgreeWithTheFields) {
  const auto result = survey::survey(laundry("[" + awl_mark("a", 66, 60, "deck", "gone") + "," + awl_mark("b", 30, 30, "deck", "sound") + "]"));
  const auto& s = result.findings;
  for (const int c : {36 * 20 + 22, 36 * 20 + 28, 36 * 10 + 10, 36 * 15 + 30}) {
    int unsound = 0;
    for (int d = 0; d < result.draws.count; ++d) unsound += result.draws.layers[2].degree[static_cast<std::size_t>(d * 36 * 24 + c)] != 0 ? 1 : 0;
    const double p = s.layers[2].p_unsound[static_cast<std::size_t>(c)];
    EXPECT_NEAR(unsound / 1000.0, p, 4.5 * std::sqrt(p * (1 - p) / 1000) + 0.01) << c;
  }
}

// The layer looked at comes first, and is what the whole survey then says of it.
TEST(Survey, OneLayerAtOnceIsTheSameField) {
  const Job job = laundry("[" + awl_mark("a", 66, 60, "deck", "gone") + "]");
  const auto at_once = survey::glance(job, "deck", 6), whole = survey::survey(job, fields_only()).findings;
  ASSERT_EQ(at_once.layers.size(), 1u);
  EXPECT_EQ(at_once.layers[0].layer, "deck");
  EXPECT_EQ(at_once.layers[0].p_unsound, whole.layers[2].p_unsound);
  EXPECT_EQ(at_once.layers[0].p_gone, whole.layers[2].p_gone);
  EXPECT_TRUE(std::isnan(at_once.layers[0].p_wet[100]));
}

TEST(Survey, SameSeedSameFindings) {
  const Job job = laundry("[" + awl_mark("a", 66, 60, "deck", "soft") + "]");
  survey::Options options;
  options.draws = 100;
  const auto a = survey::survey(job, options), b = survey::survey(job, options);
  EXPECT_EQ(a.draws.layers[1].degree, b.draws.layers[1].degree);
  options.seed = 7;
  EXPECT_NE(a.draws.layers[1].degree, survey::survey(job, options).draws.layers[1].degree);
}

// Guarantee 3 of survey.hpp.
TEST(SurveyProperty, ASoundMarkNeverRaisesRotAtItsSpot) {
  for_each_seed(10, [](Random& random) {
    Job job = laundry();
    const int before = static_cast<int>(random.below(9));
    job.marks = random_marks(random, before);
    const auto first = survey::survey(job, fields_only()).findings;
    Point p;
    p.x_in = 6 * std::floor(between(random, 0, 18)) + 3;
    p.y_in = 6 * std::floor(between(random, 0, 12)) + 3;
    job.marks.push_back(awl("new", p, "deck", Reading::sound));
    const auto then = survey::survey(job, fields_only()).findings;
    EXPECT_LE(at(then, 2, p.x_in, p.y_in), at(first, 2, p.x_in, p.y_in) + 1e-4);
  });
}

Point mirrored(Point p) { return {108 - p.x_in, p.y_in}; }

TEST(SurveyProperty, AMirroredJobGivesTheMirroredField) {
  for_each_seed(3, [](Random& random) {
    Job job = laundry();
    job.layers[2].runs = Runs{30};
    job.marks = random_marks(random, 6);
    Job other = job;
    other.layers[2].runs = Runs{150};
    for (auto& mark : other.marks) mark.at_in = mirrored(*mark.at_in);
    for (auto& source : other.sources) source.at_in = mirrored(*source.at_in);
    for (auto& s : other.supports) {
      s.from_in = mirrored(s.from_in);
      s.to_in = mirrored(s.to_in);
    }
    const auto a = survey::survey(job, fields_only()).findings, b = survey::survey(other, fields_only()).findings;
    for (double x = 3; x < 108; x += 6)
      for (double y = 3; y < 72; y += 6)
        for (std::size_t l = 0; l < 3; ++l) EXPECT_NEAR(at(a, l, x, y), at(b, l, 108 - x, y), 1e-6);
    for (std::size_t i = 0; i < a.supports[0].p_unsound.size(); ++i) EXPECT_NEAR(a.supports[0].p_unsound[i], b.supports[0].p_unsound[i], 1e-6);
  });
}

// A quarter turn counter-clockwise about the origin, then back into the first quadrant.
Point turned(Point p) { return {72 - p.y_in, p.x_in}; }

TEST(SurveyProperty, AQuarterTurnTurnsTheField) {
  for_each_seed(3, [](Random& random) {
    Job job = laundry();
    job.marks = random_marks(random, 6);
    Job other = job;
    const auto turn_all = [](Polygon& ring) { std::transform(ring.begin(), ring.end(), ring.begin(), turned); };
    turn_all(other.room.outline_in);
    other.layers[2].runs = Runs{90};
    for (auto& mark : other.marks) mark.at_in = turned(*mark.at_in);
    for (auto& source : other.sources) source.at_in = turned(*source.at_in);
    for (auto& s : other.supports) {
      s.from_in = turned(s.from_in);
      s.to_in = turned(s.to_in);
    }
    for (auto& w : other.walls) {
      w.from_in = turned(w.from_in);
      w.to_in = turned(w.to_in);
    }
    const auto a = survey::survey(job, fields_only()).findings, b = survey::survey(other, fields_only()).findings;
    for (double x = 3; x < 108; x += 6)
      for (double y = 3; y < 72; y += 6) {
        const Point p = turned({x, y});
        EXPECT_NEAR(at(a, 2, x, y), at(b, 2, p.x_in, p.y_in), 1e-6);
      }
    for (std::size_t i = 0; i < a.walls[0].p_unsound.size(); ++i) EXPECT_NEAR(a.walls[0].p_unsound[i], b.walls[0].p_unsound[i], 1e-6);
  });
}

TEST(SurveyProperty, NewNamesForMarksChangeNothing) {
  for_each_seed(3, [](Random& random) {
    Job job = laundry();
    job.marks = random_marks(random, 7);
    Job other = job;
    for (auto& mark : other.marks) mark.id = "z" + mark.id + "q";
    std::reverse(other.marks.begin(), other.marks.end());
    const auto a = survey::survey(job, fields_only()).findings, b = survey::survey(other, fields_only()).findings;
    for (double x = 3; x < 108; x += 6)
      for (double y = 3; y < 72; y += 6) EXPECT_NEAR(at(a, 2, x, y), at(b, 2, x, y), 1e-6);
  });
}

void expect_answered(int count, bool one_spot, Reading reads) {
  Job job = laundry();
  Random random(5);
  for (int i = 0; i < count; ++i) {
    Point p{40, 40};
    if (!one_spot && i > 0) {
      p.x_in = between(random, 2, 106);
      p.y_in = between(random, 2, 70);
    }
    job.marks.push_back(awl("m" + std::to_string(i), p, "deck", reads));
  }
  auto options = fields_only(12);
  options.draws = 10;
  const auto s = survey::survey(job, options).findings;
  EXPECT_TRUE(s.inference.converged);
  const double p = at(s, 2, 40, 40);
  EXPECT_TRUE(reads == Reading::sound ? p < 0.25 : p > 0.75) << p;
  for (const auto& field : s.layers)
    for (const double v : field.p_unsound) EXPECT_TRUE(v >= 0 && v <= 1) << v;
}

TEST(SurveyProperty, AnyNumberOfMarksIsAnswered) {
  for (const Reading reads : {Reading::sound, Reading::gone})
    for (const int count : {1, 2, 40})
      for (const bool one_spot : {true, false}) expect_answered(count, one_spot, reads);
  expect_answered(400, true, Reading::gone);
  expect_answered(400, false, Reading::sound);
}

TEST(Survey, NothingKnownStillAnswers) {
  const Job job = job_from(R"({"format":"awlmark-job","version":1,"job":{"name":"bare"},"room":{"outline_in":[[0,0],[96,0],[96,40],[60,40],[60,80],[0,80]]},
    "layers":[{"id":"floor","material":"board"}],"supports":[{"id":"j","from_in":[30,0],"to_in":[30,80]}]})");
  const auto s = survey::survey(job).findings;
  EXPECT_TRUE(s.inference.converged);
  EXPECT_TRUE(std::isnan(at(s, 0, 80, 60)));  // outside the L
  EXPECT_GT(at(s, 0, 20, 20), 0.01);
  EXPECT_FALSE(s.inference.notes.empty());  // the run of the boards was taken across the joists
}

TEST(Survey, AbsentWoodHasNoChance) {
  Job job = laundry("[" + awl_mark("a", 66, 60, "deck", "gone") + "]");
  job.layers[1].absent_in = {rectangle(60, 36, 96, 72)};
  job.layers[0].outline_in = rectangle(0, 0, 54, 72);
  const auto result = survey::survey(job);
  EXPECT_TRUE(std::isnan(at(result.findings, 1, 66, 60)));
  EXPECT_TRUE(std::isnan(at(result.findings, 0, 66, 60)));
  EXPECT_FALSE(std::isnan(at(result.findings, 2, 66, 60)));
  // What lies beside it still learns from the mark.
  EXPECT_GT(at(result.findings, 1, 57, 60), at(survey::survey(laundry(), fields_only()).findings, 1, 57, 60));
}

TEST(Survey, ADryReadingSaysLittleAboutRotOnceTheLeakHasStopped) {
  const auto drop = [](const std::string& active) {
    Job job = laundry();
    job.sources[0].active = active == "true" ? Activity::yes : Activity::no;
    const double before = at(survey::survey(job, fields_only()).findings, 2, 75, 63);
    Mark meter;
    meter.id = "mc";
    meter.at_in = Point{75, 63};
    meter.layer = "deck";
    meter.tool = Tool::meter;
    meter.mc_percent = 9;
    job.marks = {meter};
    return before - at(survey::survey(job, fields_only()).findings, 2, 75, 63);
  };
  EXPECT_GT(drop("true"), 0);
  EXPECT_LT(drop("false"), 0.5 * drop("true"));
}

TEST(Survey, AStainRaisesRotAndInsectsDoNot) {
  const auto p = [](const std::string& reads) {
    Job job = laundry();
    if (!reads.empty()) {
      Mark eye = awl("e", {70, 52}, "deck", *doc::from_word<Reading>(reads));
      eye.tool = Tool::eye;
      job.marks = {eye};
    }
    return at(survey::survey(job, fields_only()).findings, 2, 69, 51);
  };
  EXPECT_GT(p("stained"), p("") + 0.01);
  EXPECT_GT(p("growth"), p(""));
  EXPECT_LT(p("growth"), p("stained"));
  EXPECT_EQ(p("insects"), p(""));
}

TEST(Survey, MembersAndPlatesLearnFromTheLayersAbove) {
  const auto quiet = survey::survey(laundry("[" + awl_mark("a", 48, 36, "deck", "sound") + "]"), fields_only()).findings;
  const auto loud = survey::survey(laundry("[" + awl_mark("a", 48, 36, "deck", "gone") + "]"), fields_only()).findings;
  const std::size_t middle = quiet.supports[0].along_in.size() / 2;
  EXPECT_GT(loud.supports[0].p_unsound[middle], quiet.supports[0].p_unsound[middle] + 0.1);
  const auto plate = laundry(R"([{"id":"p","wall":"w1","along_in":84,"part":"plate","tool":"awl","reads":"gone"}])");
  const auto s = survey::survey(plate, fields_only()).findings;
  EXPECT_GT(s.walls[0].p_unsound[21], 0.9);
  EXPECT_GT(at(s, 2, 84, 69), at(survey::survey(laundry(), fields_only()).findings, 2, 84, 69));
}

TEST(Survey, ContradictionsAreReportedAndSettled) {
  const Job job = laundry(R"([
    {"id":"a","at_in":[30,30],"layer":"deck","tool":"awl","reads":"gone"},
    {"id":"b","at_in":[30,30],"layer":"deck","tool":"awl","reads":"sound"},
    {"id":"w1","at_in":[60,30],"layer":"deck","tool":"meter","mc_percent":26,"time":"2026-05-04T08:00:00Z"},
    {"id":"w2","at_in":[60,30],"layer":"deck","tool":"meter","mc_percent":10,"time":"2026-05-06T08:00:00Z"},
    {"id":"w3","at_in":[80,30],"layer":"deck","tool":"eye","reads":"dry"},
    {"id":"w4","at_in":[80,30],"layer":"deck","tool":"eye","reads":"wet"}])");
  const auto warnings = survey::warnings(job);
  ASSERT_EQ(warnings.size(), 3u);
  EXPECT_EQ(warnings[0].at, "marks[1]");
  EXPECT_NE(warnings[0].mend.find("both count"), std::string::npos);
  EXPECT_NE(warnings[1].mend.find("later"), std::string::npos);
  EXPECT_NE(warnings[2].mend.find("wetter"), std::string::npos);
  const auto s = survey::survey(job, fields_only()).findings;
  const auto p_wet = [&](double x, double y) {
    return s.layers[2].p_wet[static_cast<std::size_t>(static_cast<int>(y / 6) * s.grid.nx + static_cast<int>(x / 6))];
  };
  EXPECT_LT(p_wet(60, 30), 0.1);
  EXPECT_GT(p_wet(80, 30), 0.15);
  EXPECT_GT(at(s, 2, 30, 30), 0.2);  // neither reading alone decides
  EXPECT_LT(at(s, 2, 30, 30), 0.9);
}

TEST(Survey, BadMarksAreRefusedOrReadSafely) {
  const auto read = [](const std::string& mark) {
    return read_job(R"({"format":"awlmark-job","version":1,"room":{"outline_in":[[0,0],[108,0],[108,72],[0,72]]},"layers":[{"id":"deck","material":"board"}],
      "fixtures":[{"id":"tub","kind":"tub","outline_in":[[0,0],[30,0],[30,60],[0,60]],"stands":true}],"marks":[)" +
                    mark + "]}");
  };
  EXPECT_FALSE(read(awl_mark("far", 400, 30, "deck", "sound")));
  EXPECT_FALSE(read(awl_mark("ghost", 40, 30, "attic", "sound")));
  EXPECT_FALSE(read(R"({"id":"m","at_in":[40,30],"layer":"deck","tool":"meter","mc_percent":300})"));
  const auto under_tub = read(awl_mark("tub", 15, 30, "deck", "sound"));
  ASSERT_TRUE(under_tub);
  EXPECT_EQ(survey::warnings(*under_tub.value).size(), 1u);
  const auto wet = read(R"({"id":"m","at_in":[40,30],"layer":"deck","tool":"meter","mc_percent":120})");
  ASSERT_TRUE(wet);
  ASSERT_EQ(survey::warnings(*wet.value).size(), 1u);
  EXPECT_GT(survey::survey(*wet.value, fields_only()).findings.layers[0].p_wet[5 * 18 + 6], 0.9);
}

// Far from the leak one soft reading may be a knot: doubted and said so, until a second one agrees.
TEST(Survey, ALoneSoftMarkIsDoubtedUntilItIsConfirmed) {
  const auto chance_and_words = [](const std::string& marks) {
    const auto findings = survey::survey(laundry(marks), fields_only()).findings;
    const double p = at(findings, 2, 12, 12);
    bool asks = false;
    for (const auto& words : findings.words) asks = asks || words.find("Probe it again") != std::string::npos;
    return std::pair{p, asks};
  };
  const std::string near = awl_mark("a", 84, 60, "deck", "gone") + "," + awl_mark("b", 48, 40, "deck", "sound");
  const auto none = chance_and_words("[" + near + "]");
  const auto once = chance_and_words("[" + near + "," + awl_mark("c", 12, 12, "deck", "soft") + "]");
  const auto twice = chance_and_words("[" + near + "," + awl_mark("c", 12, 12, "deck", "soft") + "," + awl_mark("d", 12, 12, "deck", "soft") + "]");
  EXPECT_FALSE(none.second);
  EXPECT_TRUE(once.second);
  EXPECT_FALSE(twice.second);
  EXPECT_GT(once.first, 4 * none.first);
  EXPECT_LT(once.first, 0.5);
  EXPECT_GT(twice.first, 0.6);
}

TEST(Survey, SoundLinesHoldWhatTheySay) {
  const auto result = survey::survey(
      laundry("[" + awl_mark("a", 84, 60, "deck", "gone") + "," + awl_mark("b", 40, 50, "deck", "sound") + "," + awl_mark("c", 84, 20, "deck", "sound") + "]"));
  int lines = 0;
  for (const auto& line : result.findings.sound_lines) {
    if (line.layer != "deck" || line.rings_in.empty()) continue;
    ++lines;
    const auto& degree = result.draws.layers[2].degree;
    int held = 0;
    for (int d = 0; d < result.draws.count; ++d) {
      int cells_outside = 0;
      for (int c = 0; c < 36 * 24; ++c) {
        if (degree[static_cast<std::size_t>(d * 36 * 24 + c)] == 0) continue;
        const Point p{(c % 36 + 0.5) * 3, (c / 36 + 0.5) * 3};
        int inside = 0;  // even-odd over outer rings and holes
        for (const auto& ring : line.rings_in) inside += contains(ring, p) ? 1 : 0;
        cells_outside += inside % 2 == 1 ? 0 : 1;
      }
      held += cells_outside * 9.0 / 144 < line.outside_sf ? 1 : 0;  // cells of 3 x 3 in.
    }
    EXPECT_GT(line.outside_sf, 0);
    EXPECT_LE(line.outside_sf, 1);
    EXPECT_NE(line.words.find("sq ft"), std::string::npos);
    EXPECT_GE(held, static_cast<int>(line.confidence * result.draws.count) - 1);
  }
  EXPECT_EQ(lines, 2);
}

TEST(Openings, CostsFollowTheFloor) {
  Job job = laundry("[" + awl_mark("a", 84, 60, "deck", "gone") + "]");
  job.job.below = Below::unknown;
  job.supports.clear();
  job.walls.clear();
  job.layers[0].shown_asbestos_free = true;
  const auto openings = [&] {
    survey::Options options;
    options.openings = 6;
    std::vector<survey::NextOpening> found;
    for (const auto& next : survey::survey(job, options).findings.next_openings)
      if (next.act == survey::Act::open) found.push_back(next);
    return found;
  };
  const auto plain = openings();
  ASSERT_FALSE(plain.empty());
  const double opening = money::stakes_of(job).opening;
  EXPECT_EQ(plain[0].cost, opening);
  EXPECT_NEAR(plain[0].net, plain[0].worth - opening, 1e-9);
  EXPECT_NE(plain[0].why.find("from the left wall"), std::string::npos);
  EXPECT_EQ(plain[0].pierces, (std::vector<std::string>{"sheet", "under", "deck"}));
  job.layers[0].stays = true;
  for (const auto& next : openings()) EXPECT_EQ(next.cost, opening + money::stakes_of(job).patch_per_opening);
  job.layers[0].stays.reset();
  job.layers[0].goes = true;
  job.layers[1].goes = true;
  const double ten_minutes = 72.0 / 6;  // of labour at the table's rate
  for (const auto& next : openings()) EXPECT_EQ(next.cost, ten_minutes);
  const auto goes = survey::survey(job).findings;
  ASSERT_FALSE(goes.next_openings.empty());
  EXPECT_EQ(goes.next_openings[0].act, survey::Act::strip);
  EXPECT_GT(goes.next_openings[0].cost, 0);
}

// An opening is a slot across the boards (which run x here), priced as one.
TEST(Openings, AreSlotsOfThreeProbesAcrossTheGrain) {
  Job job = laundry("[" + awl_mark("a", 84, 60, "deck", "gone") + "]");
  job.job.below = Below::unknown;
  job.layers[0].shown_asbestos_free = true;
  survey::Options options;
  options.openings = 6;
  int slots = 0;
  for (const auto& next : survey::survey(job, options).findings.next_openings) {
    ASSERT_FALSE(next.probes_in.empty());
    EXPECT_EQ(next.probes_in[0], next.at_in);
    if (next.act != survey::Act::open || next.probes_in.size() != 3) continue;
    ++slots;
    EXPECT_EQ(next.probes_in[1].x_in, next.at_in.x_in);
    EXPECT_EQ(next.probes_in[1].y_in, next.at_in.y_in + 4.5);
    EXPECT_EQ(next.probes_in[2].y_in, next.at_in.y_in - 4.5);
  }
  EXPECT_GT(slots, 0);
}

TEST(Openings, WholeFloorGoesAsksAboutWallsAndMembers) {
  Job job = laundry("[" + awl_mark("a", 84, 60, "deck", "gone") + "]");
  for (auto& layer : job.layers) layer.goes = true;
  const auto s = survey::survey(job).findings;
  ASSERT_FALSE(s.next_openings.empty());
  for (const auto& next : s.next_openings)
    EXPECT_TRUE(next.support || next.wall || next.act == survey::Act::sample || next.act == survey::Act::strip) << next.why;
}

TEST(Openings, AFixtureHasToBeLiftedFirst) {
  Job job = laundry();
  Fixture washer;
  washer.id = "washer";
  washer.kind = FixtureKind::washing_machine;
  washer.outline_in = rectangle(0, 0, 108, 72);
  washer.lift_hours = 0.5;
  job.fixtures = {washer};
  job.job.below = Below::unknown;
  job.layers[0].shown_asbestos_free = true;
  job.supports.clear();
  job.walls.clear();
  const auto s = survey::survey(job).findings;
  ASSERT_FALSE(s.next_openings.empty());
  EXPECT_EQ(s.next_openings[0].lifts, "washer");
  const auto stakes = money::stakes_of(job);
  EXPECT_EQ(s.next_openings[0].cost, stakes.opening + 0.5 * stakes.labour_per_hour);
}

// A sound first probe is no reason to stop: somebody had one to look.
TEST(Openings, DoNotStopOnTheFirstSoundProbes) {
  Job job =
      laundry("[" + awl_mark("a", 90, 60, "deck", "sound") + "," + awl_mark("b", 60, 50, "deck", "sound") + "," + awl_mark("c", 95, 45, "deck", "sound") + "]");
  const auto early = survey::survey(job).findings;
  EXPECT_FALSE(early.stop);
  ASSERT_FALSE(early.next_openings.empty());
  for (const Point p : {Point{20, 20}, Point{40, 60}, Point{70, 66}, Point{60, 20}})
    job.marks.push_back(awl("more" + std::to_string(job.marks.size()), p, "deck", Reading::sound));
  job.rates = Rates{};
  job.rates->opening = 300;
  job.rates->labour_per_hour = 1200;  // a look from the crawl space takes a quarter of it
  EXPECT_TRUE(survey::survey(job).findings.stop);
  job.marks.resize(3);
  EXPECT_FALSE(survey::survey(job).findings.stop);
}

TEST(Openings, AreNotCrowdedAndStopWhenTheyDoNotPay) {
  survey::Options options;
  options.openings = 5;
  const auto s = survey::survey(laundry(), options).findings;
  for (std::size_t i = 0; i < s.next_openings.size(); ++i)
    for (std::size_t j = i + 1; j < s.next_openings.size(); ++j) EXPECT_GE(distance_in(s.next_openings[i].at_in, s.next_openings[j].at_in), 18);
  Job dear = laundry();
  dear.rates = Rates{};
  dear.rates->opening = 5000;
  dear.rates->labour_per_hour = 50000;
  const auto stop = survey::survey(dear, options).findings;
  EXPECT_TRUE(stop.stop);
  EXPECT_TRUE(stop.next_openings.empty());
  EXPECT_NE(stop.stop_why.find("Stop opening"), std::string::npos);
}

}  // namespace
}  // namespace awlmark
