// Text to job and back.
#include <set>

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

// Keys whose word "unknown" says the same as leaving them out.
const std::set<std::string>& unsaid_keys() {
  static const std::set<std::string> keys = {
      "storey",    "below", "hatch",      "soil",  "existing_building_rule", "species", "grade", "bond", "panel_use", "stands_on", "attic", "on", "over",
      "wallboard", "level", "faces_open", "active"};
  return keys;
}

// Leaves out empty lists, empty text and what nobody said, so that a written job reads like one that a person wrote.
void prune(doc::Json& json) {
  for (auto it = json.begin(); it != json.end();) {
    if (it->is_structured()) prune(*it);
    const bool unsaid = json.is_object() && it->is_string() && *it == "unknown" && unsaid_keys().count(it.key()) > 0;
    const bool empty = unsaid || (it->is_structured() && it->empty()) || (it->is_string() && it->get_ref<const std::string&>().empty());
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
  if (!outcome.problems.empty()) return outcome;
  expand(job);
  outcome.value = std::move(job);
  return outcome;
}

doc::Json job_json(const Job& job) { return doc::write(as_written(job)); }

std::string write_job(const Job& job) {
  auto json = job_json(job);
  prune(json);
  return json.dump(2) + "\n";
}

doc::Json job_schema(bool written) { return doc::schema<Job>("https://awlmark.invalid/schema/job-1.json", "Awlmark job document, version 1", written); }

}  // namespace awlmark
