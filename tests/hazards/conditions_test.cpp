#include "hazards/conditions.hpp"

#include <gtest/gtest.h>

#include <stdexcept>

#include "base/doc.hpp"
#include "support/property.hpp"

namespace awlmark::hazards {
namespace {

using doc::Json;

Facts some_facts() {
  return {{"year", between_fact(1960, 1990, "between 1960 and 1990")},
          {"wet", flag_fact(true, "wet")},
          {"kind", word_fact("felt", "felt")},
          {"lost", unknown_fact("nobody knows")}};
}

Truth truth(const char* text) { return evaluate(Json::parse(text), some_facts()).truth; }

TEST(Conditions, NumbersWithinBoundsDecideWhereTheyCan) {
  EXPECT_EQ(truth(R"({"fact":"year","at_most":1990})"), Truth::yes);
  EXPECT_EQ(truth(R"({"fact":"year","at_most":1989})"), Truth::unknown);
  EXPECT_EQ(truth(R"({"fact":"year","at_most":1959})"), Truth::no);
  EXPECT_EQ(truth(R"({"fact":"year","below":1990})"), Truth::unknown);
  EXPECT_EQ(truth(R"({"fact":"year","below":1960})"), Truth::no);
  EXPECT_EQ(truth(R"({"fact":"year","above":1959})"), Truth::yes);
  EXPECT_EQ(truth(R"({"fact":"year","at_least":1991})"), Truth::no);
  EXPECT_EQ(truth(R"({"fact":"lost","at_least":0})"), Truth::unknown);
}

TEST(Conditions, WordsAndFlags) {
  EXPECT_EQ(truth(R"({"fact":"kind","in":["osb","felt"]})"), Truth::yes);
  EXPECT_EQ(truth(R"({"fact":"kind","is":"osb"})"), Truth::no);
  EXPECT_EQ(truth(R"({"fact":"wet","is":true})"), Truth::yes);
  EXPECT_EQ(truth(R"({"not":{"fact":"wet","is":true}})"), Truth::no);
  EXPECT_EQ(truth(R"({"not":{"fact":"lost","is":true}})"), Truth::unknown);
}

// Kleene, Introduction to Metamathematics (1952), section 64: the strong tables.
TEST(Conditions, StrongTablesOfThreeValues) {
  const char* yes = R"({"fact":"wet","is":true})";
  const char* no = R"({"fact":"wet","is":false})";
  const char* unknown = R"({"fact":"lost","is":true})";
  const char* values[] = {no, unknown, yes};
  for (int a = 0; a < 3; ++a)
    for (int b = 0; b < 3; ++b) {
      const std::string pair = "[" + std::string(values[a]) + "," + values[b] + "]";
      EXPECT_EQ(static_cast<int>(truth(("{\"all\":" + pair + "}").c_str())), std::min(a, b));
      EXPECT_EQ(static_cast<int>(truth(("{\"any\":" + pair + "}").c_str())), std::max(a, b));
    }
}

TEST(Conditions, NameTheFactsBehindTheAnswer) {
  const auto answer =
      evaluate(Json::parse(R"({"all":[{"fact":"wet","is":true},{"any":[{"fact":"kind","is":"osb"},{"fact":"lost","is":true}]}]})"), some_facts());
  EXPECT_EQ(answer.truth, Truth::unknown);
  EXPECT_EQ(answer.because, (std::vector<std::string>{"wet", "nobody knows"}));
}

TEST(Conditions, RefuseWhatTheyDoNotKnow) {
  EXPECT_THROW(truth(R"({"fact":"colour","is":"red"})"), std::logic_error);
  EXPECT_THROW(truth(R"({"perhaps":[]})"), std::logic_error);
  EXPECT_THROW(truth(R"({"fact":"year","near":5})"), std::logic_error);
}

// Narrowing the bounds of a number moves an answer from unknown to yes or no, never between those.
TEST(Conditions, BetterKnowledgeNeverTurnsAnAnswerRound) {
  testing::for_each_seed(500, [](Random& random) {
    const double low = testing::between(random, 0, 50), high = low + testing::between(random, 0, 50);
    const double inner_low = testing::between(random, low, high), inner_high = testing::between(random, inner_low, high);
    const double limit = testing::between(random, -10, 110);
    for (const char* op : {"at_most", "at_least", "below", "above"}) {
      const Json condition = {{"fact", "x"}, {op, limit}};
      const auto wide = evaluate(condition, {{"x", between_fact(low, high, "")}}).truth;
      const auto narrow = evaluate(condition, {{"x", between_fact(inner_low, inner_high, "")}}).truth;
      if (wide != Truth::unknown) {
        EXPECT_EQ(wide, narrow) << op;
      }
    }
  });
}

}  // namespace
}  // namespace awlmark::hazards
