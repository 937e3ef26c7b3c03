#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "base/doc.hpp"
#include "job/words.hpp"
#include "tables/embedded.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::tables {
namespace {

bool ends_with(const std::string& text, std::string_view end) {
  return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

TEST(Tables, EveryRowOfEveryTableHasItsSourceAndStatus) {
  int tables = 0;
  for (const auto& file : embedded_files()) {
    if (!ends_with(file.name, ".csv")) continue;
    ++tables;
    const Table& csv = table(file.name);
    ASSERT_FALSE(csv.rows().empty()) << file.name;
    for (const char* column : {"source", "edition", "where", "status"}) ASSERT_TRUE(csv.has_column(column)) << file.name << " has no column " << column;
    for (const auto& row : csv.rows()) {
      EXPECT_FALSE(row.text("source").empty()) << file.name;
      EXPECT_NO_THROW(row.status()) << file.name << ": " << row.text("status");
    }
  }
  EXPECT_GE(tables, 2);
}

TEST(Tables, EveryRuleOfEveryJsonFileHasItsSourceAndStatus) {
  for (const auto& file : embedded_files()) {
    if (!ends_with(file.name, ".json")) continue;
    const auto json = nlohmann::json::parse(file.text);
    const auto& rules = json.is_array() ? json : json.at("rules");
    ASSERT_FALSE(rules.empty()) << file.name;
    for (const auto& whole : rules) {
      const auto& rule = whole.contains("reason") ? whole.at("reason") : whole;
      EXPECT_FALSE(rule.value("source", "").empty()) << file.name << ": " << rule.dump().substr(0, 80);
      EXPECT_TRUE(doc::from_word<SourceStatus>(rule.value("status", ""))) << file.name << ": " << rule.dump().substr(0, 80);
    }
  }
}

TEST(Tables, EveryMaterialOfTheDocumentHasItsRow) {
  for (const auto& word : doc::words_of<Material>()) {
    const auto& facts = material_facts(word);
    EXPECT_GT(facts.usual_thickness_in, 0) << word;
    EXPECT_GT(facts.weight_psf_per_in, 0) << word;
  }
}

TEST(Tables, CsvWithQuotesAndFaults) {
  const Table good("a,b,source,edition,where,status\n\"x, y\",\"say \"\"so\"\"\",s,e,w,read\n");
  EXPECT_EQ(good.rows().at(0).text("a"), "x, y");
  EXPECT_EQ(good.rows().at(0).text("b"), "say \"so\"");
  EXPECT_THROW(Table("a,b\n1\n"), std::logic_error);
  EXPECT_THROW(good.rows().at(0).number("a"), std::logic_error);
  EXPECT_THROW(good.rows().at(0).text("c"), std::logic_error);
  EXPECT_EQ(good.find("a", "nothing"), nullptr);
}

}  // namespace
}  // namespace awlmark::tables
