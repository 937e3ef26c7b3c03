// The same contract for the acts "assess" and "papers" (engine_api.hpp).
#include "assess/assess.hpp"
#include "base/doc.hpp"
#include "engine_api.hpp"
#include "job_request.hpp"
#include "papers/papers.hpp"
#include "reply.hpp"

namespace awlmark::api {
namespace {

using doc::Json;

Json papers_of(const Job& job, const Findings& findings) {
  Json list = Json::array();
  for (const auto& paper : papers::all_papers(job, findings)) list.push_back({{"file", paper.file}, {"title", paper.title}, {"html", paper.html}});
  return list;
}

std::string answer(std::string_view request_text, const OnStage& on_stage) {
  const auto request = doc::parse(request_text);
  Problems problems;
  const std::string act = act_of(request, {"assess", "papers"}, problems);
  if (!problems.empty()) return reply_not_ok(problems);
  const auto [job, options] = job_request(*request.value, on_stage);
  if (!job) return reply_not_ok(job.problems, job.warnings);
  const Findings findings = assess(*job.value, options);
  if (act == "assess") return reply_ok(to_json(findings), job.warnings);
  return reply_ok({{"papers", papers_of(*job.value, findings)}, {"findings", to_json(findings)}}, job.warnings);
}

}  // namespace

std::string run(std::string_view request, const OnStage& on_stage) {
  return guarded([&] { return answer(request, on_stage); });
}

}  // namespace awlmark::api
