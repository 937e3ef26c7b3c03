// From the words of the published cases to the ids of the topics.
#pragma once

#include <map>
#include <string>

#include "reckon/ask.hpp"

namespace awlmark::testing {

inline std::string species_id(const std::string& words) {
  static const std::map<std::string, std::string> ids = {
      {"Douglas fir-larch", "douglas_fir_larch"}, {"hem-fir", "hem_fir"}, {"spruce-pine-fir", "spruce_pine_fir"}, {"southern pine", "southern_pine"}};
  const auto found = ids.find(words);
  return found == ids.end() ? "" : found->second;
}

inline std::string grade_id(const std::string& words) {
  static const std::map<std::string, std::string> ids = {{"Select Structural", "select_structural"},
                                                         {"No. 1", "no_1"},
                                                         {"No. 2", "no_2"},
                                                         {"No. 1 and No. 2", "no_1"},
                                                         {"No. 3", "no_3"},
                                                         {"Select decking", "decking_select"},
                                                         {"Commercial decking", "decking_commercial"}};
  const auto found = ids.find(words);
  return found == ids.end() ? "" : found->second;
}

// Rows named after an edition up to 2012 only stand for the older design values.
inline std::string edition_id(const std::string& words) {
  for (const char* year : {"2015", "2018", "2021", "2024"})
    if (words.find(year) != std::string::npos) return "2018";
  for (const char* year : {"2012", "2010", "2009", "2006", "2003", "2000"})
    if (words.find(year) != std::string::npos) return "2012";
  return "2018";
}

inline json size_in(double b_in, double d_in) { return {{"b_in", b_in}, {"d_in", d_in}}; }

}  // namespace awlmark::testing
