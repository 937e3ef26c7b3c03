// One floor, one answer: however it is drawn, whatever its parts are called.
#include <gtest/gtest.h>

#include "alike.hpp"
#include "assess/assess.hpp"
#include "jobs.hpp"

namespace awlmark {
namespace {

using testing::Alike;
using testing::Drawing;
using testing::drawn_so;
using testing::Names;

AssessOptions quick() {
  AssessOptions options;
  options.draws = 120;
  options.cell_in = 6;
  return options;
}

TEST(Drawings, SmallFloorsAnswerAlikeHoweverDrawn) {
  for (const auto& [name, job] : testing::small_jobs()) {
    const Findings first = assess(job, quick());
    for (int kind = 1; kind < testing::kDrawings; ++kind) {
      SCOPED_TRACE(name + " drawing " + std::to_string(kind));
      const Drawing drawing{kind, {11.5, -40.25}};
      Alike(drawing, {}).expect(first, assess(drawn_so(job, drawing), quick()));
    }
  }
}

TEST(Drawings, TheDemosAnswerAlikeHoweverDrawn) {
  for (const auto& name : testing::demo_names()) {
    const Job job = testing::demo(name);
    const Findings first = assess(job, quick());
    for (const int kind : {1, 2, 4, 6}) {
      SCOPED_TRACE(name + " drawing " + std::to_string(kind));
      const Drawing drawing{kind, {200, 150}};
      Alike(drawing, {}).expect(first, assess(drawn_so(job, drawing), quick()));
    }
  }
}

TEST(Drawings, NamesDecideNothing) {
  auto jobs = testing::small_jobs();
  for (const auto& name : testing::demo_names()) jobs.emplace_back(name, testing::demo(name));
  for (const auto& [name, job] : jobs) {
    SCOPED_TRACE(name);
    Names names;
    const Job other = testing::renamed(job, names);
    Alike({}, names).expect(assess(job, quick()), assess(other, quick()));
  }
}

TEST(Drawings, ASurveyAloneAnswersAlike) {
  Job job = testing::demo(testing::demo_names()[0]);
  job.supports.clear();
  job.walls.clear();
  const Findings first = survey_only(job, quick());
  for (const int kind : {1, 4, 7}) {
    SCOPED_TRACE(kind);
    const Drawing drawing{kind, {}};
    Alike(drawing, {}).expect(first, survey_only(drawn_so(job, drawing), quick()));
  }
}

}  // namespace
}  // namespace awlmark
