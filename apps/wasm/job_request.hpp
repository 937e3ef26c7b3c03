// The job and the options of a request, read like a file: what the survey's module and the whole
// job's module ask alike.
#pragma once

#include <string>

#include "assess/assess.hpp"
#include "base/doc.hpp"
#include "engine_api.hpp"
#include "job/job.hpp"

namespace awlmark::api {

// A request about one job: {"do", "job" or "text", "options"?}. No value when anything is wrong with it.
struct JobRequest {
  Outcome<Job> job;
  AssessOptions options;
};
JobRequest job_request(const doc::Json& request, const OnStage& on_stage);

// The act that a request names; empty, with its problem, when it is not one of these.
std::string act_of(const Outcome<doc::Json>& request, const std::vector<std::string>& known, Problems& problems);

}  // namespace awlmark::api
