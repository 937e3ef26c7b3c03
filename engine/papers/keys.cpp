#include "papers/keys.hpp"

#include <algorithm>
#include <cmath>

#include "papers/markup.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

// Readings within this distance came out of the same hole.
constexpr double kSameSpot_in = 1.5;

std::string numbers_text(const std::vector<NumberedMark>& marks) {
  std::string out;
  for (std::size_t i = 0; i < marks.size();) {
    std::size_t end = i;
    while (end + 1 < marks.size() && marks[end + 1].number == marks[end].number + 1) ++end;
    if (!out.empty()) out += ", ";
    out += std::to_string(marks[i].number);
    if (end > i) out += (end == i + 1 ? ", " : "-") + std::to_string(marks[end].number);
    i = end + 1;
  }
  return out;
}

}  // namespace

std::vector<NumberedMark> numbered(const Job& job) {
  std::vector<NumberedMark> marks;
  for (const auto& mark : job.marks) {
    auto place = place_of(job, mark);
    if (place && !(std::isfinite(place->x_in) && std::isfinite(place->y_in))) place.reset();
    marks.push_back({static_cast<int>(marks.size()) + 1, &mark, place});
  }
  return marks;
}

std::vector<Spot> spots_of(const std::vector<NumberedMark>& marks) {
  std::vector<Spot> spots;
  for (const auto& mark : marks) {
    if (!mark.at_in) continue;
    const auto near = std::find_if(spots.begin(), spots.end(), [&](const Spot& spot) { return distance_in(spot.at_in, *mark.at_in) <= kSameSpot_in; });
    if (near == spots.end())
      spots.push_back({*mark.at_in, {mark}, {}});
    else
      near->marks.push_back(mark);
  }
  for (auto& spot : spots) spot.label = numbers_text(spot.marks);
  return spots;
}

std::optional<Point> photo_place(const Job& job, const Photo& photo) {
  std::optional<Point> place = photo.at_in;
  for (const auto& mark : job.marks)
    if (!place && photo.mark && mark.id == *photo.mark) place = place_of(job, mark);
  for (const auto& opening : job.openings)
    if (!place && photo.opening && opening.id == *photo.opening) place = opening.at_in;
  if (place && !(std::isfinite(place->x_in) && std::isfinite(place->y_in))) place.reset();
  return place;
}

std::string letter_of(std::size_t index) {
  std::string out;
  for (++index; index > 0; index = (index - 1) / 26) out.insert(out.begin(), static_cast<char>('A' + (index - 1) % 26));
  return out;
}

std::string drawing_name(const std::string& id, const std::string& prefix, std::size_t index) {
  constexpr std::size_t kShort = 6;
  const bool plain = !id.empty() && id.size() <= kShort && std::all_of(id.begin(), id.end(), [](char c) { return c > ' ' && c < 0x7F; });
  return plain ? id : prefix + std::to_string(index + 1);
}

bool usable(const survey::GridFindings& grid, const survey::LayerField& field) {
  return grid.nx > 0 && grid.ny > 0 && grid.cell_in > 0 && field.p_unsound.size() == static_cast<std::size_t>(grid.nx) * static_cast<std::size_t>(grid.ny);
}

const survey::LayerField* main_field(const Job& job, const survey::Survey& survey) {
  const Layer* deck = structural_deck(job);
  const survey::LayerField* last = nullptr;
  for (const auto& field : survey.layers) {
    if (!usable(survey.grid, field)) continue;
    if (deck != nullptr && field.layer == deck->id) return &field;
    last = &field;
  }
  return last;
}

const floor::Option* chosen_option(const Findings& findings) {
  if (!findings.floor) return nullptr;
  for (const auto& option : findings.floor->options)
    if (option.id == findings.floor->chosen) return &option;
  return nullptr;
}

std::string layer_title(const Job& job, const std::string& id) {
  const Layer* layer = find_layer(job, id);
  return layer == nullptr ? sentence_case(id) : sentence_case(layer_plain(job, id));
}

std::string layer_plain(const Job& job, const std::string& id) {
  const Layer* layer = find_layer(job, id);
  if (layer == nullptr) return id;
  return id == spoken_id(doc::word_of(layer->material)) ? id : id + " (" + material_words(layer->material) + ")";
}

}  // namespace awlmark::papers
