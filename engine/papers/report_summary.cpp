// The head of the condition report: who, where, when, and the answer in a few sentences.
#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/keys.hpp"
#include "papers/report_sections.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

std::string or_not_recorded(const std::optional<std::string>& text) { return text && !text->empty() ? *text : "not recorded"; }

std::string looked_on(const Job& job) {
  std::set<std::string> dates;
  for (const auto& mark : job.marks)
    if (mark.time) dates.insert(date_of(*mark.time));
  for (const auto& visit : job.visits) dates.insert(date_of(visit.time));
  if (dates.empty()) return "not recorded";
  return dates.size() == 1 ? spoken_date(*dates.begin()) : spoken_date(*dates.begin()) + " to " + spoken_date(*dates.rbegin());
}

std::string looked_by(const Job& job) {
  std::set<std::string> people;
  for (const auto& mark : job.marks)
    if (mark.by && !mark.by->empty()) people.insert(*mark.by);
  for (const auto& visit : job.visits) people.insert(visit.who);
  return people.empty() ? "not recorded" : joined({people.begin(), people.end()});
}

std::string room_size(const Job& job) {
  if (job.room.outline_in.size() < 3) return "not recorded";
  const auto box = bounds(job.room.outline_in);
  return format_length(box.width_in()) + " by " + format_length(box.height_in()) + ", " + square_feet(area_in2(job.room.outline_in) / 144);
}

std::string found_sentence(const Job& job) {
  std::size_t soft = 0, gone = 0, sound = 0, wet = 0;
  for (const auto& mark : job.marks) {
    if (mark.reads == Reading::soft) ++soft;
    if (mark.reads == Reading::gone) ++gone;
    if (mark.reads == Reading::sound) ++sound;
    if (mark.reads == Reading::wet || (mark.mc_percent && *mark.mc_percent >= 20)) ++wet;
  }
  const std::size_t spots = spots_of(numbered(job)).size();
  if (job.marks.empty()) return "Nobody has looked at the wood yet. What follows rests on the age of the house, the layers and the water alone.";
  std::string out = count_of(spots, "spot was", "spots were") + " looked at, " + count_of(job.marks.size(), "reading", "readings") + " in all. ";
  if (soft + gone == 0) return out + "No rot was found at any of them" + (wet > 0 ? ", but " + count_of(wet, "reading is", "readings are") + " wet." : ".");
  return out + "Wood was gone at " + std::to_string(gone) + ", soft at " + std::to_string(soft) + " and sound at " + std::to_string(sound) + " of them.";
}

std::string extent_sentence(const Job& job, const Findings& findings) {
  const auto* field = main_field(job, findings.survey);
  if (field == nullptr) return "";
  const auto range = findings.survey.unsound_sf.find(field->layer);
  if (range == findings.survey.unsound_sf.end()) return "";
  return "Of the floor's " + layer_plain(job, field->layer) + " about " + square_feet(range->second.p50) +
         " is rotten or soft. There are 8 chances in 10 that it is " + between_square_feet(range->second.p10, range->second.p90) + ".";
}

std::string cut_sentence(const Job& job, const Findings& findings) {
  if (!findings.cut_back) return "";
  std::vector<std::string> parts;
  for (const auto& layer : job.layers) {
    const auto area = findings.cut_back->area_sf.find(layer.id);
    if (area != findings.cut_back->area_sf.end() && area->second >= 0.05) parts.push_back(square_feet(area->second) + " of " + layer_plain(job, layer.id));
  }
  double plate_ft = 0;
  for (const auto& [wall, feet] : findings.cut_back->plate_ft) plate_ft += feet;
  if (plate_ft > 0) parts.push_back(format_length(plate_ft * 12) + " of the wall's bottom plate");
  return parts.empty() ? "Nothing has to be cut out by what is known now." : "What comes out: " + joined(parts) + ".";
}

}  // namespace

void write_facts(const Report& report) {
  const auto& facts = report.job.job;
  report.sheet.facts({{"Owner", or_not_recorded(facts.owner)},
                      {"Address", or_not_recorded(facts.address)},
                      {"Contractor", or_not_recorded(facts.contractor)},
                      {"Looked by", looked_by(report.job)},
                      {"Looked on", looked_on(report.job)},
                      {"House built", facts.year_built ? std::to_string(*facts.year_built) : "not known"},
                      {"Room", room_size(report.job)},
                      {"Storey", facts.storey == Storey::unknown ? "not recorded" : spoken_id(doc::word_of(facts.storey)) + " floor"},
                      {"Below it", facts.below == Below::unknown ? "not known" : spoken_id(doc::word_of(facts.below))},
                      {"Lived in", facts.occupied ? (*facts.occupied ? "yes, during the work" : "no") : "not recorded"}});
}

std::vector<std::string> found_words(const Job& job, const Findings& findings) {
  std::vector<std::string> out;
  for (auto& sentence : {found_sentence(job), extent_sentence(job, findings), cut_sentence(job, findings)})
    if (!sentence.empty()) out.push_back(sentence);
  return out;
}

}  // namespace awlmark::papers
