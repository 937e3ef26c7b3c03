#include "shower/trap_arm.hpp"

#include <gtest/gtest.h>

#include "support/outside.hpp"

namespace awlmark::shower {
namespace {

nlohmann::json arm_case(const std::string& id) {
  const auto file = testing::outside_file("shower_and_work.json");
  for (const auto& one : file.at("trap_arm"))
    if (one.at("id") == id) return one;
  ADD_FAILURE() << id;
  return {};
}

TEST(TrapArm, TablesOfBothFamilies) {
  for (const auto& [id, code] : {std::pair{"ARM-001", PlumbingCode::irc}, std::pair{"ARM-003", PlumbingCode::upc}}) {
    const auto one = arm_case(id);
    for (std::size_t i = 0; i < one["inputs"]["trap_in"].size(); ++i)
      EXPECT_EQ(trap_arm(one["inputs"]["trap_in"][i], 3, 0.25, code)->table_ft, one["expected"]["max_ft"][i].get<double>());
  }
}

TEST(TrapArm, MoreFallShortensTheArm) {
  const auto one = arm_case("ARM-007");
  const auto& in = one["inputs"];
  for (std::size_t i = 0; i < in["pipe_in"].size(); ++i) {
    EXPECT_NEAR(trap_arm(in["pipe_in"][i], 2, in["slope_in_per_ft"][i], PlumbingCode::irc)->longest_ft, one["expected"]["ipc_effective_max_ft"][i], 1e-6);
    EXPECT_NEAR(trap_arm(in["pipe_in"][i], 2, in["slope_in_per_ft"][i], PlumbingCode::upc)->longest_ft, one["expected"]["upc_effective_max_ft"][i], 1e-6);
  }
}

TEST(TrapArm, VerdictsDifferByCode) {
  const auto one = arm_case("ARM-004");
  for (std::size_t i = 0; i < one["inputs"]["length_ft"].size(); ++i) {
    EXPECT_EQ(trap_arm(2, one["inputs"]["length_ft"][i], 0.25, PlumbingCode::irc)->ok, one["expected"]["ipc_ok"][i].get<bool>());
    EXPECT_EQ(trap_arm(2, one["inputs"]["length_ft"][i], 0.25, PlumbingCode::upc)->ok, one["expected"]["upc_ok"][i].get<bool>());
  }
}

TEST(TrapArm, OtherLimits) {
  EXPECT_FALSE(trap_arm(2, 0.3, 0.25, PlumbingCode::irc)->ok);  // two diameters at least
  EXPECT_FALSE(trap_arm(2, 4, 0.125, PlumbingCode::irc)->ok);   // too flat for 2 in.
  EXPECT_TRUE(trap_arm(3, 10, 0.125, PlumbingCode::irc)->ok);
  EXPECT_FALSE(trap_arm(2, 4.01, 0.5, PlumbingCode::irc)->ok);
  EXPECT_FALSE(trap_arm(2.25, 3, 0.25, PlumbingCode::irc));
}

}  // namespace
}  // namespace awlmark::shower
