// The floor stage as a whole: two invented jobs like the demonstrations, degenerate jobs, and the
// properties that every floor must have.
#include "floor/floor.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "base/doc.hpp"
#include "floor/as_found.hpp"
#include "floor/build.hpp"
#include "floor/deck_checks.hpp"
#include "floor/layout.hpp"
#include "floor/limits.hpp"
#include "floor/paths.hpp"
#include "floor/while_open.hpp"
#include "members.hpp"
#include "support/property.hpp"

namespace awlmark::floor {
namespace {

Layer layer_of(const std::string& id, Material material, std::optional<double> thickness_in = std::nullopt) {
  Layer layer;
  layer.id = id;
  layer.material = material;
  layer.thickness_in = thickness_in;
  return layer;
}

using awlmark::testing::support_of;

Mark awl(const std::string& id, const std::string& support, double along_in, Reading reads, double depth_in) {
  Mark mark;
  mark.id = id;
  mark.support = support;
  mark.along_in = along_in;
  mark.reads = reads;
  if (reads != Reading::sound) mark.depth_in = depth_in;
  mark.face = Face::top;
  return mark;
}

// A laundry on 2x8 joists 16 in. apart, boards over them.
Job joist_job(double span_in = 120, double spacing_in = 16) {
  Job job;
  job.job.below = Below::crawl_space;
  job.room.outline_in = rectangle(0, 0, 96, 84);
  auto deck = layer_of("deck", Material::board, 0.75);
  deck.runs = Runs{0};
  deck.face_width_in = 5.5;
  deck.species = Species::douglas_fir_larch;
  job.layers = {layer_of("sheet", Material::sheet_vinyl), layer_of("under", Material::plywood_underlayment, 0.25), deck};
  int number = 0;
  for (double x = 4; x < 96; x += spacing_in)
    job.supports.push_back(support_of("j" + std::to_string(++number), SupportRole::joist, {x, -18}, {x, -18 + span_in}, "2x8", {0, span_in}));
  Rebuild rebuild;
  rebuild.finish = Finish::porcelain_tile;
  rebuild.live_psf = 40;
  job.rebuild = rebuild;
  return job;
}

// A washroom of 2-in. planks over 4x10 girders 48 in. apart on posts.
Job girder_job() {
  Job job;
  job.job.below = Below::crawl_space;
  job.room.outline_in = rectangle(0, 0, 132, 96);
  auto deck = layer_of("deck", Material::plank_tg, 1.5);
  deck.runs = Runs{0};
  deck.face_width_in = 5.25;
  deck.species = Species::douglas_fir_larch;
  deck.grade = Grade::decking_commercial;
  job.layers = {layer_of("sheet", Material::sheet_vinyl), layer_of("under", Material::particleboard, 0.625), deck};
  int number = 0;
  for (const double x : {-6.0, 42.0, 90.0, 138.0}) {
    auto girder = support_of("g" + std::to_string(++number), SupportRole::girder, {x, -36}, {x, 132}, "4x10", {0, 84, 168});
    girder.post_size = section_of("4x4");
    girder.post_length_in = 30;
    job.supports.push_back(girder);
  }
  Rebuild rebuild;
  rebuild.finish = Finish::porcelain_tile;
  job.rebuild = rebuild;
  return job;
}

cutback::CutBack cut_planks(const Job& job, double x0, double x1, double y0, double y1) {
  cutback::CutBack cut;
  const double width = job.layers.back().face_width_in.value_or(5.25);
  int plank = 0;
  for (double y = 0; y < 96; y += width) {
    ++plank;
    if (y + width / 2 < y0 || y + width / 2 > y1) continue;
    cutback::Piece piece;
    piece.id = "deck." + std::to_string(plank);
    piece.layer = "deck";
    piece.kind = "plank";
    piece.plank = plank;
    piece.row = plank - 1;
    piece.from_in = x0;
    piece.to_in = x1;
    piece.outline_in = rectangle(x0, y, x1, y + width);
    piece.out = true;
    cut.pieces.push_back(piece);
    cut.area_sf["deck"] += (x1 - x0) * width / 144;
  }
  cut.outlines_in["deck"] = {rectangle(x0, y0, x1, y1)};
  return cut;
}

const Check* find(const std::vector<Check>& checks, const std::string& id) {
  for (const auto& check : checks)
    if (check.id == id) return &check;
  return nullptr;
}
const Option* find(const std::vector<Option>& options, const std::string& id) {
  for (const auto& option : options)
    if (option.id == id) return &option;
  return nullptr;
}

double worst_ratio(const std::vector<Check>& checks, const std::string& kind) {
  double worst = 0;
  for (const auto& check : checks)
    if (check.kind == kind) worst = std::max(worst, check.ratio);
  return worst;
}

bool finite(const doc::Json& json) {
  if (json.is_number_float()) return std::isfinite(json.get<double>());
  if (json.is_structured())
    for (const auto& item : json)
      if (!finite(item)) return false;
  return true;
}

std::vector<MemberLoads> member_loads(const Model& model) { return load_paths(model, Case::known).loads; }
FloorChecks checked(const Model& model) { return check_members(model, load_paths(model, Case::known)); }
std::vector<Check> all_checks(Model model) {
  model.as_found = false;  // as the new floor is judged
  for (auto& member : model.members) member.as_it_was = false;
  model.deck.as_it_was = false;
  return check_model(model, Case::known).checks.checks;
}

// Every number written, every check with its reason: nothing half-filled may reach a paper.
void expect_whole(const Floor& result) {
  const auto json = doc::write(result);
  EXPECT_TRUE(finite(json));
  EXPECT_EQ(json.dump().find("null"), std::string::npos) << "a number was not finite";
  std::set<std::string> ids;
  for (const auto& check : result.as_found.checks) {
    EXPECT_TRUE(ids.insert(check.id + check.case_.value_or("")).second) << check.id << " twice";
    EXPECT_FALSE(check.reason.rule.empty()) << check.id;
    EXPECT_FALSE(check.reason.compares.empty()) << check.id;
    EXPECT_EQ(check.ok, check.ratio <= 1 + 1e-9) << check.id;
  }
  int rank = 0;
  bool known = result.options.empty();
  for (const auto& option : result.options) {
    EXPECT_EQ(option.rank, ++rank);
    EXPECT_FALSE(option.title.empty());
    EXPECT_FALSE(option.trade_off.empty());
    EXPECT_FALSE(option.cautions.empty());
    EXPECT_LE(option.hours.low, option.hours.likely);
    EXPECT_LE(option.hours.likely, option.hours.high);
    bool all = true;
    for (const auto& check : option.checks) all = all && !failing(check);
    EXPECT_TRUE(all || option.verdict != Verdict::passes) << option.id;
    EXPECT_EQ(option.ok, option.verdict != Verdict::fails) << option.id;
    if (option.ok) EXPECT_TRUE(balanced(option.balance)) << option.id << " " << option.balance.applied_lb << " " << option.balance.carried_lb;
    known = known || option.id == result.chosen;
  }
  EXPECT_TRUE(known) << result.chosen;
  EXPECT_FALSE(result.cautions.empty());
}

TEST(Floor, JoistFloorByHand) {
  // 2x8 No. 2 Douglas fir-larch, 16 in. apart, 120 in. span: M = w L^2 / 8, S = 13.14 in3,
  // Fb' = 900 x 1.2 x 1.15 = 1242 psi (NDS Supplement 4A, CF 1.2, Cr 1.15).
  auto job = joist_job();
  const auto result = floor(job, {}, {});
  expect_whole(result);
  const auto* bending = find(result.as_found.checks, "j3.bending");
  ASSERT_TRUE(bending);
  EXPECT_NEAR(bending->capacity, 1242, 1);
  const double dead_psf = result.as_found.dead_psf;
  const double self_pli = bending ? 33.6 * 1.5 * 7.25 / 144 / 12 : 0;
  const double w_pli = (40 + dead_psf) * 16 / 144 + self_pli;
  EXPECT_NEAR(bending->demand, w_pli * 120 * 120 / 8 / (1.5 * 7.25 * 7.25 / 6), 3);
  const auto* live = find(result.as_found.checks, "j3.deflection_live");
  ASSERT_TRUE(live);
  const double inertia = 1.5 * std::pow(7.25, 3) / 12;
  EXPECT_NEAR(live->demand, 5 * (40.0 * 16 / 144) * std::pow(120, 4) / (384 * 1.6e6 * inertia), 0.002);
  EXPECT_NEAR(live->capacity, 120.0 / 360, 1e-9);
  EXPECT_NEAR(find(result.as_found.checks, "j3.bearing")->demand, w_pli * 60, 1);
}

TEST(Floor, TributaryAreaFollowsTheGeometry) {
  auto job = joist_job();
  const auto model = build_model(job, {}, {});
  const auto loads = member_loads(model);
  // Between joists 16 in. each; nothing is lost: even load on the joists is at least that on the room.
  EXPECT_NEAR(loads[2].tributary_in, 16, 1e-9);
  // Diagonal boards: the span runs along the board, spacing / sin(45).
  job.layers.back().runs = Runs{45};
  const auto diagonal = build_model(job, {}, {});
  double span = 0;
  for (const auto& line : board_lines(diagonal, 5.5))
    for (std::size_t s = 0; s + 1 < line.supports_in.size(); ++s) span = std::max(span, line.supports_in[s + 1] - line.supports_in[s]);
  EXPECT_NEAR(span, 16 * std::sqrt(2.0), 1e-6);
  EXPECT_NEAR(member_loads(diagonal)[2].tributary_in, 16, 1e-6);
  EXPECT_NEAR(widest_spacing_in(diagonal), 16, 1e-6);
}

TEST(Floor, FixturesGoToTheirSupportsByTheLever) {
  auto job = joist_job();
  Fixture heater;
  heater.id = "heater";
  heater.kind = FixtureKind::water_heater;
  heater.weight_lb = 480;
  heater.outline_in = rectangle(36, 30, 52, 46);  // from j3 (x = 36) to j4 (x = 52)
  const auto before = member_loads(build_model(job, {}, {}));
  job.fixtures = {heater};
  const auto after = member_loads(build_model(job, {}, {}));
  const auto total = [](const mechanics::Loads& loads) {
    double sum = 0;
    for (const auto& line : loads.lines) sum += (line.w_from_pli + line.w_to_pli) / 2 * (line.to_in - line.from_in);
    for (const auto& point : loads.points) sum += point.p_lb;
    return sum;
  };
  double gained = 0;
  for (std::size_t i = 0; i < before.size(); ++i) gained += total(after[i].dead) - total(before[i].dead);
  EXPECT_NEAR(gained, 480, 1e-6);
  EXPECT_NEAR(total(after[2].dead) - total(before[2].dead), 240, 1);
  EXPECT_NEAR(total(after[3].dead) - total(before[3].dead), 240, 1);
}

TEST(Floor, AFullTubReplacesTheLiveLoadUnderIt) {
  auto job = joist_job();
  Fixture tub;
  tub.id = "tub";
  tub.kind = FixtureKind::tub;
  tub.outline_in = rectangle(20, 10, 52, 70);
  job.fixtures = {tub};
  const auto model = build_model(job, {}, {});
  ASSERT_EQ(model.loads.size(), 1u);
  EXPECT_NEAR(model.loads[0].lb, 905, 1e-9);  // outside/wood_floor.json TB-01
  EXPECT_NEAR(model.loads[0].replaces_live_psf, 40, 1e-9);
}

TEST(Floor, GirdersCarryWhatJoistsBring) {
  // Joists over a girder across their middle: the girder takes 10/8 of half of each joist's load.
  auto job = joist_job(160);
  for (auto& support : job.supports) support.rests_at_in = {0, 80, 160};
  job.supports.push_back(support_of("beam", SupportRole::girder, {0, 62}, {96, 62}, "4x12", {0, 96}));
  const auto model = build_model(job, {}, {});
  const auto loads = member_loads(model);
  EXPECT_EQ(deck_supports(model).size(), job.supports.size() - 1);
  double live = 0;
  for (const auto& point : loads.back().live.points) live += point.p_lb;
  double on_joists = 0;
  for (std::size_t i = 0; i + 1 < loads.size(); ++i)
    for (const auto& line : loads[i].live.lines) on_joists += line.w_from_pli * (line.to_in - line.from_in);
  EXPECT_NEAR(live, on_joists * 10 / 16, on_joists * 1e-6);
}

TEST(Floor, GirderJobAndItsOptions) {
  auto job = girder_job();
  job.marks = {awl("m1", "g2", 100, Reading::soft, 0.75)};
  const auto cut = cut_planks(job, -6, 90, 30, 70);
  const auto result = floor(job, {}, cut);
  expect_whole(result);
  EXPECT_FALSE(result.as_found.ok);  // the girder's top holds neither boards nor nails
  ASSERT_TRUE(find(result.as_found.checks, "g2.top_seat"));
  EXPECT_FALSE(find(result.as_found.checks, "g2.top_seat")->ok);
  for (const char* id : {"like_for_like", "sisters", "panels_on_added_joists", "thick_panels_on_girders"}) EXPECT_TRUE(find(result.options, id)) << id;
  // The girder passes once it is new in its old size: a stronger one would be the same way twice.
  EXPECT_FALSE(find(result.options, "replaced_members"));
  EXPECT_TRUE(result.options.front().ok);
  // The framing drawing has every member and the lost stretch.
  ASSERT_EQ(result.framing.size(), 4u);
  EXPECT_EQ(result.framing[1].lost.size(), 1u);
  // A shallow rotten top is pared and cleated; a deep one gets a sister of its own length.
  const auto* shallow = find(result.options, "sisters");
  ASSERT_TRUE(shallow);
  EXPECT_EQ(shallow->framing.front().kind, "cleat");
  EXPECT_EQ(shallow->framing.front().size, "2x4");
  auto deep_job = job;
  deep_job.marks[0].depth_in = 5;
  const auto deep = floor(deep_job, {}, cut);
  const auto* sisters = find(deep.options, "sisters");
  ASSERT_TRUE(sisters);
  bool has_sister = false;
  for (const auto& good : sisters->goods)
    has_sister = has_sister || (good.kind == goods::Kind::sister && good.section == goods::Section{2, 10, 1} && std::fabs(good.length_in - 168) < 1e-9);
  EXPECT_TRUE(has_sister);
  // A shore where the cut end hangs free; none where the post at 84 and the rest at 0 hold their side.
  EXPECT_EQ(result.while_open.shores.size(), 1u);
  bool said = false;
  for (const auto& words : result.while_open.words) said = said || words.find("No shore under g2") != std::string::npos;
  EXPECT_TRUE(said);
  for (const auto& shore : result.while_open.shores) {
    EXPECT_GT(shore.load_lb, 0);
    EXPECT_NEAR(shore.pad_sf, shore.load_lb / 1500, 1e-9);
  }
}

Wall wall_of(const std::string& id, Point from, Point to, std::optional<bool> bearing) {
  Wall wall;
  wall.id = id;
  wall.from_in = from;
  wall.to_in = to;
  wall.bearing = bearing;
  wall.stands_on = StandsOn::deck;
  return wall;
}

// Whatever the way is said to need an engineer for is said, and nothing is said where none is needed.
void expect_engineer_said(const Floor& result) {
  for (const auto& option : result.options) EXPECT_EQ(option.needs_engineer, !option.engineer_for.empty()) << option.id;
}

TEST(Floor, RottenThroughIsAStateAndNotAFigure) {
  auto job = joist_job();
  Mark gone;
  gone.id = "m1";
  gone.layer = "deck";
  gone.at_in = Point{40, 40};
  gone.reads = Reading::gone;
  gone.depth_in = 0.75;
  job.marks = {gone};
  const auto through = floor(job, {}, {});
  expect_whole(through);
  const auto* check = find(through.as_found.checks, "deck.point_bending_at_rot");
  ASSERT_TRUE(check);
  EXPECT_EQ(check->state, CheckState::nothing_left);
  EXPECT_EQ(check->reason.unit, "lb");
  EXPECT_DOUBLE_EQ(check->demand, 300);
  EXPECT_EQ(check->capacity, 0);
  EXPECT_FALSE(check->reason.ratio);
  EXPECT_EQ(find(through.as_found.checks, "deck.point_deflection_at_rot"), nullptr);
  EXPECT_NE(doc::write(through).dump().find("\"state\":\"nothing_left\""), std::string::npos);
  // Half the board left: both figures are real.
  job.marks[0].reads = Reading::soft;
  job.marks[0].depth_in = 0.25;
  const auto part = floor(job, {}, {});
  const auto* stress = find(part.as_found.checks, "deck.point_bending_at_rot");
  ASSERT_TRUE(stress);
  EXPECT_NE(stress->state, CheckState::nothing_left);
  EXPECT_EQ(find(part.as_found.checks, "deck.point_deflection_at_rot"), nullptr);  // the 300 lb rule judges new tile
}

TEST(Floor, ABearingWallBringsWhatItCarries) {
  const auto bending = [](const Job& job, const char* which = "") {
    const auto result = floor(job, {}, {});
    expect_whole(result);
    expect_engineer_said(result);
    for (const auto& check : result.as_found.checks)
      if (check.id == "j3.bending" && check.case_.value_or("") == which) return check.demand;
    ADD_FAILURE() << "no such check: " << which;
    return 0.0;
  };
  auto job = joist_job();
  job.walls = {wall_of("north", {0, 72}, {96, 72}, false)};
  const double alone = bending(job);
  job.walls[0].carries_plf = 600;  // of a wall that does not bear it counts for nothing
  EXPECT_DOUBLE_EQ(bending(job), alone);
  job.walls[0].bearing = true;
  const double given = bending(job);
  // By hand: 600 lb/ft on joists 16 in. apart is 800 lb, at 90 of 120 in.: M = P a b / L, and the section
  // modulus of a 2x8 is 13.14 in3. The worst station of the sum lies between the middle and the wall.
  EXPECT_GT(given, alone + 0.5 * 800 * 90 * 30 / 120 / 13.14);
  EXPECT_LT(given, alone + 800.0 * 90 * 30 / 120 / 13.14 + 1);
  // The same as wall loads apart: snow lasts two months, so the stress allowed is 1.15 times as high.
  job.walls[0].carries_plf.reset();
  job.walls[0].dead_plf = 300;
  job.walls[0].snow_plf = 300;
  const auto apart = floor(job, {}, {});
  EXPECT_LE(find(apart.as_found.checks, "j3.bending")->ratio, given / 1242);
  // Not recorded: both ends are run, and whether it bears at all is one of them.
  job.walls[0].dead_plf.reset();
  job.walls[0].snow_plf.reset();
  EXPECT_GT(bending(job, "high"), bending(job, "low"));
  EXPECT_GT(bending(job, "low"), alone);
  job.walls[0].bearing.reset();
  EXPECT_NEAR(bending(job, "low"), alone, 1e-9);
  // Standing on the framing it loads it all the same; only what stands directly below takes it away.
  job.walls[0].bearing = true;
  job.walls[0].carries_plf = 600;
  job.walls[0].stands_on = StandsOn::framing;
  EXPECT_NEAR(bending(job), given, 1e-9);
  job.walls[0].below = UnderWall::wall;
  EXPECT_LT(bending(job), alone);
}

TEST(Floor, SaysWhatTheEngineerIsFor) {
  // Both ends of an unknown wall load fail: an engineer, whatever is done to members that it does not touch.
  auto job = joist_job(144);
  job.walls = {wall_of("north", {0, 54}, {96, 54}, true)};
  job.walls[0].outside = false;
  job.walls[0].floors_above = 2;
  const auto heavy = floor(job, {}, {});
  expect_whole(heavy);
  expect_engineer_said(heavy);
  bool both = false;
  for (const auto& check : heavy.as_found.checks) both = both || (check.case_.value_or("") == "low" && !check.ok);
  EXPECT_TRUE(both);
  for (const auto& option : heavy.options) EXPECT_NE(option.verdict, Verdict::passes) << option.id;
  // Over its rest the wall bends nothing.
  job = joist_job();
  job.walls = {wall_of("north", {0, -18}, {96, -18}, true)};
  job.walls[0].carries_plf = 700;
  job.room.outline_in = rectangle(0, -18, 96, 84);
  const auto at_rest = floor(job, {}, {});
  job.walls.clear();
  const auto without = floor(job, {}, {});
  EXPECT_NEAR(find(at_rest.as_found.checks, "j3.bending")->demand, find(without.as_found.checks, "j3.bending")->demand, 1e-6);
  EXPECT_GT(find(at_rest.as_found.checks, "j3.bearing")->demand, find(without.as_found.checks, "j3.bearing")->demand + 900);
  EXPECT_GT(at_rest.as_found.balance.applied_lb, without.as_found.balance.applied_lb + 700 * 7);
}

TEST(Floor, NamesLoadsOnce) {
  auto job = joist_job();
  for (const auto& [id, kind] : {std::pair{"toilet", FixtureKind::toilet}, std::pair{"old-washer", FixtureKind::washing_machine}}) {
    Fixture fixture;
    fixture.id = id;
    fixture.kind = kind;
    fixture.outline_in = rectangle(10, 10, 30, 30);
    job.fixtures.push_back(fixture);
  }
  const auto result = floor(job, {}, {});
  std::set<std::string> items;
  for (const auto& line : result.as_found.loads) {
    EXPECT_TRUE(items.insert(line.item).second) << line.item;
    EXPECT_FALSE(line.reason.source.empty()) << line.item;
  }
  EXPECT_TRUE(items.count("toilet"));
  EXPECT_TRUE(items.count("washing machine (old-washer)"));
}

TEST(Floor, APlankCutInWithoutTongueIsWorse) {
  auto job = girder_job();
  auto model = build_model(job, {}, {});
  model.as_found = false;
  model.deck.cut_ins = cut_ins(model, cut_planks(job, 42, 90, 30, 70));
  ASSERT_GE(model.deck.cut_ins.size(), 6u);
  model.deck.cut_in_link = CutInLink::none;
  const auto bare = check_deck(model);
  model.deck.cut_in_link = CutInLink::splined;
  const auto splined = check_deck(model);
  model.deck.cut_in_link = CutInLink::blocked;
  const auto blocked = check_deck(model);
  const std::string id = "deck.point_deflection_cut_in";
  ASSERT_TRUE(find(bare.checks, id));
  // Alone and simple: P L^3 / 48 EI.
  const auto values = plank_values(model.deck);
  EXPECT_NEAR(find(bare.checks, id)->demand, 300 * std::pow(48, 3) / (48 * values.e_psi * 5.25 * 3.375 / 12), 1e-4);
  EXPECT_LT(find(splined.checks, id)->ratio, 0.75 * find(bare.checks, id)->ratio);
  EXPECT_LT(find(blocked.checks, id)->ratio, find(bare.checks, id)->ratio);
  // Two bays long and splined is stiffer than one bay.
  model.deck.cut_in_link = CutInLink::none;
  model.deck.cut_ins = cut_ins(model, cut_planks(job, -6, 90, 30, 70));
  const auto two = check_deck(model);
  EXPECT_LT(find(two.checks, id)->ratio, find(bare.checks, id)->ratio);
}

TEST(Floor, OptionsAreJudgedLikeTheFloorAsFound) {
  // A sound floor under the same loads: like for like without anything cut has the same member checks
  // as the floor as found with the new finish's weight.
  auto job = joist_job();
  const auto result = floor(job, {}, {});
  const auto* option = find(result.options, "like_for_like");
  ASSERT_TRUE(option);
  auto model = build_model(job, {}, {});
  model.dead_psf = option->weight_psf;
  model.as_found = false;
  for (const auto& check : checked(model).checks) {
    const auto* same = find(option->checks, check.id);
    ASSERT_TRUE(same) << check.id;
    EXPECT_NEAR(same->ratio, check.ratio, 1e-9) << check.id;
  }
}

TEST(Floor, AFlushShowerGetsADroppedBay) {
  for (const bool wide : {true, false}) {
    auto job = wide ? girder_job() : joist_job();
    ShowerPlan shower;
    shower.outline_in = wide ? rectangle(0, 20, 36, 80) : rectangle(4, 20, 52, 80);  // joists at its edges and through it
    shower.entry = Entry::flush;
    job.shower = shower;
    const auto result = floor(job, {}, {});
    expect_whole(result);
    const auto* bay = find(result.options, "dropped_bay");
    ASSERT_TRUE(bay);
    EXPECT_EQ(result.chosen, "dropped_bay");
    bool drops = false;
    for (const auto& part : bay->deck) drops = drops || part.top_drop_in > 0.7;
    EXPECT_TRUE(drops);
    EXPECT_FALSE(find(result.options, "like_for_like")->rules_out.empty());
  }
}

TEST(Floor, TheJobsOwnChoiceIsTaken) {
  auto job = girder_job();
  job.rebuild->option = "thick_panels_on_girders";
  EXPECT_EQ(floor(job, {}, {}).chosen, "thick_panels_on_girders");
  job.rebuild->option = "no_such_option";
  const auto result = floor(job, {}, {});
  EXPECT_EQ(result.chosen, result.options.front().id);
}

TEST(Floor, StoneAsksForTwiceTheStiffness) {
  // Handbook for Ceramic Tile Installation: 360 for ceramic and porcelain, 720 for stone.
  EXPECT_EQ(live_limit(Finish::porcelain_tile, std::nullopt).over, 360);
  EXPECT_EQ(live_limit(Finish::stone_tile, std::nullopt).over, 720);
  EXPECT_EQ(live_limit(Finish::sheet_vinyl, std::nullopt).over, 360);  // IRC R301.7
  EXPECT_EQ(live_limit(Finish::stone_tile, 1000).over, 1000);
  EXPECT_EQ(live_limit(Finish::stone_tile, 240).over, 720);
  EXPECT_EQ(total_limit().over, 240);
}

TEST(Floor, DegenerateJobsAreAnswered) {
  std::vector<Job> jobs(12);
  jobs[0].room.outline_in = rectangle(0, 0, 60, 60);  // nothing but a room
  jobs[1] = joist_job();
  jobs[1].supports.clear();
  jobs[2] = joist_job();
  jobs[2].layers.clear();
  jobs[3] = joist_job();
  jobs[3].supports.resize(1);
  jobs[4] = joist_job();
  for (auto& support : jobs[4].supports) support.rests_at_in.clear(), support.size.reset();
  jobs[5] = joist_job();
  for (auto& support : jobs[5].supports) support.from_in.y_in = 30, support.to_in.y_in = 50, support.rests_at_in = {0, 20};  // do not reach
  jobs[6] = joist_job();
  jobs[6].supports[0].rests_at_in = {10};
  jobs[6].supports[1].to_in = jobs[6].supports[1].from_in;
  jobs[7] = joist_job();
  jobs[7].marks = {awl("a", "j2", 60, Reading::gone, 20), awl("b", "j3", 0, Reading::soft, 7.25)};
  jobs[7].marks.push_back(jobs[7].marks[0]);
  jobs[7].marks.back().depth_in.reset();
  jobs[8] = joist_job();
  jobs[8].layers.back().runs = Runs{90};  // boards along the joists: they cross nothing
  jobs[9] = girder_job();
  jobs[9].supports.pop_back();
  jobs[9].supports.pop_back();  // a third of the room without supports
  jobs[10] = joist_job();
  jobs[10].layers.back().face_width_in.reset();
  jobs[10].layers.back().thickness_in.reset();
  jobs[10].layers.back().runs.reset();
  jobs[10].layers.back().species = Species::unknown;
  jobs[11] = joist_job();
  for (auto& support : jobs[11].supports) support.rests_at_in = {0, 0.5, 60, 120};
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    SCOPED_TRACE(i);
    const auto result = floor(jobs[i], {}, {});
    expect_whole(result);
    EXPECT_FALSE(result.as_found.assumed.empty());
    EXPECT_FALSE(result.as_found.words.empty());
    EXPECT_TRUE(i >= 3 || !result.as_found.ok);
  }
}

TEST(Floor, UnknownGradeIsNeverBetterThanAnyGrade) {
  auto job = joist_job();
  for (auto& support : job.supports) support.species = Species::unknown, support.grade = Grade::unknown;
  const auto unknown = checked(build_model(job, {}, {}));
  for (const auto species : {Species::douglas_fir_larch, Species::hem_fir, Species::spruce_pine_fir, Species::southern_pine})
    for (const auto grade : {Grade::select_structural, Grade::no_1, Grade::no_2, Grade::no_3}) {
      for (auto& support : job.supports) support.species = species, support.grade = grade;
      const auto known = checked(build_model(job, {}, {}));
      ASSERT_EQ(known.checks.size(), unknown.checks.size());
      for (std::size_t i = 0; i < known.checks.size(); ++i) EXPECT_GE(unknown.checks[i].ratio, known.checks[i].ratio - 1e-9) << known.checks[i].id;
    }
}

TEST(Floor, DeeperRotNeverHelps) {
  testing::for_each_seed(25, [](Random& random) {
    auto job = joist_job(testing::between(random, 80, 140));
    const double along = testing::between(random, 5, 75);
    const Face faces[] = {Face::top, Face::side, Face::bottom};
    const Face face = faces[random.below(3)];
    std::optional<double> width;
    if (random.below(2) == 0) width = testing::between(random, 0.2, 1.5);
    double last_bending = 0, last_shear = 0, last_deflection = 0, last_bearing = 0;
    for (const double depth : {0.1, 0.4, 0.9, 1.2, 1.5, 1.74, 1.76, 2.5, 4.0, 7.0, 9.0}) {
      job.marks = {awl("m", "j3", along, Reading::soft, depth)};
      job.marks[0].face = face;
      job.marks[0].width_in = width;
      auto model = build_model(job, {}, {});
      const auto checks = checked(model).checks;
      const auto* bending = find(checks, "j3.bending_at_rot");
      const auto* shear = find(checks, "j3.shear_at_rot");
      ASSERT_TRUE(bending && shear);
      EXPECT_GE(bending->ratio, last_bending - 1e-9);
      EXPECT_GE(shear->ratio, last_shear - 1e-9);
      EXPECT_GE(find(checks, "j3.deflection_live")->ratio, last_deflection - 1e-9);
      EXPECT_GE(find(checks, "j3.bearing")->ratio, last_bearing - 1e-9);
      last_bending = bending->ratio, last_shear = shear->ratio;
      last_deflection = find(checks, "j3.deflection_live")->ratio, last_bearing = find(checks, "j3.bearing")->ratio;
    }
    // Rot is never better than sound wood.
    job.marks.clear();
    const auto sound = checked(build_model(job, {}, {})).checks;
    EXPECT_GE(last_bending, find(sound, "j3.bending")->ratio - 1e-9);
  });
}

TEST(Floor, WiderSpacingAndLongerSpansNeverHelp) {
  for (const char* kind : {"bending", "shear", "deflection_live", "deflection_total", "bearing", "deck_deflection", "deck_point_deflection"}) {
    SCOPED_TRACE(kind);
    double last = 0;
    for (const double spacing : {12.0, 16.0, 19.2, 24.0, 32.0}) {
      const double ratio = worst_ratio(all_checks(build_model(joist_job(120, spacing), {}, {})), kind);
      EXPECT_GE(ratio, last - 1e-9) << spacing;
      last = ratio;
    }
    last = 0;
    for (const double span : {104.0, 112.0, 120.0, 144.0}) {
      const double ratio = worst_ratio(all_checks(build_model(joist_job(span), {}, {})), kind);
      EXPECT_GE(ratio, last - 1e-9) << span;
      last = ratio;
    }
  }
  // A stiffer section never does worse on a simple span.
  double last = 1e9;
  for (const char* size : {"2x6", "2x8", "2x10", "2x12"}) {
    auto job = joist_job();
    for (auto& support : job.supports) support.size = section_of(size);
    const double ratio = worst_ratio(all_checks(build_model(job, {}, {})), "bending");
    EXPECT_LE(ratio, last + 1e-9);
    last = ratio;
  }
}

TEST(Floor, ShoresCarryTheCutMember) {
  // One joist cut at its middle: each half rests on its own rest and on a shore; rests and shores
  // together carry all the load that is left.
  auto job = joist_job();
  job.marks = {awl("m", "j3", 60, Reading::gone, 7.25)};
  auto model = build_model(job, {}, {});
  const auto checks = checked(model);
  const auto open = while_open(job, model, {}, checks);
  ASSERT_EQ(open.shores.size(), 2u);
  EXPECT_NEAR(open.shores[0].load_lb, open.shores[1].load_lb, 1e-6);
  // Half: from 0 to 48 in., rest at 0, shore at 42: R = w 48 (24 / 42).
  const auto loads = member_loads(model);
  double w = 0;
  for (const auto* set : {&loads[2].dead, &loads[2].live})
    for (const auto& line : set->lines)
      if (line.from_in < 20 && line.to_in > 20) w += line.w_from_pli;
  EXPECT_NEAR(open.shores[0].load_lb, w * 48 * 24 / 42, 1e-6);
  EXPECT_GT(open.open_at_once_in, 0);
  EXPECT_LE(open.open_at_once_in, 120);
}

}  // namespace
}  // namespace awlmark::floor
