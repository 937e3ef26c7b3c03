// The crew sheet in Spanish: every gate, every protection and every phrase of its own has its words.
#include "papers/crew_words.hpp"

#include <gtest/gtest.h>

#include "base/doc.hpp"
#include "papers/language.hpp"
#include "papers/sample.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"
#include "tables/embedded.hpp"

namespace awlmark::papers {
namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(CrewWords, KnowEveryGateAndProtection) {
  const auto rules = doc::Json::parse(tables::embedded("hazards.json")).at("rules");
  for (const auto& rule : rules) {
    for (const auto& gate : rule.value("gates", doc::Json::array())) {
      hazards::Gate one;
      one.id = gate.at("id").get<std::string>(), one.brief = gate.at("brief").get<std::string>();
      EXPECT_NE(gate_said(Language::spanish, one), one.brief) << one.id;
      EXPECT_EQ(gate_said(Language::english, one), one.brief);
      const auto who = gate.value("who", std::string());
      EXPECT_TRUE(who.empty() || is_said(Language::spanish, who)) << who;
    }
    for (const auto& protection : rule.value("protection", doc::Json::array())) {
      hazards::Protection one;
      one.id = protection.at("id").get<std::string>(), one.text = protection.at("text").get<std::string>();
      EXPECT_NE(protection_said(Language::spanish, one), protection_said(Language::english, one)) << one.id;
      EXPECT_NE(protection_said(Language::english, one), one.text) << one.id;
    }
  }
  for (const auto& table : {crew_phrases(), gate_phrases(), protection_phrases(), goods_phrases()})
    for (const auto& phrase : table) EXPECT_FALSE(phrase.spanish.empty()) << phrase.key;
}

TEST(CrewWords, TheSpanishSheetSpeaksSpanish) {
  auto sample = testing::clubhouse_washroom();
  const auto html = crew_sheet_spanish(sample.job, sample.findings).html;
  for (const char* english : {"What comes out", "Before the first cut", "Before anything", "Saw line", "Length", "Blocking", "Cut list", "Shore first",
                              "From wall", ">door<", "Drawing", "signature", "Page", "Local code"})
    EXPECT_FALSE(holds(html, english)) << english;
  EXPECT_TRUE(holds(html, "Lo que sale"));
  EXPECT_TRUE(holds(html, "al imprimir al 100 % en papel carta."));
  // What has no row stands in English rather than being left out.
  sample.findings.hazards->gates[0].id = "unheard_of", sample.findings.hazards->gates[0].brief = "Wait for the test.";
  EXPECT_TRUE(holds(crew_sheet_spanish(sample.job, sample.findings).html, "Wait for the test."));
  EXPECT_TRUE(holds(html, "Shore before the first cut; open no more than one bay at a time."));
}

TEST(CrewWords, GoodsKeepTheirSizes) {
  EXPECT_EQ(goods_said(Language::spanish, "2x8 sister"), "2x8 refuerzo (sister)");
  EXPECT_EQ(goods_said(Language::spanish, "tongue-and-groove plank 1 1/2\" x 5 1/4\""), "tabla machihembrada 1 1/2\" x 5 1/4\"");
  EXPECT_EQ(goods_said(Language::english, "2x6 blocking"), "2x6 blocking");
}

}  // namespace
}  // namespace awlmark::papers
