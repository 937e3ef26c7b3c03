// Runs the cases of a file of tests/outside: every expected figure is compared by the handler of its
// category or stands in the list of those that cannot be, with the reason; anything else fails.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "reckon/ask.hpp"
#include "support/outside.hpp"

namespace awlmark::testing {

class TradeCase {
 public:
  explicit TradeCase(const json& c) : c_(c) {
    for (const auto& [key, unused] : c["expected"].items()) left_.insert(key);
  }
  std::string id() const { return c_["id"]; }
  const json& in() const { return c_["inputs"]; }
  double in(const char* key) const { return c_["inputs"].at(key); }
  bool gives(const char* key) const { return c_["inputs"].contains(key); }
  std::string text(const char* key) const { return c_["inputs"].contains(key) ? c_["inputs"].at(key).dump() : std::string(); }
  bool has(const std::string& key) const { return c_["expected"].contains(key); }
  const json& expected(const std::string& key) {
    left_.erase(key);
    return c_["expected"].at(key);
  }
  // `print`: what the case's own figure is rounded to, where its tolerance is tighter than that.
  void near(const std::string& key, double got, double print = 1e-9) {
    if (!has(key)) return;
    near_value(key, got, expected(key).get<double>(), print);
  }
  void near_value(const std::string& key, double got, double want, double print = 1e-9) {
    const double tolerance = std::max({c_.value("tolerance_abs", 0.0), c_.value("tolerance_rel", 0.0) * std::fabs(want), print});
    EXPECT_NEAR(got, want, tolerance + 1e-12) << id() << " " << key << " (" << c_.value("source", "") << ")";
    ++compared;
  }
  template <class T>
  void same(const std::string& key, const T& got) {
    if (!has(key)) return;
    EXPECT_EQ(expected(key), json(got)) << id() << " " << key;
    ++compared;
  }
  const std::set<std::string>& left() const { return left_; }
  int compared = 0;

 private:
  const json& c_;
  std::set<std::string> left_;
};

using Handlers = std::map<std::string, std::function<void(TradeCase&)>>;
// An id, an id with ".key", the beginning of ids with "*", or a whole "category:"; and why.
using Refused = std::vector<std::pair<std::string, std::string>>;

inline bool is_refused(const Refused& refused, const std::string& category, const std::string& id, const std::string& key) {
  for (const auto& [entry, why] : refused) {
    if (entry == category + ":" || entry == id || entry == id + "." + key) return true;
    if (entry.back() == '*' && id.compare(0, entry.size() - 1, entry, 0, entry.size() - 1) == 0) return true;
  }
  return false;
}

inline int run_cases(const std::string& file, const Handlers& handlers, const Refused& refused) {
  int compared = 0;
  const auto cases = outside_file(file);
  for (const auto& [category, list] : cases.items())
    for (const auto& one : list) {
      if (is_refused(refused, category, one["id"], "")) continue;
      const auto handler = handlers.find(category);
      if (handler == handlers.end()) {
        ADD_FAILURE() << file << ": " << category << " is neither tested nor refused with a reason";
        break;
      }
      TradeCase c(one);
      SCOPED_TRACE(c.id());
      handler->second(c);
      compared += c.compared;
      for (const auto& key : c.left())
        if (!is_refused(refused, category, c.id(), key)) ADD_FAILURE() << c.id() << "." << key << " is neither tested nor refused with a reason";
    }
  return compared;
}

}  // namespace awlmark::testing
