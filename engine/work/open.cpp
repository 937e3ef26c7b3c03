#include "work/open.hpp"

#include <algorithm>

#include "base/doc.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::work {
namespace {

constexpr std::size_t kMostOpen = 5;  // layers with a result of their own; those after share the last one's
constexpr int kBanned = 1980;

const tables::Row& chance_row(const std::string& id) {
  const auto& table = tables::table("suspects.csv");
  const auto* row = table.find("material", id);
  return row ? *row : *table.find("material", "other");
}

bool removal_is_licensed(const Job& job) {
  const auto found = hazards::hazards(job);
  return std::any_of(found.gates.begin(), found.gates.end(), [](const hazards::Gate& gate) { return gate.id == "asbestos_removal"; });
}

Job with_result(Job job, std::size_t layer, bool clear) {
  job.layers[layer].shown_asbestos_free = clear;
  return job;
}

// The laboratory's word on the whole of a layer, its backing and its glue: one clear part clears no other.
std::optional<bool> found_clear(const Job& job, const Layer& layer) {
  bool all = true;
  for (const auto part : {LaboratoryPart::layer, LaboratoryPart::backing, LaboratoryPart::adhesive}) {
    const auto word = laboratory_of(job, layer, part);
    if (word == LaboratoryWord::positive) return false;
    all = all && word.has_value();
  }
  return all ? std::optional<bool>(true) : layer.shown_asbestos_free;
}

Job with_laboratory(Job job) {
  for (auto& layer : job.layers) layer.shown_asbestos_free = found_clear(job, layer);
  return job;
}

struct Suspect {
  std::size_t layer = 0;
  double chance = 0;  // of asbestos
  Reason reason;
};

double chance_of(const Job& job, const Layer& layer) {
  double chance = chance_row(doc::word_of(layer.material)).number("chance");
  const auto year = layer.installed_year ? layer.installed_year : std::optional<int>{};
  if (!year)
    chance *= chance_row("unknown_year").number("chance");
  else if (*year >= kBanned)
    chance *= chance_row("after_1980").number("chance");
  (void)job;
  return chance;
}

void find_suspects(const Job& job, std::vector<Suspect>& open, std::set<std::size_t>& known_positive) {
  if (!removal_is_licensed(job)) return;
  for (std::size_t i = 0; i < job.layers.size(); ++i) {
    Job alone = job;
    for (std::size_t k = 0; k < alone.layers.size(); ++k)
      if (k != i) alone.layers[k].shown_asbestos_free = true;
    if (!removal_is_licensed(alone)) continue;
    // A layer that a laboratory has already found to hold it is not open any more.
    if (job.layers[i].shown_asbestos_free == false) {
      known_positive.insert(i);
      continue;
    }
    Suspect suspect{i, chance_of(job, job.layers[i]), chance_row(doc::word_of(job.layers[i].material)).reason()};
    suspect.reason.compares = "chance that " + tables::material_facts(doc::word_of(job.layers[i].material)).spoken + " " + job.layers[i].id + " holds asbestos";
    suspect.reason.demand = suspect.chance;
    open.push_back(suspect);
  }
}

}  // namespace

Open open_of(const Job& asked, const floor::Option* option) {
  const Job job = with_laboratory(asked);
  Open open;
  std::vector<Suspect> suspects;
  std::set<std::size_t> positive;
  find_suspects(job, suspects, positive);
  open.suspects = suspects.size();
  open.runs = {{1, {}, positive, false, job}};
  if (suspects.size() > kMostOpen)
    open.notes.push_back("More than " + std::to_string(kMostOpen) + " layers are suspect: those below share one result in the price.");
  for (std::size_t s = 0; s < std::min(suspects.size(), kMostOpen); ++s) {
    const auto& suspect = suspects[s];
    const std::string id = "laboratory." + job.layers[suspect.layer].id;
    const std::string name = tables::material_facts(doc::word_of(job.layers[suspect.layer].material)).spoken + " (" + job.layers[suspect.layer].id + ")";
    const std::size_t first = open.outcomes.size();
    open.outcomes.push_back({id + ".positive", "the laboratory finds asbestos in " + name, suspect.chance, suspect.reason});
    open.outcomes.push_back({id + ".clear", "the laboratory clears " + name, 1 - suspect.chance, suspect.reason});
    std::vector<Combination> split;
    for (const bool clear : {false, true})
      for (auto run : open.runs) {
        run.weight *= clear ? 1 - suspect.chance : suspect.chance;
        run.outcomes.push_back(first + (clear ? 1 : 0));
        const std::size_t last = s + 1 == kMostOpen ? suspects.size() : s + 1;
        for (std::size_t k = s; k < last; ++k) {
          run.job = with_result(std::move(run.job), suspects[k].layer, clear);
          if (!clear) run.positive.insert(suspects[k].layer);
        }
        split.push_back(std::move(run));
      }
    open.runs = std::move(split);
  }
  if (option && option->needs_engineer) {
    const auto& row = chance_row("engineer_more");
    const double more = row.number("chance");
    auto reason = row.reason();
    reason.compares = "chance that the engineer asks for more framing than is drawn";
    const std::size_t first = open.outcomes.size();
    open.outcomes.push_back({"engineer.more", "the engineer asks for more framing than is drawn", more, reason});
    open.outcomes.push_back({"engineer.as_drawn", "the engineer lets the way stand as drawn", 1 - more, reason});
    std::vector<Combination> split;
    for (const bool as_drawn : {false, true})
      for (auto run : open.runs) {
        run.weight *= as_drawn ? 1 - more : more;
        run.outcomes.push_back(first + (as_drawn ? 1 : 0));
        run.engineer_more = !as_drawn;
        split.push_back(std::move(run));
      }
    open.runs = std::move(split);
  }
  return open;
}

}  // namespace awlmark::work
