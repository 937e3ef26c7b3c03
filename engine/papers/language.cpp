#include "papers/language.hpp"

#include <algorithm>

#include "papers/crew_words.hpp"

namespace awlmark::papers {
namespace {

const Phrase* row_of(const std::vector<Phrase>& table, std::string_view key) {
  const auto row = std::find_if(table.begin(), table.end(), [&](const Phrase& phrase) { return phrase.key == key; });
  return row == table.end() ? nullptr : &*row;
}

std::string column(Language language, const Phrase& phrase) { return std::string(language == Language::spanish ? phrase.spanish : phrase.english); }

}  // namespace

std::string code_of(Language language) { return language == Language::spanish ? "es" : "en"; }

std::string said(Language language, std::string_view english) {
  if (language == Language::english) return std::string(english);
  const auto* row = row_of(crew_phrases(), english);
  return row == nullptr ? std::string(english) : column(language, *row);
}

bool is_said(Language language, std::string_view english) { return language == Language::english || row_of(crew_phrases(), english) != nullptr; }

std::string gate_said(Language language, const hazards::Gate& gate) {
  const std::string own = gate.brief.empty() ? gate.text : gate.brief;
  if (language == Language::english) return own;
  const auto* row = row_of(gate_phrases(), gate.id);
  return row == nullptr ? own : column(language, *row);
}

std::string protection_said(Language language, const hazards::Protection& protection) {
  const auto* row = row_of(protection_phrases(), protection.id);
  return row == nullptr ? protection.text : column(language, *row);
}

std::string goods_said(Language language, std::string item) {
  if (language == Language::english) return item;
  for (const auto& phrase : goods_phrases())  // longer phrases come first
    if (const auto at = item.find(phrase.english); at != std::string::npos) item.replace(at, phrase.english.size(), phrase.spanish);
  return item;
}

}  // namespace awlmark::papers
