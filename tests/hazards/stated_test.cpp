// Facts and met gates that the job itself states, and what is due today.
#include <gtest/gtest.h>

#include <algorithm>

#include "hazards/hazards.hpp"

namespace awlmark::hazards {
namespace {

Job old_floor() {
  Job job;
  job.job.year_built = 1954;
  job.job.below = Below::crawl_space;
  job.room.outline_in = rectangle(0, 0, 108, 72);
  Layer sheet, glue, deck;
  sheet.id = "sheet";
  sheet.material = Material::sheet_vinyl;
  sheet.installed_year = 1971;
  glue.id = "glue";
  glue.material = Material::adhesive;
  deck.id = "deck";
  deck.material = Material::board;
  job.layers = {sheet, glue, deck};
  job.hazards = JobHazards{};
  return job;
}

bool has(const Hazards& found, const std::string& id) {
  return std::any_of(found.gates.begin(), found.gates.end(), [&](const Gate& g) { return g.id == id; });
}

const Gate& gate_of(const Hazards& found, const std::string& id) {
  return *std::find_if(found.gates.begin(), found.gates.end(), [&](const Gate& g) { return g.id == id; });
}

LaboratoryResult clear(const std::string& layer) {
  LaboratoryResult result;
  result.layer = layer;
  result.result = LaboratoryWord::clear;
  return result;
}

TEST(Stated, AMetGateIsGoneAndKeptAsARecord) {
  Job job = old_floor();
  ASSERT_TRUE(has(hazards(job), "structure_looked"));
  job.hazards->met = {{"structure_looked", "J. D.", "2026-05-11T08:00:00Z", "photo p3"}};
  const auto found = hazards(job);
  EXPECT_FALSE(has(found, "structure_looked"));
  ASSERT_EQ(found.met.size(), 1u);
  EXPECT_EQ(found.met[0].by, "J. D.");
  EXPECT_EQ(found.met[0].evidence, "photo p3");
}

TEST(Stated, ATickNeverLiftsAsbestos) {
  Job job = old_floor();
  for (const auto& gate : hazards(job).gates) job.hazards->met.push_back({gate.id, "J. D.", "2026-05-11", {}});
  const auto found = hazards(job);
  EXPECT_TRUE(has(found, "asbestos_no_piercing"));
  EXPECT_TRUE(has(found, "asbestos_removal"));
  EXPECT_EQ(found.presumed_layers, (std::vector<std::string>{"sheet", "glue"}));
  for (const auto& gate : found.gates) EXPECT_EQ(gate.hazard, "asbestos") << gate.id;
}

TEST(Stated, TheLaboratoryLiftsLayerByLayer) {
  Job job = old_floor();
  job.hazards->facts.laboratory = {clear("sheet")};
  EXPECT_EQ(hazards(job).presumed_layers, std::vector<std::string>{"glue"});
  job.hazards->facts.laboratory.push_back(clear("glue"));
  const auto found = hazards(job);
  EXPECT_TRUE(found.presumed_layers.empty());
  EXPECT_FALSE(has(found, "asbestos_no_piercing"));
}

// A glue of unknown year is as old as what it holds, in a new house too.
TEST(Stated, AGlueIsAsOldAsWhatItHolds) {
  Job job = old_floor();
  job.job.year_built = 1990;
  job.layers[0].installed_year = 1975;  // carried over from elsewhere, says the job
  EXPECT_EQ(hazards(job).presumed_layers, (std::vector<std::string>{"sheet", "glue"}));
}

TEST(Stated, FactsTakeGatesAway) {
  Job job = old_floor();
  ASSERT_TRUE(has(hazards(job), "lead_certified"));
  EXPECT_FALSE(gate_of(hazards(job), "lead_certified").lifted_by.empty());
  job.hazards->facts.paint_tested = LaboratoryWord::clear;
  EXPECT_FALSE(has(hazards(job), "lead_certified"));
  ASSERT_TRUE(has(hazards(job), "asbestos_wallboard"));
  job.job.year_built = 1981;
  EXPECT_FALSE(has(hazards(job), "asbestos_wallboard"));
}

TEST(Stated, WhoTakesSuspectFlooringIsTheStatesToSay) {
  Job job = old_floor();
  EXPECT_EQ(gate_of(hazards(job), "asbestos_removal").who, "licensed asbestos contractor");
  job.settings = StateSettings{};
  job.settings->asbestos_removal_licensed_over_sf = 160;
  EXPECT_NE(gate_of(hazards(job), "asbestos_removal").who.find("no licence up to 160"), std::string::npos);
  job.settings->asbestos_removal_licensed_over_sf = 10;
  EXPECT_NE(gate_of(hazards(job), "asbestos_removal").who.find("licensed asbestos contractor"), std::string::npos);
}

TEST(Due, OneCardAHazardTheDeadlyFirstAndTheRestFolded) {
  const auto found = hazards(old_floor());
  const auto due = due_before(found, {Before::touching, Before::entering, Before::opening, Before::lifting, Before::cutting});
  ASSERT_FALSE(due.cards.empty());
  EXPECT_EQ(due.cards[0].hazard, "asbestos");
  for (std::size_t i = 0; i < due.cards.size(); ++i) {
    EXPECT_TRUE(due.cards[i].deadly);
    for (std::size_t j = 0; j < i; ++j) EXPECT_NE(due.cards[i].hazard, due.cards[j].hazard);
  }
  EXPECT_GT(due.folded, 0);
}

TEST(Due, QuietJobsAreShort) {
  Job job = old_floor();
  job.job.year_built = 2010;
  job.job.below = Below::basement;
  job.job.occupied = false;
  job.layers.erase(job.layers.begin(), job.layers.begin() + 2);
  Source leak;
  leak.id = "leak";
  leak.kind = SourceKind::supply_leak;
  leak.active = Activity::no;
  job.sources = {leak};
  const auto due = due_before(hazards(job), {Before::touching, Before::lifting, Before::covering});
  int words = 0;
  for (const auto& card : due.cards) {
    EXPECT_FALSE(card.deadly) << card.text;
    words += 1 + static_cast<int>(std::count(card.text.begin(), card.text.end(), ' '));
  }
  EXPECT_LE(words, kMostWords);
}

}  // namespace
}  // namespace awlmark::hazards
