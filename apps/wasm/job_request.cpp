#include "job_request.hpp"

#include <algorithm>

#include "reply.hpp"

namespace awlmark::api {

using doc::Json;

// What a caller may choose about a run; the defaults are AssessOptions'.
struct Options {
  double cell_in = 3;
  int draws = 1000;
  double seed = 1954;
  std::optional<std::string> layer;
};
BOOST_DESCRIBE_STRUCT(Options, (), (cell_in, draws, seed, layer))

doc::FieldRules field_rules(const Options*) {
  constexpr double kWholeInDouble = 9007199254740992.0;  // past this a JSON number loses whole seeds
  return {{.name = "cell_in", .text = "size of a cell", .min = 1, .max = 12},
          {.name = "draws", .text = "posterior draws", .min = 0, .max = 20000},
          {.name = "seed", .text = "a whole number", .min = 0, .max = kWholeInDouble},
          {.name = "layer", .text = "of a survey: this layer's rot alone, at once"}};
}

namespace {

// The job of a request, read like a file.
Outcome<Job> job_of(const Json& request) {
  const auto text = request.find("text");
  const auto job = request.find("job");
  Outcome<Job> outcome;
  if ((text == request.end()) == (job == request.end())) {
    outcome.problems.push_back({"job", "is missing, or stands beside 'text'", "give the document either as 'job' or as 'text'"});
    return outcome;
  }
  if (job != request.end()) return read_job(job->dump());
  if (!text->is_string()) {
    doc::wrong_kind(*text, "text", "the document as text", outcome.problems);
    return outcome;
  }
  return read_job(text->get_ref<const std::string&>());
}

AssessOptions options_of(const Json& request, const OnStage& on_stage, Problems& problems) {
  Options options;
  if (const auto given = request.find("options"); given != request.end()) doc::read(*given, "options", doc::FieldRule{}, options, problems);
  AssessOptions out;
  out.cell_in = options.cell_in;
  out.draws = options.draws;
  out.seed = static_cast<std::uint64_t>(options.seed);
  out.only_layer = options.layer;
  out.on_stage = on_stage;
  return out;
}

}  // namespace

JobRequest job_request(const Json& request, const OnStage& on_stage) {
  Problems problems;
  refuse_unknown_keys(request, {"do", "job", "text", "options"}, problems);
  JobRequest out;
  out.options = options_of(request, on_stage, problems);
  out.job = job_of(request);
  out.job.problems.insert(out.job.problems.begin(), problems.begin(), problems.end());
  if (!out.job.problems.empty()) out.job.value.reset();
  return out;
}

std::string act_of(const Outcome<Json>& request, const std::vector<std::string>& known, Problems& problems) {
  if (!request) {
    problems = request.problems;
    return "";
  }
  if (!request.value->is_object() || !request.value->contains("do") || !request.value->at("do").is_string()) {
    problems.push_back({"do", "is missing", "say what to do: one of " + doc::a_list(known)});
    return "";
  }
  auto act = request.value->at("do").get<std::string>();
  if (std::find(known.begin(), known.end(), act) != known.end()) return act;
  doc::wrong_word(act, "do", known, problems);
  return "";
}

}  // namespace awlmark::api
