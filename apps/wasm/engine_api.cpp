#include "engine_api.hpp"

#include <algorithm>
#include <new>
#include <optional>
#include <stdexcept>

#include "assess/assess.hpp"
#include "base/doc.hpp"
#include "job/job.hpp"
#include "papers/papers.hpp"
#include "reckon/reckon.hpp"

namespace awlmark::api {

using doc::Json;

// What a caller may choose about a run; the defaults are AssessOptions'.
struct Options {
  double cell_in = 3;
  int draws = 1000;
  double seed = 1954;
};
BOOST_DESCRIBE_STRUCT(Options, (), (cell_in, draws, seed))

doc::FieldRules field_rules(const Options*) {
  constexpr double kWholeInDouble = 9007199254740992.0;  // past this a JSON number loses whole seeds
  return {{.name = "cell_in", .text = "size of a cell", .min = 1, .max = 12},
          {.name = "draws", .text = "posterior draws", .min = 0, .max = 20000},
          {.name = "seed", .text = "a whole number", .min = 0, .max = kWholeInDouble}};
}

namespace {

Json as_json(const Problems& problems) { return doc::write(problems); }

std::string reply_ok(const Json& value, const Problems& warnings) { return Json{{"ok", true}, {"value", value}, {"warnings", as_json(warnings)}}.dump(); }

std::string reply_not_ok(const Problems& problems, const Problems& warnings = {}) {
  // A job may quote bytes that are not UTF-8 back at us: replace them rather than fail to answer.
  return Json{{"ok", false}, {"problems", as_json(problems)}, {"warnings", as_json(warnings)}}.dump(-1, ' ', false, Json::error_handler_t::replace);
}

void refuse_unknown_keys(const Json& request, const std::vector<std::string>& known, Problems& problems) {
  for (const auto& [key, unused] : request.items())
    if (std::find(known.begin(), known.end(), key) == known.end()) doc::unknown_key(key, "", known, problems);
}

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
  out.on_stage = on_stage;
  return out;
}

Json papers_of(const Job& job, const Findings& findings) {
  Json list = Json::array();
  for (const auto& paper : papers::all_papers(job, findings)) list.push_back({{"file", paper.file}, {"title", paper.title}, {"html", paper.html}});
  return list;
}

// Where each mark lies on the plan, by its id: marks may be counted out by plank and tape.
Json places_of(const Job& job) {
  Json places = Json::object();
  for (const Mark& mark : job.marks)
    if (const auto place = place_of(job, mark)) places[mark.id] = doc::write(*place);
  return places;
}

std::string about_a_job(const std::string& what, const Json& request, const OnStage& on_stage) {
  Problems problems;
  refuse_unknown_keys(request, {"do", "job", "text", "options"}, problems);
  auto options = options_of(request, on_stage, problems);
  Outcome<Job> job = job_of(request);
  problems.insert(problems.end(), job.problems.begin(), job.problems.end());
  if (!job || !problems.empty()) return reply_not_ok(problems, job.warnings);
  if (what == "read") return reply_ok({{"job", doc::write(*job.value)}, {"text", write_job(*job.value)}, {"places", places_of(*job.value)}}, job.warnings);
  if (what == "survey") return reply_ok(doc::write(survey_only(*job.value, options)), job.warnings);
  const Findings findings = assess(*job.value, options);
  if (what == "assess") return reply_ok(doc::write(findings), job.warnings);
  return reply_ok({{"papers", papers_of(*job.value, findings)}, {"findings", doc::write(findings)}}, job.warnings);
}

// A topic's answer to `in`; its help when there is no `in`; the list of topics when there is no topic.
std::string about_a_topic(const Json& request) {
  Problems problems;
  refuse_unknown_keys(request, {"do", "topic", "in"}, problems);
  const auto topic = request.find("topic");
  if (topic != request.end() && !topic->is_string()) doc::wrong_kind(*topic, "topic", "a topic's name", problems);
  if (!problems.empty()) return reply_not_ok(problems);
  if (topic == request.end()) {
    Json list = Json::array();
    for (const auto& info : reckon::topics()) list.push_back({{"id", info.id}, {"asks", info.asks}});
    return reply_ok(list, {});
  }
  const auto& name = topic->get_ref<const std::string&>();
  const auto in = request.find("in");
  const auto answer = in == request.end() ? reckon::help(name) : reckon::reckon(name, in->dump());
  if (!answer) return reply_not_ok(answer.problems, answer.warnings);
  if (in == request.end()) return reply_ok({{"help", *answer.value}}, answer.warnings);
  const auto value = doc::parse(*answer.value);
  return value ? reply_ok(*value.value, answer.warnings) : reply_not_ok(value.problems, answer.warnings);
}

Json all_schemas() { return {{"job", job_schema(true)}, {"job_as_read", job_schema(false)}, {"findings", findings_schema()}}; }

const std::vector<std::string>& known_acts() {
  static const std::vector<std::string> acts = {"read", "new", "survey", "assess", "papers", "reckon", "schema"};
  return acts;
}

std::string answer(std::string_view request_text, const OnStage& on_stage) {
  const auto request = doc::parse(request_text);
  if (!request) return reply_not_ok(request.problems);
  if (!request.value->is_object() || !request.value->contains("do") || !request.value->at("do").is_string())
    return reply_not_ok({{"do", "is missing", "say what to do: one of " + doc::a_list(known_acts())}});
  const auto what = request.value->at("do").get<std::string>();
  if (what == "read" || what == "survey" || what == "assess" || what == "papers") return about_a_job(what, *request.value, on_stage);
  if (what == "reckon") return about_a_topic(*request.value);
  Problems problems;
  if (what == "new" || what == "schema") {
    refuse_unknown_keys(*request.value, {"do"}, problems);
    if (!problems.empty()) return reply_not_ok(problems);
    return what == "new" ? reply_ok({{"text", new_job_text()}}, {}) : reply_ok(all_schemas(), {});
  }
  doc::wrong_word(what, "do", known_acts(), problems);
  return reply_not_ok(problems);
}

}  // namespace

std::string run(std::string_view request, const OnStage& on_stage) {
  try {
    return answer(request, on_stage);
  } catch (const std::bad_alloc&) {
    throw;  // building a reply needs memory too: exports.cpp has one ready
  } catch (const std::exception& error) {
    return reply_not_ok({{"", std::string("met a fault in the program: ") + error.what(), "keep the job file and report it"}});
  }
}

}  // namespace awlmark::api
