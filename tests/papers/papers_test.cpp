// What every paper promises: one well-formed file, no outside address, everything escaped, print
// rules, cautions; with all findings, with none, and with far more than usual.
#include "papers/papers.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <limits>
#include <set>

#include "papers/framing_tables.hpp"
#include "papers/markup.hpp"
#include "papers/sample.hpp"
#include "papers/sheets.hpp"
#include "papers/wellformed.hpp"
#include "support/property.hpp"

namespace awlmark {
namespace {

using papers::Paper;
using testing::clubhouse_washroom;
using testing::laundry;
using testing::read_markup;

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::vector<Paper> every_paper(const Job& job, const Findings& findings) { return papers::all_papers(job, findings); }

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++count;
  return count;
}

// What a screen reader goes by: one h1, headings without a step left out, drawings that are images with a
// title, tables whose heads say what they head.
void expect_structure(const std::string& html) {
  EXPECT_EQ(times(html, "<h1"), 1u);
  int last = 1;
  for (auto at = html.find("<h"); at != std::string::npos; at = html.find("<h", at + 2)) {
    if (html[at + 2] < '1' || html[at + 2] > '6') continue;
    const int level = html[at + 2] - '0';
    EXPECT_LE(level, last + 1) << html.substr(at, 60);
    last = level;
  }
  EXPECT_EQ(times(html, "<svg class=\"drawing\""), times(html, "<svg class=\"drawing\" role=\"img\""));
  EXPECT_GE(times(html, "<title>"), times(html, "<svg class=\"drawing\""));
  EXPECT_EQ(times(html, "<th ") + times(html, "<th>"), times(html, "<th scope="));
  EXPECT_EQ(times(html, "<table"), times(html, "<thead>"));
}

void expect_sound(const Paper& paper) {
  SCOPED_TRACE(paper.file);
  const auto reading = read_markup(paper.html);
  EXPECT_EQ(reading.problem, "");
  const std::set<std::string> ids(reading.ids.begin(), reading.ids.end());
  EXPECT_EQ(ids.size(), reading.ids.size()) << "an id stands twice";
  EXPECT_TRUE(holds(paper.html, "<svg"));
  EXPECT_TRUE(holds(paper.html, "@media print"));
  EXPECT_TRUE(holds(paper.html, "size:letter"));
  const bool spanish = paper.file == "crew-sheet-es.html";
  EXPECT_TRUE(holds(paper.html, spanish ? "Cuidado" : "Cautions"));
  EXPECT_TRUE(holds(paper.html, spanish ? "Manda el código local" : "Local code decides"));
  EXPECT_TRUE(holds(paper.html, spanish ? "<html lang=\"es\">" : "<html lang=\"en\">"));
  expect_structure(paper.html);
  EXPECT_FALSE(holds(paper.html, "://"));
  EXPECT_FALSE(holds(paper.html, "<script"));
  EXPECT_FALSE(holds(paper.html, "nan"));
  EXPECT_FALSE(holds(paper.html, ">inf"));
  for (const auto& attribute : reading.attributes)
    if (const auto at = attribute.find("url(#"); at != std::string::npos) {
      EXPECT_EQ(ids.count(attribute.substr(at + 5, attribute.find(')', at) - at - 5)), 1u) << attribute;
    }
  for (const auto& tag : reading.tags) EXPECT_TRUE(tag != "script" && tag != "link" && tag != "iframe" && tag != "img") << tag;
}

TEST(Papers, AreWellFormedAndStandAlone) {
  for (const auto& sample : {clubhouse_washroom(), laundry()})
    for (const auto& paper : every_paper(sample.job, sample.findings)) expect_sound(paper);
}

TEST(Papers, SayWhatWasFound) {
  const auto sample = clubhouse_washroom();
  const auto report = papers::condition_report(sample.job, sample.findings).html;
  EXPECT_TRUE(holds(report, "8 chances in 10 that it is between 8.2 and 16 sq ft"));
  EXPECT_TRUE(holds(report, "A leaking drain"));
  EXPECT_TRUE(holds(report, "from wall w2 and"));
  EXPECT_TRUE(holds(report, "April 28, 2026"));
  const auto html = papers::annex(sample.job, sample.findings).html;
  EXPECT_TRUE(holds(html, "between 8.2 and 16 sq ft"));
  EXPECT_TRUE(holds(html, "$410"));
  EXPECT_TRUE(holds(html, "basin"));
  EXPECT_TRUE(holds(html, "asked for 1.33 times what it can give")) << "1590 psi on 1200 psi";
  EXPECT_TRUE(holds(html, "1.43 times as far as allowed")) << "0.19 in. against 0.133 in.";
  EXPECT_TRUE(holds(html, "NDS 2018 (read in a copy of the document)"));
  EXPECT_TRUE(holds(html, "g2"));
  EXPECT_TRUE(holds(html, "Plywood on added joists"));
  EXPECT_TRUE(holds(html, "42 % of its uncertainty"));
  EXPECT_TRUE(holds(papers::photo_record(sample.job, sample.findings).html, "deck at the old pan"));
}

// Pages 2 and 3 of the condition report, inspection sheet and photo record go to people who are not to see money.
TEST(Papers, MoneyStaysWhereItBelongs) {
  const auto sample = clubhouse_washroom();
  const auto report = papers::condition_report(sample.job, sample.findings).html;
  const auto second = report.find("<h2 class=\"new-page\"");
  ASSERT_NE(second, std::string::npos);
  EXPECT_TRUE(holds(report.substr(0, second), "$"));
  EXPECT_FALSE(holds(report.substr(second), "$"));
  for (const auto& paper : every_paper(sample.job, sample.findings))
    if (paper.file == "inspection-sheet.html" || paper.file == "photo-record.html") {
      EXPECT_FALSE(holds(paper.html, "$")) << paper.file;
    }
}

// What is taken for granted is said once, in the annex.
TEST(Papers, AssumptionsStandInOnePlace) {
  auto sample = clubhouse_washroom();
  sample.findings.assumed = {{"boards_run", "deck", "Which way the boards run is a guess of the test."}};
  std::size_t said = 0;
  for (const auto& paper : every_paper(sample.job, sample.findings)) said += times(paper.html, "a guess of the test");
  EXPECT_EQ(said, 1u);
}

TEST(CrewSheet, DrawsSheetGoodsAsOneShape) {
  auto sample = clubhouse_washroom();
  auto& cut = *sample.findings.cut_back;
  for (int k = 0; k < 1000; ++k) {
    cutback::Piece cell;
    cell.id = "sheet." + std::to_string(k), cell.layer = "sheet", cell.kind = "flooring", cell.out = k % 3 != 0;
    const double x = 3 * (k % 40), y = 3 * (k / 40);
    cell.outline_in = {{x, y}, {x + 3, y}, {x + 3, y + 3}, {x, y + 3}};
    cut.pieces.push_back(cell);
  }
  const auto html = papers::crew_sheet(sample.job, sample.findings).html;
  EXPECT_LT(times(html, "<path"), 400u);
  EXPECT_EQ(times(html, "<pattern"), 0u) << "print programs turn patterns into pictures";
}

TEST(Papers, SayWhatIsMissingWhenFindingsAreBare) {
  const auto sample = laundry();
  const auto html = papers::annex(sample.job, sample.findings).html;
  EXPECT_TRUE(holds(html, "Not known yet"));
  EXPECT_TRUE(holds(html, "Why to stop looking"));
  EXPECT_TRUE(holds(html, "less than the $45 it costs"));
  EXPECT_TRUE(holds(html, "no price range was worked out"));
  EXPECT_TRUE(holds(html, "Hazards were not worked out"));
}

TEST(Papers, AnEmptyJobStillGivesASoundPaper) {
  EXPECT_EQ(read_markup(papers::annex(Job{}, Findings{}).html).problem, "");
  const Paper paper = papers::condition_report(Job{}, Findings{});
  EXPECT_EQ(read_markup(paper.html).problem, "");
  EXPECT_TRUE(holds(paper.html, "Nobody has looked at the wood yet"));
}

// Each optional part left out in turn.
TEST(Papers, AnyPartMayBeAbsent) {
  using Drop = void (*)(Job&, Findings&);
  const Drop drops[] = {[](Job&, Findings& f) { f.hazards.reset(); },
                        [](Job&, Findings& f) { f.cut_back.reset(); },
                        [](Job&, Findings& f) { f.floor.reset(); },
                        [](Job&, Findings& f) { f.takeoff.reset(); },
                        [](Job&, Findings& f) { f.work.reset(); },
                        [](Job&, Findings& f) { f.price.reset(); },
                        [](Job&, Findings& f) { f.survey.layers.clear(); },
                        [](Job&, Findings& f) { f.survey.grid = {}; },
                        [](Job&, Findings& f) { f.floor->options.clear(); },
                        [](Job&, Findings& f) { f.cut_back->outlines_in.clear(); },
                        [](Job& j, Findings&) { j.supports.clear(); },
                        [](Job& j, Findings&) { j.layers.clear(); },
                        [](Job& j, Findings&) { j.room.outline_in.clear(); },
                        [](Job& j, Findings&) { j.rebuild.reset(); },
                        [](Job& j, Findings&) { j.walls.clear(); }};
  int index = 0;
  for (const auto& drop : drops) {
    SCOPED_TRACE(index++);
    auto sample = clubhouse_washroom();
    drop(sample.job, sample.findings);
    EXPECT_EQ(read_markup(papers::annex(sample.job, sample.findings).html).problem, "");
    for (const auto& paper : every_paper(sample.job, sample.findings)) EXPECT_EQ(read_markup(paper.html).problem, "") << paper.file;
  }
}

std::string nasty_text(Random& random) {
  static const std::vector<std::string> parts = {"<script>alert(1)</script>",
                                                 "\"",
                                                 "'",
                                                 "&",
                                                 "&amp;",
                                                 "</style>",
                                                 "-->",
                                                 "<!--",
                                                 "]]>",
                                                 "\\",
                                                 "}",
                                                 ";",
                                                 "\xE2\x80\xAE",
                                                 "\x01",
                                                 "\xFF\xC0",
                                                 "\xE2\x82",
                                                 "<svg onload=x>",
                                                 "url(x)",
                                                 "javascript:",
                                                 "\n",
                                                 "\t",
                                                 "\xF0\x9F\xAA\xB5",
                                                 "</title>",
                                                 "%s",
                                                 "longwordlongwordlongwordlongword",
                                                 " "};
  std::string text;
  const auto count = 1 + random.below(5);
  for (std::uint64_t i = 0; i < count; ++i) text += parts[static_cast<std::size_t>(random.below(parts.size()))];
  return text;
}

// Whatever a job says, the only tags on the paper are the papers' own.
TEST(Papers, EveryTextOfTheJobIsEscaped) {
  const auto plain = clubhouse_washroom();
  std::set<std::string> own_tags;
  for (const auto& paper : every_paper(plain.job, plain.findings))
    for (const auto& tag : read_markup(paper.html).tags) own_tags.insert(tag);
  testing::for_each_seed(40, [&](Random& random) {
    auto s = clubhouse_washroom();
    auto& job = s.job;
    job.job.name = nasty_text(random);
    job.job.owner = nasty_text(random), job.job.address = nasty_text(random), job.job.contractor = nasty_text(random);
    for (auto& mark : job.marks) mark.note = nasty_text(random), mark.by = nasty_text(random), mark.time = nasty_text(random), mark.id = nasty_text(random);
    for (auto& layer : job.layers) layer.note = nasty_text(random);
    job.layers[0].id = nasty_text(random);
    for (auto& support : job.supports) support.id = nasty_text(random), support.note = nasty_text(random);
    for (auto& fixture : job.fixtures) fixture.id = nasty_text(random);
    for (auto& door : job.room.doors) door.id = nasty_text(random);
    for (auto& wall : job.walls) wall.id = nasty_text(random);
    for (auto& source : job.sources) source.note = nasty_text(random), source.stopped = nasty_text(random), source.id = nasty_text(random);
    for (auto& photo : job.photos) photo.caption = nasty_text(random), photo.sha256 = nasty_text(random), photo.id = nasty_text(random);
    for (auto& opening : s.findings.survey.next_openings) opening.why = nasty_text(random), opening.lifts = nasty_text(random);
    s.findings.cautions = {nasty_text(random)};
    s.findings.cut_back->members[0].support = nasty_text(random);
    s.findings.floor->as_found.checks[0].member = nasty_text(random);
    s.findings.floor->while_open.shores[0].under = nasty_text(random);
    for (auto& piece : s.findings.cut_back->pieces) piece.why = nasty_text(random), piece.id = nasty_text(random);
    for (const auto& paper : every_paper(job, s.findings)) {
      const auto reading = read_markup(paper.html);
      ASSERT_EQ(reading.problem, "") << paper.file;
      for (const auto& tag : reading.tags) EXPECT_EQ(own_tags.count(tag), 1u) << tag;
      // The style sheet holds the job's name in the running title: nothing in it may end the sheet.
      const auto from = paper.html.find("<style>") + 7;
      const auto sheet = paper.html.substr(from, paper.html.find("</style>") - from);
      EXPECT_TRUE(holds(sheet, "@media print")) << "the style sheet was cut short";
      EXPECT_FALSE(holds(sheet, "<"));
    }
  });
}

// Markup, text from right to left, signs outside the common plane and 10,000 characters in every field that takes words.
TEST(Papers, AnyTextInAnyFieldLeavesThemSound) {
  const std::string hostile = "</td></table><h2>\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xE2\x80\xAE\xF0\x9F\x94\xA5 $ " + std::string(10000, 'x') + " {}%\"'";
  auto s = clubhouse_washroom();
  auto& job = s.job;
  const auto fill = [&](auto&... fields) { ((fields = hostile), ...); };
  fill(job.job.name, job.job.owner, job.job.address, job.job.contractor, job.job.note, job.job.state, job.sources[0].note);
  job.claim = Claim{};
  fill(job.claim->date_of_loss, job.claim->number, job.claim->insurer, job.claim->adjuster_visit, job.claim->note);
  job.settings = StateSettings{};
  fill(job.settings->licence_number, job.settings->lien_notice, job.settings->source, job.settings->date);
  job.decisions.push_back({"d", hostile, Answer::declined, hostile, hostile, hostile});
  for (auto& mark : job.marks) fill(mark.note, mark.by, mark.time);
  for (auto& photo : job.photos) fill(photo.caption, photo.sha256, photo.id, photo.time);
  auto& findings = s.findings;
  findings.hazards->met.push_back({hostile, hostile, hostile, hostile});
  for (auto& gate : findings.hazards->gates) fill(gate.brief, gate.text, gate.who);
  for (auto& line : findings.takeoff->lines) fill(line.item, line.from, line.unit);
  for (auto& task : findings.work->tasks) fill(task.title, task.who, task.hold, task.starts, task.ends);
  for (auto& option : findings.floor->options) fill(option.title, option.trade_off);
  findings.assumed = {{hostile, hostile, hostile}};
  for (const auto& paper : every_paper(job, findings)) {
    expect_sound(paper);
    EXPECT_FALSE(holds(paper.html, "\xE2\x80\xAE")) << paper.file;
    EXPECT_LT(paper.html.size(), 3u << 20) << paper.file;
  }
}

TEST(Papers, ATextFromTheJobComesBackWhole) {
  auto sample = clubhouse_washroom();
  sample.job.marks[0].note = "5 < 6 & \"so\" it's > 4";
  const auto reading = read_markup(papers::annex(sample.job, sample.findings).html);
  EXPECT_NE(std::find(reading.texts.begin(), reading.texts.end(), "5 < 6 & \"so\" it's > 4"), reading.texts.end());
}

TEST(Papers, HugeJobsStayWhole) {
  auto sample = clubhouse_washroom();
  auto& job = sample.job;
  for (int k = 0; k < 480; ++k) {
    Mark mark = job.marks[static_cast<std::size_t>(k % 5)];
    mark.id = "x" + std::to_string(k);
    mark.at_in = Point{static_cast<double>((k * 37) % 130), static_cast<double>((k * 53) % 94)};
    job.marks.push_back(mark);
  }
  for (int k = 0; k < 60; ++k) {
    Support support = job.supports[0];
    support.id = "extra" + std::to_string(k);
    support.from_in.x_in = support.to_in.x_in = 2 + k * 2.1;
    job.supports.push_back(support);
  }
  auto& grid = sample.findings.survey.grid;
  grid = {1, 132, 96, {0, 0}};
  for (auto& field : sample.findings.survey.layers) {
    const auto cells = static_cast<std::size_t>(grid.nx * grid.ny);
    field.p_unsound.resize(cells, 0.3), field.p_gone.resize(cells, 0.1), field.p_wet.resize(cells, 0.1);
  }
  for (const auto& paper : every_paper(job, sample.findings)) {
    expect_sound(paper);
    EXPECT_LT(paper.html.size(), 4u << 20) << paper.file;
  }
}

TEST(FramingSheet, DrawsFirstAndNamesEverySourceOnce) {
  const auto sample = clubhouse_washroom();
  const auto html = papers::framing_sheet(sample.job, sample.findings).html;
  // The plan stands before the first heading below the title, the sections under it; the ways' reasons in the annex.
  const auto heading = html.find("<h2"), checks = html.find("Checks and cautions");
  ASSERT_NE(heading, std::string::npos);
  ASSERT_NE(checks, std::string::npos);
  EXPECT_EQ(times(html.substr(0, heading), "<figure"), 1u);
  EXPECT_EQ(times(html.substr(0, checks), "<figure"), 3u);
  const auto annex = papers::annex(sample.job, sample.findings).html;
  for (const auto& option : sample.findings.floor->options) {
    EXPECT_TRUE(holds(html, option.title)) << option.id;
    EXPECT_EQ(times(annex, papers::escaped(option.trade_off)), 1u) << option.id;
  }
  EXPECT_LE(times(html, "NDS 3.3.1: fb = M/S"), 1u);
}

TEST(FramingSheet, SaysStatesInWordsNotFigures) {
  auto sample = clubhouse_washroom();
  Reason rule;
  rule.rule = "rotten wood counts for nothing";
  rule.unit = "lb";
  sample.findings.floor->as_found.checks = {make_check("deck.gone", "deck", "deck_point_bending", 300, 0, rule),
                                            forbidden_check("g1.hole1.place", "g1", "cut_place", 12, rule)};
  for (auto& option : sample.findings.floor->options)
    if (option.id == sample.findings.floor->chosen) option.engineer_for = {"the footing of girder g1"};
  const auto html = papers::framing_sheet(sample.job, sample.findings).html + papers::annex(sample.job, sample.findings).html;
  EXPECT_TRUE(holds(html, "nothing left"));
  EXPECT_TRUE(holds(html, "not allowed"));
  EXPECT_FALSE(holds(html, "1000000000") || holds(html, "1,000,000,000") || holds(html, "1e+09"));
  EXPECT_TRUE(holds(html, "the footing of girder g1"));
}

TEST(FramingSheet, PutsAlikeMembersAndBlocksInOneRow) {
  auto sample = clubhouse_washroom();
  const auto framing = papers::framing_of(sample.job, sample.findings);
  const auto schedule = papers::schedule_of(sample.job, framing);
  EXPECT_LT(schedule.rows.size(), framing.members.size());
  std::string names;
  for (const auto& row : schedule.rows) names += row[0].text + " ";
  for (const auto& member : framing.members) EXPECT_TRUE(holds(names, member.name)) << member.name;
  auto& blocking = sample.findings.cut_back->blocking;
  ASSERT_FALSE(blocking.empty());
  blocking.assign(9, blocking.front());
  const auto rows = papers::blocking_rows(*sample.findings.cut_back);
  ASSERT_EQ(rows.rows.size(), 1u);
  EXPECT_EQ(rows.rows[0][1].text, "9");
}

TEST(Papers, OddNumbersDoNotReachThePaper) {
  auto sample = clubhouse_washroom();
  sample.findings.survey.unsound_sf["deck"].p90 = std::numeric_limits<double>::infinity();
  sample.findings.survey.next_openings[0].at_in = {std::numeric_limits<double>::quiet_NaN(), 3};
  sample.findings.price->from_floor_share = std::numeric_limits<double>::quiet_NaN();
  sample.findings.floor->as_found.checks[0].ratio = 1e9;
  for (const auto& paper : every_paper(sample.job, sample.findings)) {
    EXPECT_EQ(read_markup(paper.html).problem, "");
    EXPECT_FALSE(holds(paper.html, "nan"));
    EXPECT_FALSE(holds(paper.html, "inf\"") || holds(paper.html, " inf "));
  }
}

TEST(Papers, AreTheSameEveryTime) {
  const auto sample = clubhouse_washroom();
  const auto first = every_paper(sample.job, sample.findings);
  const auto second = every_paper(sample.job, sample.findings);
  ASSERT_EQ(first.size(), second.size());
  for (std::size_t i = 0; i < first.size(); ++i) EXPECT_EQ(first[i].html, second[i].html);
}

}  // namespace
}  // namespace awlmark
