// Rot and cuts of one support as stretches of lost wood.
//
// From the cut-back's members where it names the support, else from the marks: a soft or gone reading
// reaches 12 in. to either side, or to the nearest sound reading. A depth not measured counts as
// through. Rot on top over part of the breadth leaves an L: the better of the two rectangles in it
// counts (both lie inside what is left, so either is safe).
#pragma once

#include "cutback/cutback.hpp"
#include "floor/model.hpp"
#include "job/job.hpp"
#include "survey/survey.hpp"

namespace awlmark::floor {

void add_decay(const Job& job, const survey::Survey& survey, const cutback::CutBack& cut_back, const Support& support, Member& member,
               std::vector<std::string>& assumed);

}  // namespace awlmark::floor
