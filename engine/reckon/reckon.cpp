#include "reckon/reckon.hpp"

#include <algorithm>
#include <exception>

#include "reckon/topic.hpp"

namespace awlmark::reckon {

#define AWLMARK_TOPIC(name) Topic name();
#include "reckon/topics/list.def"
#undef AWLMARK_TOPIC

namespace {

const std::vector<Topic>& all_topics() {
  static const std::vector<Topic> all = {
#define AWLMARK_TOPIC(name) name(),
#include "reckon/topics/list.def"
#undef AWLMARK_TOPIC
  };
  return all;
}

const Topic* find_topic(std::string_view id) {
  for (const auto& topic : all_topics())
    if (topic.text.id == id) return &topic;
  return nullptr;
}

Problem unknown_topic(std::string_view id) {
  std::vector<std::string> ids;
  for (const auto& topic : all_topics()) ids.push_back(topic.text.id);
  const auto near = nearest_words(id, ids);
  return {"", doc::in_quotes(id) + " is not a topic", near.empty() ? "known topics: " + doc::a_list(ids) : "did you mean " + doc::a_list(near) + "?"};
}

}  // namespace

std::vector<TopicInfo> topics() {
  std::vector<TopicInfo> infos;
  for (const auto& topic : all_topics()) infos.push_back({topic.text.id, topic.text.asks});
  return infos;
}

Outcome<std::string> reckon(std::string_view id, std::string_view json_text) {
  Outcome<std::string> outcome;
  const Topic* topic = find_topic(id);
  if (topic == nullptr) {
    outcome.problems.push_back(unknown_topic(id));
    return outcome;
  }
  try {
    auto answer = topic->answer(json_text);
    outcome.problems = std::move(answer.problems);
    outcome.warnings = std::move(answer.warnings);
    if (answer.value) outcome.value = answer.value->dump(2) + "\n";
  } catch (const std::exception& error) {
    // A fault of the program, not of the input; said rather than thrown across the door.
    outcome.value.reset();
    outcome.problems.push_back({"", std::string("could not be answered: ") + error.what(), "report this input as a fault of the program"});
  }
  if (!outcome.value && outcome.problems.empty()) outcome.problems.push_back({"", "has no answer", "report this input as a fault of the program"});
  return outcome;
}

Outcome<std::string> help(std::string_view id) {
  Outcome<std::string> outcome;
  const Topic* topic = find_topic(id);
  if (topic == nullptr) {
    outcome.problems.push_back(unknown_topic(id));
    return outcome;
  }
  std::string text = topic->text.id + ": " + topic->text.asks + "\n\nin:\n" + key_table(topic->keys_in());
  text += "  Lengths (names that end in _in) also take text such as 7' 4 1/2\" or 2.25 m.\n";
  text += "\nout:\n" + key_table(topic->keys_out());
  text += "\nsources:\n";
  for (const auto& source : topic->text.sources) text += "  " + source + "\n";
  text += "\nexample:\n  awlmark reckon " + topic->text.id + " <<'END'\n" + topic->text.example + "\nEND\n";
  outcome.value = std::move(text);
  return outcome;
}

}  // namespace awlmark::reckon
