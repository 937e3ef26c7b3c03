#include "engine_api.hpp"

#include "assess/assess.hpp"
#include "base/doc.hpp"
#include "job/job.hpp"
#include "job/merge.hpp"
#include "job_request.hpp"
#include "reply.hpp"

namespace awlmark::api {
namespace {

using doc::Json;

// Where each mark lies on the plan, by its id: marks may be counted out by plank and tape.
Json places_of(const Job& job) {
  Json places = Json::object();
  for (const Mark& mark : job.marks)
    if (const auto place = place_of(job, mark)) places[mark.id] = doc::write(*place);
  return places;
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

std::string answer(std::string_view request_text, const OnStage& on_stage) {
  const auto request = doc::parse(request_text);
  Problems problems;
  const std::string act = act_of(request, {"read", "new", "survey", "merge"}, problems);
  if (!problems.empty()) return reply_not_ok(problems);
  if (act == "new") {
    refuse_unknown_keys(*request.value, {"do"}, problems);
    return problems.empty() ? reply_ok({{"text", new_job_text()}}) : reply_not_ok(problems);
  }
  if (act == "merge") return merge_of(*request.value);
  const auto [job, options] = job_request(*request.value, on_stage);
  if (!job) return reply_not_ok(job.problems, job.warnings);
  if (act == "read") return reply_ok({{"job", job_json(*job.value)}, {"text", write_job(*job.value)}, {"places", places_of(*job.value)}}, job.warnings);
  if (options.only_layer && find_layer(*job.value, *options.only_layer) == nullptr)
    return reply_not_ok({{"options.layer", "names no layer of this job", "give the id of one of its layers, or leave it out"}}, job.warnings);
  return reply_ok(to_json(survey_only(*job.value, options)), job.warnings);
}

}  // namespace

std::string run(std::string_view request, const OnStage& on_stage) {
  return guarded([&] { return answer(request, on_stage); });
}

}  // namespace awlmark::api
