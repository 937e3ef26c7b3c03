#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "show.hpp"
#include "survey/evidence.hpp"
#include "text.hpp"

namespace awlmark::cli {
namespace {

// One letter a 6-in. square, darker for a higher chance of unsound wood; the room's far wall on top.
std::string map_text(const survey::GridFindings& grid, const survey::LayerField& field) {
  constexpr std::string_view kShades = ".:-=+*#%@";
  const int step = std::max(1, static_cast<int>(std::lround(6 / grid.cell_in)));
  std::string text;
  for (int j = ((grid.ny - 1) / step) * step; j >= 0; j -= step) {
    text += "    ";
    for (int i = 0; i < grid.nx; i += step) {
      double most = -1;
      for (int dj = 0; dj < step && j + dj < grid.ny; ++dj)
        for (int di = 0; di < step && i + di < grid.nx; ++di) {
          const double p = field.p_unsound[static_cast<std::size_t>(j + dj) * static_cast<std::size_t>(grid.nx) + static_cast<std::size_t>(i + di)];
          if (!std::isnan(p)) most = std::max(most, p);
        }
      const char shade =
          most < 0 ? ' ' : kShades[std::min<std::size_t>(kShades.size() - 1, static_cast<std::size_t>(most * static_cast<double>(kShades.size())))];
      text += shade;
      text += shade;  // letters are about twice as tall as wide
    }
    text += "\n";
  }
  return text;
}

std::string layers_text(const Job& job, const survey::Survey& survey) {
  std::string text;
  for (const auto& field : survey.layers) {
    const auto* layer = find_layer(job, field.layer);
    const auto range = survey.unsound_sf.find(field.layer);
    if (range == survey.unsound_sf.end() || (layer != nullptr && !survey::can_decay(layer->material))) continue;
    text += "  " + field.layer + (layer != nullptr ? " (" + doc::spoken(layer->material) + ")" : "") + ": unsound " + format_number(range->second.p50, 1) +
            " sf, 8 chances in 10 between " + format_number(range->second.p10, 1) + " and " + format_number(range->second.p90, 1) + " sf\n";
  }
  const auto* deck = structural_deck(job);
  for (const auto& field : survey.layers)
    if (deck != nullptr && field.layer == deck->id)
      text += "\n  Chance of unsound wood in " + field.layer + ", 6 in. a step (. low, @ high):\n" + map_text(survey.grid, field) + "\n";
  return text;
}

std::string openings_text(const survey::Survey& survey) {
  if (survey.stop) return bullet(survey.stop_why);
  std::string text = "  Next:\n";
  int number = 0;
  for (const auto& opening : survey.next_openings) {
    std::string gates;
    for (const auto& gate : opening.gates) gates += (gates.empty() ? " Gates: " : ", ") + gate;
    text += "  " + std::to_string(++number) + ". " + doc::spoken(opening.act) + ": " +
            wrap(opening.why + " Expected to save " + money(opening.worth) + ", costs " + money(opening.cost) + "." + gates + (gates.empty() ? "" : "."), 5) +
            "\n";
  }
  return text;
}

// The findings' own sentences that the figures, the map and the list of openings say already, or
// that speak of a line which only a drawing can show.
bool said_otherwise(const survey::Survey& survey, const std::string& words) {
  if (words == survey.stop_why) return true;
  for (const auto& opening : survey.next_openings)
    if (words == "Next: " + opening.why) return true;
  for (const auto& hold : survey.holds)
    if (words == "Hold: " + hold) return true;
  for (const auto& line : survey.sound_lines)
    if (words == "Layer " + line.layer + ": " + line.words) return true;
  for (const auto& [layer, range] : survey.unsound_sf)
    if (words.rfind("Unsound wood in the " + layer + ":", 0) == 0) return true;
  return false;
}

}  // namespace

std::string due_text(const hazards::Hazards& hazards) {
  std::string text = heading("Due first");
  for (const auto& card : hazards.due.cards) {
    std::string name = card.hazard;
    std::replace(name.begin(), name.end(), '_', ' ');
    text += bullet(name + ": " + card.text);
  }
  if (hazards.due.folded > 0) text += "  and " + std::to_string(hazards.due.folded) + " more, none of them deadly.\n";
  if (hazards.due.cards.empty() && hazards.due.folded == 0) text += "  Nothing.\n";
  return text;
}

std::string survey_text(const Job& job, const Findings& findings) {
  const auto& survey = findings.survey;
  std::string text = heading("Survey: " + (job.job.name.empty() ? std::string("job") : job.job.name));
  text += layers_text(job, survey);
  for (const auto& words : survey.words)
    if (!said_otherwise(survey, words)) text += bullet(words);
  text += openings_text(survey);
  for (const auto& hold : survey.holds) text += bullet("Hold: " + hold);
  if (survey.last_change) text += bullet(survey.last_change->words);
  for (const auto& note : survey.inference.notes) text += bullet("Note: " + note);
  for (const auto& warning : findings.warnings) text += bullet("Doubtful: " + describe(warning));
  return text;
}

}  // namespace awlmark::cli
