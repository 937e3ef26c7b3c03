// Eight floors against a frame solution of their own: every member as beam elements, all of them in one
// stiffness matrix, connected where one carries another. The engine solves member by member and hands
// reactions down; here everything moves at once. Loads are put on by hand, from spacing and weight.
#include "floor/paths.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <map>

#include "floor/as_found.hpp"
#include "floor/build.hpp"
#include "floor/layout.hpp"
#include "mechanics/cuts.hpp"
#include "members.hpp"
#include "support/outside.hpp"

namespace awlmark::floor {
namespace {

// ---- The frame: members along their own axis, bending only.
class Frame {
 public:
  // Returns the member; `at` its nodes, rising.
  std::size_t member(double ei, std::vector<double> at) {
    std::vector<std::size_t> down, turn;
    for (std::size_t i = 0; i < at.size(); ++i) down.push_back(count_++), turn.push_back(count_++);
    members_.push_back({ei, std::move(at), std::move(down), std::move(turn)});
    return members_.size() - 1;
  }
  std::size_t down(std::size_t m, std::size_t node) const { return members_[m].down[node]; }
  void hold(std::size_t m, std::size_t node) { held_.push_back(down(m, node)); }
  // Node a of member m sits on node b of member n: they move down alike.
  void rest_on(std::size_t m, std::size_t a, std::size_t n, std::size_t b) { same_[down(m, a)] = down(n, b); }
  void line(std::size_t m, double from, double to, double w) { lines_.push_back({m, from, to, w}); }
  void point(std::size_t m, std::size_t node, double p) { points_.push_back({down(m, node), p}); }

  void solve() {
    std::vector<std::size_t> map(count_);
    for (std::size_t i = 0; i < count_; ++i) map[i] = same_.count(i) ? same_.at(i) : i;
    std::vector<std::vector<double>> k(count_, std::vector<double>(count_, 0.0));
    std::vector<double> f(count_, 0.0);
    for (const auto& [dof, p] : points_) f[map[dof]] += p;
    for (std::size_t m = 0; m < members_.size(); ++m) {
      const auto& one = members_[m];
      for (std::size_t e = 0; e + 1 < one.at.size(); ++e) {
        const double l = one.at[e + 1] - one.at[e], c = one.ei / (l * l * l);
        const std::size_t d[4] = {map[one.down[e]], map[one.turn[e]], map[one.down[e + 1]], map[one.turn[e + 1]]};
        const double s[4][4] = {
            {12, 6 * l, -12, 6 * l}, {6 * l, 4 * l * l, -6 * l, 2 * l * l}, {-12, -6 * l, 12, -6 * l}, {6 * l, 2 * l * l, -6 * l, 4 * l * l}};
        for (int i = 0; i < 4; ++i)
          for (int j = 0; j < 4; ++j) k[d[i]][d[j]] += c * s[i][j];
        for (const auto& load : lines_) {
          if (load.m != m || load.from > one.at[e] + 1e-9 || load.to < one.at[e + 1] - 1e-9) continue;
          f[d[0]] += load.w * l / 2, f[d[2]] += load.w * l / 2;
          f[d[1]] += load.w * l * l / 12, f[d[3]] -= load.w * l * l / 12;
        }
      }
    }
    const auto whole = k;
    const auto load = f;
    for (std::size_t i = 0; i < count_; ++i) {
      const bool fixed = std::count(held_.begin(), held_.end(), i) > 0 || same_.count(i) > 0;
      if (!fixed) continue;
      for (std::size_t j = 0; j < count_; ++j) k[i][j] = k[j][i] = 0;
      k[i][i] = 1, f[i] = 0;
    }
    std::vector<double> u = gauss(k, f);
    reaction_.assign(count_, 0.0);
    for (std::size_t i = 0; i < count_; ++i) {
      double sum = -load[i];
      for (std::size_t j = 0; j < count_; ++j) sum += whole[i][j] * u[j];
      reaction_[i] = -sum;
    }
  }
  double reaction(std::size_t m, std::size_t node) const { return reaction_[down(m, node)]; }
  double all_reactions() const {
    double sum = 0;
    for (const std::size_t dof : held_) sum += reaction_[dof];
    return sum;
  }

 private:
  struct One {
    double ei;
    std::vector<double> at;
    std::vector<std::size_t> down, turn;
  };
  struct Line {
    std::size_t m;
    double from, to, w;
  };
  static std::vector<double> gauss(std::vector<std::vector<double>> a, std::vector<double> b) {
    const std::size_t n = b.size();
    for (std::size_t c = 0; c < n; ++c) {
      std::size_t p = c;
      for (std::size_t r = c; r < n; ++r)
        if (std::fabs(a[r][c]) > std::fabs(a[p][c])) p = r;
      std::swap(a[c], a[p]), std::swap(b[c], b[p]);
      for (std::size_t r = c + 1; r < n; ++r) {
        const double t = a[r][c] / a[c][c];
        if (t == 0) continue;
        for (std::size_t j = c; j < n; ++j) a[r][j] -= t * a[c][j];
        b[r] -= t * b[c];
      }
    }
    for (std::size_t c = n; c-- > 0;) {
      for (std::size_t j = c + 1; j < n; ++j) b[c] -= a[c][j] * b[j];
      b[c] /= a[c][c];
    }
    return b;
  }
  std::size_t count_ = 0;
  std::vector<One> members_;
  std::vector<std::size_t> held_;
  std::map<std::size_t, std::size_t> same_;
  std::vector<Line> lines_;
  std::vector<std::pair<std::size_t, double>> points_;
  std::vector<double> reaction_;
};

// ---- Floors: boards along x over members along y.
using awlmark::testing::support_of;
Support joist(const std::string& id, double x, double y0, double y1, std::vector<double> rests) {
  return support_of(id, SupportRole::joist, {x, y0}, {x, y1}, "2x10", std::move(rests));
}
Job base(double wide, double deep) {
  Job job;
  job.job.below = Below::crawl_space;
  job.room.outline_in = rectangle(0, 0, wide, deep);
  Layer deck;
  deck.id = "deck";
  deck.material = Material::plywood;
  deck.thickness_in = 0.75;
  deck.runs = Runs{0};
  job.layers = {deck};
  return job;
}
double psi_of(const Job& job) { return (dead_psf(job) + 40) / 144; }
double own_pli(const Model& model, std::size_t i) { return mechanics::weight_plf(model.members[i].values, model.members[i].section) / 12; }
constexpr double kEi = 1.6e6 * 98.93;
constexpr double kStiff = kEi * 1e6;  // carriers that the engine counts as rigid

void expect_near(double engine, double frame, const char* what) { EXPECT_NEAR(engine, frame, 1e-3 * std::fabs(frame) + 0.5) << what; }
double full(const Paths& paths, std::size_t m, std::size_t rest) { return paths.forces[m].rests[rest].full_lb; }

void expect_balance(const Paths& paths, const Frame& frame) {
  EXPECT_NEAR(paths.balance.carried_lb, frame.all_reactions(), 2e-3 * frame.all_reactions());
  EXPECT_NEAR(paths.balance.applied_lb, paths.balance.carried_lb, 2e-3 * paths.balance.applied_lb);
}

TEST(Paths, OneJoistsOnTheirWalls) {
  auto job = base(64, 120);
  for (int i = 0; i < 4; ++i) job.supports.push_back(joist("j" + std::to_string(i), 8 + 16 * i, 0, 120, {0, 120}));
  const auto model = build_model(job, {}, {});
  const auto paths = load_paths(model, Case::known);
  Frame frame;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto m = frame.member(kEi, {0, 120});
    frame.hold(m, 0), frame.hold(m, 1);
    frame.line(m, 0, 120, psi_of(job) * 16 + own_pli(model, i));
  }
  frame.solve();
  expect_balance(paths, frame);
  expect_near(full(paths, 1, 0), frame.reaction(1, 0), "joist");
}

TEST(Paths, TwoATailOnAHeaderOnTrimmers) {
  auto job = base(96, 144);
  for (int i = 0; i < 6; ++i) job.supports.push_back(joist("j" + std::to_string(i), 8 + 16 * i, 0, 144, {0, 144}));
  job.supports[2].to_in = {40, 90};
  job.supports[2].rests_at_in = {0, 90};
  job.supports.push_back(support_of("header", SupportRole::joist, {24, 90}, {56, 90}, "2x10", {0, 32}));
  const auto model = build_model(job, {}, {});
  const auto paths = load_paths(model, Case::known);
  ASSERT_TRUE(model.members[2].rests[1].carrier.known());
  EXPECT_EQ(model.members[2].rests[1].carrier.of(), 6u);
  EXPECT_EQ(model.members[6].rests[0].carrier.of(), 1u);
  EXPECT_EQ(model.members[6].rests[1].carrier.of(), 3u);
  Frame frame;
  const double w = psi_of(job) * 16;
  for (std::size_t i = 0; i < 6; ++i) {
    const auto m = i == 2 ? frame.member(kEi, {0, 90}) : frame.member(kEi, {0, 90, 144});
    frame.hold(m, 0);
    if (i != 2) frame.hold(m, 2);
    frame.line(m, 0, 90, w + own_pli(model, i));
    // Past the header the tail is gone and its neighbours carry its strip.
    if (i != 2) frame.line(m, 90, 144, (i == 1 || i == 3 ? 1.5 * w : w) + own_pli(model, i));
  }
  const auto header = frame.member(kEi, {0, 16, 32});
  frame.line(header, 0, 32, own_pli(model, 6));
  frame.rest_on(2, 1, header, 1);
  frame.rest_on(header, 0, 1, 1);
  frame.rest_on(header, 2, 3, 1);
  frame.solve();
  expect_balance(paths, frame);
  expect_near(full(paths, 1, 1), frame.reaction(1, 2), "trimmer");
  expect_near(full(paths, 3, 0), frame.reaction(3, 0), "trimmer");
  expect_near(full(paths, 4, 0), frame.reaction(4, 0), "its neighbour");
}

TEST(Paths, ThreeJoistsOverAGirderOnPosts) {
  auto job = base(96, 160);
  for (int i = 0; i < 6; ++i) job.supports.push_back(joist("j" + std::to_string(i), 8 + 16 * i, 0, 160, {0, 64, 160}));
  for (auto& support : job.supports) {
    SupportRest rest;
    rest.at_in = 64;
    rest.over = OverRest::continuous;
    support.rests = {rest};
  }
  job.supports.push_back(support_of("g", SupportRole::girder, {0, 64}, {96, 64}, "4x10", {0, 48, 96}));
  const auto model = build_model(job, {}, {});
  const auto paths = load_paths(model, Case::known);
  Frame frame;
  for (std::size_t i = 0; i < 6; ++i) {
    const auto m = frame.member(kEi, {0, 64, 160});
    frame.hold(m, 0), frame.hold(m, 2);
    frame.line(m, 0, 160, psi_of(job) * 16 + own_pli(model, i));
  }
  const auto g = frame.member(kStiff, {0, 8, 24, 40, 48, 56, 72, 88, 96});
  frame.hold(g, 0), frame.hold(g, 4), frame.hold(g, 8);
  frame.line(g, 0, 96, own_pli(model, 6));
  const std::size_t under[] = {1, 2, 3, 5, 6, 7};
  for (std::size_t i = 0; i < 6; ++i) frame.rest_on(i, 1, g, under[i]);
  frame.solve();
  expect_balance(paths, frame);
  expect_near(full(paths, 6, 1), frame.reaction(g, 4), "middle post");
  expect_near(full(paths, 0, 2), frame.reaction(0, 2), "joist's far end");
}

TEST(Paths, FourACantileverWithItsBackspan) {
  auto job = base(64, 120);
  for (int i = 0; i < 4; ++i) job.supports.push_back(joist("j" + std::to_string(i), 8 + 16 * i, 0, 120, {0, 90}));
  const auto model = build_model(job, {}, {});
  const auto paths = load_paths(model, Case::known);
  Frame frame;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto m = frame.member(kEi, {0, 90, 120});
    frame.hold(m, 0), frame.hold(m, 1);
    frame.line(m, 0, 120, psi_of(job) * 16 + own_pli(model, i));
  }
  frame.solve();
  expect_balance(paths, frame);
  expect_near(full(paths, 2, 1), frame.reaction(2, 1), "rest under the cantilever");
  EXPECT_FALSE(paths.mechanism[2]);
  // A live load on the cantilever alone lifts the far rest less than all of it, and more than nothing.
  EXPECT_LT(paths.forces[2].rests[0].reaction_lb.live_least, 0);
}

TEST(Paths, FiveHeadersTrimmersAndAGirderInOneChain) {
  auto job = base(96, 144);
  for (int i = 0; i < 6; ++i) job.supports.push_back(joist("j" + std::to_string(i), 8 + 16 * i, 0, 144, {0, 144}));
  job.supports[2].to_in = job.supports[3].to_in = {40, 60};
  job.supports[3].to_in.x_in = 56;
  job.supports[2].rests_at_in = job.supports[3].rests_at_in = {0, 60};
  job.supports.push_back(support_of("header", SupportRole::joist, {24, 60}, {72, 60}, "2x10", {0, 48}));
  job.supports.push_back(support_of("g", SupportRole::girder, {0, 144}, {96, 144}, "4x10", {0, 96}));
  const auto model = build_model(job, {}, {});
  const auto paths = load_paths(model, Case::known);
  Frame frame;
  const double w = psi_of(job) * 16;
  for (std::size_t i = 0; i < 6; ++i) {
    const bool tail = i == 2 || i == 3;
    const auto m = tail ? frame.member(kEi, {0, 60}) : frame.member(kEi, {0, 60, 144});
    frame.hold(m, 0);
    frame.line(m, 0, 60, w + own_pli(model, i));
    // Past the header 48 in. lie between the trimmers.
    if (!tail) frame.line(m, 60, 144, (i == 1 || i == 4 ? 2 * w : w) + own_pli(model, i));
  }
  const auto header = frame.member(kStiff, {0, 16, 32, 48});
  frame.line(header, 0, 48, own_pli(model, 6));
  frame.rest_on(2, 1, header, 1), frame.rest_on(3, 1, header, 2);
  frame.rest_on(header, 0, 1, 1), frame.rest_on(header, 3, 4, 1);
  const auto g = frame.member(kStiff, {0, 8, 24, 72, 88, 96});
  frame.line(g, 0, 96, own_pli(model, 7));
  frame.hold(g, 0), frame.hold(g, 5);
  frame.rest_on(0, 2, g, 1), frame.rest_on(1, 2, g, 2), frame.rest_on(4, 2, g, 3), frame.rest_on(5, 2, g, 4);
  frame.solve();
  expect_balance(paths, frame);
  expect_near(full(paths, 7, 0), frame.reaction(g, 0), "girder's post");
  expect_near(full(paths, 1, 0), frame.reaction(1, 0), "trimmer on its wall");
}

TEST(Paths, SixASplicedGirderIsTwoBeams) {
  for (const bool splice : {true, false}) {
    auto job = base(100, 96);
    for (const double x : {2.0, 50.0, 98.0}) {
      auto girder = support_of("g" + std::to_string(static_cast<int>(x)), SupportRole::girder, {x, 0}, {x, 96}, "4x10", {0, 48, 96});
      SupportRest rest;
      rest.at_in = 48;
      rest.over = splice ? OverRest::splice : OverRest::continuous;
      girder.rests = {rest};
      job.supports.push_back(girder);
    }
    const auto model = build_model(job, {}, {});
    const auto paths = load_paths(model, Case::known);
    const double w = psi_of(job) * 48 + own_pli(model, 1);
    expect_near(full(paths, 1, 1), splice ? w * 48 : 1.25 * w * 48, "middle post");
    // The largest moment of either: w L2 / 8 within a span or over the post.
    double sag = 0, hog = 0;
    for (const auto& station : paths.forces[1].stations) {
      sag = std::max(sag, station.moment_inlb.dead);
      hog = std::min(hog, station.moment_inlb.dead);
    }
    const double dead = w - 40.0 / 144 * 48;
    EXPECT_NEAR(sag, splice ? dead * 48 * 48 / 8 : 9 * dead * 48 * 48 / 128, 0.005 * dead * 288);
    EXPECT_NEAR(hog, splice ? 0 : -dead * 48 * 48 / 8, 0.005 * dead * 288);
  }
}

TEST(Paths, SevenAWallAtARestBendsNothingAndLoadsThePost) {
  auto job = base(96, 160);
  for (int i = 0; i < 6; ++i) job.supports.push_back(joist("j" + std::to_string(i), 8 + 16 * i, 0, 160, {0, 80, 160}));
  auto girder = support_of("g", SupportRole::girder, {0, 80}, {96, 80}, "4x10", {0, 96});
  job.supports.push_back(girder);
  const auto before = load_paths(build_model(job, {}, {}), Case::known);
  Wall wall;
  wall.id = "w";
  wall.from_in = {0, 76};
  wall.to_in = {96, 76};
  wall.bearing = true;
  wall.dead_plf = 500;
  job.walls = {wall};
  const auto model = build_model(job, {}, {});
  const auto after = load_paths(model, Case::known);
  EXPECT_NEAR(after.balance.carried_lb - before.balance.carried_lb, (500 + 64) * 8, 1);
  EXPECT_NEAR(after.balance.applied_lb, after.balance.carried_lb, 0.002 * after.balance.applied_lb);
  EXPECT_NEAR(full(after, 6, 0) - full(before, 6, 0), (500 + 64) * 4, 5);
  const auto peak = [](const MemberForces& forces) {
    double most = 0;
    for (const auto& station : forces.stations) most = std::max(most, std::fabs(station.moment_inlb.dead));
    return most;
  };
  EXPECT_NEAR(peak(after.forces[2]), peak(before.forces[2]), 1e-6);
  EXPECT_GT(after.forces[2].rests[1].full_lb, before.forces[2].rests[1].full_lb + 600);
}

TEST(Paths, EightJoistsHungBetweenGirdersLoadThem) {
  // Girders 48 in. apart, joists 16 in. apart hung between them, boards along the girders.
  auto job = base(96, 96);
  job.layers[0].runs = Runs{90};
  for (const double x : {0.0, 48.0, 96.0})
    job.supports.push_back(support_of("g" + std::to_string(static_cast<int>(x)), SupportRole::girder, {x, 0}, {x, 96}, "4x10", {0, 96}));
  for (int bay = 0; bay < 2; ++bay)
    for (int k = 0; k < 6; ++k) {
      auto hung = support_of("h" + std::to_string(6 * bay + k), SupportRole::joist, {48.0 * bay, 8.0 + 16 * k}, {48.0 * bay + 48, 8.0 + 16 * k}, "2x6", {});
      for (const double at : {0.0, 48.0}) {
        SupportRest rest;
        rest.at_in = at;
        rest.on = RestOn::hanger;
        hung.rests.push_back(rest);
      }
      job.supports.push_back(hung);
    }
  const auto model = build_model(job, {}, {});
  const auto paths = load_paths(model, Case::known);
  Frame frame;
  const std::vector<double> nodes{0, 8, 24, 40, 56, 72, 88, 96};
  for (std::size_t g = 0; g < 3; ++g) {
    const auto m = frame.member(kEi, nodes);
    frame.hold(m, 0), frame.hold(m, 7);
    frame.line(m, 0, 96, own_pli(model, g));
  }
  for (std::size_t h = 0; h < 12; ++h) {
    const auto m = frame.member(kEi, {0, 48});
    frame.line(m, 0, 48, psi_of(job) * 16 + own_pli(model, 3 + h));
    frame.rest_on(m, 0, h / 6, 1 + h % 6);
    frame.rest_on(m, 1, h / 6 + 1, 1 + h % 6);
  }
  frame.solve();
  expect_balance(paths, frame);
  expect_near(full(paths, 1, 0), frame.reaction(1, 0), "middle girder");
  expect_near(full(paths, 0, 1), frame.reaction(0, 7), "outer girder");
}

// ---- The whole floor by CalculiX 2.20 (tests/outside/make/floor_ccx.py): joists that run past two girders
// which run through over three posts. The reference is linear, one load a time.
TEST(Paths, AWholeFloorByCalculiX) {
  const auto reference = testing::outside_file("floor_ccx.json");
  auto job = base(128, 120);
  for (int i = 0; i < 8; ++i) job.supports.push_back(joist("j" + std::to_string(i), 8 + 16 * i, -12, 132, {12, 132}));
  for (const double y : {0.0, 120.0}) {
    auto girder = support_of("g" + std::to_string(static_cast<int>(y)), SupportRole::girder, {0, y}, {128, y}, "4x10", {0, 64, 128});
    SupportRest rest;
    rest.at_in = 64;
    rest.over = OverRest::continuous;
    girder.rests = {rest};
    job.supports.push_back(girder);
  }
  const auto model = build_model(job, {}, {});
  const auto paths = load_paths(model, Case::known);
  const double w = psi_of(job) * 16 + own_pli(model, 0), g = own_pli(model, 8);
  for (std::size_t girder = 0; girder < 2; ++girder)
    for (std::size_t post = 0; post < 3; ++post) {
      const double want = w * reference["on_joists_1_pli"]["post_lb"][3 * girder + post].get<double>() +
                          g * reference["on_girders_1_pli"]["post_lb"][3 * girder + post].get<double>();
      EXPECT_NEAR(full(paths, 8 + girder, post), want, 0.01 * want) << girder << " " << post;
    }
  // The middle of a joist under live load on its span alone, the engine's worst pattern: more than the
  // reference, in which the ends past the girders are loaded too, and not more than those ends take off.
  const double live_w = 40.0 / 144 * 16, middle = live_w * reference["on_joists_1_pli"]["joist_middle_in"][0].get<double>();
  const double ends = live_w * 12 * 12 / 2 * 120 * 120 / (8 * kEi);
  double sag = 0;
  for (const auto& span : paths.forces[2].spans)
    if (!span.cantilever) sag = std::max(sag, span.live_in);
  EXPECT_NEAR(sag, middle + ends, 0.01 * middle);
}

// ---- What holds nothing.
TEST(Paths, AFreeEndCarriesNothing) {
  auto job = base(64, 120);
  for (int i = 0; i < 4; ++i) job.supports.push_back(joist("j" + std::to_string(i), 8 + 16 * i, 0, 120, {0, 120}));
  job.supports[1].to_in = {24, 70};
  job.supports[1].rests_at_in = {0};
  const auto model = build_model(job, {}, {});
  const auto paths = load_paths(model, Case::known);
  EXPECT_TRUE(paths.mechanism[1]);
  EXPECT_GT(paths.balance.applied_lb, paths.balance.carried_lb + 300);
  const auto judged = judge(model);
  EXPECT_EQ(judged.verdict, Verdict::fails);
  EXPECT_FALSE(judged.fails_for.empty());
  // Ends that nobody recorded: the one in the open is free too.
  job.supports[1].rests_at_in.clear();
  EXPECT_TRUE(load_paths(build_model(job, {}, {}), Case::known).mechanism[1]);
  // Left as drawn the header way hangs it, and every pound arrives.
  const auto result = floor(job, {}, {});
  const auto headers = std::find_if(result.options.begin(), result.options.end(), [](const Option& o) { return o.id == "headers"; });
  ASSERT_NE(headers, result.options.end());
  EXPECT_NEAR(headers->balance.applied_lb, headers->balance.carried_lb, 0.01 * headers->balance.applied_lb);
  EXPECT_EQ(result.as_found.ok, false);
  for (const auto& option : result.options)
    if (option.id == "like_for_like" || option.id == "patch") EXPECT_EQ(option.verdict, Verdict::fails);
}

TEST(Paths, ARingOfMembersHoldsNothing) {
  auto job = base(100, 100);
  job.supports = {support_of("a", SupportRole::joist, {10, 30}, {72, 30}, "2x10", {62}), support_of("b", SupportRole::joist, {70, 10}, {70, 72}, "2x10", {62}),
                  support_of("c", SupportRole::joist, {90, 70}, {28, 70}, "2x10", {62}), support_of("d", SupportRole::joist, {30, 90}, {30, 28}, "2x10", {62})};
  // Each names the next one as what it rests on, at both ends.
  for (std::size_t i = 0; i < 4; ++i) {
    job.supports[i].rests_at_in.clear();
    for (const double at : {22.0, 60.0}) {
      SupportRest rest;
      rest.at_in = at;
      rest.on = RestOn::hanger;
      rest.support = job.supports[(i + (at > 40 ? 1 : 3)) % 4].id;
      job.supports[i].rests.push_back(rest);
    }
  }
  const auto model = build_model(job, {}, {});
  const auto paths = load_paths(model, Case::known);
  EXPECT_DOUBLE_EQ(paths.balance.carried_lb, 0);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_TRUE(paths.in_ring[i]) << i;
  EXPECT_EQ(judge(model).verdict, Verdict::fails);
}

// ---- Ends that are notched (NDS 3.4.3.2), by hand.
TEST(Paths, ANotchedEndCarriesTheShearOfWhatIsLeft) {
  auto job = base(64, 120);
  for (int i = 0; i < 4; ++i) job.supports.push_back(joist("j" + std::to_string(i), 8 + 16 * i, 0, 120, {0, 120}));
  MemberCut cut;
  cut.along_in = 2;
  cut.notch_depth_in = 3;
  cut.notch_length_in = 4;
  cut.face = Face::bottom;
  job.supports[1].cuts = {cut};
  const auto judged = judge(build_model(job, {}, {}));
  const auto find = [&](const std::string& id) -> const Check* {
    for (const auto& check : judged.checks)
      if (check.id == id) return &check;
    return nullptr;
  };
  const auto* check = find("j1.notch1.end_shear");
  ASSERT_TRUE(check);
  // 2/3 x 180 psi x 1.5 x 6.25 x (6.25 / 9.25)^2 = 513.6 lb
  EXPECT_NEAR(check->capacity, 2.0 / 3 * 180 * 1.5 * 6.25 * std::pow(6.25 / 9.25, 2), 0.1);
  EXPECT_NEAR(check->demand, judged.balance.carried_lb / 8, 0.02 * check->demand);
  EXPECT_NEAR(mechanics::top_notched_shear_lb(1.5, 9.25, 6.25, 3, 180), 2.0 / 3 * 180 * 1.5 * (9.25 - 3.0 / 6.25 * 3), 1e-9);
  // Holes an inch and a half apart.
  MemberCut hole;
  hole.hole_diameter_in = 2;
  hole.along_in = 40;
  job.supports[1].cuts = {hole, hole};
  job.supports[1].cuts[1].along_in = 43.5;
  bool apart = false;
  for (const auto& one : judge(build_model(job, {}, {})).checks) apart = apart || (one.kind == "hole_apart" && !one.ok);
  EXPECT_TRUE(apart);
}

}  // namespace
}  // namespace awlmark::floor
