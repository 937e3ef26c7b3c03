// Every published rule of tests/outside/hazards.json is carried by a rule, a gate or a protection of ours, or
// refused with the reason (tests/hazards/mapped.json).
#include <gtest/gtest.h>

#include <set>

#include "base/doc.hpp"
#include "support/outside.hpp"
#include "tables/embedded.hpp"

namespace awlmark::hazards {
namespace {

TEST(Rules, EveryPublishedRuleIsCarriedOrRefused) {
  std::set<std::string> ours;
  const auto rules = doc::Json::parse(tables::embedded("hazards.json"));
  for (const auto& rule : rules.at("rules")) {
    ours.insert(rule.at("id").get<std::string>());
    for (const char* list : {"gates", "protection"})
      if (rule.contains(list))
        for (const auto& one : rule.at(list)) ours.insert(one.at("id").get<std::string>());
  }
  const auto map = nlohmann::json::parse(testing::read_source_file("tests/hazards/mapped.json"));
  const auto published = testing::outside_file("hazards.json");
  EXPECT_EQ(published.size(), 126u);
  for (const auto& row : published) {
    const std::string id = row.at("id").get<std::string>();
    const bool carried = map.at("carried").contains(id), refused = map.at("refused").contains(id);
    EXPECT_NE(carried, refused) << id;
    if (carried)
      for (const auto& by : map.at("carried").at(id)) EXPECT_TRUE(ours.count(by.get<std::string>())) << id << " by " << by;
    if (refused) EXPECT_GT(map.at("refused").at(id).get<std::string>().size(), 20u) << id;
  }
}

}  // namespace
}  // namespace awlmark::hazards
