#include "hazards/hazards.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/outside.hpp"
#include "support/property.hpp"

namespace awlmark::hazards {
namespace {

Job small_job() {
  Job job;
  job.job.year_built = 2005;
  job.job.occupied = false;
  job.job.below = Below::basement;
  job.room.outline_in = rectangle(0, 0, 108, 72);
  Layer deck;
  deck.id = "deck";
  deck.material = Material::board;
  job.layers = {deck};
  return job;
}

Layer layer(const std::string& id, Material material, std::optional<int> year = {}) {
  Layer made;
  made.id = id;
  made.material = material;
  made.installed_year = year;
  return made;
}

Mark mark(const std::string& id, Reading reads, const std::string& on = "deck") {
  Mark made;
  made.id = id;
  made.layer = on;
  made.at_in = Point{40, 40};
  made.tool = reads == Reading::sound || reads == Reading::soft || reads == Reading::gone ? Tool::awl : Tool::eye;
  made.reads = reads;
  return made;
}

const Gate* find_gate(const Hazards& found, const std::string& id) {
  const auto at = std::find_if(found.gates.begin(), found.gates.end(), [&](const Gate& g) { return g.id == id; });
  return at == found.gates.end() ? nullptr : &*at;
}

bool raises(const Hazards& found, const std::string& hazard) {
  return std::any_of(found.gates.begin(), found.gates.end(), [&](const Gate& g) { return g.hazard == hazard; });
}

bool protects(const Hazards& found, const std::string& id) {
  return std::any_of(found.protection.begin(), found.protection.end(), [&](const Protection& p) { return p.id == id; });
}

bool names(const Gate& gate, const std::string& words) {
  return std::any_of(gate.because.begin(), gate.because.end(), [&](const std::string& b) { return b.find(words) != std::string::npos; });
}

// A figure of tests/outside/hazards.json, so that the checks stand on the published number.
nlohmann::json figures(const std::string& id) {
  const auto rows = testing::outside_file("hazards.json");
  for (const auto& row : rows)
    if (row.at("id") == id) return row.at("figures");
  ADD_FAILURE() << "hazards.json has no " << id;
  return {};
}

TEST(Rules, EachHasItsPartsAndItsSource) {
  for (const auto& fault : faults_of_rules()) ADD_FAILURE() << fault;
}

TEST(Asbestos, CountsTheYearOfTheLayerAndTheLastYearToo) {
  const int last = figures("asb-floor-presume").at("install_year_max_inclusive");  // 29 CFR 1926.1101(k)(1)
  for (const auto material : {Material::sheet_vinyl, Material::vinyl_tile, Material::asphalt_tile, Material::felt, Material::adhesive}) {
    Job job = small_job();
    job.job.year_built = 1950;
    job.layers.push_back(layer("cover", material, last));
    EXPECT_TRUE(find_gate(hazards(job), "asbestos_sample")) << doc::word_of(material);
    EXPECT_TRUE(find_gate(hazards(job), "asbestos_removal"));
    job.layers.back().installed_year = last + 1;
    EXPECT_FALSE(find_gate(hazards(job), "asbestos_sample")) << doc::word_of(material);
  }
}

TEST(Asbestos, SpareOtherMaterialsAndWhatIsShownFree) {
  Job job = small_job();
  job.job.year_built = 1950;
  job.layers = {layer("tile", Material::ceramic_tile, 1960), layer("deck", Material::plywood, 1960)};
  EXPECT_FALSE(find_gate(hazards(job), "asbestos_sample"));
  job.layers = {layer("sheet", Material::sheet_vinyl, 1971)};
  job.layers[0].shown_asbestos_free = true;
  EXPECT_FALSE(find_gate(hazards(job), "asbestos_sample"));
  job.layers[0].shown_asbestos_free = false;
  EXPECT_TRUE(find_gate(hazards(job), "asbestos_sample"));
}

TEST(Asbestos, UnknownYearTakesTheStricterBranchAndSaysSo) {
  Job job = small_job();
  job.layers = {layer("sheet", Material::sheet_vinyl)};
  job.job.year_built.reset();
  const auto nothing_known = hazards(job);
  ASSERT_TRUE(find_gate(nothing_known, "asbestos_sample"));
  EXPECT_TRUE(names(*find_gate(nothing_known, "asbestos_sample"), "known"));
  job.job.year_built = 1960;
  const auto house_known = hazards(job);
  ASSERT_TRUE(find_gate(house_known, "asbestos_sample"));
  EXPECT_TRUE(names(*find_gate(house_known, "asbestos_sample"), "not known"));
  job.job.year_built = 1995;  // a layer is not older than its house
  EXPECT_FALSE(find_gate(hazards(job), "asbestos_sample"));
}

TEST(Asbestos, ANewTopLayerDoesNotClearAnOldHouse) {
  Job job = small_job();
  job.layers.insert(job.layers.begin(), layer("sheet", Material::sheet_vinyl, 1999));
  job.job.year_built = figures("asb-floor-newer-over-old").at("year");
  EXPECT_TRUE(find_gate(hazards(job), "asbestos_below_newer"));
  job.job.year_built = 1981;
  EXPECT_FALSE(find_gate(hazards(job), "asbestos_below_newer"));
}

TEST(Lead, IsStrictlyBeforeItsYear) {
  const int year = figures("lead-1978").at("build_year_before");  // 40 CFR 745.80
  Job job = small_job();
  job.job.year_built = year - 1;
  ASSERT_TRUE(find_gate(hazards(job), "lead_certified"));
  EXPECT_EQ(find_gate(hazards(job), "lead_certified")->who, "certified renovator");
  job.job.year_built = year;
  EXPECT_FALSE(raises(hazards(job), "lead"));
  job.job.year_built.reset();
  EXPECT_TRUE(find_gate(hazards(job), "lead_certified"));
  EXPECT_TRUE(names(*find_gate(hazards(job), "lead_certified"), "the year built is not known"));
}

TEST(Lead, SmallRepairIsSparedUnlessItDemolishes) {
  const double small = figures("lead-minor-repair").at("interior_ft2_per_room");  // 40 CFR 745.83
  Job job = small_job();
  job.job.year_built = 1950;
  WorkFacts work;
  work.painted_sf = small;
  work.demolishes_paint = false;
  EXPECT_FALSE(find_gate(hazards(job, work), "lead_certified"));
  EXPECT_TRUE(protects(hazards(job, work), "lead_minor"));
  work.painted_sf = small + 0.1;
  EXPECT_TRUE(find_gate(hazards(job, work), "lead_certified"));
  work.painted_sf = small;
  work.demolishes_paint = true;
  EXPECT_TRUE(find_gate(hazards(job, work), "lead_certified"));
  work.demolishes_paint = false;
  work.painted_sf = 100;
  work.paint_tested_free = true;
  EXPECT_FALSE(raises(hazards(job, work), "lead"));
}

TEST(Water, DirtyWaterCondemnsPorousLayers) {
  Job job = small_job();
  job.layers = {layer("tile", Material::ceramic_tile), layer("under", Material::particleboard), layer("ply", Material::plywood_underlayment),
                layer("deck", Material::board)};
  Source leak;
  leak.id = "leak";
  leak.kind = SourceKind::supply_leak;
  job.sources = {leak};
  EXPECT_TRUE(hazards(job).contaminated_layers.empty());
  job.sources[0].water_category = 2;
  EXPECT_EQ(hazards(job).contaminated_layers, std::vector<std::string>{"under"});
  job.sources[0].water_category = 3;
  EXPECT_EQ(hazards(job).contaminated_layers, (std::vector<std::string>{"under", "ply"}));
  EXPECT_TRUE(find_gate(hazards(job), "water_black_clean"));
}

TEST(Water, UnknownCategoryIsTakenAsSewage) {
  Job job = small_job();
  Source leak;
  leak.id = "leak";
  leak.kind = SourceKind::drain_leak;
  job.sources = {leak};
  const auto found = hazards(job);
  ASSERT_TRUE(find_gate(found, "water_black_clean"));
  EXPECT_TRUE(names(*find_gate(found, "water_black_clean"), "not known"));
  job.sources.clear();
  job.marks = {mark("m1", Reading::wet)};
  EXPECT_TRUE(find_gate(hazards(job), "water_black_clean"));
  job.marks = {mark("m1", Reading::dry)};
  EXPECT_FALSE(raises(hazards(job), "water"));
}

TEST(Water, TheDirtiestSourceCounts) {
  Job job = small_job();
  Source clean, river;
  clean.id = "a";
  clean.kind = SourceKind::supply_leak;
  river.id = "b";
  river.kind = SourceKind::surface_water;
  job.sources = {clean, river};
  const auto found = hazards(job);
  ASSERT_TRUE(find_gate(found, "water_black_clean"));
  EXPECT_TRUE(names(*find_gate(found, "water_black_clean"), "source b"));
}

TEST(Growth, BandsFollowThePublishedAreas) {
  const double contain = figures("mould-medium").at("area_ft2_min"), full = figures("mould-large").at("area_ft2_over");  // EPA 402-K-01-001
  Job job = small_job();
  WorkFacts work;
  EXPECT_FALSE(raises(hazards(job), "growth"));
  work.growth_sf = contain - 0.1;
  EXPECT_TRUE(find_gate(hazards(job, work), "growth_no_air"));
  EXPECT_FALSE(find_gate(hazards(job, work), "growth_limited"));
  work.growth_sf = contain;
  EXPECT_TRUE(find_gate(hazards(job, work), "growth_limited"));
  work.growth_sf = full;
  EXPECT_FALSE(find_gate(hazards(job, work), "growth_full"));
  work.growth_sf = full + 0.1;
  EXPECT_TRUE(find_gate(hazards(job, work), "growth_full"));
}

TEST(Growth, OneMarkInASmallRoomCannotBeAHundredSquareFeet) {
  Job job = small_job();
  job.marks = {mark("m1", Reading::growth)};
  EXPECT_TRUE(find_gate(hazards(job), "growth_limited"));
  EXPECT_FALSE(find_gate(hazards(job), "growth_full"));
  job.room.outline_in = rectangle(0, 0, 240, 120);
  EXPECT_TRUE(find_gate(hazards(job), "growth_full"));
}

TEST(Others, TriggerOnlyWhereTheJobAsks) {
  Job job = small_job();
  const auto quiet = hazards(job);
  for (const char* hazard : {"asbestos", "lead", "growth", "insects", "silica", "gas", "crawl_space", "flood_test", "occupied"})
    EXPECT_FALSE(raises(quiet, hazard)) << hazard;
  job.job.below = Below::crawl_space;
  EXPECT_TRUE(find_gate(hazards(job), "crawl_looked"));
  EXPECT_FALSE(find_gate(hazards(job), "fall_guard"));
  job.job.below = Below::unknown;
  EXPECT_TRUE(find_gate(hazards(job), "crawl_looked"));
  EXPECT_TRUE(find_gate(hazards(job), "fall_guard"));
  job.job.below = Below::room;
  EXPECT_TRUE(find_gate(hazards(job), "fall_guard"));
  job.layers.push_back(layer("bed", Material::mortar_bed));
  EXPECT_TRUE(find_gate(hazards(job), "silica_wet"));
  job.marks = {mark("m1", Reading::insects)};
  EXPECT_TRUE(find_gate(hazards(job), "insects_named"));
  Fixture heater;
  heater.id = "wh";
  heater.kind = FixtureKind::water_heater;
  job.fixtures = {heater};
  EXPECT_TRUE(find_gate(hazards(job), "gas_off"));
  job.shower = ShowerPlan{};
  EXPECT_TRUE(find_gate(hazards(job), "close_flood_test"));
  job.job.occupied.reset();
  EXPECT_TRUE(find_gate(hazards(job), "occupied_route"));
}

TEST(Structure, RotUnderABearingWallOrInAMemberAsksForShores) {
  Job job = small_job();
  Wall wall;
  wall.id = "w1";
  wall.bearing = true;
  job.walls = {wall};
  EXPECT_FALSE(find_gate(hazards(job), "structure_shored"));
  Mark gone = mark("m1", Reading::gone);
  Mark joist = mark("m2", Reading::sound);
  joist.layer.reset();
  joist.support = "j1";
  job.marks = {gone, joist};
  EXPECT_TRUE(find_gate(hazards(job), "structure_shored"));
  job.walls[0].bearing = false;
  EXPECT_FALSE(find_gate(hazards(job), "structure_shored"));
  job.marks = {gone};  // no support probed: theirs is not known
  EXPECT_TRUE(find_gate(hazards(job), "structure_shored"));
}

TEST(Gates, StandInTheOrderOfTheWorkWithReasons) {
  Job job = small_job();
  job.job.year_built.reset();
  job.layers.push_back(layer("sheet", Material::sheet_vinyl));
  const auto found = hazards(job);
  for (std::size_t i = 1; i < found.gates.size(); ++i) EXPECT_LE(found.gates[i - 1].before, found.gates[i].before);
  for (const auto& gate : found.gates) {
    EXPECT_FALSE(gate.text.empty());
    EXPECT_EQ(gate.text.find('{'), std::string::npos) << gate.text;
    EXPECT_FALSE(gate.reason.source.empty()) << gate.id;
    EXPECT_FALSE(gate.reason.rule.empty()) << gate.id;
  }
}

// Learning a fact never raises a gate that the same job without that fact did not have.
TEST(Gates, KnowingMoreNeverAddsAGate) {
  testing::for_each_seed(200, [](Random& random) {
    Job known = small_job();
    const auto pick = [&](std::uint64_t count) { return random.below(count); };
    known.job.year_built = 1940 + static_cast<int>(pick(70));
    known.job.occupied = pick(2) == 0;
    known.job.below = static_cast<Below>(1 + pick(3));
    known.layers.insert(known.layers.begin(), layer("top", static_cast<Material>(pick(10)), *known.job.year_built + static_cast<int>(pick(40))));
    Source source;
    source.id = "s";
    source.kind = static_cast<SourceKind>(pick(8));
    source.water_category = 1 + static_cast<int>(pick(3));
    source.active = pick(2) == 0 ? Activity::yes : Activity::no;
    known.sources = {source};
    // What a source of a known kind may bring is bounded by that kind, so the known category is too.
    if (source.kind == SourceKind::supply_leak || source.kind == SourceKind::condensation || source.kind == SourceKind::roof)
      known.sources[0].water_category = 1;
    if (source.kind == SourceKind::surface_water) known.sources[0].water_category = 3;
    if (source.kind == SourceKind::drain_leak || source.kind == SourceKind::seal_leak || source.kind == SourceKind::overflow)
      known.sources[0].water_category = 2 + static_cast<int>(pick(2));
    Job vague = known;
    if (pick(2) == 0) vague.job.year_built.reset();
    if (pick(2) == 0) vague.job.occupied.reset();
    if (pick(2) == 0) vague.job.below = Below::unknown;
    if (pick(2) == 0) vague.layers[0].installed_year.reset();
    if (pick(2) == 0) vague.sources[0].water_category.reset();
    if (pick(2) == 0) vague.sources[0].active = Activity::unknown;
    const auto few = hazards(known), many = hazards(vague);
    for (const auto& gate : few.gates) {
      if (gate.id == "asbestos_below_newer") continue;  // it speaks of a layer whose year is known to be late
      EXPECT_TRUE(find_gate(many, gate.id)) << gate.id;
    }
    for (const auto& id : few.contaminated_layers) EXPECT_TRUE(std::count(many.contaminated_layers.begin(), many.contaminated_layers.end(), id)) << id;
  });
}

}  // namespace
}  // namespace awlmark::hazards
