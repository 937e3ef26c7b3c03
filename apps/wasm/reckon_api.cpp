// The same contract for the acts "reckon" and "schema" (engine_api.hpp).
#include "assess/assess.hpp"
#include "engine_api.hpp"
#include "job/job.hpp"
#include "reckon/reckon.hpp"
#include "reply.hpp"

namespace awlmark::api {
namespace {

using doc::Json;

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

std::string all_schemas(const Json& request) {
  Problems problems;
  refuse_unknown_keys(request, {"do"}, problems);
  if (!problems.empty()) return reply_not_ok(problems);
  return reply_ok({{"job", job_schema(true)}, {"job_as_read", job_schema(false)}, {"findings", findings_schema()}});
}

}  // namespace

std::string run(std::string_view request_text, const OnStage&) {
  return guarded([&] {
    const auto request = doc::parse(request_text);
    if (!request) return reply_not_ok(request.problems);
    if (!request.value->is_object()) return reply_not_ok({{"", "is not an object", "give {\"do\": \"reckon\", ...}"}});
    const auto act = request.value->find("do");
    if (act != request.value->end() && *act == "reckon") return about_a_topic(*request.value);
    if (act != request.value->end() && *act == "schema") return all_schemas(*request.value);
    return reply_not_ok({{"do", "is neither 'reckon' nor 'schema'", "jobs are for the engine module"}});
  });
}

}  // namespace awlmark::api
