// A check's state, ratio and verdict say the same thing, whatever the figures.
#include "base/reason.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/doc.hpp"

namespace awlmark {
namespace {

TEST(Check, StateRatioAndVerdictAgree) {
  for (const double demand : {0.0, 0.5, 1.0, 2.0})
    for (const double capacity : {-1.0, 0.0, 1.0, 2.0}) {
      const auto check = make_check("a", "j1", "bending", demand, capacity, {});
      EXPECT_EQ(check.ok, check.state == CheckState::passes) << demand << " of " << capacity;
      EXPECT_EQ(check.ok, check.ratio <= 1 + 1e-9) << demand << " of " << capacity;
      EXPECT_EQ(check.state == CheckState::nothing_left, demand > 0 && capacity <= 0) << demand << " of " << capacity;
      EXPECT_EQ(check.reason.ratio.has_value(), check.state == CheckState::passes || check.state == CheckState::fails);
      EXPECT_TRUE(std::isfinite(check.ratio));
    }
}

TEST(Check, ForbiddenHasNoRatioInItsReason) {
  const auto check = forbidden_check("a", "g1", "post", 900, {});
  EXPECT_FALSE(check.ok);
  EXPECT_EQ(check.state, CheckState::not_allowed);
  const auto json = doc::write(check);
  EXPECT_EQ(json.at("state"), "not_allowed");
  EXPECT_TRUE(json.at("ratio").is_number());
  EXPECT_FALSE(json.at("reason").contains("ratio"));
  EXPECT_FALSE(json.at("reason").contains("capacity"));
}

}  // namespace
}  // namespace awlmark
