// What is due today: one card a hazard, the worst first.
#include <algorithm>

#include "base/doc.hpp"
#include "hazards/hazards.hpp"
#include "tables/embedded.hpp"

namespace awlmark::hazards {
namespace {

// Hazards from the worst down, as data/hazards.json ranks them.
const std::vector<std::string>& by_harm() {
  static const std::vector<std::string> order = [] {
    std::vector<std::string> names;
    const auto rules = doc::Json::parse(tables::embedded("hazards.json"));
    for (const auto& name : rules.at("harm")) names.push_back(name.get<std::string>());
    return names;
  }();
  return order;
}

std::size_t rank_of(const std::string& hazard) {
  const auto& order = by_harm();
  return static_cast<std::size_t>(std::find(order.begin(), order.end(), hazard) - order.begin());
}

int words_in(const std::string& text) {
  int words = 0;
  bool inside = false;
  for (const char c : text) {
    if (c != ' ' && !inside) ++words;
    inside = c != ' ';
  }
  return words;
}

}  // namespace

Due due_before(const Hazards& hazards, const std::vector<Before>& steps) {
  std::vector<Card> cards;
  for (const Gate& gate : hazards.gates) {
    if (std::find(steps.begin(), steps.end(), gate.before) == steps.end()) continue;
    auto card = std::find_if(cards.begin(), cards.end(), [&](const Card& c) { return c.hazard == gate.hazard; });
    if (card == cards.end()) card = cards.insert(cards.end(), Card{gate.hazard, "", {}, false});
    card->text += (card->text.empty() ? "" : " ") + gate.brief;
    card->gates.push_back(gate.id);
    card->deadly = card->deadly || gate.deadly;
  }
  std::stable_sort(cards.begin(), cards.end(), [](const Card& a, const Card& b) {
    if (a.deadly != b.deadly) return a.deadly;
    return rank_of(a.hazard) < rank_of(b.hazard);
  });
  Due due;
  const bool deadly = !cards.empty() && cards.front().deadly;
  int words = 0;
  for (Card& card : cards) {
    words += words_in(card.text);
    const bool shows = card.deadly || (!deadly && words <= kMostWords);
    if (shows)
      due.cards.push_back(std::move(card));
    else
      due.folded += static_cast<int>(card.gates.size());
  }
  return due;
}

}  // namespace awlmark::hazards
