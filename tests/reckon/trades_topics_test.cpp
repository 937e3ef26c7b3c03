// The topics of hazards, air, cutting, networks, ranges and showers through their JSON, as a script
// would ask them; the figures are those of tests/outside.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "reckon/reckon.hpp"
#include "support/outside.hpp"

namespace awlmark::reckon {
namespace {

using nlohmann::json;

json ask(const char* topic, const json& in) {
  const auto answer = reckon(topic, in.dump());
  EXPECT_TRUE(answer) << topic << " " << in.dump() << (answer.problems.empty() ? "" : ": " + describe(answer.problems.front()));
  if (!answer) return json::object();
  const auto out = json::parse(*answer.value);
  EXPECT_TRUE(out.contains("reason"));
  return out;
}

bool has_hazard(const json& out, const std::string& hazard) {
  for (const auto& gate : out.at("gates"))
    if (gate.at("hazard") == hazard) return true;
  return false;
}

TEST(TradesTopics, EmcAndAir) {
  const auto file = testing::outside_file("moisture.json");
  for (const auto& one : file.at("emc_table")) {
    const auto out = ask("emc", {{"temp_f", one.at("inputs").at("temperature_degF")}, {"rh_percent", one.at("inputs").at("relative_humidity_pct")}});
    EXPECT_NEAR(out.at("emc_percent"), one.at("expected").at("emc_pct"), 0.07);
  }
  const auto out = ask("air", {{"temp_f", 68}, {"rh_percent", 50}});  // psy-si-20C-50RH
  EXPECT_NEAR(out.at("humidity_ratio"), 0.007261737, 7e-6);
  EXPECT_NEAR((out.at("dew_point_f").get<double>() - 32) / 1.8, 9.272392, 0.05);
  EXPECT_NEAR((out.at("wet_bulb_f").get<double>() - 32) / 1.8, 13.78337, 0.05);
}

TEST(TradesTopics, CutPlansOfTheFile) {
  const auto published = testing::outside_file("shower_and_work.json");
  for (const auto& one : published.at("cutting_stock")) {
    const auto& in = one.at("inputs");
    if (!in.contains("kerf_in") || !in.contains("stock")) continue;
    json question{{"kerf_in", in.at("kerf_in")}, {"stock", json::array()}, {"pieces", json::array()}};
    for (const auto& s : in.at("stock")) question["stock"].push_back({{"length_in", s.at("length_in")}, {"price", s.at("price_usd")}});
    for (const auto& p : in.at("pieces")) question["pieces"].push_back({{"length_in", p.at("length_in")}, {"count", p.at("qty")}});
    const auto out = ask("cut-plan", question);
    EXPECT_EQ(out.at("proven"), true);
    EXPECT_LE(out.at("lower_bound").get<double>(), out.at("cost").get<double>() + 1e-9);
    if (one.at("expected").contains("min_cost_usd")) {
      EXPECT_NEAR(out.at("cost"), one.at("expected").at("min_cost_usd"), 1e-9) << one.at("id");
    }
    if (one.at("expected").contains("min_sticks")) {
      EXPECT_EQ(out.at("stick_count"), one.at("expected").at("min_sticks")) << one.at("id");
    }
  }
}

TEST(TradesTopics, NetworksOfTheFile) {
  const auto published = testing::outside_file("shower_and_work.json");
  for (const auto& one : published.at("critical_path")) {
    if (!one.at("inputs").contains("activities")) continue;
    json tasks = json::object();
    for (const auto& [id, task] : one.at("inputs").at("activities").items()) {
      json after = json::array();
      for (const auto& pred : task.at("preds")) {
        if (pred.is_string())
          after.push_back(pred);
        else
          after.push_back({{"id", pred.at("after")}, {"lag", pred.at("lag")}});
      }
      tasks[id] = {{"duration", task.at("duration")}, {"after", after}};
    }
    const auto out = ask("network", {{"tasks", tasks}});
    if (one.at("expected").contains("project_duration")) {
      EXPECT_NEAR(out.at("duration"), one.at("expected").at("project_duration"), 1e-9) << one.at("id");
    }
  }
}

TEST(TradesTopics, RangeOfOneAndOfMany) {
  const auto one = ask("range", {{"items", {{{"low", 2}, {"likely", 3}, {"high", 7}, {"shape", "triangular"}}}}, {"draws", 1000}, {"seed", 1}});
  EXPECT_NEAR(one.at("mean"), 4, 1e-12);  // MC-003
  EXPECT_NEAR(one.at("p80"), 5, 1e-5);
  const auto pert = ask("range", {{"items", {{{"low", 10}, {"likely", 12}, {"high", 18}, {"shape", "pert"}}}}, {"draws", 1000}, {"seed", 1}});
  EXPECT_NEAR(pert.at("sd").get<double>() * pert.at("sd").get<double>(), 2.031746, 1e-5);  // MC-006
}

TEST(TradesTopics, PansArmsGroutAndSlabs) {
  const auto pan = ask("pan-fall", {{"outline_in", {{0, 0}, {60, 0}, {60, 36}, {0, 36}}},
                                    {"drain", {{"kind", "point"}, {"at_in", {30, 18}}}},
                                    {"least_fall_in_per_ft", 0.25},
                                    {"least_thickness_in", 1.25}});
  EXPECT_NEAR(pan.at("edge_height_in"), 0.728869, 2e-6);  // PAN-001
  EXPECT_NEAR(pan.at("bed_volume_ft3"), 2.169891, 2e-6);
  EXPECT_EQ(pan.at("planes").size(), 4u);
  const auto line = ask("pan-fall", {{"outline_in", {{0, 0}, {60, 0}, {60, 36}, {0, 36}}},
                                     {"drain", {{"kind", "line"}, {"from_in", {0, 0}}, {"to_in", {60, 0}}}},
                                     {"least_fall_in_per_ft", 0.25},
                                     {"least_thickness_in", 0.75}});
  EXPECT_NEAR(line.at("bed_volume_ft3"), 1.40625, 2e-6);                                                                       // PAN-015
  EXPECT_EQ(ask("trap-arm", {{"pipe_in", 2}, {"length_ft", 5.5}, {"fall_in_per_ft", 0.25}, {"code", "irc"}}).at("ok"), true);  // ARM-004
  EXPECT_EQ(ask("trap-arm", {{"pipe_in", 2}, {"length_ft", 5.5}, {"fall_in_per_ft", 0.25}, {"code", "upc"}}).at("ok"), false);
  EXPECT_NEAR(ask("grout", {{"tile_in", {12, 12}}, {"joint_in", 0.125}, {"depth_in", 0.375}, {"area_ft2", 63}}).at("volume_in3"),
              63 * 144 * 0.375 * (1 - 144 / (12.125 * 12.125)), 1e-9);
  EXPECT_NEAR(ask("slab-drying", {{"thickness_in", 2}, {"faces_open", 2}, {"diffusivity_in2_per_day", 0.2}, {"days", 1}}).at("fraction_dried"), 0.5040878,
              1e-6);  // Fo 0.2
}

TEST(TradesTopics, HazardsWithAnythingMissing) {
  EXPECT_TRUE(has_hazard(ask("hazards", json::object()), "lead"));  // the year built is not known
  EXPECT_FALSE(has_hazard(ask("hazards", {{"year_built", 1995}}), "lead"));
  const auto old = ask("hazards", {{"year_built", 1954}, {"layers", {{{"material", "sheet_vinyl"}, {"installed_year", 1980}}}}});
  EXPECT_TRUE(has_hazard(old, "asbestos"));
  const auto newer = ask("hazards", {{"year_built", 1995}, {"layers", {{{"material", "sheet_vinyl"}}}}});
  EXPECT_FALSE(has_hazard(newer, "asbestos"));
}

TEST(TradesTopics, BadQuestionsAreNamed) {
  EXPECT_FALSE(reckon("range", R"({"items": [{"low": 5, "likely": 3, "high": 7}]})"));
  EXPECT_FALSE(reckon("cut-plan", R"({"stock": [{"length_in": 96, "price": 1}], "pieces": [{"length_in": 100, "count": 1}]})"));
  EXPECT_FALSE(reckon("network", R"({"tasks": {"a": {"duration": 1, "after": ["a"]}}})"));
  EXPECT_FALSE(reckon("trap-arm", R"({"pipe_in": 2.3, "length_ft": 5, "fall_in_per_ft": 0.25, "code": "irc"})"));
  EXPECT_FALSE(reckon("pan-fall", R"({"outline_in": [[0,0],[60,0],[60,36],[0,36]], "drain": {"kind": "point", "at_in": [80, 18]}})"));
  EXPECT_FALSE(reckon("emc", R"({"temp_f": 70})"));
  EXPECT_FALSE(reckon("hazards", R"({"layers": [{"material": "linoleum"}]})"));
}

}  // namespace
}  // namespace awlmark::reckon
