#include "hazards/conditions.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "base/doc.hpp"

namespace awlmark::hazards {
namespace {

using doc::Json;

Truth both(Truth a, Truth b) { return std::min(a, b); }
Truth either(Truth a, Truth b) { return std::max(a, b); }
Truth opposite(Truth a) { return a == Truth::yes ? Truth::no : a == Truth::no ? Truth::yes : Truth::unknown; }

void add_words(const std::vector<std::string>& from, std::vector<std::string>& to) {
  for (const auto& words : from)
    if (std::find(to.begin(), to.end(), words) == to.end()) to.push_back(words);
}

const Fact& fact_of(const std::string& name, const Facts& facts) {
  const auto found = facts.find(name);
  if (found == facts.end()) throw std::logic_error("hazards.json: there is no fact " + name);
  return found->second;
}

Truth decide(bool surely, bool surely_not) { return surely ? Truth::yes : surely_not ? Truth::no : Truth::unknown; }

Truth compare_number(const Json& condition, const Fact& fact, std::optional<double>& capacity) {
  const auto limit = [&](const char* key) {
    capacity = condition.at(key).get<double>();
    return *capacity;
  };
  if (condition.contains("at_most")) {
    const double v = limit("at_most");
    return decide(fact.high <= v, fact.low > v);
  }
  if (condition.contains("at_least")) {
    const double v = limit("at_least");
    return decide(fact.low >= v, fact.high < v);
  }
  if (condition.contains("below")) {
    const double v = limit("below");
    return decide(fact.high < v, fact.low >= v);
  }
  if (condition.contains("above")) {
    const double v = limit("above");
    return decide(fact.low > v, fact.high <= v);
  }
  throw std::logic_error("hazards.json: a number needs at_most, at_least, below or above");
}

bool compares_a_number(const Json& condition) {
  return condition.contains("at_most") || condition.contains("at_least") || condition.contains("below") || condition.contains("above");
}

Truth compare_word(const Json& condition, const Fact& fact) {
  if (condition.contains("in")) {
    for (const auto& word : condition.at("in"))
      if (word.get<std::string>() == fact.word) return Truth::yes;
    return Truth::no;
  }
  if (!condition.contains("is")) throw std::logic_error("hazards.json: a word needs is or in");
  return condition.at("is").get<std::string>() == fact.word ? Truth::yes : Truth::no;
}

Answer compare(const Json& condition, const Facts& facts) {
  const Fact& fact = fact_of(condition.at("fact").get<std::string>(), facts);
  Answer answer;
  if (fact.kind == Fact::Kind::number || compares_a_number(condition)) {
    // An unknown number has no bounds, so the comparison below leaves it unknown.
    answer.truth = compare_number(condition, fact, answer.capacity);
    if (fact.known_number()) answer.demand = fact.low;
  } else if (fact.kind == Fact::Kind::unknown) {
    answer.truth = Truth::unknown;
  } else if (fact.kind == Fact::Kind::flag) {
    answer.truth = condition.at("is").get<bool>() == fact.flag ? Truth::yes : Truth::no;
  } else {
    answer.truth = compare_word(condition, fact);
  }
  if (!fact.says.empty()) answer.because.push_back(fact.says);
  if (answer.truth == Truth::unknown) answer.unknown = answer.because;
  return answer;
}

// For `all` and `any`: the facts of the parts that hold or may hold.
Answer combine(const Json& parts, const Facts& facts, Truth start, Truth (*join)(Truth, Truth)) {
  Answer answer;
  answer.truth = start;
  for (const auto& part : parts) {
    const Answer one = evaluate(part, facts);
    answer.truth = join(answer.truth, one.truth);
    if (one.truth == Truth::no) continue;
    add_words(one.because, answer.because);
    add_words(one.unknown, answer.unknown);
    if (!answer.capacity && one.capacity) {
      answer.capacity = one.capacity;
      answer.demand = one.demand;
    }
  }
  return answer;
}

}  // namespace

Fact number_fact(double value, std::string says) { return between_fact(value, value, std::move(says)); }

Fact between_fact(double low, double high, std::string says) {
  Fact fact;
  fact.kind = Fact::Kind::number;
  fact.low = low;
  fact.high = high;
  fact.says = std::move(says);
  return fact;
}

Fact word_fact(std::string word, std::string says) {
  Fact fact;
  fact.kind = Fact::Kind::word;
  fact.word = std::move(word);
  fact.says = std::move(says);
  return fact;
}

Fact flag_fact(bool flag, std::string says) {
  Fact fact;
  fact.kind = Fact::Kind::flag;
  fact.flag = flag;
  fact.says = std::move(says);
  return fact;
}

Fact unknown_fact(std::string says) {
  Fact fact;
  fact.says = std::move(says);
  return fact;
}

Answer evaluate(const doc::Json& condition, const Facts& facts) {
  if (condition.contains("all")) return combine(condition.at("all"), facts, Truth::yes, both);
  if (condition.contains("any")) return combine(condition.at("any"), facts, Truth::no, either);
  if (condition.contains("not")) {
    Answer answer = evaluate(condition.at("not"), facts);
    answer.truth = opposite(answer.truth);
    return answer;
  }
  if (condition.contains("mention")) {
    Answer answer;
    answer.truth = Truth::yes;
    const auto& says = fact_of(condition.at("mention").get<std::string>(), facts).says;
    if (!says.empty()) answer.because.push_back(says);
    return answer;
  }
  if (condition.contains("fact")) return compare(condition, facts);
  throw std::logic_error("hazards.json: a condition without all, any, not, mention or fact");
}

}  // namespace awlmark::hazards
