// A support as the floor's tests draw it: Douglas fir-larch No. 2, resting where they say.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "job/job.hpp"

namespace awlmark::testing {

inline Support support_of(const std::string& id, SupportRole role, Point from, Point to, const std::string& size, std::vector<double> rests) {
  Support support;
  support.id = id;
  support.role = role;
  support.from_in = from;
  support.to_in = to;
  support.size = section_of(size);
  support.species = Species::douglas_fir_larch;
  support.grade = Grade::no_2;
  support.rests_at_in = std::move(rests);
  return support;
}

}  // namespace awlmark::testing
