// The look of the papers: paper-white, dark ink, one rust accent; letter size in print.
#pragma once

#include <string>

namespace awlmark::papers {

// `running_title` stands on every printed page.
std::string style_rules(const std::string& running_title);

}  // namespace awlmark::papers
