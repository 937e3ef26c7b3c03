// Members and plates under soft or gone wood that nobody has read: no work starts before they are.
#pragma once

#include <string>
#include <vector>

#include "survey/site.hpp"

namespace awlmark::survey {

struct Unread {
  const LineStations* line = nullptr;
  double along_in = 0;
  std::string mark;  // the one above it
};
// One for each member or plate, at the first mark over it that calls for it.
std::vector<Unread> unread_below(const Site& site);
std::string hold_in_words(const Site& site, const Unread& unread);

}  // namespace awlmark::survey
