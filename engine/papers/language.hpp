// Words of the crew sheet: one row a phrase, one column a language, so that a language is a column.
//
// Spanish as spoken on building sites in the United States, trade words of both languages side by side
// where crews use the English one. Translated for this project: common practice, no source.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "hazards/hazards.hpp"

namespace awlmark::papers {

enum class Language { english, spanish };
std::string code_of(Language language);  // "en", "es"

// A phrase in the language; the phrase itself where the table has no row for it.
std::string said(Language language, std::string_view english);
// Whether the table has a row, or none is needed.
bool is_said(Language language, std::string_view english);
// What a gate asks, in few words, and who may do it.
std::string gate_said(Language language, const hazards::Gate& gate);
// What protects while the work runs, in few words; in full where no short form is known.
std::string protection_said(Language language, const hazards::Protection& protection);
// A name of goods ("2x6 blocking"): what the table knows of it is put into the language, sizes stay.
std::string goods_said(Language language, std::string item);

}  // namespace awlmark::papers
