// Hard knocks other than kill -9: a disk that is full, a clock that jumps, many hands at once.
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <thread>

#include "office/office.hpp"
#include "office/places.hpp"
#include "office/secrets.hpp"

namespace awlmark::office {
namespace {

const Visitor kCrew{"dev-a", Role::crew};

Json document(int marks) {
  Json list = Json::array();
  for (int i = 0; i < marks; ++i) list.push_back({{"id", "m" + std::to_string(i)}, {"note", std::string(200, 'n')}});
  return {{"format", "awlmark-job"}, {"version", 1}, {"marks", list}};
}

// In a process of its own, whose files may not grow beyond a size: what the machine then says is what a full
// disk says (EFBIG for ENOSPC, the same path in SQLite). Answers 0 when all is as it should be.
int write_until_full(const testing::Place& place) {
  std::signal(SIGXFSZ, SIG_IGN);
  const auto store = place.open();
  Office office(*store);
  const rlimit small{2u << 20, RLIM_INFINITY};
  if (setrlimit(RLIMIT_FSIZE, &small) != 0) return 2;
  std::int64_t acknowledged = 0;
  std::string photo_kept;
  bool full = false;
  for (int n = 1; n < 400 && !full; ++n) {
    try {
      const auto pushed = office.push("job", acknowledged, document(20 + n).dump(), kCrew);
      if (!pushed || pushed.value->revision != acknowledged + 1) return 3;
      acknowledged = pushed.value->revision;
      const std::string bytes(100000, static_cast<char>('a' + n % 26));
      const std::string hash = sha256_hex(bytes + std::to_string(n));
      store->put_photo(hash, "image/jpeg", bytes + std::to_string(n));
      photo_kept = hash;
    } catch (const StoreError&) {
      full = true;
    }
  }
  if (!full) return 4;
  if (!store->head("job") || store->head("job")->revision != acknowledged) return 5;  // nothing half-written
  const rlimit wide{RLIM_INFINITY, RLIM_INFINITY};
  if (setrlimit(RLIMIT_FSIZE, &wide) != 0) return 6;
  const auto again = office.push("job", acknowledged, document(5).dump(), kCrew);  // room again: it goes on
  if (!again || again.value->revision != acknowledged + 1) return 7;
  if (!photo_kept.empty() && !store->has_photo(photo_kept)) return 8;
  return store->verify().empty() ? 0 : 9;
}

TEST(Knocks, DiskFull) {
  const testing::Place place(false);
  const pid_t child = fork();
  if (child == 0) _exit(write_until_full(place));
  int state = 0;
  waitpid(child, &state, 0);
  ASSERT_TRUE(WIFEXITED(state));
  EXPECT_EQ(WEXITSTATUS(state), 0);
  EXPECT_TRUE(place.open()->verify().empty());
}

TEST(Knocks, ClockJumps) {
  for (const bool postgres : testing::kinds()) {
    const testing::Place place(postgres);
    const auto store = place.open();
    Office office(*store);
    // Order comes from the numbers, whatever the clock says.
    for (const std::int64_t jump : {0L, 86400L, -86400L, -30L * 86400, 0L}) {
      shift_clock_s(jump);
      const auto head = store->head("job");
      ASSERT_TRUE(office.push("job", head ? head->revision : 0, document(head ? static_cast<int>(head->revision) + 1 : 1).dump(), kCrew));
    }
    const auto history = store->history("job");
    ASSERT_EQ(history.size(), 5u);
    for (std::size_t i = 0; i < history.size(); ++i) EXPECT_EQ(history[i].revision, static_cast<std::int64_t>(history.size() - i));
    EXPECT_EQ(Json::parse(store->head("job")->document)["marks"].size(), 5u);
    // A code lives ten minutes, and a clock that jumps back does not give it a day.
    shift_clock_s(0);
    const auto fresh = office.invite(Role::crew, "test"), late = office.invite(Role::crew, "test");
    shift_clock_s(601);
    EXPECT_FALSE(office.pair(late, "phone"));
    shift_clock_s(0);
    const auto stale = office.invite(Role::crew, "test");
    shift_clock_s(-86400);
    EXPECT_FALSE(office.pair(stale, "phone"));
    shift_clock_s(0);
    const auto good = office.invite(Role::crew, "test");
    const auto paired = office.pair(good, "phone");
    ASSERT_TRUE(paired);
    shift_clock_s(-86400);
    EXPECT_TRUE(office.visitor(paired->token));  // a paired device stays paired
    shift_clock_s(0);
    EXPECT_FALSE(fresh.empty());
    EXPECT_TRUE(store->verify().empty());
  }
}

// Eight hands on four connections: no mark lost, no revision twice, readers not held up by writers.
TEST(Knocks, ManyHands) {
  for (const bool postgres : testing::kinds()) {
    const testing::Place place(postgres);
    const auto store = place.open(4);
    Office office(*store);
    ASSERT_TRUE(office.push("job", 0, document(0).dump(), kCrew));
    constexpr int kHands = 8, kMarks = 6;
    std::vector<std::thread> hands;
    for (int h = 0; h < kHands; ++h)
      hands.emplace_back([&, h] {
        for (int n = 0; n < kMarks; ++n) {
          for (;;) {
            const auto head = store->head("job");
            Json job = Json::parse(head->document);
            job["marks"].push_back({{"id", "h" + std::to_string(h) + "-" + std::to_string(n)}, {"note", "x"}});
            try {
              if (office.push("job", head->revision, job.dump(), {"dev-" + std::to_string(h), Role::crew})) break;
            } catch (const StoreError&) {
              continue;  // others pushed too fast: as a phone would, again
            }
          }
          store->audit(time_text(), "dev", "push", "job", "");
          store->jobs();
        }
      });
    for (auto& hand : hands) hand.join();
    EXPECT_EQ(Json::parse(store->head("job")->document)["marks"].size(), static_cast<std::size_t>(kHands * kMarks));
    EXPECT_EQ(store->audit_log(1000).size(), static_cast<std::size_t>(kHands * kMarks));
    EXPECT_TRUE(store->verify().empty());
  }
}

}  // namespace
}  // namespace awlmark::office
