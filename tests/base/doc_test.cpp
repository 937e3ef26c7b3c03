#include "base/doc.hpp"

#include <gtest/gtest.h>

#include "support/property.hpp"

namespace awlmark {

enum class Colour { red, green };
BOOST_DESCRIBE_ENUM(Colour, red, green)

struct Leaf {
  std::string id;
  double width_in = 0;
  std::optional<int> count;
  Colour colour = Colour::red;
};
BOOST_DESCRIBE_STRUCT(Leaf, (), (id, width_in, count, colour))
inline doc::FieldRules field_rules(const Leaf*) { return {{.name = "id", .required = true}, {.name = "width_in", .min = 0, .max = 100}}; }

struct Tree {
  std::vector<Leaf> leaves;
  std::map<std::string, double> sizes;
  Polygon ring_in;
};
BOOST_DESCRIBE_STRUCT(Tree, (), (leaves, sizes, ring_in))

namespace {

TEST(Doc, ReadsWhatItWrites) {
  Tree tree;
  tree.leaves = {{"a", 12.5, 3, Colour::green}, {"b", 0, std::nullopt, Colour::red}};
  tree.sizes = {{"x", 1.5}};
  tree.ring_in = {{0, 0}, {1, 0}, {1, 1}};
  const auto text = doc::write(tree).dump();
  const auto back = doc::read_text<Tree>(text);
  ASSERT_TRUE(back);
  EXPECT_EQ(doc::write(*back.value).dump(), text);
}

TEST(Doc, LengthsMayBeText) {
  const auto tree = doc::read_text<Tree>(R"({"leaves":[{"id":"a","width_in":"7' 4 1/2\""}],"ring_in":[["1'",0],[2,"3/4"],[0,0]]})");
  ASSERT_TRUE(tree);
  EXPECT_DOUBLE_EQ(tree.value->leaves[0].width_in, 88.5);
  EXPECT_DOUBLE_EQ(tree.value->ring_in[0].x_in, 12);
}

TEST(Doc, EveryProblemAtOnceWithItsPlace) {
  const auto tree = doc::read_text<Tree>(R"({"leaves":[{"width_in":-3},{"id":"b","colour":"gren","count":1.5,"widht_in":4},7],"rings":[]})");
  ASSERT_FALSE(tree);
  std::vector<std::string> places;
  for (const auto& problem : tree.problems) places.push_back(problem.at);
  EXPECT_EQ(places, (std::vector<std::string>{"leaves[0].id", "leaves[0].width_in", "leaves[1].count", "leaves[1].colour", "leaves[1].widht_in", "leaves[2]",
                                              "rings"}));
  EXPECT_NE(tree.problems[3].mend.find("green"), std::string::npos);
  EXPECT_NE(tree.problems[4].mend.find("width_in"), std::string::npos);
}

TEST(Doc, RefusesBadText) {
  EXPECT_NE(doc::parse("{\"a\": 1,\n \"b\": }").problems.at(0).what.find("line 2"), std::string::npos);
  EXPECT_FALSE(doc::parse("{\"a\":1,\"a\":2}"));
  EXPECT_FALSE(doc::parse(std::string(100, '[') + std::string(100, ']')));
  EXPECT_FALSE(doc::parse("[1e999]"));
  EXPECT_FALSE(doc::parse(""));
  EXPECT_FALSE(doc::parse("\"\xff\""));
  EXPECT_FALSE(doc::parse("[1,2]", {.max_bytes = 3}));
}

TEST(Doc, NestingPastAnyStackIsRefusedNotFollowed) { EXPECT_FALSE(doc::parse(std::string(4u << 20, '['))); }

TEST(Doc, ListsAreLimited) {
  std::string text = R"({"leaves":[)";
  for (int i = 0; i < 600; ++i) text += std::string(i ? "," : "") + R"({"id":")" + std::to_string(i) + R"("})";
  const auto tree = doc::read_text<Tree>(text + "]}");
  ASSERT_FALSE(tree);
  EXPECT_EQ(tree.problems[0].at, "leaves");
}

TEST(Doc, SchemaSaysWhatTheReaderDoes) {
  const auto schema = doc::schema<Tree>("id", "title", false);
  EXPECT_EQ(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
  const auto& leaf = schema["$defs"]["Leaf"];
  EXPECT_EQ(leaf["required"], doc::Json::array({"id"}));
  EXPECT_EQ(leaf["additionalProperties"], false);
  EXPECT_TRUE(leaf["properties"]["width_in"].contains("anyOf"));
  EXPECT_EQ(doc::schema<Tree>("id", "title", true)["$defs"]["Leaf"]["properties"]["width_in"]["type"], "number");
  EXPECT_EQ(leaf["properties"]["colour"]["enum"], doc::Json::array({"red", "green"}));
}

TEST(Doc, BrokenTextNeverThrows) {
  const std::string good = R"({"leaves":[{"id":"a","width_in":"7' 4\"","count":3,"colour":"green"}],"sizes":{"x":1},"ring_in":[[0,0],[1,0],[1,1]]})";
  testing::for_each_seed(3000, [&](Random& random) {
    std::string text = good;
    for (auto n = 1 + random.below(4); n > 0; --n) {
      const auto at = static_cast<std::size_t>(random.below(text.size()));
      if (random.below(3) == 0)
        text.erase(at, 1 + static_cast<std::size_t>(random.below(5)));
      else
        text[at] = static_cast<char>(random.below(256));
      if (text.empty()) text = "x";
    }
    const auto tree = doc::read_text<Tree>(text);
    EXPECT_NE(tree.value.has_value(), !tree.problems.empty());
  });
}

TEST(NearestWords, FindsSlipsAndParts) {
  EXPECT_EQ(nearest_words("douglas_fir", {"douglas_fir_larch", "hem_fir", "redwood"}).at(0), "douglas_fir_larch");
  EXPECT_EQ(nearest_words("porcelan_tile", {"porcelain_tile", "stone_tile"}).at(0), "porcelain_tile");
  EXPECT_TRUE(nearest_words("zzzzzzzz", {"hem_fir"}).empty());
}

}  // namespace
}  // namespace awlmark
