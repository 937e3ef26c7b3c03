// Two invented jobs with findings built by hand, so that the papers can be tested without the stages:
// a washroom of a 1972 mountain clubhouse and a laundry of a 1954 house. No real place or person.
#pragma once

#include "findings/findings.hpp"
#include "job/job.hpp"

namespace awlmark::testing {

struct Sample {
  Job job;
  Findings findings;
};

Sample clubhouse_washroom();
Sample laundry();

}  // namespace awlmark::testing
