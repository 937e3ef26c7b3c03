// The papers of one job agree with each other, line by line: what comes out, what it is cut from, the
// height, the hours. Read from the papers themselves, as whoever holds two of them would.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <regex>
#include <stdexcept>

#include "assess/assess.hpp"
#include "jobs.hpp"
#include "papers/papers.hpp"
#include "papers/words.hpp"

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

  std::string text_of_paper(const std::string& file) const {
    for (const auto& paper : papers)
      if (paper.file == file + ".html") return paper.text;
    return {};
  }
  const floor::Option& chosen() const {
    for (const auto& option : findings.floor->options)
      if (option.id == findings.floor->chosen) return option;
    throw std::logic_error("no way is chosen");
  }
};

TEST_P(PapersAgree, OnWhatComesOut) {
  for (const auto& layer : job.layers) {
    const double area_sf = findings.cut_back->area_sf.at(layer.id);
    if (area_sf < 0.05) continue;
    int say = 0;
    for (const auto& paper : papers) {
      auto figures = all_matches(paper.text, std::regex("([0-9]+(?:\\.[0-9]+)?) (?:sq ft|sf) of " + layer.id + "\\b"));
      for (auto& figure : all_matches(paper.text, std::regex("\\b" + layer.id + ": ([0-9]+(?:\\.[0-9]+)?) sf\\b"))) figures.push_back(figure);
      // Crew sheets and price sheet name the layer by material first, in their own language.
      for (auto& figure :
           all_matches(paper.text, std::regex("\\(" + layer.id + "\\) ([0-9]+(?:\\.[0-9]+)?) (?:sq ft (?:all of it|see the drawing|todo|ver el dibujo)|sf )")))
        figures.push_back(figure);
      for (const auto& figure : figures)
        EXPECT_TRUE(rounds_to(area_sf, figure)) << paper.file << " says " << figure << " of " << layer.id << ", not " << area_sf;
      say += !figures.empty();
    }
    EXPECT_GE(say, 4) << layer.id << " comes out, and few papers say how much";
  }
}

// An overlay over the whole room lies on the bare deck: what lies there now comes out, all of it.
TEST_P(PapersAgree, OnWhatLiesWhereAnOverlayGoes) {
  for (const auto& step : chosen().steps) {
    if (step.find("over the whole deck") == std::string::npos) continue;
    for (const auto& layer : job.layers) {
      if (layer.id == "deck") break;
      EXPECT_TRUE(std::any_of(chosen().takes_out.begin(), chosen().takes_out.end(), [&](const auto& part) { return part.layer == layer.id && part.whole; }))
          << layer.id;
      EXPECT_TRUE(std::none_of(findings.cut_back->pieces.begin(), findings.cut_back->pieces.end(), [&](const auto& piece) {
        return piece.layer == layer.id && !piece.out;
      })) << layer.id;
    }
  }
}

TEST_P(PapersAgree, OnTheWayItsHeightAndItsHours) {
  int say = 0;
  for (const auto& paper : papers) say += paper.text.find(chosen().trade_off) != std::string::npos;
  EXPECT_GE(say, 3) << "framing sheet, scope of work and annex weigh the way with height, weight and hours: " << chosen().trade_off;
  // "takes about 34 hours" are those of the option; "raises the floor 3/16"" is its height.
  const double likely_h = chosen().hours.likely;
  for (const auto& hours : all_matches(chosen().trade_off, std::regex("takes about ([0-9]+) hours"))) EXPECT_TRUE(rounds_to(likely_h, hours)) << hours;
  std::string first;
  int tell = 0;
  for (const auto& paper : papers)
    for (const auto& hours : all_matches(paper.text, std::regex("Hands-on hours of the crew: ([0-9]+ to [0-9]+, likely [0-9]+)"))) {
      EXPECT_TRUE(first.empty() || hours == first) << paper.file;
      first = hours;
      ++tell;
    }
  EXPECT_GE(tell, 2);
}

// Each line of the take-off with its quantity and unit: scope of work, annex, and what comes out at the insurer's.
TEST_P(PapersAgree, OnQuantitiesLineByLine) {
  for (const auto& line : findings.takeoff->lines) {
    const std::string said = line.item + " " + papers::figure(line.quantity) + " " + line.unit + " ";
    for (const char* file : {"scope-of-work", "annex", "insurer-estimate"})
      if (std::string(file) != "insurer-estimate" || line.group == "take_out") {
        EXPECT_NE(text_of_paper(file).find(said), std::string::npos) << file << ": " << said;
      }
  }
  for (const auto& item : findings.price->base_quantities)
    for (const char* file : {"price-sheet", "handover"})
      EXPECT_NE(text_of_paper(file).find(item.item + " " + papers::figure(item.quantity) + " " + item.unit), std::string::npos) << file << ": " << item.item;
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
    for (const char* file : {"crew-sheet", "scope-of-work", "annex"})
      EXPECT_NE(text_of_paper(file).find(list.item), std::string::npos) << file << " does not name " << list.item;
  }
  // No plank is cut in where the way takes the deck out.
  for (const auto& piece : findings.cut_back->pieces)
    if (piece.by_way) {
      EXPECT_TRUE(piece.out) << piece.id;
    }
}

// The figures that more than one paper shows: base, cap, the chances of the whole, the branches.
TEST_P(PapersAgree, OnMoney) {
  const auto& price = *findings.price;
  const auto sheet = text_of_paper("price-sheet"), report = text_of_paper("condition-report"), annex = text_of_paper("annex");
  EXPECT_NE(sheet.find("Base: " + papers::rough_money(price.base)), std::string::npos);
  EXPECT_NE(sheet.find("at " + papers::rough_money(price.cap) + " work stops, safe"), std::string::npos);
  EXPECT_NE(report.find("Work stops, safe, at " + papers::rough_money(price.cap)), std::string::npos);
  for (const double figure : {price.p50, price.p90})
    for (const auto& text : {sheet, report, annex}) EXPECT_NE(text.find(papers::rough_money(figure)), std::string::npos) << figure;
  for (const auto& branch : price.branches)
    for (const auto& text : {sheet, report})
      EXPECT_NE(text.find(papers::sentence_case(branch.words) + " " + papers::in_hundred(branch.chance) + " " + papers::rough_money(branch.p50)),
                std::string::npos)
          << branch.id;
  for (const auto& unit : price.unit_prices) EXPECT_NE(sheet.find(unit.item), std::string::npos) << unit.item;
}

TEST_P(PapersAgree, OnDates) {
  const auto& finish = findings.work->finish;
  ASSERT_FALSE(finish.p50.empty());
  for (const char* file : {"condition-report", "price-sheet"})
    for (const auto& date : {finish.p50, finish.p80}) EXPECT_NE(text_of_paper(file).find(papers::spoken_date(date)), std::string::npos) << file << " " << date;
  for (const auto& task : findings.work->tasks)
    if (!task.starts.empty() && task.id != "daily") {
      EXPECT_NE(text_of_paper("scope-of-work").find(task.starts + " " + task.ends), std::string::npos) << task.id;
    }
}

INSTANTIATE_TEST_SUITE_P(Demos, PapersAgree, ::testing::Values("laundry-1954", "clubhouse-washroom-1972"),
                         [](const auto& of) { return of.param.substr(0, of.param.find('-')); });

}  // namespace
}  // namespace awlmark
