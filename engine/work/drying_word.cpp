#include <algorithm>

#include "base/geometry.hpp"
#include "work/work.hpp"

namespace awlmark::work {
namespace {

bool comes_out(const Job& job, const cutback::CutBack& cut, const drying::DryingLayer& place) {
  if (place.support) {
    for (std::size_t s = 0; s < job.supports.size(); ++s)
      if (job.supports[s].id == *place.support) return s < cut.quantities.members.size() && cut.quantities.members[s] == measure::MemberState::decayed_at_rest;
    return false;
  }
  const auto out = cut.outlines_in.find(place.layer);
  if (!place.at_in || out == cut.outlines_in.end()) return false;
  return std::any_of(out->second.begin(), out->second.end(), [&](const Polygon& ring) { return ring.size() >= 3 && contains(ring, *place.at_in); });
}

}  // namespace

DryingWord drying_word(const Job& job, const cutback::CutBack& cut, const drying::Drying& drying) {
  DryingWord word;
  bool any = false, all_released = true;
  bool late = true;  // while every place has its 9 in 10
  for (const auto& place : drying.layers) {
    if (comes_out(job, cut, place)) continue;
    if (!place.readings.empty()) word.read = std::max(word.read, place.readings.back().time.substr(0, 10));
    any = true;
    if (place.released) continue;
    all_released = false;
    if (!place.close_p50) {
      word.never = place.support ? "the member " + *place.support : place.layer;
      continue;
    }
    if (!word.p50 || *word.p50 < *place.close_p50) word.p50 = place.close_p50;
    late = late && place.close_p90;
    if (place.close_p90 && (!word.p90 || *word.p90 < *place.close_p90)) word.p90 = place.close_p90;
  }
  word.released = any && all_released;
  if (!late) word.p90.reset();
  return word;
}

}  // namespace awlmark::work
