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
  if (dates.empty()) return "not recorded";
  return dates.size() == 1 ? *dates.begin() : *dates.begin() + " to " + *dates.rbegin();
}

std::string looked_by(const Job& job) {
  std::set<std::string> people;
  for (const auto& mark : job.marks)
    if (mark.by && !mark.by->empty()) people.insert(*mark.by);
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
  out += "Wood was gone at " + count_of(gone, "reading", "readings") + ", soft at " + std::to_string(soft) + " and sound at " + std::to_string(sound) + ".";
  return out;
}

std::string extent_sentence(const Report& report) {
  const auto& survey = report.findings.survey;
  const auto* field = main_field(report.job, survey);
  if (field == nullptr) return "";
  const auto range = survey.unsound_sf.find(field->layer);
  if (range == survey.unsound_sf.end()) return "";
  return "In the " + spoken_id(field->layer) + ", about " + square_feet(range->second.p50) + " of wood is unsound. There are 8 chances in 10 that it is " +
         between_square_feet(range->second.p10, range->second.p90) + ".";
}

std::string next_sentence(const survey::Survey& survey) {
  if (survey.stop || survey.next_openings.empty()) return survey.stop ? "No further opening is worth what it costs: the floor can be decided now." : "";
  const auto& best = survey.next_openings.front();
  return "Look next at spot A, " + place_words(best.at_in) + ": worth about " + rough_money(best.worth) + " for a cost of about " + rough_money(best.cost) +
         ".";
}

std::string gates_sentence(const Findings& findings) {
  if (!findings.hazards) return "";
  const auto count = findings.hazards->gates.size();
  return count == 0 ? "" : count_of(count, "condition has", "conditions have") + " to be met before certain steps; see \"Before anyone starts\".";
}

std::string cut_sentence(const Report& report) {
  if (!report.findings.cut_back) return "";
  std::vector<std::string> parts;
  for (const auto& [layer, area] : report.findings.cut_back->area_sf)
    if (area >= 0.05) parts.push_back(square_feet(area) + " of " + spoken_id(layer));
  return parts.empty() ? "Nothing has to be cut out by what is known now." : "The cut-back takes out " + joined(parts) + ".";
}

std::string floor_sentence(const Findings& findings) {
  if (!findings.floor || findings.floor->as_found.checks.empty()) return "";
  const auto& checks = findings.floor->as_found.checks;
  const auto past = static_cast<std::size_t>(std::count_if(checks.begin(), checks.end(), [](const Check& check) { return failing(check); }));
  std::string out = past == 0 ? "As found, the floor passes every check made."
                              : "As found, the floor fails " + std::to_string(past) + " of " + count_of(checks.size(), "check", "checks") + ".";
  if (const auto* option = chosen_option(findings)) out += " Way to rebuild: " + option->title + (option->needs_engineer ? ", which needs an engineer." : ".");
  return out;
}

std::string price_sentence(const Findings& findings) {
  if (!findings.price) return "";
  const auto& price = *findings.price;
  return "Price: an even chance of ending below " + rough_money(price.p50) + ", 9 chances in 10 of ending below " + rough_money(price.p90) + ".";
}

void write_figures(const Report& report) {
  auto& out = report.sheet.out();
  const auto& survey = report.findings.survey;
  std::vector<Fact> figures;
  if (const auto* field = main_field(report.job, survey)) {
    const auto range = survey.unsound_sf.find(field->layer);
    if (range != survey.unsound_sf.end()) figures.push_back({"unsound " + spoken_id(field->layer) + ", middle figure", square_feet(range->second.p50)});
  }
  if (report.findings.cut_back && structural_deck(report.job) != nullptr) {
    const auto area = report.findings.cut_back->area_sf.find(structural_deck(report.job)->id);
    if (area != report.findings.cut_back->area_sf.end()) figures.push_back({"of " + spoken_id(area->first) + " to take out", square_feet(area->second)});
  }
  if (report.findings.price) figures.push_back({"even chance of ending below", rough_money(report.findings.price->p50)});
  if (report.findings.work && report.findings.work->finish.p50_days > 0)
    figures.push_back({"working days, even chance", format_number(report.findings.work->finish.p50_days, 0)});
  if (figures.size() < 2) return;
  out.open("div", {{"class", "figures"}});
  for (const auto& item : figures) out.open("div").element("b", item.value).element("span", item.name).close();
  out.close();
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

std::vector<std::string> found_sentences(const Report& report) {
  std::vector<std::string> out;
  for (auto& sentence : {found_sentence(report.job), extent_sentence(report), cut_sentence(report)})
    if (!sentence.empty()) out.push_back(sentence);
  return out;
}

void write_in_short(const Report& report) {
  std::vector<std::string> sentences;
  for (auto& sentence : {found_sentence(report.job), extent_sentence(report), cut_sentence(report), floor_sentence(report.findings),
                         gates_sentence(report.findings), next_sentence(report.findings.survey), price_sentence(report.findings)})
    if (!sentence.empty()) sentences.push_back(sentence);
  report.sheet.section("In short");
  report.sheet.list(sentences, "short-list");
  write_figures(report);
}

}  // namespace awlmark::papers
