// The drawing kernel: true to scale, words that never lie on each other, dimensions that add up.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <regex>

#include "base/length.hpp"
#include "papers/drawing/canvas.hpp"
#include "papers/drawing/condition_plan.hpp"
#include "papers/drawing/dimension.hpp"
#include "papers/drawing/framing_plan.hpp"
#include "papers/drawing/pieces_plan.hpp"
#include "papers/drawing/price_bar.hpp"
#include "papers/drawing/section.hpp"
#include "papers/keys.hpp"
#include "papers/sample.hpp"
#include "papers/wellformed.hpp"
#include "support/property.hpp"

namespace awlmark::papers {
namespace {

void expect_apart(const std::vector<Label>& labels) {
  for (std::size_t i = 0; i < labels.size(); ++i)
    for (std::size_t j = i + 1; j < labels.size(); ++j)
      EXPECT_FALSE(overlap(labels[i].box, labels[j].box)) << '"' << labels[i].text << "\" lies on \"" << labels[j].text << '"';
}

// Every <text> of the drawing came out of the label space, and none is smaller than the least type.
void expect_kept(const Drawing& drawing) {
  const auto svg = drawing.svg.str();
  EXPECT_EQ(testing::read_markup(svg).problem, "");
  const std::regex text("<text [^>]*font-size=\"([0-9.]+)\"");
  std::size_t count = 0;
  for (auto it = std::sregex_iterator(svg.begin(), svg.end(), text); it != std::sregex_iterator(); ++it, ++count) EXPECT_GE(std::stod((*it)[1]), kLeastType_pt);
  EXPECT_EQ(count, drawing.labels.size());
  expect_apart(drawing.labels);
}

bool has_label(const Drawing& drawing, const std::string& text) {
  return std::any_of(drawing.labels.begin(), drawing.labels.end(), [&](const Label& label) { return label.text == text; });
}

TEST(Scale, IsTheLargestUsualOneThatFits) {
  EXPECT_EQ(scale_to_fit(108, 72, 7, 7, 0.75).name, "3/4\" = 1'-0\"");
  EXPECT_EQ(scale_to_fit(132, 96, 5.6, 7, 0.75).name, "1/2\" = 1'-0\"") << "11 ft at 1/2 in. a foot is 5.5 in.";
  EXPECT_EQ(scale_to_fit(132, 96, 5.4, 7, 0.75).name, "3/8\" = 1'-0\"");
  EXPECT_EQ(scale_to_fit(28, 14, 3.6, 3, 3).name, "1 1/2\" = 1'-0\"");
  EXPECT_LE(scale_to_fit(12000, 9000, 6, 6, 0.75).paper_in_per_ft * 1000, 6.0);
}

TEST(Canvas, PrintsToScale) {
  // 10 ft by 5 ft at 1/2 in. a foot with half an inch around: 6 in. by 3 1/2 in. of paper.
  Canvas canvas("t", "t", {0, 0, 120, 60}, {0.5, "1/2\" = 1'-0\""}, {36, 36, 36, 36});
  const auto svg = canvas.svg().str();
  EXPECT_NE(svg.find("width=\"6in\""), std::string::npos);
  EXPECT_NE(svg.find("height=\"3.5in\""), std::string::npos);
  EXPECT_NE(svg.find("viewBox=\"0 0 432 252\""), std::string::npos);
  const auto a = canvas.at({0, 0}), b = canvas.at({12, 0}), top = canvas.at({0, 60});
  EXPECT_DOUBLE_EQ(b.x - a.x, 36) << "a foot is half an inch, 36 points";
  EXPECT_DOUBLE_EQ(a.y - top.y, 180) << "up on the plan is up on the paper";
}

TEST(Chain, LabelsEveryGapWhenThereIsRoom) {
  Canvas canvas("t", "t", {0, 0, 132, 60}, {0.5, ""}, {40, 40, 40, 90});
  draw_chain(canvas, {true, 220, 190, {0, 44, 88, 132}, "gaps"});
  std::vector<std::string> texts;
  for (const auto& label : canvas.space().labels()) texts.push_back(label.text);
  EXPECT_EQ(texts, (std::vector<std::string>{"3' 8\"", "3' 8\"", "3' 8\""}));
}

TEST(Chain, SharesOneLabelAmongEqualNarrowGaps) {
  Canvas canvas("t", "t", {0, 0, 160, 60}, {0.1875, ""}, {40, 40, 40, 90});
  draw_chain(canvas, {true, 130, 100, {0, 16, 32, 48, 64, 80}, "gaps"});
  ASSERT_EQ(canvas.space().labels().size(), 1u);
  EXPECT_EQ(canvas.space().labels()[0].text, "5 x 1' 4\" = 6' 8\"");
}

// Whatever the stops: labels apart, on the sheet, and each gap written or owned up to.
TEST(Chain, NeverWritesOnItsOwnWords) {
  testing::for_each_seed(150, [](Random& random) {
    Canvas canvas("t", "t", {0, 0, 144, 96}, scale_to_fit(144, 96, 5, 5, 0.75), {60, 60, 60, 90});
    const bool level = random.below(2) == 0;
    std::vector<double> stops;
    const auto count = 2 + random.below(12);
    for (std::uint64_t i = 0; i < count; ++i) stops.push_back(testing::between(random, 0, level ? 144 : 96));
    const auto box = canvas.plan_box();
    draw_chain(canvas, level ? Chain{true, box.y1 + 20, box.y1, stops, "gaps"} : Chain{false, box.x0 - 20, box.x0, stops, "gaps"});
    draw_chain(canvas, level ? Chain{true, box.y1 + 20 + kChainDepth_pt, box.y1, {0, 144}, "ends"}
                             : Chain{false, box.x0 - 20 - kChainDepth_pt, box.x0, {0, 96}, "ends"});
    expect_apart(canvas.space().labels());
    std::sort(stops.begin(), stops.end());
    double written = 0;
    for (const auto& label : canvas.space().labels()) {
      EXPECT_GE(label.box.x0, 0);
      EXPECT_LE(label.box.x1, canvas.width_pt());
      // "2 x 3 5/16"" stands for a run of gaps that read the same.
      const auto times = label.text.find(" x ");
      const auto run = times == std::string::npos ? std::string::npos : label.text.find(" = ");
      const auto length =
          parse_length_in(times == std::string::npos ? label.text : label.text.substr(times + 3, run == std::string::npos ? run : run - times - 3));
      ASSERT_TRUE(length.has_value()) << label.text;
      written += *length * (times == std::string::npos ? 1 : std::stod(label.text.substr(0, times)));
    }
    if (canvas.notes().empty()) {
      // All gaps are written, and the overall length besides.
      EXPECT_NEAR(written, stops.back() - stops.front() + (level ? 144 : 96), static_cast<double>(count) / 16 + 0.1);
    }
  });
}

TEST(LabelSpace, NeverGivesTheSamePlaceTwice) {
  testing::for_each_seed(30, [](Random& random) {
    LabelSpace space({0, 0, 300, 300});
    for (int k = 0; k < 120; ++k) {
      const double x = testing::between(random, 0, 300), y = testing::between(random, 0, 300);
      const auto text = std::to_string(random.below(1000));
      if (random.below(4) == 0)
        space.keep_clear(box_around({x, y}, 8, 8));
      else
        space.around({x, y}, 4, text, 9, 40);
    }
    expect_apart(space.labels());
    EXPECT_GT(space.labels().size(), 20u);
  });
}

TEST(ConditionPlan, ShowsMarksOpeningsAndSize) {
  const auto s = testing::clubhouse_washroom();
  const auto* field = main_field(s.job, s.findings.survey);
  ASSERT_NE(field, nullptr);
  EXPECT_EQ(field->layer, "deck");
  const auto drawing = condition_plan(s.job, s.findings.survey, *field, {});
  expect_kept(drawing);
  for (const auto* text : {"11' 0\"", "8' 0\"", "A", "B", "95 %", "80 %", "0, 0"}) EXPECT_TRUE(has_label(drawing, text)) << text;
  EXPECT_TRUE(has_label(drawing, "1, 4, 5")) << "three readings of one opening share a label";
  EXPECT_TRUE(drawing.notes.empty());
}

TEST(FramingPlan, IsDimensioned) {
  const auto s = testing::clubhouse_washroom();
  const auto framing = framing_of(s.job, s.findings);
  EXPECT_TRUE(framing.run_along_y);
  const auto drawing = framing_plan(s.job, s.findings, framing, {});
  expect_kept(drawing);
  for (const auto* text : {"3' 8\"", "11' 0\"", "8' 0\"", "4' 0\"", "D1", "D2", "P1", "B1", "B2"}) EXPECT_TRUE(has_label(drawing, text)) << text;
  EXPECT_TRUE(has_label(drawing, "g2  4x10"));
  EXPECT_EQ(drawing.scale.name, "3/8\" = 1'-0\"");
}

TEST(FramingPlan, TurnsWithTheMembers) {
  auto s = testing::clubhouse_washroom();
  s.findings.floor->framing.clear();
  s.findings.floor->options.clear();
  for (std::size_t k = 0; k < s.job.supports.size(); ++k) {
    s.job.supports[k].from_in = {-4, static_cast<double>(k) * 30};
    s.job.supports[k].to_in = {136, static_cast<double>(k) * 30};
    s.job.supports[k].rests_at_in = {4, 70, 136};
  }
  const auto framing = framing_of(s.job, s.findings);
  EXPECT_FALSE(framing.run_along_y);
  const auto drawing = framing_plan(s.job, s.findings, framing, {});
  expect_kept(drawing);
  EXPECT_TRUE(has_label(drawing, "2' 6\"")) << "30 in. between the members";
  EXPECT_TRUE(has_label(drawing, "5' 6\"")) << "66 in. between rests";
}

TEST(Section, ShowsLayersMembersAndDecay) {
  const auto s = testing::clubhouse_washroom();
  const auto framing = framing_of(s.job, s.findings);
  const auto cut = section_cut(s.job, s.findings, framing);
  ASSERT_TRUE(cut.has_value());
  const auto found = section_as_found(s.job, framing, *cut);
  expect_kept(found);
  EXPECT_TRUE(has_label(found, "9 1/4\"")) << "depth of the girder";
  EXPECT_TRUE(has_label(found, "3' 8\""));
  EXPECT_TRUE(has_label(found, "D1: 3/4\" deep"));
  const auto rebuilt = section_as_rebuilt(s.job, s.findings, framing, *cut);
  expect_kept(rebuilt);
  EXPECT_TRUE(has_label(rebuilt, "N1  2x8"));
  EXPECT_TRUE(has_label(rebuilt, "1' 2 1/2\"")) << "from girder to the first new joist";
  EXPECT_FALSE(has_label(found, "N1  2x8"));
}

TEST(Section, NeedsAMember) {
  auto s = testing::clubhouse_washroom();
  s.job.supports.clear();
  s.findings.floor.reset();
  EXPECT_FALSE(section_cut(s.job, s.findings, framing_of(s.job, s.findings)).has_value());
}

TEST(PiecesPlan, NumbersThePlanksThatComeOut) {
  const auto s = testing::clubhouse_washroom();
  const auto drawing = pieces_plan(s.job, s.findings, "deck", {});
  expect_kept(drawing);
  EXPECT_TRUE(has_label(drawing, "12"));
  EXPECT_FALSE(has_label(drawing, "6")) << "plank 6 stays";
}

TEST(PriceBar, KeepsItsWordsApart) {
  price::Price price;
  price.p10 = 9000, price.p50 = 9100, price.p80 = 9150, price.p90 = 9200;
  expect_kept(price_bar(price));
}

// Supports anywhere, even outside, crossing and of no size: still apart, still well formed.
TEST(Drawings, StandOddFraming) {
  testing::for_each_seed(25, [](Random& random) {
    auto s = testing::clubhouse_washroom();
    for (auto& line : s.findings.floor->framing) {
      const double ax = testing::between(random, -200, 300), ay = testing::between(random, -200, 300);
      const double bx = testing::between(random, -200, 300), by = testing::between(random, -200, 300);
      line.from_in = {ax, ay}, line.to_in = {bx, by};
      line.b_in = testing::between(random, 0, 6);
    }
    const auto framing = framing_of(s.job, s.findings);
    expect_kept(framing_plan(s.job, s.findings, framing, {}));
    if (const auto cut = section_cut(s.job, s.findings, framing)) {
      expect_kept(section_as_found(s.job, framing, *cut));
      expect_kept(section_as_rebuilt(s.job, s.findings, framing, *cut));
    }
  });
}

}  // namespace
}  // namespace awlmark::papers
