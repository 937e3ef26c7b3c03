// How a topic is made. One file topics/NAME.cpp holds its described structs In and Out and a function
// `Outcome<Out> answer(const In&)`, and ends with
//
//   Topic emc() { return make_topic<In, Out>({.id = "emc", .asks = "...", .sources = {...}, .example = R"({...})"}, answer); }
//
// One line in topics/list.def, AWLMARK_TOPIC(emc), puts it in the list. Members of In are checked by
// `field_rules(const In*)`; what a range cannot say, `answer` reports with the key's name in `at`.
// tests/reckon runs every topic's example and feeds every topic broken input.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "base/doc.hpp"
#include "base/problem.hpp"
#include "base/reason.hpp"
#include "reckon/describe_keys.hpp"

namespace awlmark::reckon {

struct TopicText {
  std::string id;
  std::string asks;                  // one line, a question
  std::vector<std::string> sources;  // documents and sections that the answer rests on
  std::string example;               // JSON that answers
};

struct Topic {
  TopicText text;
  std::function<Outcome<doc::Json>(std::string_view)> answer;
  std::function<std::vector<KeyLine>()> keys_in;
  std::function<std::vector<KeyLine>()> keys_out;
};

template <class In, class Out>
Topic make_topic(TopicText text, Outcome<Out> (*answer)(const In&)) {
  Topic topic;
  topic.text = std::move(text);
  topic.answer = [answer](std::string_view json_text) {
    Outcome<doc::Json> outcome;
    auto in = doc::read_text<In>(json_text, {.max_bytes = 1u << 20, .max_depth = 12});
    if (!in) {
      outcome.problems = std::move(in.problems);
      return outcome;
    }
    auto out = answer(*in.value);
    outcome.problems = std::move(out.problems);
    outcome.warnings = std::move(out.warnings);
    if (out.value && outcome.problems.empty()) outcome.value = doc::write(*out.value);
    return outcome;
  };
  topic.keys_in = [] { return keys_of<In>(true); };
  topic.keys_out = [] { return keys_of<Out>(false); };
  return topic;
}

// For use in `answer`: an outcome that is one problem, or a value.
template <class Out>
Outcome<Out> answered(Out value) {
  Outcome<Out> outcome;
  outcome.value = std::move(value);
  return outcome;
}
template <class Out>
Outcome<Out> refused(Problems problems) {
  Outcome<Out> outcome;
  outcome.problems = std::move(problems);
  return outcome;
}

}  // namespace awlmark::reckon
