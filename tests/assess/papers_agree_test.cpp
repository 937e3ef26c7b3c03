// The papers of one job agree with each other, line by line: what comes out, what it is cut from, the
// height, the hours. Read from the papers themselves, as whoever holds two of them would.
#include <gtest/gtest.h>

#include <cmath>
#include <regex>

#include "assess/assess.hpp"
#include "jobs.hpp"
#include "papers/papers.hpp"

namespace awlmark {
namespace {

// What stands on the paper, drawings and styles left out.
std::string text_of(const std::string& html) {
  std::string text;
  for (std::size_t i = 0; i < html.size();) {
    bool left_out = false;
    for (const std::string tag : {"style", "svg"})
      if (html.compare(i, tag.size() + 1, "<" + tag) == 0) {
        const auto end = html.find("</" + tag + ">", i);
        i = end == std::string::npos ? html.size() : end;
        left_out = true;
      }
    if (left_out) continue;
    if (html[i] == '<') {
      const auto end = html.find('>', i);
      i = end == std::string::npos ? html.size() : end + 1;
      if (!text.empty() && text.back() != ' ') text += ' ';
      continue;
    }
    const char c = html[i] == '\n' ? ' ' : html[i];
    if (c != ' ' || text.empty() || text.back() != ' ') text += c;
    ++i;
  }
  for (const auto& [entity, plain] : {std::pair<std::string, std::string>{"&quot;", "\""}, {"&#39;", "'"}, {"&amp;", "&"}})
    for (auto at = text.find(entity); at != std::string::npos; at = text.find(entity, at)) text.replace(at, entity.size(), plain);
  return text;
}

struct Held {
  std::string file, text;
};

std::vector<Held> papers_of(const Job& job, const Findings& findings) {
  std::vector<Held> held;
  for (const auto& paper : papers::all_papers(job, findings)) held.push_back({paper.file, text_of(paper.html)});
  return held;
}

// A figure as printed stands for all that rounds to it.
bool rounds_to(double exact, const std::string& printed) {
  const auto dot = printed.find('.');
  const double unit = dot == std::string::npos ? 1 : std::pow(10, -static_cast<double>(printed.size() - dot - 1));
  return std::fabs(std::stod(printed) - exact) <= unit / 2 + 1e-9;
}

std::vector<std::string> all_matches(const std::string& text, const std::regex& pattern) {
  std::vector<std::string> found;
  for (auto it = std::sregex_iterator(text.begin(), text.end(), pattern); it != std::sregex_iterator(); ++it) found.push_back((*it)[1]);
  return found;
}

struct PapersAgree : ::testing::TestWithParam<std::string> {
  Job job = awlmark::testing::demo(GetParam());
  Findings findings = assess(job);
  std::vector<Held> papers = papers_of(job, findings);
};

TEST_P(PapersAgree, OnWhatComesOut) {
  for (const auto& layer : job.layers) {
    const double area_sf = findings.cut_back->area_sf.at(layer.id);
    if (area_sf < 0.05) continue;
    int say = 0;
    for (const auto& paper : papers) {
      auto figures = all_matches(paper.text, std::regex("([0-9]+(?:\\.[0-9]+)?) (?:sq ft|sf) of " + layer.id + "\\b"));
      for (auto& figure : all_matches(paper.text, std::regex("\\b" + layer.id + ": ([0-9]+(?:\\.[0-9]+)?) sf\\b"))) figures.push_back(figure);
      for (const auto& figure : figures)
        EXPECT_TRUE(rounds_to(area_sf, figure)) << paper.file << " says " << figure << " of " << layer.id << ", not " << area_sf;
      say += !figures.empty();
    }
    EXPECT_GE(say, 2) << layer.id << " comes out, and one paper at most says how much";
  }
}

TEST_P(PapersAgree, OnTheWayItsHeightAndItsHours) {
  const floor::Option* chosen = nullptr;
  for (const auto& option : findings.floor->options)
    if (option.id == findings.floor->chosen) chosen = &option;
  ASSERT_TRUE(chosen);
  int say = 0;
  for (const auto& paper : papers) {
    if (paper.text.find(chosen->title) == std::string::npos) continue;
    // Wherever the way is weighed, its sentence follows with height, weight and hours.
    if (const auto at = paper.text.find(chosen->trade_off); at != std::string::npos) ++say;
  }
  EXPECT_GE(say, 2) << chosen->trade_off;
  double likely_h = 0;
  for (const auto& paper : papers)
    for (const auto& hours : all_matches(paper.text, std::regex("Hands-on hours of the crew: [0-9]+ to [0-9]+, likely ([0-9]+)"))) {
      EXPECT_TRUE(likely_h == 0 || std::stod(hours) == likely_h) << paper.file;
      likely_h = std::stod(hours);
    }
  EXPECT_GT(likely_h, 0);
}

TEST_P(PapersAgree, OnWhatIsBoughtAndHowItIsCut) {
  ASSERT_FALSE(findings.takeoff->cut_lists.empty());
  for (const auto& list : findings.takeoff->cut_lists) {
    double feet = 0;
    for (const auto& stick : list.sticks) feet += stick.times * stick.stock_in / 12;
    double bought = 0;
    for (const auto& line : findings.takeoff->lines)
      if (line.item == list.item && line.group == "put_back") bought += line.quantity;
    EXPECT_NEAR(bought, feet, 1e-6) << list.item;
    int say = 0;
    for (const auto& paper : papers) say += paper.text.find(list.item) != std::string::npos;
    EXPECT_GE(say, 2) << list.item << " is bought, and one paper at most names it";
  }
  // No plank is cut in where the way takes the deck out.
  for (const auto& piece : findings.cut_back->pieces)
    if (piece.by_way) {
      EXPECT_TRUE(piece.out) << piece.id;
    }
}

TEST_P(PapersAgree, OnMoney) {
  for (const char* figure : {"Base", "Allowance", "Contingency"}) {
    std::string first;
    for (const auto& paper : papers)
      for (const auto& money : all_matches(paper.text, std::regex(std::string(figure) + " \\$([0-9,]+)"))) {
        EXPECT_TRUE(first.empty() || money == first) << paper.file << " " << figure;
        first = money;
      }
  }
}

INSTANTIATE_TEST_SUITE_P(Demos, PapersAgree, ::testing::Values("laundry-1954", "clubhouse-washroom-1972"),
                         [](const auto& of) { return of.param.substr(0, of.param.find('-')); });

}  // namespace
}  // namespace awlmark
