// Small pieces of terminal text.
#pragma once

#include <string>

namespace awlmark::cli {

std::string heading(const std::string& title);                  // blank line, title, rule
std::string wrap(const std::string& text, std::size_t indent);  // at 100 columns, later lines indented
std::string bullet(const std::string& text);                    // "  - text", wrapped
std::string money(double amount);                               // "$1,240"

}  // namespace awlmark::cli
