// What holds of every topic: its example answers with a reason, its help names every key it reads,
// and no input, however broken, makes it throw or answer with nothing said.
#include <gtest/gtest.h>

#include "reckon/ask.hpp"
#include "support/property.hpp"

namespace awlmark::testing {
namespace {

std::string example_of(const std::string& topic) {
  const auto help = reckon::help(topic);
  if (!help) return {};
  const std::string start = "<<'END'\n", end = "\nEND\n";
  const auto from = help.value->find(start) + start.size();
  return help.value->substr(from, help.value->find(end, from) - from);
}

// One broken thing done to a JSON value somewhere inside.
void break_somewhere(json& value, Random& random) {
  if (value.is_structured() && !value.empty() && random.uniform() < 0.8) {
    auto it = value.begin();
    std::advance(it, static_cast<long>(random.uniform() * static_cast<double>(value.size())));
    return break_somewhere(*it, random);
  }
  switch (static_cast<int>(random.uniform() * 9)) {
    case 0:
      value = nullptr;
      break;
    case 1:
      value = -1;
      break;
    case 2:
      value = 1e300;
      break;
    case 3:
      value = "x";
      break;
    case 4:
      value = json::array({json::object(), -3, "no"});
      break;
    case 5:
      value = json::object({{"unknown_key", 1}});
      break;
    case 6:
      value = 0;
      break;
    case 7:
      value = true;
      break;
    default:
      value = std::string(500, '9');
      break;
  }
}

}  // namespace

TEST(Topics, EveryExampleAnswersAndCarriesAReason) {
  for (const auto& topic : reckon::topics()) {
    SCOPED_TRACE(topic.id);
    const auto outcome = reckon::reckon(topic.id, example_of(topic.id));
    for (const auto& problem : outcome.problems) ADD_FAILURE() << describe(problem);
    ASSERT_TRUE(outcome.value);
    const auto out = json::parse(*outcome.value);
    ASSERT_TRUE(out.contains("reason"));
    EXPECT_FALSE(out["reason"]["rule"].get<std::string>().empty());
    EXPECT_NE(outcome.value->find("\n  \""), std::string::npos) << "indented by two";
    EXPECT_FALSE(topic.asks.empty());
    EXPECT_EQ(topic.id.find('_'), std::string::npos);
  }
}

TEST(Topics, HelpNamesTheKeysOfItsExample) {
  for (const auto& topic : reckon::topics()) {
    const auto text = *reckon::help(topic.id).value;
    const auto example = json::parse(example_of(topic.id));
    for (const auto& [key, unused] : example.items()) EXPECT_NE(text.find("  " + key + " "), std::string::npos) << topic.id << " " << key;
    EXPECT_NE(text.find("sources:"), std::string::npos);
    EXPECT_EQ(text.find("?,"), std::string::npos);
  }
}

TEST(Topics, AnUnknownTopicNamesTheNearest) {
  const auto outcome = reckon::reckon("joist-spam", "{}");
  ASSERT_FALSE(outcome.value);
  ASSERT_EQ(outcome.problems.size(), 1u);
  EXPECT_NE(describe(outcome.problems[0]).find("joist-span"), std::string::npos);
  EXPECT_FALSE(reckon::help("zzz").value);
}

TEST(Topics, NothingThrowsAndEveryRefusalSaysWhy) {
  for (const auto& topic : reckon::topics()) {
    SCOPED_TRACE(topic.id);
    const auto example = json::parse(example_of(topic.id));
    for (const char* text : {"", "{", "[]", "null", "\"x\"", "{\"a\": 1", "{\"zzz\": 3}", "{}", "\xff\xfe",
                             "{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":1}}}}}}}}}}}}}"}) {
      const auto outcome = reckon::reckon(topic.id, text);
      EXPECT_TRUE(outcome.value.has_value() != !outcome.problems.empty()) << text;
    }
    for_each_seed(60, [&](Random& random) {
      json broken = example;
      break_somewhere(broken, random);
      const auto outcome = reckon::reckon(topic.id, broken.dump());
      EXPECT_TRUE(outcome.value.has_value() != !outcome.problems.empty()) << broken.dump();
      for (const auto& problem : outcome.problems) EXPECT_FALSE(problem.what.empty());
      for (const auto& problem : outcome.problems)
        EXPECT_EQ(problem.mend.find("fault of the program"), std::string::npos) << broken.dump() << describe(problem);
      if (outcome.value) {
        EXPECT_EQ(outcome.value->find("null"), std::string::npos) << broken.dump() << *outcome.value;
      }
    });
  }
}

TEST(Topics, EveryProblemAtOnceEachWithItsPlace) {
  const auto outcome = reckon::reckon("beam", R"({"spans_in": [96, -3], "e_psi": 0, "i_in4": 98, "ends": ["pinned", "pined"],
      "loads": [{"kind": "uniform", "from_in": 0, "to_in": 500}, {"kind": "point", "p_lb": 3, "at_in": "4 furlongs"}], "lenght": 3})");
  ASSERT_FALSE(outcome.value);
  std::set<std::string> places;
  for (const auto& problem : outcome.problems) places.insert(problem.at);
  for (const char* place : {"spans_in[1]", "e_psi", "ends[1]", "loads[1].at_in", "lenght"}) EXPECT_TRUE(places.count(place)) << place;
}

TEST(Topics, LoadProblemsAreLocated) {
  const auto outcome = reckon::reckon("beam", R"({"spans_in": [96], "e_psi": 1e6, "i_in4": 98,
      "loads": [{"kind": "uniform", "from_in": 0, "to_in": 500}, {"kind": "point", "p_lb": 3, "w_pli": 2}]})");
  ASSERT_FALSE(outcome.value);
  std::set<std::string> places;
  for (const auto& problem : outcome.problems) places.insert(problem.at);
  for (const char* place : {"loads[0].w_pli", "loads[0].to_in", "loads[1].at_in", "loads[1].w_pli"}) EXPECT_TRUE(places.count(place)) << place;
}

}  // namespace awlmark::testing
