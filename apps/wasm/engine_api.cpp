#include "engine_api.hpp"

#include <optional>

#include "assess/assess.hpp"
#include "base/doc.hpp"
#include "job/job.hpp"
#include "job/merge.hpp"
#include "papers/papers.hpp"
#include "reply.hpp"

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
  if (what == "read") return reply_ok({{"job", job_json(*job.value)}, {"text", write_job(*job.value)}, {"places", places_of(*job.value)}}, job.warnings);
  if (what == "survey") return reply_ok(to_json(survey_only(*job.value, options)), job.warnings);
  const Findings findings = assess(*job.value, options);
  if (what == "assess") return reply_ok(to_json(findings), job.warnings);
  return reply_ok({{"papers", papers_of(*job.value, findings)}, {"findings", to_json(findings)}}, job.warnings);
}

// Documents of any version are merged as they are: keys that this engine does not know survive.
std::string merge_of(const Json& request) {
  Problems problems;
  refuse_unknown_keys(request, {"do", "base", "ours", "theirs"}, problems);
  for (const char* side : {"ours", "theirs"})
    if (!request.contains(side) || !request[side].is_object()) problems.push_back({side, "is missing or no document", "give the document as JSON"});
  const auto base = request.find("base");
  const bool with_base = base != request.end() && !base->is_null();
  if (with_base && !base->is_object()) problems.push_back({"base", "is no document", "give the last document that both sides had, or leave it out"});
  if (!problems.empty()) return reply_not_ok(problems);
  return reply_ok(merged_json(merge(with_base ? &*base : nullptr, request["ours"], request["theirs"])));
}

const std::vector<std::string>& known_acts() {
  static const std::vector<std::string> acts = {"read", "new", "survey", "assess", "papers", "merge"};
  return acts;
}

std::string answer(std::string_view request_text, const OnStage& on_stage) {
  const auto request = doc::parse(request_text);
  if (!request) return reply_not_ok(request.problems);
  if (!request.value->is_object() || !request.value->contains("do") || !request.value->at("do").is_string())
    return reply_not_ok({{"do", "is missing", "say what to do: one of " + doc::a_list(known_acts())}});
  const auto what = request.value->at("do").get<std::string>();
  if (what == "read" || what == "survey" || what == "assess" || what == "papers") return about_a_job(what, *request.value, on_stage);
  if (what == "merge") return merge_of(*request.value);
  Problems problems;
  if (what == "new") {
    refuse_unknown_keys(*request.value, {"do"}, problems);
    return problems.empty() ? reply_ok({{"text", new_job_text()}}) : reply_not_ok(problems);
  }
  doc::wrong_word(what, "do", known_acts(), problems);
  return reply_not_ok(problems);
}

}  // namespace

std::string run(std::string_view request, const OnStage& on_stage) {
  return guarded([&] { return answer(request, on_stage); });
}

}  // namespace awlmark::api
