// The office without HTTP, on every store there is: pushes, merges, history, photographs, pairing, backup.
#include "office/office.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <functional>
#include <thread>

#include "office/places.hpp"
#include "office/secrets.hpp"

namespace awlmark::office {
namespace {

using testing::kinds;
using testing::Place;

const Visitor kCrew{"dev-a", Role::crew};

Json document() {
  return Json::parse(R"({"format":"awlmark-job","version":1,"room":{"outline_in":[[0,0],[90,0],[90,60],[0,60]]},
   "layers":[{"id":"deck","material":"board"}],"marks":[{"id":"m1","at_in":[10,10],"layer":"deck","tool":"awl","reads":"soft"}],
   "of_a_newer_page":{"kept":[1,2,3]}})");
}
Json with_mark(const std::string& id) {
  Json job = document();
  job["marks"].push_back({{"id", id}, {"at_in", {20, 20}}, {"layer", "deck"}, {"tool", "awl"}, {"reads", "sound"}});
  return job;
}

void on_every_store(const std::function<void(Store&, Office&, const Place&)>& test) {
  for (const bool postgres : kinds()) {
    SCOPED_TRACE(postgres ? "PostgreSQL" : "SQLite");
    const Place place(postgres);
    const auto store = place.open();
    Office office(*store);
    test(*store, office, place);
  }
}

TEST(Office, PushAndPull) {
  on_every_store([](Store& store, Office& office, const Place& place) {
    const auto first = office.push("job-1", 0, document().dump(), kCrew);
    ASSERT_TRUE(first);
    EXPECT_EQ(first.value->revision, 1);
    // The same push again, as after a lost answer.
    EXPECT_EQ(office.push("job-1", 0, document().dump(), kCrew).value->revision, 1);
    EXPECT_EQ(office.push("job-1", 1, with_mark("m2").dump(), kCrew).value->revision, 2);
    EXPECT_EQ(Json::parse(store.head("job-1")->document)["of_a_newer_page"]["kept"][2], 3);
    EXPECT_EQ(place.open()->head("job-1")->revision, 2);
    EXPECT_EQ(store.jobs().size(), 1u);
    EXPECT_TRUE(store.verify().empty());
  });
}

TEST(Office, TwoPhonesOfflineForADay) {
  on_every_store([](Store& store, Office& office, const Place&) {
    office.push("job", 0, document().dump(), kCrew);
    const auto a = office.push("job", 1, with_mark("a1").dump(), {"dev-a", Role::crew});
    Json theirs = with_mark("b1");
    theirs["marks"][0]["reads"] = "gone";
    const auto b = office.push("job", 1, theirs.dump(), {"dev-b", Role::crew});
    ASSERT_TRUE(a && b);
    EXPECT_FALSE(a.value->merged);
    EXPECT_TRUE(b.value->merged);
    EXPECT_EQ(b.value->revision, 3);
    EXPECT_TRUE(b.value->conflicts.empty()) << b.value->conflicts.dump();
    const Json head = Json::parse(store.head("job")->document);
    EXPECT_EQ(head["marks"].size(), 3u);
    EXPECT_EQ(head["marks"][0]["reads"], "gone");
    // The first phone changes the same value: both are told, its own stands.
    Json again = with_mark("a1");
    again["marks"][0]["reads"] = "sound";
    const auto clash = office.push("job", 2, again.dump(), kCrew);
    ASSERT_EQ(clash.value->conflicts.size(), 1u);
    EXPECT_EQ(clash.value->conflicts[0]["at"], "marks[m1].reads");
    EXPECT_EQ(clash.value->conflicts[0]["theirs"], "gone");
    EXPECT_NE(store.history("job")[0].conflicts.find("m1"), std::string::npos);
  });
}

TEST(Office, HistoryAndRestore) {
  on_every_store([](Store& store, Office& office, const Place&) {
    office.push("job", 0, document().dump(), kCrew);
    office.push("job", 1, with_mark("m2").dump(), kCrew);
    EXPECT_EQ(office.restore("job", 1, {"boss", Role::owner}).value->revision, 3);
    EXPECT_EQ(Json::parse(store.head("job")->document)["marks"].size(), 1u);
    EXPECT_EQ(Json::parse(store.at("job", 2)->document)["marks"].size(), 2u);
    const auto history = store.history("job");
    ASSERT_EQ(history.size(), 3u);
    EXPECT_EQ(history[0].why, "restore");
    EXPECT_FALSE(office.restore("job", 9, kCrew));
  });
}

TEST(Office, BadPushesWriteNothing) {
  on_every_store([](Store& store, Office& office, const Place&) {
    EXPECT_FALSE(office.push("../etc", 0, document().dump(), kCrew));
    EXPECT_FALSE(office.push("job", 0, "{", kCrew));
    EXPECT_FALSE(office.push("job", 0, "{\"format\":\"other\"}", kCrew));
    EXPECT_FALSE(office.push("job", 7, document().dump(), kCrew));
    EXPECT_FALSE(office.push("job", -1, document().dump(), kCrew));
    EXPECT_TRUE(store.jobs().empty());
    // Text that is SQL stays text.
    Json odd = document();
    odd["job"]["name"] = "'; DROP TABLE jobs; --";
    EXPECT_TRUE(office.push("job", 0, odd.dump(), kCrew));
    EXPECT_EQ(Json::parse(store.head("job")->document)["job"]["name"], odd["job"]["name"]);
  });
}

TEST(Office, ManyAtOnceLoseNothing) {
  on_every_store([](Store& store, Office& office, const Place&) {
    office.push("job", 0, document().dump(), kCrew);
    std::vector<std::thread> phones;
    for (int p = 0; p < 4; ++p)
      phones.emplace_back([&office, p] {
        for (int n = 0; n < 8; ++n) office.push("job", 1, with_mark("p" + std::to_string(p) + "-" + std::to_string(n)).dump(), kCrew);
      });
    for (auto& phone : phones) phone.join();
    EXPECT_EQ(Json::parse(store.head("job")->document)["marks"].size(), 1u + 32u);
    EXPECT_TRUE(store.verify().empty());
  });
}

TEST(Office, Photographs) {
  on_every_store([](Store& store, Office&, const Place&) {
    std::string bytes(700000, 'x');
    for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<char>(i * 7919 >> 3);
    const auto hash = sha256_hex(bytes);
    store.put_photo(hash, "image/jpeg", bytes);
    store.put_photo(hash, "image/jpeg", bytes);
    EXPECT_EQ(store.photo(hash)->size, 700000);
    std::string back;
    for (std::int64_t part = 0; part < 3; ++part) back += store.photo_part(hash, part);
    EXPECT_EQ(back, bytes);
    EXPECT_TRUE(store.verify().empty());
    store.put_photo(sha256_hex("one thing"), "image/jpeg", "another");
    EXPECT_EQ(store.verify().size(), 1u);
  });
}

TEST(Office, Pairing) {
  on_every_store([](Store& store, Office& office, const Place&) {
    const auto code = office.invite(Role::crew, "boss");
    const auto paired = office.pair(code, "phone");
    ASSERT_TRUE(paired);
    EXPECT_FALSE(office.pair(code, "second phone"));
    EXPECT_FALSE(office.pair("guessed", "thief"));
    ASSERT_TRUE(office.visitor(paired->token));
    EXPECT_EQ(office.visitor(paired->token)->role, Role::crew);
    EXPECT_FALSE(office.visitor(paired->token.substr(1) + "0"));
    store.add_code(sha256_hex("stale"), "owner", now_s() - 1);
    EXPECT_FALSE(office.pair("stale", "late"));
    EXPECT_TRUE(store.revoke(paired->id, time_text()));
    EXPECT_FALSE(office.visitor(paired->token));
    EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");  // FIPS 180-4
  });
}

TEST(Office, BackupAndRestoreIntoEitherStore) {
  on_every_store([](Store& store, Office& office, const Place& place) {
    office.push("job", 0, document().dump(), kCrew);
    store.put_photo(sha256_hex("photo"), "image/png", "photo");
    const Place file(false), again(place.postgres());
    const auto backup = file.open(), restored = again.open();
    store.copy_to(*backup);
    backup->copy_to(*restored);
    EXPECT_EQ(restored->head("job")->document, store.head("job")->document);
    EXPECT_TRUE(restored->verify().empty());
    EXPECT_THROW(store.copy_to(*backup), StoreError);
  });
}

TEST(Office, ADamagedFileIsRefused) {
  const Place place(false);
  {
    const auto store = place.open();
    Office office(*store);
    for (int n = 0; n < 40; ++n) office.push("job" + std::to_string(n), 0, document().dump(), kCrew);
  }
  std::fstream file(place.where(), std::ios::in | std::ios::out | std::ios::binary);
  for (int at = 5000; at < 30000; at += 97) {
    file.seekp(at);
    file.put('!');
  }
  file.close();
  EXPECT_THROW(place.open(), StoreError);
}

}  // namespace
}  // namespace awlmark::office
