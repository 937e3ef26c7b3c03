// Asks a topic as an outside program would, and keeps count of which expected figures were compared.
#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "base/problem.hpp"
#include "reckon/reckon.hpp"

namespace awlmark::testing {

using nlohmann::json;

// The answer as JSON; a refusal fails the test and gives an empty object.
inline json ask(const std::string& topic, const json& in) {
  const auto outcome = reckon::reckon(topic, in.dump());
  for (const auto& problem : outcome.problems) ADD_FAILURE() << topic << " " << in.dump() << ": " << describe(problem);
  return outcome ? json::parse(*outcome.value) : json::object();
}

// One published case: expected figures are taken out one by one, and what is left over was not tested.
class Case {
 public:
  explicit Case(const json& c) : c_(c) {
    for (const auto& [key, unused] : c["expected"].items()) left_.insert(key);
  }
  std::string id() const { return c_["id"]; }
  const json& in() const { return c_["inputs"]; }
  double in(const char* key) const { return c_["inputs"].at(key); }
  bool has(const std::string& key) const { return c_["expected"].contains(key); }
  bool gives(const char* key) const { return c_["inputs"].contains(key); }
  std::string text(const char* key) const { return c_["inputs"].value(key, std::string()); }
  std::string edition() const { return c_.value("edition", std::string()); }
  json expected(const std::string& key) {
    left_.erase(key);
    return c_["expected"].at(key);
  }
  // Compares when the case expects the figure; its own tolerance, and never less than rounding in print.
  void near(const std::string& key, double got, double at_least_rel = 1e-9) {
    if (!has(key)) return;
    const double want = expected(key);
    const double tolerance = std::max(c_.value("tolerance_rel", 0.0), at_least_rel);
    EXPECT_NEAR(got, want, tolerance * std::fabs(want) + 1e-9) << id() << " " << key << " (" << c_.value("source", "") << ", " << c_.value("where", "") << ")";
  }
  template <class T>
  void same(const std::string& key, const T& got) {
    if (has(key)) {
      EXPECT_EQ(expected(key), json(got)) << id() << " " << key;
    }
  }
  bool touched() const { return left_.size() < c_["expected"].size(); }
  const std::set<std::string>& left() const { return left_; }

 private:
  const json& c_;
  std::set<std::string> left_;
};

}  // namespace awlmark::testing
