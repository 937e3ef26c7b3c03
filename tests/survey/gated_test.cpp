// What a proposal may go through and what it may not repeat, on random jobs. AWLMARK_JOBS=1000 for many.
#include <gtest/gtest.h>

#include <cstdlib>

#include "hazards/hazards.hpp"
#include "support/property.hpp"
#include "survey/example_job.hpp"
#include "survey/survey.hpp"

namespace awlmark {
namespace {

using survey::Act;

int jobs_wanted() {
  const char* asked = std::getenv("AWLMARK_JOBS");
  return asked != nullptr ? std::atoi(asked) : 40;
}

Layer layer_of(const std::string& id, Material material) {
  Layer layer;
  layer.id = id;
  layer.material = material;
  return layer;
}

// A room with old layers of unknown and known years, bare places, cabinets, members, walls, marks.
Job random_job(Random& random) {
  const auto pick = [&](std::uint64_t n) { return static_cast<int>(random.below(n)); };
  Job job;
  if (pick(3) > 0) job.job.year_built = 1930 + pick(80);
  job.job.below = static_cast<Below>(pick(4));
  const double w = 60 + 6 * pick(20), h = 60 + 6 * pick(12);
  job.room.outline_in = rectangle(0, 0, w, h);
  const Material covers[] = {Material::sheet_vinyl,  Material::vinyl_tile, Material::sheet_linoleum,
                             Material::ceramic_tile, Material::felt,       Material::gypsum_board};
  job.layers.push_back(layer_of("top", covers[pick(6)]));
  if (pick(2) == 0) job.layers.push_back(layer_of("glue", Material::adhesive));
  if (pick(2) == 0) job.layers.push_back(layer_of("second", covers[pick(6)]));
  job.layers.push_back(layer_of("under", pick(2) == 0 ? Material::plywood_underlayment : Material::particleboard));
  job.layers.push_back(layer_of("deck", Material::board));
  for (auto& layer : job.layers) {
    if (pick(3) == 0) layer.installed_year = 1950 + pick(60);
    if (pick(6) == 0) layer.absent_in.push_back(rectangle(6, 6, 30, 30));
    if (pick(5) == 0) layer.goes = true;
  }
  for (int i = 0; i < pick(3); ++i) {
    Support joist;
    joist.id = "j" + std::to_string(i);
    joist.from_in = {16.0 + 16 * i, 0};
    joist.to_in = {16.0 + 16 * i, h};
    job.supports.push_back(joist);
  }
  if (pick(2) == 0) {
    Wall wall;
    wall.id = "w1";
    wall.from_in = {0, 0};
    wall.to_in = {w, 0};
    job.walls.push_back(wall);
  }
  if (pick(2) == 0) {
    Fixture cabinet;
    cabinet.id = "vanity";
    cabinet.kind = FixtureKind::vanity;
    cabinet.outline_in = rectangle(w - 30, h - 22, w, h);
    job.fixtures.push_back(cabinet);
  }
  Source source;
  source.id = "leak";
  source.at_in = Point{w / 2, h - 8};
  job.sources.push_back(source);
  const Reading reads[] = {Reading::sound, Reading::soft, Reading::gone};
  for (int i = 0; i < pick(6); ++i) {
    Mark mark;
    mark.id = "m" + std::to_string(i);
    const int x = 3 + pick(static_cast<std::uint64_t>(w) - 6), y = 3 + pick(static_cast<std::uint64_t>(h) - 6);
    mark.at_in = Point{static_cast<double>(x), static_cast<double>(y)};
    mark.layer = pick(2) == 0 ? "deck" : "under";
    mark.from = From::below;
    mark.reads = reads[pick(3)];
    job.marks.push_back(mark);
  }
  return job;
}

survey::Options many() {
  survey::Options options;
  options.openings = 6;
  options.draws = 0;
  options.last_change = false;
  options.cell_in = 6;
  return options;
}

// No proposal but a sample goes through a presumed layer, whether it names it or not.
void expect_gated(const Job& job, const hazards::Hazards& hazards, const survey::NextOpening& next) {
  EXPECT_TRUE(std::find(next.probes_in.begin(), next.probes_in.end(), next.at_in) != next.probes_in.end()) << next.why;
  EXPECT_GE(next.cost, 72.0 / 6 - 1e-9) << next.why;
  if (next.from != survey::Vantage::above || next.act == Act::look || next.act == Act::sweep) {
    EXPECT_TRUE(next.pierces.empty()) << next.why;
  }
  if (next.act == Act::sample) return;
  for (const auto& id : next.pierces) EXPECT_EQ(std::count(hazards.presumed_layers.begin(), hazards.presumed_layers.end(), id), 0) << next.why;
  if (next.act != Act::open) return;
  // Every layer there down to the last that is read is named.
  for (const Point p : next.probes_in)
    for (const auto& layer : job.layers) {
      if (!covers(job, layer, p) || std::count(next.pierces.begin(), next.pierces.end(), layer.id) > 0) continue;
      const Layer* last = find_layer(job, next.pierces.back());
      EXPECT_GT(&layer, last) << next.why;
    }
}

// Nor for what was read already.
void expect_new(const Job& job, const survey::NextOpening& next) {
  if (next.act != Act::open || next.support || next.wall) return;
  for (const auto& mark : job.marks)
    if (std::count(next.pierces.begin(), next.pierces.end(), *mark.layer) > 0) {
      EXPECT_GT(distance_in(*mark.at_in, next.at_in), 5.9) << next.why;
    }
}

TEST(Gated, NoProposalPiercesAPresumedLayerOrRepeatsAReading) {
  int presumed = 0, samples = 0, proposals = 0;
  testing::for_each_seed(jobs_wanted(), [&](Random& random) {
    const Job job = random_job(random);
    const auto hazards = hazards::hazards(job);
    presumed += hazards.presumed_layers.empty() ? 0 : 1;
    for (const auto& next : survey::survey(job, hazards, many()).findings.next_openings) {
      ++proposals;
      samples += next.act == Act::sample ? 1 : 0;
      expect_gated(job, hazards, next);
      expect_new(job, next);
    }
  });
  EXPECT_GT(presumed, jobs_wanted() / 4);
  EXPECT_GT(samples, 0);
  EXPECT_GT(proposals, jobs_wanted());
}

Job old_laundry(const std::string& more = "") {
  Job job = testing::laundry("[" + testing::awl_mark("a", 84, 60, "deck", "gone") + "]", more);
  job.job.year_built = 1954;
  job.layers[0].installed_year = 1971;
  return job;
}

bool pierces_the_sheet(const Job& job) {
  for (const auto& next : survey::survey(job, many()).findings.next_openings)
    if (next.act != Act::sample && std::count(next.pierces.begin(), next.pierces.end(), "sheet") > 0) return true;
  return false;
}

TEST(Gated, OnlyTheLaboratoryOpensAPresumedLayer) {
  Job job = old_laundry();
  job.job.below = Below::unknown;
  EXPECT_FALSE(pierces_the_sheet(job));
  job.hazards = JobHazards{};
  for (const char* gate : {"asbestos_no_piercing", "asbestos_sample", "asbestos_removal"})
    job.hazards->met.push_back({gate, "J. D.", "2026-05-11T08:00:00Z", "photo"});
  EXPECT_FALSE(pierces_the_sheet(job)) << "a tick is no laboratory";
  LaboratoryResult result;
  result.layer = "sheet";
  result.result = LaboratoryWord::clear;
  result.part = LaboratoryPart::layer;
  job.hazards->facts.laboratory = {result};
  EXPECT_FALSE(pierces_the_sheet(job)) << "its backing and adhesive are not cleared";
  job.hazards->facts.laboratory[0].part.reset();
  EXPECT_TRUE(pierces_the_sheet(job));
  job.hazards->facts.laboratory[0].result = LaboratoryWord::positive;
  job.layers[0].installed_year = 1999;
  EXPECT_FALSE(pierces_the_sheet(job)) << "a positive result stands against the year";
}

TEST(Gated, AProposalCarriesTheGatesOfItsAct) {
  int below = 0, sample = 0;
  for (const Below under : {Below::crawl_space, Below::room}) {
    Job job = old_laundry();
    job.job.below = under;
    for (const auto& next : survey::survey(job, many()).findings.next_openings) {
      const auto has = [&](const char* id) { return std::count(next.gates.begin(), next.gates.end(), id) > 0; };
      if (next.from == survey::Vantage::below) {
        ++below;
        EXPECT_EQ(under, Below::crawl_space);
        EXPECT_TRUE(has("crawl_looked")) << next.why;
        EXPECT_FALSE(has("asbestos_no_piercing")) << next.why;
      }
      if (next.act == Act::sample) {
        ++sample;
        EXPECT_EQ(next.pierces, std::vector<std::string>{"sheet"});
        EXPECT_FALSE(has("asbestos_no_piercing")) << "the sample itself is not kept back by what it lifts";
        EXPECT_GT(next.cost, 180);  // the laboratory's own fee
      }
    }
  }
  EXPECT_GT(below, 0);
  EXPECT_GT(sample, 0);
}

TEST(Gated, AMemberUnderGoneWoodIsReadOrHeld) {
  Job job = old_laundry();
  job.marks[0].at_in = Point{80, 60};  // over j2
  job.rates = Rates{};
  job.rates->opening = 5000;
  job.rates->labour_per_hour = 50000;  // nothing pays
  const auto held = survey::survey(job, many()).findings;
  EXPECT_FALSE(held.stop);
  ASSERT_FALSE(held.next_openings.empty());
  EXPECT_EQ(held.next_openings[0].support, "j2");
  EXPECT_EQ(held.next_openings[0].from, survey::Vantage::below);
  bool said = false;
  for (const auto& hold : held.holds) said = said || hold.find("j2") != std::string::npos;
  EXPECT_TRUE(said);
  Mark joist;
  joist.id = "b";
  joist.support = "j2";
  joist.along_in = 60;
  joist.reads = Reading::sound;
  job.marks.push_back(joist);
  const auto read = survey::survey(job, many()).findings;
  for (const auto& hold : read.holds) EXPECT_EQ(hold.find("j2"), std::string::npos) << hold;
}

}  // namespace
}  // namespace awlmark
