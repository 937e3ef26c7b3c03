#include "base/problem.hpp"

#include <algorithm>
#include <numeric>

namespace awlmark {
namespace {

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t above = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1)});
      diagonal = above;
    }
  }
  return row[b.size()];
}

}  // namespace

std::string describe(const Problem& problem) {
  std::string line = problem.at.empty() ? problem.what : problem.at + ": " + problem.what;
  if (!problem.mend.empty()) line += "; " + problem.mend;
  return line;
}

std::vector<std::string> nearest_words(std::string_view word, const std::vector<std::string>& known, std::size_t count) {
  constexpr std::size_t kLongestCompared = 64;  // the distance is quadratic, and the word comes from outside
  if (word.size() > kLongestCompared) return {};
  std::vector<std::pair<std::size_t, std::string>> ranked;
  for (const auto& candidate : known) {
    const bool inside = word.size() >= 3 && (candidate.find(word) != std::string::npos || word.find(candidate) != std::string_view::npos);
    const std::size_t distance = inside ? 1 : edit_distance(word, candidate);
    if (distance <= std::max<std::size_t>(2, candidate.size() / 2)) ranked.emplace_back(distance, candidate);
  }
  std::sort(ranked.begin(), ranked.end());
  std::vector<std::string> nearest;
  for (const auto& [distance, candidate] : ranked) {
    if (nearest.size() == count) break;
    nearest.push_back(candidate);
  }
  return nearest;
}

}  // namespace awlmark
