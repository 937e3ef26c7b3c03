#include "money/money.hpp"

#include <gtest/gtest.h>

#include "tables/materials.hpp"

namespace awlmark::money {
namespace {

TEST(Stakes, TheJobsOwnAnswersGoBeforeTheTable) {
  Job job;
  const Stakes table = stakes_of(job);
  EXPECT_EQ(table.leave_unsound_per_sf, tables::rate("leave_unsound_per_sf").value);
  EXPECT_GT(table.cross_in_air_per_ft, table.blocking_per_ft) << "an end in the air is cut and blocked";
  EXPECT_EQ(table.opening, tables::rate("opening_hours").value * table.labour_per_hour) << "an opening is hours of work";
  job.rates = Rates{};
  job.rates->opening = 12.5;
  job.rates->leave_unsound_per_sf = 0;
  const Stakes own = stakes_of(job);
  EXPECT_EQ(own.opening, 12.5);
  EXPECT_EQ(own.leave_unsound_per_sf, 0) << "nothing is an answer too";
  EXPECT_EQ(own.tear_out_sound_per_sf, table.tear_out_sound_per_sf);
}

}  // namespace
}  // namespace awlmark::money
