#include "jobs.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "../support/source_dir.hpp"

namespace awlmark::testing {
namespace {

Job read(const std::string& text) {
  auto outcome = read_job(text);
  for (const auto& problem : outcome.problems) ADD_FAILURE() << describe(problem);
  return outcome.value.value_or(Job{});
}

// A floor of 100 by 70 in. with a leak in one corner; `deck`, `supports` and `more` fill it.
std::string floor_of(const std::string& deck, const std::string& supports, const std::string& marks, const std::string& more = "") {
  return R"({"format":"awlmark-job","version":1,"job":{"name":"small floor","year_built":1985,"below":"crawl_space"},
    "room":{"outline_in":[[0,0],[100,0],[100,70],[0,70]],"doors":[{"id":"d1","from_in":[0,10],"to_in":[0,42]}]},
    "layers":[{"id":"vinyl","material":"sheet_vinyl","installed_year":1990,"thickness_in":0.09},)" +
         deck + R"(],
    "walls":[{"id":"w1","from_in":[0,0],"to_in":[100,0],"stands_on":"deck"},{"id":"w2","from_in":[100,0],"to_in":[100,70],"stands_on":"deck","bearing":false},
             {"id":"w3","from_in":[0,70],"to_in":[100,70],"stands_on":"framing","bearing":false}],
    "supports":[)" +
         supports + R"(],
    "fixtures":[{"id":"machine","kind":"washing_machine","outline_in":[[66,40],[94,40],[94,68],[66,68]],"stands":true}],
    "sources":[{"id":"hose","at_in":[80,64],"kind":"supply_leak","active":false,"water_category":1}],
    "marks":[)" +
         marks + R"(],"rebuild":{"finish":"sheet_vinyl","live_psf":40},"work":{"start":"2026-05-11","crew":2})" + more + "}";
}

std::string members(const char* role, const char* size, double first_in, double step_in, int count, double length_in, bool along_x = false) {
  std::string list;
  for (int k = 0; k < count; ++k) {
    const std::string at = std::to_string(first_in + k * step_in), far = std::to_string(length_in);
    const std::string from = along_x ? "[0," + at + "]" : "[" + at + ",0]", to = along_x ? "[" + far + "," + at + "]" : "[" + at + "," + far + "]";
    list += std::string(k ? "," : "") + R"({"id":")" + role + std::to_string(k + 1) + R"(","role":")" + role + R"(","from_in":)" + from + R"(,"to_in":)" + to +
            R"(,"size":")" + size + R"(","species":"douglas_fir_larch","grade":"no_2","rests_at_in":[0,)" + far + "]}";
  }
  return list;
}

std::string awl(int id, double x, double y, const char* layer, const char* reads) {
  return R"({"id":"m)" + std::to_string(id) + R"(","at_in":[)" + std::to_string(x) + "," + std::to_string(y) + R"(],"layer":")" + layer +
         R"(","tool":"awl","reads":")" + reads + R"("})";
}

const char* const kBoards = R"({"id":"deck","material":"board","thickness_in":0.75,"face_width_in":5.5,"species":"douglas_fir_larch"})";
const char* const kDiagonal = R"({"id":"deck","material":"board","thickness_in":0.75,"face_width_in":5.5,"runs":45})";
const char* const kPlywood = R"({"id":"deck","material":"plywood","thickness_in":0.71875})";
const char* const kPlanks =
    R"({"id":"under","material":"particleboard","thickness_in":0.625,"outline_in":[[30,0],[100,0],[100,70],[30,70]]},
       {"id":"deck","material":"plank_tg","thickness_in":1.5,"runs":"x","face_width_in":5.25,"absent_in":[[[5,50],[15,50],[15,62],[5,62]]]})";

}  // namespace

std::vector<std::string> demo_names() { return {"laundry-1954", "clubhouse-washroom-1972"}; }

Job demo(const std::string& name) {
  std::ifstream file(std::string(source_dir()) + "/examples/" + name + ".json");
  std::stringstream text;
  text << file.rdbuf();
  return read(text.str());
}

std::vector<std::pair<std::string, Job>> small_jobs() {
  const std::string rot = awl(1, 80, 60, "deck", "gone") + "," + awl(2, 64, 58, "deck", "soft") + "," + awl(3, 20, 20, "deck", "sound");
  const std::string joists = members("joist", "2x8", 4, 15.9, 7, 70), girders = members("girder", "4x8", 2, 48, 3, 70);
  const std::string member = R"(,{"id":"m8","support":"joist5","along_in":60,"face":"top","tool":"awl","reads":"soft","depth_in":1})";
  const std::string plate = R"(,{"id":"m9","wall":"w2","along_in":60,"part":"plate","tool":"awl","reads":"soft","depth_in":0.5})";
  std::vector<std::pair<std::string, Job>> jobs;
  jobs.emplace_back("boards on joists", read(floor_of(kBoards, joists, rot + member + plate)));
  jobs.emplace_back("planks on girders", read(floor_of(kPlanks, girders, rot)));
  jobs.emplace_back("diagonal boards", read(floor_of(kDiagonal, joists, rot)));
  jobs.emplace_back("plywood", read(floor_of(kPlywood, members("joist", "2x10", 5, 16, 5, 100, true), rot)));
  jobs.emplace_back("nothing rotten", read(floor_of(kBoards, joists, awl(1, 50, 30, "deck", "sound"))));
  jobs.emplace_back("drying", read(floor_of(kBoards, joists, rot,
                                            R"(,"drying":{"readings":[{"id":"r1","time":"2026-05-06T08:00:00Z","layer":"deck","at_in":[80,58],"mc_percent":24,
      "air_temp_f":70,"air_rh_percent":42},{"id":"r2","time":"2026-05-09T08:00:00Z","layer":"deck","at_in":[80,58],"mc_percent":20,"air_temp_f":70,"air_rh_percent":42}]})")));
  return jobs;
}

Job renamed(Job job, std::map<std::string, std::string>& names) {
  static const char* const nasty[] = {"members", "edge_ft", "plate_ft", "blocking_ft", "wallboard_sf", "wall:w1", "deck", "z.1", "out.edges", "price"};
  std::size_t next = 0;
  const auto name = [&](std::string& id) {
    if (const auto found = names.find(id); found != names.end()) {
      id = found->second;
      return;
    }
    const std::string fresh = next < std::size(nasty) ? nasty[next] : "n" + std::to_string(900 - next);
    ++next;
    names[id] = fresh;
    id = fresh;
  };
  const auto follow = [&](std::optional<std::string>& id) {
    if (id) id = names.at(*id);
  };
  for (auto& layer : job.layers) name(layer.id);
  for (auto& support : job.supports) name(support.id);
  for (auto& wall : job.walls) name(wall.id);
  for (auto& fixture : job.fixtures) name(fixture.id);
  for (auto& door : job.room.doors) name(door.id);
  for (auto& source : job.sources) name(source.id);
  for (auto& mark : job.marks) {
    follow(mark.layer);
    follow(mark.support);
    follow(mark.wall);
    name(mark.id);
  }
  for (auto& photo : job.photos) {
    follow(photo.mark);
    name(photo.id);
  }
  if (job.drying)
    for (auto& reading : job.drying->readings) {
      follow(reading.layer);
      follow(reading.support);
    }
  return job;
}

}  // namespace awlmark::testing
