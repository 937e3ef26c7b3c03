#include "text.hpp"

#include "base/dollars.hpp"

namespace awlmark::cli {

std::string heading(const std::string& title) { return "\n" + title + "\n" + std::string(std::min<std::size_t>(title.size(), 100), '-') + "\n"; }

std::string wrap(const std::string& text, std::size_t indent) {
  constexpr std::size_t kColumns = 100;
  std::string out;
  std::size_t column = indent;
  std::size_t at = 0;
  while (at < text.size()) {
    const auto end = std::min(text.find(' ', at), text.size());
    const auto word = text.substr(at, end - at);
    if (column > indent && column + 1 + word.size() > kColumns) {
      out += "\n" + std::string(indent, ' ');
      column = indent;
    } else if (!out.empty()) {
      out += " ";
      ++column;
    }
    out += word;
    column += word.size();
    at = end + 1;
  }
  return out;
}

std::string bullet(const std::string& text) { return "  - " + wrap(text, 4) + "\n"; }

std::string money(double amount) { return rough_dollars(amount); }

}  // namespace awlmark::cli
