// kill -9 while it writes: every acknowledged push is there afterwards, and the store verifies.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <map>

#include "base/random.hpp"
#include "office/office.hpp"
#include "office/places.hpp"

namespace awlmark::office {
namespace {

// What the child acknowledges for each push: the job's number and the revision.
struct Ack {
  int job = 0;
  int revision = 0;
};

Json numbered(int n) {
  Json marks = Json::array();
  for (int i = 0; i < 40; ++i) marks.push_back({{"id", "m" + std::to_string(n) + "-" + std::to_string(i)}, {"note", std::string(100, 'n')}});
  return {{"format", "awlmark-job"}, {"version", 1}, {"marks", marks}};
}

[[noreturn]] void write_until_killed(const testing::Place& place, int out) {
  const auto store = place.open();
  Office office(*store);
  for (int n = 0;; ++n) {
    const int job = n % 5;
    const std::string id = "job-" + std::to_string(job);
    const auto head = store->head(id);
    const auto pushed = office.push(id, head ? head->revision : 0, numbered(static_cast<int>(::getpid()) * 1000 + n).dump(), {"child", Role::crew});
    const Ack ack{job, static_cast<int>(pushed.value->revision)};
    if (::write(out, &ack, sizeof ack) != static_cast<ssize_t>(sizeof ack)) _exit(1);
  }
}

void kill_at_random(bool postgres, int wanted) {
  const testing::Place place(postgres);
  Random random(stream_seed(5, postgres ? 1 : 0));
  std::map<int, int> last;
  int acknowledged = 0, kills = 0;
  while (acknowledged < wanted && kills < 400) {
    int ends[2];
    ASSERT_EQ(pipe(ends), 0);
    const pid_t child = fork();
    if (child == 0) {
      close(ends[0]);
      write_until_killed(place, ends[1]);
    }
    close(ends[1]);
    usleep(static_cast<useconds_t>(15000 + random.below(60000 * (1 + static_cast<std::uint64_t>(kills) % 5))));  // soon and late, on fast and slow machines
    kill(child, SIGKILL);
    Ack ack;
    while (::read(ends[0], &ack, sizeof ack) == static_cast<ssize_t>(sizeof ack)) {
      last[ack.job] = std::max(last[ack.job], ack.revision);
      ++acknowledged;
    }
    close(ends[0]);
    waitpid(child, nullptr, 0);
    ++kills;
    const auto store = place.open();
    for (const auto& [job, revision] : last) ASSERT_TRUE(store->at("job-" + std::to_string(job), revision)) << job << " " << revision;
    if (kills % 5 == 0) {
      ASSERT_TRUE(store->verify().empty());
    }
  }
  EXPECT_GE(acknowledged, wanted);
  EXPECT_GE(kills, 3);
  EXPECT_TRUE(place.open()->verify().empty());
}

int writes() {
  const char* given = std::getenv("AWLMARK_KILL_WRITES");
  return given != nullptr ? std::atoi(given) : 500;
}

TEST(Kill, SqliteKeepsWhatItAcknowledged) { kill_at_random(false, writes()); }

TEST(Kill, EveryOtherStoreToo) {
  for (const bool postgres : testing::kinds()) {
    if (postgres) kill_at_random(true, writes());
  }
}

}  // namespace
}  // namespace awlmark::office
