// The first byte picks the topic, the rest is the question.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "reckon/reckon.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  static const auto topics = awlmark::reckon::topics();
  const auto answer = awlmark::reckon::reckon(topics[data[0] % topics.size()].id, {reinterpret_cast<const char*>(data) + 1, size - 1});
  if (answer.value.has_value() == !answer.problems.empty()) std::abort();
  return 0;
}
