// The table behind language.hpp: a key, and the same words in each language.
#pragma once

#include <string_view>
#include <vector>

namespace awlmark::papers {

struct Phrase {
  std::string_view key;  // the English phrase, or the id of a gate or protection
  std::string_view english;
  std::string_view spanish;
};

const std::vector<Phrase>& crew_phrases();
const std::vector<Phrase>& gate_phrases();        // by the id of data/hazards.json; English is the gate's own
const std::vector<Phrase>& protection_phrases();  // by the same ids
const std::vector<Phrase>& goods_phrases();       // parts of names of goods, longer ones first

}  // namespace awlmark::papers
