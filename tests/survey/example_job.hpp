// Jobs for the survey's tests: read through the real reader, so that a bad one fails the test.
#pragma once

#include <gtest/gtest.h>

#include <string>

#include "job/job.hpp"

namespace awlmark::testing {

inline Job job_from(const std::string& text) {
  auto outcome = read_job(text);
  for (const auto& problem : outcome.problems) ADD_FAILURE() << describe(problem);
  return outcome.value.value_or(Job{});
}

// A laundry of 9 x 6 ft: sheet vinyl, underlayment, board deck running x, leak near the back right.
inline Job laundry(const std::string& marks = "[]", const std::string& more = "") {
  return job_from(R"({"format":"awlmark-job","version":1,"job":{"name":"laundry","below":"crawl_space"},
    "room":{"outline_in":[[0,0],[108,0],[108,72],[0,72]]},
    "layers":[{"id":"sheet","material":"sheet_vinyl"},{"id":"under","material":"plywood_underlayment"},
              {"id":"deck","material":"board","runs":"x","face_width_in":5.5,"species":"douglas_fir_larch"}],
    "walls":[{"id":"w1","from_in":[0,72],"to_in":[108,72],"stands_on":"deck"}],
    "supports":[{"id":"j1","from_in":[48,0],"to_in":[48,72],"size":"2x8"},{"id":"j2","from_in":[80,0],"to_in":[80,72],"size":"2x8"}],
    "sources":[{"id":"hose","at_in":[84,66],"kind":"supply_leak"}],
    "marks":)" + marks +
                  more + "}");
}

inline std::string awl_mark(const std::string& id, double x, double y, const std::string& layer, const std::string& reads) {
  return "{\"id\":\"" + id + "\",\"at_in\":[" + std::to_string(x) + "," + std::to_string(y) + "],\"layer\":\"" + layer + "\",\"tool\":\"awl\",\"reads\":\"" +
         reads + "\"}";
}

}  // namespace awlmark::testing
