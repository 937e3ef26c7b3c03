// Merging two edits of one document: fixed cases of each rule, then random edits against the promises.
#include "job/merge.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <set>

#include "base/doc.hpp"
#include "job/job.hpp"
#include "support/outside.hpp"
#include "support/property.hpp"

namespace awlmark {
namespace {

using doc::Json;

const Json kBase = Json::parse(R"({"format":"awlmark-job","version":1,"job":{"name":"Invented","year_built":1960},
 "room":{"outline_in":[[0,0],[108,0],[108,72],[0,72]]},
 "layers":[{"id":"sheet","material":"sheet_vinyl"},{"id":"deck","material":"board","runs":"x"}],
 "supports":[{"id":"j1","from_in":[16,0],"to_in":[16,72],"size":"2x8"},{"id":"j2","from_in":[32,0],"to_in":[32,72],"size":"2x8"}],
 "marks":[{"id":"m1","at_in":[50,60],"layer":"deck","tool":"awl","reads":"gone"},{"id":"m2","at_in":[20,20],"layer":"deck","tool":"awl","reads":"sound"}],
 "photos":[{"id":"p1","mark":"m1"}]})");

Json edit(const std::function<void(Json&)>& change, Json json = kBase) {
  change(json);
  return json;
}
const Json* by_id(const Json& list, const std::string& id) {
  for (const auto& item : list)
    if (item.value("id", "") == id) return &item;
  return nullptr;
}
std::string told(const Merged& merged) { return merged_json(merged)["conflicts"].dump(1); }

TEST(Merge, EditsInDifferentPlacesBothStand) {
  const Json ours = edit([](Json& j) {
    j["job"]["year_built"] = 1961;
    j["marks"][0]["depth_in"] = 0.5;
    j["marks"].push_back(Json::parse(R"({"id":"a1","at_in":[5,5],"layer":"deck","tool":"awl","reads":"soft"})"));
  });
  const Json theirs = edit([](Json& j) {
    j["job"]["name"] = "Other";
    j["marks"][0]["note"] = "at the tub";
    j["marks"].erase(1);
    j["later_key"] = {{"anything", {1, 2}}};
  });
  const auto merged = merge(&kBase, ours, theirs);
  EXPECT_TRUE(merged.conflicts.empty()) << told(merged);
  const auto& m = merged.merged;
  EXPECT_EQ(m["job"], Json::parse(R"({"name":"Other","year_built":1961})"));
  EXPECT_EQ(m["marks"].size(), 2u);
  EXPECT_EQ((*by_id(m["marks"], "m1"))["note"], "at the tub");
  EXPECT_EQ((*by_id(m["marks"], "m1"))["depth_in"], 0.5);
  EXPECT_NE(by_id(m["marks"], "a1"), nullptr);
  EXPECT_EQ(m["later_key"]["anything"][1], 2);
}

TEST(Merge, OneValueChangedTwiceIsAConflictWithBothValues) {
  const Json ours = edit([](Json& j) { j["marks"][0]["reads"] = "soft"; });
  const Json theirs = edit([](Json& j) { j["marks"][0]["reads"] = "sound"; });
  const auto merged = merge(&kBase, ours, theirs);
  ASSERT_EQ(merged.conflicts.size(), 1u) << told(merged);
  EXPECT_EQ(merged.conflicts[0].at, "marks[m1].reads");
  EXPECT_EQ(merged.conflicts[0].base, "gone");
  EXPECT_EQ(merged.conflicts[0].ours, "soft");
  EXPECT_EQ(merged.conflicts[0].theirs, "sound");
  EXPECT_EQ(merged.merged["marks"][0]["reads"], "soft");
}

TEST(Merge, AMarkChangedHereAndRemovedThereStays) {
  const Json gone = edit([](Json& j) { j.erase("marks"); });
  const Json changed = edit([](Json& j) { j["marks"][0]["depth_in"] = 0.75; });
  for (const bool swap : {false, true}) {
    const auto merged = swap ? merge(&kBase, gone, changed) : merge(&kBase, changed, gone);
    EXPECT_EQ(merged.merged["marks"].size(), 1u);
    EXPECT_NE(by_id(merged.merged["marks"], "m1"), nullptr);
    ASSERT_EQ(merged.conflicts.size(), 1u) << told(merged);
    EXPECT_EQ(merged.conflicts[0].at, "marks[m1]");
    EXPECT_TRUE((swap ? merged.conflicts[0].ours : merged.conflicts[0].theirs).is_null());
  }
}

TEST(Merge, TwoMarksOfOneNameBothStayWithTheirPhotos) {
  const auto with = [](double x, const char* photo) {
    return edit([&](Json& j) {
      j["marks"].push_back({{"id", "m3"}, {"at_in", {x, 30}}, {"layer", "deck"}, {"tool", "awl"}, {"reads", "soft"}});
      j["photos"].push_back({{"id", photo}, {"mark", "m3"}});
    });
  };
  const Json ours = with(40, "pa"), theirs = with(70, "pb");
  const auto merged = merge(&kBase, ours, theirs);
  ASSERT_EQ(merged.renamed.size(), 1u);
  EXPECT_EQ(merged.renamed[0].from, "m3");
  EXPECT_EQ(merged.renamed[0].to, "m3-2");
  EXPECT_TRUE(merged.conflicts.empty()) << told(merged);
  const auto x_of = [&](const char* photo) {
    const auto mark = (*by_id(merged.merged["photos"], photo))["mark"].get<std::string>();
    return (*by_id(merged.merged["marks"], mark))["at_in"][0].get<double>();
  };
  EXPECT_EQ(x_of("pa"), 40);
  EXPECT_EQ(x_of("pb"), 70);
  // The same push again changes nothing, from either side.
  for (const Json* side : {&ours, &theirs}) EXPECT_TRUE(same_json(merge(&kBase, merged.merged, *side).merged, merged.merged));
}

TEST(Merge, WhatAMarkNamesIsNotLost) {
  const Json ours = edit([](Json& j) { j["layers"].erase(0); });
  const Json theirs = edit([](Json& j) { j["marks"].push_back(Json::parse(R"({"id":"n","at_in":[9,9],"layer":"sheet","tool":"awl","reads":"soft"})")); });
  const auto merged = merge(&kBase, ours, theirs);
  ASSERT_EQ(merged.merged["layers"].size(), 2u);
  EXPECT_EQ(merged.merged["layers"][0]["id"], "sheet");
  ASSERT_EQ(merged.conflicts.size(), 1u);
  EXPECT_EQ(merged.conflicts[0].at, "layers[sheet]");
  EXPECT_TRUE(read_job(merged.merged.dump()));
}

TEST(Merge, AMarkMovedIntoAnOpeningAndChanged) {
  const Json ours = edit([](Json& j) {
    j["openings"] = Json::array({{{"id", "o1"}, {"at_in", {50, 60}}, {"readings", Json::array({j["marks"][0]})}}});
    j["marks"].erase(0);
  });
  const Json theirs = edit([](Json& j) { j["marks"][0]["depth_in"] = 0.5; });
  const auto merged = merge(&kBase, ours, theirs);
  EXPECT_NE(by_id(merged.merged["marks"], "m1-2"), nullptr);
  EXPECT_FALSE(merged.conflicts.empty());
  const auto job = read_job(merged.merged.dump());
  EXPECT_TRUE(job) << (job.problems.empty() ? "" : describe(job.problems[0]));
  for (const Json* side : {&ours, &theirs}) EXPECT_TRUE(same_json(merge(&kBase, merged.merged, *side).merged, merged.merged));
}

TEST(Merge, LayersKeepTheirOrder) {
  const Json ours = edit([](Json& j) { j["layers"].insert(j["layers"].begin() + 1, Json::parse(R"({"id":"felt","material":"felt"})")); });
  const Json theirs = edit([](Json& j) { j["layers"].push_back(Json::parse(R"({"id":"low","material":"plywood"})")); });
  std::vector<std::string> ids;
  const auto both = merge(&kBase, ours, theirs);
  for (const auto& layer : both.merged["layers"]) ids.push_back(layer["id"]);
  EXPECT_EQ(ids, (std::vector<std::string>{"sheet", "felt", "deck", "low"}));
  const Json turned = edit([](Json& j) { std::swap(j["layers"][0], j["layers"][1]); });
  EXPECT_EQ(merge(&kBase, kBase, turned).merged["layers"][0]["id"], "deck");
  EXPECT_EQ(merge(&kBase, turned, ours).merged["layers"][0]["id"], "deck");
}

TEST(Merge, WithoutAnAncestor) {
  const Json theirs = edit([](Json& j) {
    j["marks"][0]["reads"] = "soft";
    j["marks"][1]["note"] = "told twice";
    j["job"]["name"] = "Other";
    j["supports"].push_back(Json::parse(R"({"id":"j3","from_in":[48,0],"to_in":[48,72]})"));
  });
  const auto merged = merge(nullptr, kBase, theirs);
  EXPECT_EQ(merged.merged["marks"].size(), 3u);  // m1 twice, m2 once
  EXPECT_EQ((*by_id(merged.merged["marks"], "m2"))["note"], "told twice");
  EXPECT_EQ(merged.merged["supports"].size(), 3u);
  ASSERT_EQ(merged.conflicts.size(), 1u) << told(merged);
  EXPECT_EQ(merged.conflicts[0].at, "job.name");
  EXPECT_TRUE(same_json(merge(nullptr, kBase, kBase).merged, kBase));
}

TEST(Merge, ListsWithoutIds) {
  Json base = kBase;
  base["hazards"] = Json::parse(R"({"met":[{"gate":"a","by":"X","time":"2026-05-01"}]})");
  base["work"] = Json::parse(R"({"holidays":["2026-05-25"]})");
  const Json ours = edit(
      [](Json& j) {
        j["hazards"]["met"].push_back(Json::parse(R"({"gate":"b","by":"X","time":"2026-05-02"})"));
        j["work"]["holidays"] = {"2026-05-25", "2026-07-04"};
      },
      base);
  const Json theirs = edit(
      [](Json& j) {
        j["hazards"]["met"].push_back(Json::parse(R"({"gate":"c","by":"Y","time":"2026-05-02"})"));
        j["work"]["holidays"] = {"2026-07-03"};
      },
      base);
  const auto merged = merge(&base, ours, theirs);
  EXPECT_TRUE(merged.conflicts.empty()) << told(merged);
  EXPECT_EQ(merged.merged["hazards"]["met"].size(), 3u);
  EXPECT_EQ(merged.merged["work"]["holidays"].size(), 2u);
}

// ---- Random edits.

Json random_mark(Random& random, const std::string& id) {
  Json mark = {{"id", id}};
  mark["at_in"] = {static_cast<double>(random.below(100)), static_cast<double>(random.below(70))};
  mark["layer"] = random.below(2) == 0 ? "deck" : "sheet";
  mark["tool"] = "awl";
  mark["reads"] = random.below(2) == 0 ? "soft" : "sound";
  return mark;
}

void random_edit(Json& job, Random& random) {
  const auto any = [&](Json& list) -> Json& { return list[random.below(list.size())]; };
  switch (random.below(10)) {
    case 0:
    case 1:  // names overlap between the sides on purpose
      job["marks"].push_back(random_mark(random, "n" + std::to_string(random.below(6)) + "." + std::to_string(job["marks"].size())));
      break;
    case 2:
      if (!job["marks"].empty()) job["marks"].erase(random.below(job["marks"].size()));
      break;
    case 3:
      if (!job["marks"].empty()) any(job["marks"])["depth_in"] = static_cast<double>(random.below(8)) / 8;
      break;
    case 4:
      if (!job["marks"].empty()) any(job["marks"])["x_of_a_newer_page"] = random.below(3);
      break;
    case 5:
      job["job"]["name"] = "name " + std::to_string(random.below(4));
      break;
    case 6:
      if (job["layers"].size() > 1) job["layers"].erase(random.below(job["layers"].size()));
      break;
    case 7:
      job["layers"].insert(job["layers"].begin() + static_cast<std::ptrdiff_t>(random.below(job["layers"].size() + 1)),
                           Json(Json::object({{"id", "l" + std::to_string(random.below(100))}, {"material", "felt"}})));
      break;
    case 8:
      if (!job["supports"].empty()) any(job["supports"])["size"] = random.below(2) == 0 ? "2x10" : "2x6";
      break;
    default: {
      Json reading = random_mark(random, "r" + std::to_string(random.below(5)));
      job["openings"].push_back({{"id", "o" + std::to_string(random.below(50))}, {"at_in", {30, 30}}, {"readings", Json::array({reading})}});
    }
  }
}

// Ids once each, so that both sides are documents.
bool sound(const Json& job) {
  std::set<std::string> seen, others;
  for (const auto& mark : job["marks"])
    if (!seen.insert(mark["id"]).second) return false;
  for (const auto& opening : job.value("openings", Json::array())) {
    if (!others.insert(opening["id"]).second) return false;
    for (const auto& reading : opening["readings"])
      if (!seen.insert(reading["id"]).second) return false;
  }
  for (const auto& layer : job["layers"])
    if (!others.insert("layer " + layer["id"].get<std::string>()).second) return false;
  return true;
}

Json edited(Random& random) {
  Json job = kBase;
  for (auto n = 1 + random.below(8); n > 0; --n) {
    Json next = job;
    random_edit(next, random);
    if (sound(next)) job = next;
  }
  return job;
}

// What was read, whatever it is called.
std::multiset<std::string> observations(const Json& job) {
  std::multiset<std::string> out;
  const auto add = [&](Json mark) {
    mark.erase("id");
    out.insert(nlohmann::json(mark).dump());
  };
  for (const auto& mark : job["marks"]) add(mark);
  for (const auto& opening : job.value("openings", Json::array()))
    for (const auto& reading : opening["readings"]) add(reading);
  return out;
}

TEST(Merge, ThePromisesHoldOnRandomEdits) {
  testing::for_each_seed(200, [](Random& random) {
    const Json ours = edited(random), theirs = edited(random);
    const auto merged = merge(&kBase, ours, theirs);
    EXPECT_TRUE(sound(merged.merged)) << merged.merged.dump(1);
    // Itself and its ancestor change nothing.
    EXPECT_TRUE(same_json(merge(&kBase, ours, ours).merged, ours));
    EXPECT_TRUE(same_json(merge(&kBase, ours, kBase).merged, ours));
    EXPECT_TRUE(same_json(merge(&kBase, kBase, theirs).merged, theirs));
    // Either side again changes nothing.
    EXPECT_TRUE(same_json(merge(&kBase, merged.merged, theirs).merged, merged.merged));
    EXPECT_TRUE(same_json(merge(&kBase, merged.merged, ours).merged, merged.merged)) << told(merged);
    // Sides may be swapped where there is no conflict.
    const auto swapped = merge(&kBase, theirs, ours);
    EXPECT_EQ(swapped.conflicts.size(), merged.conflicts.size());
    if (merged.conflicts.empty()) {
      EXPECT_TRUE(same_json(swapped.merged, merged.merged));
    }
    // Every observation that a side made or changed is in the result, or in a conflict.
    const auto result = observations(merged.merged);
    for (const Json* side : {&ours, &theirs})
      for (const auto& mark : (*side)["marks"]) {
        if (by_id(kBase["marks"], mark["id"])) continue;
        Json bare = mark;
        bare.erase("id");
        EXPECT_GE(result.count(nlohmann::json(bare).dump()), 1u) << mark.dump();
      }
  });
}

TEST(Merge, HostileJsonIsMergedOrKept) {
  for (const char* text : {"[]", "3", "null", R"({"marks":3})", R"({"marks":[1,2]})", R"({"marks":[{"id":5}],"openings":{"readings":[]}})",
                           R"({"marks":[{"id":"a"},{"id":"a"}]})"}) {
    const Json odd = Json::parse(text);
    EXPECT_NO_THROW(merge(&kBase, odd, kBase)) << text;
    EXPECT_NO_THROW(merge(&odd, kBase, odd)) << text;
    EXPECT_NO_THROW(merge(nullptr, odd, kBase)) << text;
    EXPECT_TRUE(same_json(merge(nullptr, odd, odd).merged, odd)) << text;
  }
}

}  // namespace
}  // namespace awlmark
