#include "job/job.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "base/doc.hpp"
#include "job/dates.hpp"
#include "support/outside.hpp"
#include "support/property.hpp"

namespace awlmark {
namespace {

using doc::Json;

const std::string kSmall = R"({"format":"awlmark-job","version":1,
 "room":{"outline_in":[[0,0],[108,0],[108,72],[0,72]]},
 "layers":[{"id":"under","material":"plywood_underlayment"},{"id":"deck","material":"board","runs":"x","face_width_in":5.5}],
 "walls":[{"id":"w1","from_in":[0,0],"to_in":[108,0]}],
 "supports":[{"id":"j1","from_in":[16,0],"to_in":[16,72],"size":"2x8","rests_at_in":[0,72]}],
 "marks":[{"id":"m1","at_in":[50,60],"layer":"deck","tool":"awl","reads":"gone"}]})";

// The small job with one change.
template <class Change>
Outcome<Job> changed(Change change) {
  Json json = Json::parse(kSmall);
  change(json);
  return read_job(json.dump());
}

bool has(const Problems& problems, const std::string& at) {
  return std::any_of(problems.begin(), problems.end(), [&](const Problem& p) { return p.at == at; });
}

std::string all(const Problems& problems) {
  std::string text;
  for (const auto& problem : problems) text += describe(problem) + "\n";
  return text;
}

TEST(Job, ReadsTheExamples) {
  for (const char* file : {"examples/laundry-1954.json", "examples/clubhouse-washroom-1972.json"}) {
    const auto job = read_job(testing::read_source_file(file));
    ASSERT_TRUE(job) << file << "\n" << all(job.problems);
    EXPECT_NE(job.value->job.name.find("invented"), std::string::npos);
  }
}

TEST(Job, WrittenJobsReadBackTheSame) {
  for (const char* file : {"examples/laundry-1954.json", "examples/clubhouse-washroom-1972.json"}) {
    const auto job = read_job(testing::read_source_file(file));
    const auto text = write_job(*job.value);
    const auto again = read_job(text);
    ASSERT_TRUE(again) << all(again.problems);
    EXPECT_EQ(write_job(*again.value), text);
  }
}

TEST(Job, TheStartingJobCanBeWorkedAndSaysWhereToLook) {
  const auto job = read_job(new_job_text());
  ASSERT_TRUE(job) << all(job.problems);
  const auto text = new_job_text();
  EXPECT_GE(std::count(text.begin(), text.end(), '\n'), 20);
  EXPECT_NE(text.find("\"note\""), std::string::npos);
}

TEST(Job, EveryProblemAtOnce) {
  const auto job = changed([](Json& j) {
    j["rooom"] = 1;
    j["layers"][0]["material"] = "plywod";
    j["supports"][0]["size"] = "9x2";
    j["marks"].push_back(Json::parse(R"({"id":"m1","at_in":[50,60],"layer":"dek","tool":"awl","reads":"dry"})"));
    j["marks"].push_back(Json::parse(R"({"id":"m3","at_in":[400,60],"layer":"deck","tool":"meter","mc_percent":300})"));
  });
  ASSERT_FALSE(job);
  for (const char* at : {"rooom", "layers[0].material", "supports[0].size", "marks[1].id", "marks[2].mc_percent"})
    EXPECT_TRUE(has(job.problems, at)) << at << "\n" << all(job.problems);
}

TEST(Job, LocatedFaultsOfMarks) {
  const std::pair<const char*, const char*> cases[] = {
      {R"({"id":"m2","at_in":[400,60],"layer":"deck","tool":"awl","reads":"soft"})", "marks[1].at_in"},
      {R"({"id":"m2","at_in":[50,60],"layer":"dek","tool":"awl","reads":"soft"})", "marks[1].layer"},
      {R"({"id":"m2","at_in":[50,60],"layer":"deck","tool":"meter","mc_percent":240})", "marks[1].mc_percent"},
      {R"({"id":"m2","at_in":[50,60],"layer":"deck","tool":"meter"})", "marks[1].mc_percent"},
      {R"({"id":"m2","at_in":[50,60],"layer":"deck","tool":"awl","reads":"dry"})", "marks[1].reads"},
      {R"({"id":"m2","at_in":[50,60],"layer":"deck","tool":"eye","reads":"soft"})", "marks[1].reads"},
      {R"({"id":"m2","at_in":[50,60],"tool":"awl","reads":"soft"})", "marks[1]"},
      {R"({"id":"m2","layer":"deck","tool":"awl","reads":"soft"})", "marks[1].at_in"},
      {R"({"id":"m2","layer":"deck","plank":3,"tool":"awl","reads":"soft"})", "marks[1].tape_in"},
      {R"({"id":"m2","support":"j1","tool":"awl","reads":"soft"})", "marks[1].along_in"},
      {R"({"id":"m2","support":"j1","along_in":120,"tool":"awl","reads":"soft"})", "marks[1].along_in"},
      {R"({"id":"m2","at_in":[50,60],"layer":"deck","tool":"awl","reads":"soft","time":"yesterday"})", "marks[1].time"},
      {R"({"id":"m2","at_in":["seven",60],"layer":"deck","tool":"awl","reads":"soft"})", "marks[1].at_in[0]"},
  };
  for (const auto& [mark, at] : cases) {
    const auto job = changed([&, text = mark](Json& j) { j["marks"].push_back(Json::parse(text)); });
    EXPECT_FALSE(job) << mark;
    ASSERT_EQ(job.problems.size(), 1u) << mark << "\n" << all(job.problems);
    EXPECT_EQ(job.problems[0].at, at) << mark;
    EXPECT_FALSE(job.problems[0].mend.empty()) << mark;
  }
}

TEST(Job, DoubtfulMarksAreWarnedOfAndKept) {
  const auto job = changed([](Json& j) {
    j["fixtures"] = Json::parse(R"([{"id":"tub","kind":"tub","outline_in":[[40,50],[70,50],[70,70],[40,70]]}])");
    j["marks"].push_back(Json::parse(R"({"id":"m2","at_in":[10,10],"layer":"deck","tool":"meter","mc_percent":45})"));
    j["marks"].push_back(Json::parse(R"({"id":"m3","at_in":[112,-6],"layer":"deck","tool":"awl","reads":"sound"})"));
  });
  ASSERT_TRUE(job) << all(job.problems);
  EXPECT_TRUE(has(job.warnings, "marks[0].at_in"));       // under a tub that stands
  EXPECT_TRUE(has(job.warnings, "marks[1].mc_percent"));  // past the meter's range
  EXPECT_EQ(job.value->marks.size(), 3u);
}

TEST(Job, FaultsOfRooms) {
  EXPECT_TRUE(has(changed([](Json& j) { j["room"]["outline_in"] = Json::parse("[[0,0],[100,100],[100,0],[0,100]]"); }).problems, "room.outline_in"));
  EXPECT_TRUE(has(changed([](Json& j) { j["room"]["outline_in"] = Json::parse("[[0,0],[9000,0],[9000,100],[0,100]]"); }).problems, "room.outline_in"));
  EXPECT_TRUE(has(changed([](Json& j) { j["room"]["outline_in"] = Json::parse("[[0,0],[1,0],[1,1]]"); }).problems, "room.outline_in"));
  EXPECT_TRUE(has(changed([](Json& j) { j.erase("room"); }).problems, "room"));
  EXPECT_TRUE(has(changed([](Json& j) { j["layers"] = Json::array(); }).problems, "layers"));
  EXPECT_TRUE(has(changed([](Json& j) { j["format"] = "other"; }).problems, "format"));
  EXPECT_TRUE(has(changed([](Json& j) { j["version"] = 99; }).problems, "version"));
}

TEST(Job, PlanksAreCountedFromTheWall) {
  const auto job =
      changed([](Json& j) { j["marks"].push_back(Json::parse(R"({"id":"m2","layer":"deck","plank":3,"tape_in":"2' 6\"","tool":"awl","reads":"soft"})")); });
  ASSERT_TRUE(job) << all(job.problems);
  const auto spot = place_of(*job.value, job.value->marks[1]);
  ASSERT_TRUE(spot);
  EXPECT_NEAR(spot->x_in, 30, 1e-9);
  EXPECT_NEAR(spot->y_in, 2.5 * 5.5, 1e-9);
  const auto along_y = changed([](Json& j) {
    j["layers"][1]["runs"] = "y";
    j["marks"].push_back(Json::parse(R"({"id":"m2","layer":"deck","plank":1,"tape_in":30,"tool":"awl","reads":"soft"})"));
  });
  const auto turned = place_of(*along_y.value, along_y.value->marks[1]);
  EXPECT_NEAR(turned->x_in, 2.75, 1e-9);
  EXPECT_NEAR(turned->y_in, 30, 1e-9);
}

TEST(Job, Sizes) {
  // Dressed sizes: PS 20, as in tests/outside/wood_floor.json topic section_properties.
  const auto published = testing::outside_file("wood_floor.json");
  for (const auto& item : published.at("section_properties")) {
    if (!item["inputs"].contains("nominal") || !item["inputs"].contains("b_in")) continue;
    const auto section = section_of(item["inputs"]["nominal"].get<std::string>());
    ASSERT_TRUE(section) << item["id"];
    EXPECT_NEAR(section->b_in, item["inputs"]["b_in"].get<double>(), 1e-9) << item["id"];
    EXPECT_NEAR(section->d_in, item["inputs"]["d_in"].get<double>(), 1e-9) << item["id"];
  }
  EXPECT_DOUBLE_EQ(section_of("2-2x10")->b_in, 3.0);
  for (const char* wrong : {"", "2x", "x8", "2X8", "2x8 ", "0x4", "9-2x8", "100x2", "8x2"}) EXPECT_FALSE(section_of(wrong)) << wrong;
}

TEST(Job, Dates) {
  EXPECT_EQ(day_of("1970-01-01"), 0);
  EXPECT_EQ(day_of("2000-03-01"), 11017);
  EXPECT_FALSE(day_of("2026-02-29"));
  EXPECT_TRUE(day_of("2028-02-29"));
  EXPECT_EQ(weekday_of(*day_of("2026-05-11")), 0);  // a Monday
  for (long day = -200000; day < 200000; day += 137) EXPECT_EQ(day_of(date_of(day)), day);
  EXPECT_EQ(second_of("2026-05-04T09:10:00Z"), second_of("2026-05-04T11:10:00+02:00"));
  EXPECT_FALSE(valid_time("2026-05-04"));
  EXPECT_FALSE(valid_time("2026-05-04T25:10:00Z"));
}

TEST(Job, SchemaCoversTheContract) {
  const auto schema = job_schema(false);
  EXPECT_EQ(schema["$ref"], "#/$defs/Job");
  for (const char* def : {"Job", "Mark", "Support", "Layer", "SectionSize", "Runs", "Point"}) EXPECT_TRUE(schema["$defs"].contains(def)) << def;
  EXPECT_TRUE(schema["$defs"]["Mark"]["properties"].contains("plank"));
}

// Anything that reads must also pass the cross-checks or be refused; nothing throws.
TEST(Job, BrokenJobsNeverThrow) {
  const auto good = testing::read_source_file("examples/laundry-1954.json");
  testing::for_each_seed(300, [&](Random& random) {
    std::string text = good;
    for (auto n = 1 + random.below(6); n > 0; --n) {
      const auto at = static_cast<std::size_t>(random.below(text.size()));
      switch (random.below(3)) {
        case 0:
          text.erase(at, 1 + static_cast<std::size_t>(random.below(20)));
          break;
        case 1:
          text[at] = static_cast<char>('0' + random.below(10));
          break;
        default:
          text.insert(at, text.substr(static_cast<std::size_t>(random.below(text.size())), static_cast<std::size_t>(random.below(40))));
      }
    }
    const auto job = read_job(text);
    EXPECT_NE(job.value.has_value(), !job.problems.empty());
    for (const auto& problem : job.problems) EXPECT_FALSE(problem.what.empty());
  });
}

}  // namespace
}  // namespace awlmark
