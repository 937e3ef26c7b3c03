// The look of the papers: paper-white, dark ink, one rust accent; letter size in print.
#pragma once

#include <string>

#include "papers/language.hpp"

namespace awlmark::papers {

// `running_title` stands on every printed page.
std::string style_rules(const std::string& running_title, Language language = Language::english);

}  // namespace awlmark::papers
