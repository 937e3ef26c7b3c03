// Published check values: tests/outside/*.json, read once. Each case has id, topic, inputs,
// expected, tolerance_rel or tolerance_abs, source, edition, where and status.
#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "support/source_dir.hpp"

namespace awlmark::testing {

inline std::string read_source_file(const std::string& path) {
  std::ifstream in(std::string(source_dir()) + "/" + path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

// The whole file, "wood_floor.json"; a missing file fails the test.
inline nlohmann::json outside_file(const std::string& name) {
  const auto text = read_source_file("tests/outside/" + name);
  EXPECT_FALSE(text.empty()) << "tests/outside/" << name << " is missing";
  return text.empty() ? nlohmann::json::object() : nlohmann::json::parse(text);
}

}  // namespace awlmark::testing
