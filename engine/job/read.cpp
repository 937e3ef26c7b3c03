// Text to job and back.
#include "base/doc.hpp"
#include "job/job.hpp"

namespace awlmark {
namespace {

constexpr int kVersion = 1;

// Version 1 is the first. A later version adds its step here: each takes the JSON of one version to
// the next, so an old document always walks the whole chain.
void migrate(doc::Json&, int /*from*/) {}

// Format and version come first: the rest of a document of another kind is not worth judging.
bool check_kind(const doc::Json& json, Problems& problems) {
  if (!json.is_object()) {
    doc::wrong_kind(json, "", "a job document", problems);
    return false;
  }
  const auto format = json.find("format");
  if (format == json.end())
    problems.push_back({"format", "is missing", "a job document starts with \"format\": \"awlmark-job\", \"version\": 1"});
  else if (*format != "awlmark-job")
    problems.push_back({"format", "is " + doc::kind_of(*format), "a job document says \"awlmark-job\""});
  const auto version = json.find("version");
  if (version != json.end() && version->is_number_integer() && version->get<double>() > kVersion)
    problems.push_back({"version", "is " + version->dump() + "; this Awlmark reads up to version " + std::to_string(kVersion), "use a newer Awlmark"});
  return problems.empty();
}

// Leaves out empty lists and empty text, so that a written job reads like one that a person wrote.
void prune(doc::Json& json) {
  for (auto it = json.begin(); it != json.end();) {
    if (it->is_structured()) prune(*it);
    const bool empty = (it->is_array() && it->empty()) || (it->is_string() && it->get_ref<const std::string&>().empty());
    if (json.is_object() && empty)
      it = json.erase(it);
    else
      ++it;
  }
}

}  // namespace

Outcome<Job> read_job(std::string_view text) {
  Outcome<Job> outcome;
  auto parsed = doc::parse(text);
  outcome.problems = std::move(parsed.problems);
  if (!parsed || !check_kind(*parsed.value, outcome.problems)) return outcome;
  migrate(*parsed.value, kVersion);
  Job job;
  doc::read(*parsed.value, "", doc::FieldRule{}, job, outcome.problems);
  // Cross-checks run on what could be read even when something else is wrong: all problems at once.
  validate(job, outcome.problems, outcome.warnings);
  if (outcome.problems.empty()) outcome.value = std::move(job);
  return outcome;
}

std::string write_job(const Job& job) {
  auto json = doc::write(job);
  prune(json);
  return json.dump(2) + "\n";
}

doc::Json job_schema(bool written) { return doc::schema<Job>("https://awlmark.invalid/schema/job-1.json", "Awlmark job document, version 1", written); }

}  // namespace awlmark
