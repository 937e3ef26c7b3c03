// The office as a browser and as a stranger meets it, over HTTP on this machine.
#include "office/server.hpp"

#include <gtest/gtest.h>
#include <httplib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <fstream>

#include "office/office.hpp"
#include "office/places.hpp"
#include "office/secrets.hpp"

namespace awlmark::office {
namespace {

// A served office in a process of its own, with a page of two files.
class Served {
 public:
  Served() : place_(false), port_(20000 + static_cast<int>(::getpid() % 20000) + count()++) {
    pages_ = std::filesystem::path(place_.where()).parent_path() / "page";
    std::filesystem::create_directories(pages_ / "assets");
    std::ofstream(pages_ / "index.html") << "<!doctype html>" << std::string(3000, ' ');
    std::ofstream(pages_ / "assets" / "a-1234.js") << "1";
    std::ofstream(pages_.parent_path() / "secret.txt") << "secret";
    child_ = fork();
    if (child_ == 0) {
      if (std::freopen("/dev/null", "w", stderr) == nullptr || std::freopen("/dev/null", "w", stdout) == nullptr) _exit(9);
      _exit(serve({pages_.string(), place_.where(), "127.0.0.1", port_, "", ""}));
    }
    for (int tries = 0; tries < 400; ++tries) {
      if (client().Get("/api/health")) return;
      usleep(50000);
    }
    ADD_FAILURE() << "the office did not come up";
  }
  ~Served() { stop(); }
  int stop() {
    if (child_ <= 0) return stopped_;
    kill(child_, SIGTERM);
    int state = 0;
    waitpid(child_, &state, 0);
    child_ = 0;
    return stopped_ = WIFEXITED(state) ? WEXITSTATUS(state) : -1;
  }
  httplib::Client client() const { return httplib::Client("127.0.0.1", port_); }
  const testing::Place& place() const { return place_; }

 private:
  static int& count() {
    static int n = 0;
    return n;
  }
  testing::Place place_;
  std::filesystem::path pages_;
  int port_;
  pid_t child_ = 0;
  int stopped_ = -1;
};

const std::string kDocument = R"({"format":"awlmark-job","version":1,"marks":[]})";
std::string push_body(int base) { return "{\"base\":" + std::to_string(base) + ",\"document\":" + kDocument + "}"; }

TEST(Server, JobsGoInAndOut) {
  Served served;
  auto client = served.client();
  const auto pushed = client.Post("/api/jobs/kitchen", push_body(0), "application/json");
  ASSERT_TRUE(pushed);
  EXPECT_EQ(pushed->status, 200) << pushed->body;
  EXPECT_EQ(Json::parse(pushed->body)["value"]["revision"], 1);
  const auto pulled = client.Get("/api/jobs/kitchen");
  EXPECT_EQ(Json::parse(pulled->body)["value"]["document"], Json::parse(kDocument));
  EXPECT_EQ(Json::parse(client.Get("/api/jobs")->body)["value"].size(), 1u);
  EXPECT_EQ(Json::parse(client.Get("/api/jobs/kitchen/history")->body)["value"].size(), 1u);
  EXPECT_EQ(client.Post("/api/jobs/kitchen/restore", "{\"revision\":1}", "application/json")->status, 200);
  EXPECT_EQ(client.Get("/api/jobs/nobody")->status, 404);
  EXPECT_EQ(Json::parse(client.Get("/api/audit")->body)["value"].size(), 2u);
  EXPECT_EQ(served.stop(), 0);  // a graceful stop
  EXPECT_TRUE(served.place().open()->verify().empty());
}

TEST(Server, PhotographsByHash) {
  Served served;
  auto client = served.client();
  const std::string bytes(600000, 'p');
  const std::string path = "/api/photos/" + sha256_hex(bytes);
  EXPECT_EQ(client.Put(path, bytes, "image/jpeg")->status, 200);
  const auto back = client.Get(path);
  EXPECT_EQ(back->body, bytes);
  EXPECT_EQ(back->get_header_value("Content-Type"), "image/jpeg");
  EXPECT_EQ(client.Put(path, "other", "image/jpeg")->status, 400);
  EXPECT_EQ(client.Put(path, bytes, "text/html")->status, 415);
  const auto large = client.Put("/api/photos/" + sha256_hex("a"), std::string(21u << 20, 'x'), "image/png");
  EXPECT_TRUE(!large || large->status == 413);
  EXPECT_EQ(client.Get("/api/photos/" + sha256_hex("a"))->status, 404);
}

TEST(Server, StrangersStayOutside) {
  Served served;
  auto client = served.client();
  const httplib::Headers bent = {{"Host", "evil.example"}}, other = {{"Origin", "http://evil.example"}};
  EXPECT_EQ(client.Get("/api/jobs", bent)->status, 403);
  EXPECT_EQ(client.Post("/api/jobs/kitchen", other, push_body(0), "application/json")->status, 403);
  EXPECT_EQ(client.Post("/api/jobs/kitchen", push_body(0), "text/plain")->status, 415);
  EXPECT_EQ(client.Get("/api/jobs", {{"Authorization", "Bearer " + std::string(64, 'a')}})->status, 401);
  for (const char* path : {"/../secret.txt", "/%2e%2e/secret.txt", "/assets/../../secret.txt", "//etc/passwd", "/office.db", "/api/jobs/..%2foffice.db"}) {
    const auto answer = client.Get(path);
    EXPECT_TRUE(!answer || answer->status == 404 || answer->status == 400) << path;
  }
  // Roles: a reader reads, a crew writes, neither invites.
  const auto store = served.place().open();
  Office desk(*store);
  const auto join = [&](Role role) {
    const auto paired = client.Post("/api/pair", "{\"code\":\"" + desk.invite(role, "test") + "\",\"name\":\"phone\"}", "application/json");
    return httplib::Headers{{"Authorization", "Bearer " + Json::parse(paired->body)["value"]["token"].get<std::string>()}};
  };
  const auto reader = join(Role::reader), crew = join(Role::crew);
  EXPECT_EQ(client.Get("/api/jobs", reader)->status, 200);
  EXPECT_EQ(client.Post("/api/jobs/kitchen", reader, push_body(0), "application/json")->status, 403);
  EXPECT_EQ(client.Post("/api/jobs/kitchen", crew, push_body(0), "application/json")->status, 200);
  EXPECT_EQ(client.Post("/api/invite", crew, "{\"role\":\"owner\"}", "application/json")->status, 403);
  // Guessing codes ends soon.
  int refused = 0;
  for (int n = 0; n < 20; ++n) refused += client.Post("/api/pair", "{\"code\":\"guess\"}", "application/json")->status == 429 ? 1 : 0;
  EXPECT_GE(refused, 5);
}

TEST(Server, ThePageIsPackedAndSafe) {
  Served served;
  auto client = served.client();
  client.set_decompress(false);
  const auto page = client.Get("/", {{"Accept-Encoding", "gzip, br"}});
  EXPECT_EQ(page->status, 200);
  EXPECT_EQ(page->get_header_value("Content-Encoding"), "br");
  EXPECT_LT(page->body.size(), 200u);
  EXPECT_EQ(page->get_header_value("X-Content-Type-Options"), "nosniff");
  EXPECT_NE(client.Get("/assets/a-1234.js")->get_header_value("Cache-Control").find("immutable"), std::string::npos);
  EXPECT_EQ(client.Get("/index.html", {{"Accept-Encoding", "identity"}})->body.substr(0, 15), "<!doctype html>");
  EXPECT_EQ(client.Get("/none")->status, 404);
}

TEST(Server, OnlyThisMachineWithoutACertificate) {
  const testing::Place place(false);
  const auto pages = std::filesystem::path(place.where()).parent_path();
  std::ofstream(pages / "index.html") << "page";
  ::testing::internal::CaptureStderr();
  EXPECT_EQ(serve({pages.string(), place.where(), "0.0.0.0", 1, "", ""}), 2);
  EXPECT_NE(::testing::internal::GetCapturedStderr().find("--cert"), std::string::npos);
}

TEST(Server, HostileRequestsDoNotStopIt) {
  Served served;
  auto client = served.client();
  const std::string bodies[] = {
      "{", std::string(5000, '['), "{\"base\":0}", "{\"base\":\"x\",\"document\":[]}", std::string(9u << 20, ' '), std::string("\xff\xfe\x00", 3)};
  for (const auto& body : bodies) {
    const auto answer = client.Post("/api/jobs/kitchen", body, "application/json");
    ASSERT_TRUE(answer);
    EXPECT_GE(answer->status, 400);
    EXPECT_LT(answer->status, 500);
  }
  EXPECT_EQ(client.Get("/api/jobs/" + std::string(500, 'a'))->status, 404);
  EXPECT_EQ(client.Get("/api/health")->status, 200);
}

}  // namespace
}  // namespace awlmark::office
