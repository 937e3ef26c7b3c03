// A strict reader of the markup that papers write: every tag closed in order, attributes quoted,
// known references only. Stricter than HTML asks, so that any XML tool can read a paper too.
#pragma once

#include <string>
#include <vector>

namespace awlmark::testing {

struct MarkupReading {
  std::string problem;                  // empty when well formed
  std::vector<std::string> texts;       // text nodes, references resolved
  std::vector<std::string> attributes;  // attribute values, references resolved
  std::vector<std::string> tags;
  std::vector<std::string> ids;
};

MarkupReading read_markup(const std::string& html);

}  // namespace awlmark::testing
