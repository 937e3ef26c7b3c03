// Keys of the second edition: rows, rests, openings, walls in a builder's words, hazards, plans.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

#include "base/doc.hpp"
#include "job/job.hpp"
#include "support/outside.hpp"

namespace awlmark {
namespace {

using doc::Json;

// Every new key once.
const std::string kFull = R"({"format":"awlmark-job","version":1,
 "job":{"name":"Invented house","year_built":1961,"floors_above":1,"house_width_in":"26'","ground_snow_psf":25,"headroom_in":30,"hatch":"outside",
        "soil":"clay","state":"Examplia"},
 "claim":{"date_of_loss":"2026-04-20","number":"X-17","sudden":true,"adjuster_visit":"2026-05-08"},
 "visits":[{"id":"v1","who":"J. D.","time":"2026-05-04","from":"below"}],
 "settings":{"existing_building_rule":"former_strength","asbestos_removal_licensed_over_sf":3,"cancellation_days":3,"source":"invented"},
 "room":{"outline_in":[[0,0],[108,0],[108,72],[0,72]]},
 "layers":[{"id":"under","material":"plywood_underlayment","bond":"nailed","panel_use":"underlayment"},
           {"id":"deck","material":"board","runs":"x","face_width_in":5.5}],
 "walls":[{"id":"w1","from_in":[0,0],"to_in":[108,0],"below":"foundation","outside":true,"attic":"rafters","lands_here":true,"next_bearing_in":[144],
           "floors_above":1,"heavy_roof":false,"studs_run_past":true,"wallboard":"gypsum_board","wallboard_year":1961,"dead_plf":300,"live_plf":400,
           "snow_plf":100}],
 "supports":[{"id":"g1","role":"girder","from_in":[-6,36],"to_in":[114,36],"size":"4x8","rests_at_in":[60],
              "rests":[{"id":"a","end":"from","on":"foundation","bearing_in":3.5},
                       {"id":"b","at_in":60,"on":"post","post_size":"4x4","post_length_in":30,"cap_in":5.5,"over":"splice","pad_in":16},
                       {"id":"c","end":"to","on":"unknown"}],
              "treated":false}],
 "rows":[{"id":"J","size":"2x8","from_in":[12,0],"to_in":[12,72],"spacing_in":16,"count":6,"step":"x",
          "rests":[{"end":"from","on":"foundation"},{"at_in":36,"on":"girder","support":"g1","over":"continuous"},{"end":"to","on":"wall"}]}],
 "in_bays":[{"id":"p1","kind":"drain","from_in":[20,10],"to_in":[20,60],"diameter_in":3}],
 "fixtures":[{"id":"wc","kind":"toilet","outline_in":[[40,50],[60,50],[60,72],[40,72]],"stands":false,"reset":true}],
 "marks":[{"id":"m1","at_in":[50,60],"layer":"deck","tool":"awl","reads":"gone"},
          {"id":"m2","support":"J.3","along_in":60,"face":"top","tool":"awl","reads":"soft"}],
 "openings":[{"id":"o1","at_in":[45,60],"probes_in":[[45,60],[45,64.5],[45,55.5]],"act":"open","from":"above","by":"J. D.",
              "time":"2026-05-04T09:10:00Z","photos":["f1"],
              "readings":[{"id":"o1a","layer":"under","tool":"eye","reads":"stained"},
                          {"id":"o1b","layer":"deck","at_in":[45,64.5],"tool":"awl","reads":"soft","from":"below"},
                          {"id":"o1c","support":"J.3","tool":"awl","reads":"sound"}]}],
 "photos":[{"id":"f1","opening":"o1","mark":"o1b"}],
 "hazards":{"facts":{"paint_tested":"clear","growth_sf":4,"hours_wet":200,"gas":false,"sewage":false,
                     "laboratory":[{"layer":"under","result":"clear"},{"layer":"under","part":"adhesive","result":"positive","by":"Lab","date":"2026-05-03"}]},
            "met":[{"gate":"water_off","by":"J. D.","time":"2026-05-11T08:00:00Z","evidence":"photo f1"}]},
 "rebuild":{"finish":"porcelain_tile","level":"follow","out_of_level_in":0.5,"out_of_flat_in":0.25},
 "shower":{"outline_in":[[0,0],[36,0],[36,60],[0,60]],"entry":"flush","drain":{"kind":"line","from_in":[0,30],"to_in":[36,30]},
           "drain_run":{"vent_in":[36,70],"stack_in":[100,70],"pipe_in":2,"invert_below_in":14}},
 "drying":{"readings":[{"id":"r1","time":"2026-05-06T08:00:00Z","support":"J.2","mc_percent":22}],"equipment":{"air_movers":2,"faces_open":"both"}},
 "work":{"start":"2026-05-11","crew":2,"holidays":["2026-05-25"],"lead_days":{"permit":10,"glass":21},"permit":{"needed":true}},
 "decisions":[{"id":"x1","what":"new fan","answer":"declined","by":"Owner","time":"2026-05-05"}],
 "closed":{"finished":"2026-06-01","area_sf":30,"finish":"porcelain_tile","hours":[{"task":"open","hours":6}],
           "goods":[{"item":"joist 2x8","quantity":3,"unit":"each"}]}})";

template <class Change>
Outcome<Job> changed(Change change) {
  Json json = Json::parse(kFull);
  change(json);
  return read_job(json.dump());
}

std::string all(const Problems& problems) {
  std::string text;
  for (const auto& problem : problems) text += describe(problem) + "\n";
  return text;
}

bool has(const Problems& problems, const std::string& at) {
  return std::any_of(problems.begin(), problems.end(), [&](const Problem& p) { return p.at == at; });
}

TEST(SecondEdition, EveryKeyReadsAndWritesAsItWas) {
  const auto job = read_job(kFull);
  ASSERT_TRUE(job) << all(job.problems);
  const Json was = Json::parse(kFull), is = Json::parse(write_job(*job.value));
  for (const char* list : {"supports", "rows", "marks", "openings"}) EXPECT_EQ(was[list].size(), is[list].size()) << list;
  EXPECT_EQ(is["supports"][0]["rests_at_in"], Json::parse("[60.0]"));
  EXPECT_EQ(is["rows"][0]["rests"][1]["support"], "g1");
  EXPECT_EQ(is["openings"][0]["readings"][0].contains("at_in"), false);
  EXPECT_EQ(is["walls"][0]["next_bearing_in"], Json::parse("[144.0]"));
  EXPECT_EQ(nlohmann::json::parse(is["hazards"].dump()), nlohmann::json::parse(was["hazards"].dump()));
  EXPECT_EQ(is["work"]["lead_days"]["glass"], 21);
  const auto again = read_job(write_job(*job.value));
  ASSERT_TRUE(again) << all(again.problems);
  EXPECT_EQ(write_job(*again.value), write_job(*job.value));
}

TEST(SecondEdition, ARowStandsForItsMembers) {
  const auto job = changed([](Json& j) {
    j["rows"][0]["missing"] = {5};
    j["supports"].push_back(Json::parse(R"({"id":"J.2","from_in":[30,0],"to_in":[30,72],"size":"2x6"})"));
  });
  ASSERT_TRUE(job) << all(job.problems);
  const auto& supports = job.value->supports;
  ASSERT_EQ(supports.size(), 1u + 1u + 4u);  // girder, J.2 of its own, and 1, 3, 4, 6 of the row
  EXPECT_EQ(supports[1].size->nominal, "2x6");
  const auto* third = find_support(*job.value, "J.3");
  ASSERT_NE(third, nullptr);
  EXPECT_NEAR(third->from_in.x_in, 12 + 2 * 16, 1e-9);
  EXPECT_EQ(find_support(*job.value, "J.5"), nullptr);
  EXPECT_EQ(third->rests_at_in, (std::vector<double>{0, 36, 72}));
  const auto mark = std::find_if(job.value->marks.begin(), job.value->marks.end(), [](const Mark& m) { return m.id == "m2"; });
  EXPECT_NEAR(place_of(*job.value, *mark)->x_in, 44, 1e-9);
}

TEST(SecondEdition, ARowWithoutDirectionStepsIntoTheRoom) {
  const auto job = changed([](Json& j) {
    j["rows"][0].erase("step");
    j["rows"][0]["from_in"] = {96, 0};
    j["rows"][0]["to_in"] = {96, 72};
  });
  ASSERT_TRUE(job) << all(job.problems);
  EXPECT_NEAR(find_support(*job.value, "J.2")->from_in.x_in, 80, 1e-9);
}

TEST(SecondEdition, RestsOfAMember) {
  const auto job = read_job(kFull);
  const auto* girder = find_support(*job.value, "g1");
  EXPECT_EQ(girder->rests_at_in, (std::vector<double>{0, 60, 120}));
  const auto rests = rests_of(*girder);
  ASSERT_EQ(rests.size(), 3u);
  EXPECT_EQ(rests[0].on, RestOn::foundation);
  EXPECT_EQ(rests[1].post_size->nominal, "4x4");
  EXPECT_EQ(*rests[2].at_in, 120);
  // An old member: bare positions, the member's own post.
  Support old;
  old.to_in = {96, 0};
  old.rests_at_in = {0, 96};
  old.post_size = section_of("4x4");
  const auto bare = rests_of(old);
  ASSERT_EQ(bare.size(), 2u);
  EXPECT_EQ(bare[1].on, RestOn::unknown);
  EXPECT_TRUE(bare[1].post_size);
  // A free end carries nothing.
  const auto cantilever = changed([](Json& j) { j["supports"][0]["rests"][2]["on"] = "nothing"; });
  EXPECT_EQ(find_support(*cantilever.value, "g1")->rests_at_in, (std::vector<double>{0, 60}));
}

TEST(SecondEdition, AReadingHasFromItsOpeningWhatItDoesNotSay) {
  const auto job = read_job(kFull);
  const auto& marks = job.value->marks;
  ASSERT_EQ(marks.size(), 5u);
  const auto mark = [&](const std::string& id) { return *std::find_if(marks.begin(), marks.end(), [&](const Mark& m) { return m.id == id; }); };
  EXPECT_EQ(*mark("o1a").at_in, (Point{45, 60}));
  EXPECT_EQ(mark("o1a").from, From::above);
  EXPECT_EQ(*mark("o1a").by, "J. D.");
  EXPECT_EQ(*mark("o1b").at_in, (Point{45, 64.5}));
  EXPECT_EQ(mark("o1b").from, From::below);
  EXPECT_NEAR(*mark("o1c").along_in, 60, 1e-9);
  EXPECT_EQ(mark("o1c").from_opening, "o1");
}

TEST(SecondEdition, ExpandingTwiceChangesNothing) {
  auto job = *read_job(kFull).value;
  const auto supports = job.supports.size(), marks = job.marks.size();
  const auto rests = find_support(job, "g1")->rests_at_in;
  expand(job);
  EXPECT_EQ(job.supports.size(), supports);
  EXPECT_EQ(job.marks.size(), marks);
  EXPECT_EQ(find_support(job, "g1")->rests_at_in, rests);
  Problems problems, warnings;
  validate(job, problems, warnings);
  EXPECT_TRUE(problems.empty()) << all(problems);
}

TEST(SecondEdition, TheLaboratorysWord) {
  const auto job = *read_job(kFull).value;
  const auto& under = *find_layer(job, "under");
  EXPECT_EQ(laboratory_of(job, under, LaboratoryPart::backing), LaboratoryWord::clear);
  EXPECT_EQ(laboratory_of(job, under, LaboratoryPart::adhesive), LaboratoryWord::positive);
  EXPECT_EQ(laboratory_of(job, *find_layer(job, "deck"), LaboratoryPart::layer), std::nullopt);
}

// One slip, one problem, with its place and its cure.
TEST(SecondEdition, SlipsAreLocated) {
  const std::pair<std::function<void(Json&)>, const char*> cases[] = {
      {[](Json& j) { j["rows"][0]["rests"][1]["support"] = "g9"; }, "rows[0].rests[1].support"},
      {[](Json& j) { j["rows"][0]["step"] = "y"; }, "rows[0].step"},
      {[](Json& j) { j["rows"][0]["missing"] = {7}; }, "rows[0].missing[0]"},
      {[](Json& j) { j["rows"][0]["spacing_in"] = 0; }, "rows[0].spacing_in"},
      {[](Json& j) { j["rows"][0]["spacing_in"] = 200; }, "rows[0]"},
      {[](Json& j) { j["supports"][0]["rests"][0]["at_in"] = 0; }, "supports[0].rests[0]"},
      {[](Json& j) { j["supports"][0]["rests"][0].erase("end"); }, "supports[0].rests[0]"},
      {[](Json& j) { j["supports"][0]["rests"][0]["support"] = "g1"; }, "supports[0].rests[0].support"},
      {[](Json& j) { j["supports"][0]["rests"][0]["on"] = "pots"; }, "supports[0].rests[0].on"},
      {[](Json& j) { j["openings"][0]["readings"][1]["id"] = "m1"; }, "openings[0].readings[1].id"},
      {[](Json& j) { j["openings"][0]["readings"][1]["reads"] = "dry"; }, "openings[0].readings[1].reads"},
      {[](Json& j) {
         j["openings"][0]["at_in"] = {400, 60};
       },
       "openings[0].at_in"},
      {[](Json& j) { j["openings"][0]["act"] = "opne"; }, "openings[0].act"},
      {[](Json& j) { j["openings"][0]["photos"] = {"f9"}; }, "openings[0].photos[0]"},
      {[](Json& j) { j["hazards"]["facts"]["laboratory"][0]["layer"] = "undre"; }, "hazards.facts.laboratory[0].layer"},
      {[](Json& j) { j["hazards"]["facts"]["laboratory"][1]["part"] = "texture"; }, "hazards.facts.laboratory[1].part"},
      {[](Json& j) { j["hazards"]["met"][0].erase("by"); }, "hazards.met[0].by"},
      {[](Json& j) { j["hazards"]["met"][0]["time"] = "today"; }, "hazards.met[0].time"},
      {[](Json& j) { j["walls"][0]["attic"] = "truss"; }, "walls[0].attic"},
      {[](Json& j) {
         j["walls"][0]["next_bearing_in"] = {144, 120, 96};
       },
       "walls[0].next_bearing_in"},
      {[](Json& j) {
         j["shower"]["drain"]["to_in"] = {40, 30};
       },
       "shower.drain.to_in"},
      {[](Json& j) { j["shower"]["drain"] = Json::parse(R"({"kind":"point","at_in":[90,90]})"); }, "shower.drain.at_in"},
      {[](Json& j) { j["shower"]["least_fall_in_per_ft"] = 2; }, "shower.least_fall_in_per_ft"},
      {[](Json& j) { j["shower"]["outline_in"] = Json::parse("[[0,0],[12,0],[12,60],[0,60]]"); }, "shower.outline_in"},
      {[](Json& j) { j["work"]["crew"] = 20; }, "work.crew"},
      {[](Json& j) { j["work"]["holidays"] = {"25 May"}; }, "work.holidays[0]"},
      {[](Json& j) { j["claim"]["date_of_loss"] = "20/04/2026"; }, "claim.date_of_loss"},
      {[](Json& j) { j["visits"][0].erase("who"); }, "visits[0].who"},
      {[](Json& j) { j["job"]["soil"] = "mud"; }, "job.soil"},
  };
  for (const auto& [change, at] : cases) {
    const auto job = changed(change);
    EXPECT_FALSE(job) << at;
    EXPECT_TRUE(has(job.problems, at)) << at << "\n" << all(job.problems);
    for (const auto& problem : job.problems) EXPECT_FALSE(problem.mend.empty()) << problem.at;
  }
}

TEST(SecondEdition, DoubtfulPlansAreWarnedOf) {
  EXPECT_TRUE(has(changed([](Json& j) {
                    j["shower"]["outline_in"] = Json::parse("[[0,0],[24,0],[24,24],[0,24]]");
                    j["shower"]["drain"] = Json::parse(R"({"kind":"point","at_in":[12,12]})");
                  }).warnings,
                  "shower.outline_in"));
  EXPECT_TRUE(has(changed([](Json& j) { j["shower"]["least_fall_in_per_ft"] = 0.75; }).warnings, "shower.least_fall_in_per_ft"));
  EXPECT_TRUE(has(changed([](Json& j) { j["work"]["crew"] = 8; }).warnings, "work.crew"));
  EXPECT_TRUE(has(changed([](Json& j) { j["walls"][0]["carries_plf"] = 700; }).warnings, "walls[0].carries_plf"));
  const auto later = changed([](Json& j) { j["work"]["start"] = "2031-05-12"; });
  EXPECT_TRUE(later) << all(later.problems);
}

TEST(SecondEdition, TheSchemaKnowsTheNewKeys) {
  const auto defs = job_schema(false)["$defs"];
  for (const char* def : {"SupportRow", "SupportRest", "Opening", "LaboratoryResult", "GateMet", "Claim", "Visit", "StateSettings", "Obstacle", "ClosedJob"})
    EXPECT_TRUE(defs.contains(def)) << def;
  for (const char* hidden : {"from_row", "rests_at_as_written"}) EXPECT_FALSE(defs["Support"]["properties"].contains(hidden));
}

}  // namespace
}  // namespace awlmark
