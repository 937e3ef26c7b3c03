// Where the water came from and where it ran.
#include <gtest/gtest.h>

#include "survey/evidence.hpp"
#include "survey/example_job.hpp"
#include "survey/survey.hpp"

namespace awlmark {
namespace {

using testing::awl_mark;
using testing::job_from;

survey::Options many() {
  survey::Options options;
  options.draws = 0;
  options.openings = 6;
  options.last_change = false;
  options.cell_in = 6;
  return options;
}

// A long room, boards across it, a leak at one end of the long wall; `marks` read the deck.
Job corridor(const std::string& marks, const std::string& source = "[6,90]") {
  return job_from(R"({"format":"awlmark-job","version":1,"job":{"name":"corridor","year_built":2005},
    "room":{"outline_in":[[0,0],[240,0],[240,96],[0,96]]},
    "layers":[{"id":"under","material":"plywood_underlayment"},{"id":"deck","material":"board","runs":"y","face_width_in":5.5}],
    "walls":[{"id":"north","from_in":[0,96],"to_in":[240,96],"stands_on":"deck"}],
    "sources":[{"id":"valve","at_in":)" +
                  source + R"(,"kind":"supply_leak"}],"marks":)" + marks + "}");
}

double chance(const survey::Survey& s, double x, double y) {
  const auto i = static_cast<std::size_t>(x / s.grid.cell_in), j = static_cast<std::size_t>(y / s.grid.cell_in);
  return s.layers[1].p_unsound[j * static_cast<std::size_t>(s.grid.nx) + i];
}

// Soft wood all along half of a wall: the rest of that wall is the next to be doubted, not the room's middle.
TEST(Water, AWetWallIsFollowedToItsEnd) {
  std::string marks;
  int k = 0;
  for (const int x : {9, 33, 57, 81, 105}) {
    marks += (marks.empty() ? "[" : ",") + awl_mark("w" + std::to_string(k), x, 93, "deck", "gone");
    marks += "," + awl_mark("m" + std::to_string(k++), x, 57, "deck", "sound");
  }
  const auto s = survey::survey(corridor(marks + "]"), many()).findings;
  EXPECT_GT(chance(s, 231, 93), 0.1);
  EXPECT_GT(chance(s, 231, 93), 2.5 * chance(s, 231, 45));
  bool along = false;
  for (const auto& next : s.next_openings) along = along || (next.at_in.x_in > 150 && next.at_in.y_in > 78);
  EXPECT_TRUE(along) << "nobody looks at the wall's far end";
}

TEST(Water, WallsAwayFromTheSourceCarryNone) {
  const survey::Model near = survey::model_of(corridor("[]")), far = survey::model_of(corridor("[]", "[120,20]"));
  ASSERT_EQ(near.channels.size(), 1u);
  EXPECT_GT(near.channels[0].share, 0.7);
  EXPECT_TRUE(far.channels.empty());
}

TEST(Water, AFarSourceIsWarnedAboutAndItsPlaceUnknown) {
  const Job job = corridor("[]", "[6,700]");
  const auto warnings = survey::warnings(job);
  ASSERT_EQ(warnings.size(), 1u);
  EXPECT_EQ(warnings[0].at, "sources[0].at_in");
  EXPECT_NE(warnings[0].what.find("50 ft outside"), std::string::npos);
  EXPECT_TRUE(survey::model_of(job).sources.empty());
  EXPECT_TRUE(survey::warnings(corridor("[]", "[6,560]")).empty());
}

}  // namespace
}  // namespace awlmark
