// Any text: read as a length; what reads is finite and survives being written.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "base/length.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto length = awlmark::parse_length_in({reinterpret_cast<const char*>(data), size});
  if (!length) return 0;
  if (!(std::fabs(*length) <= 1e6)) std::abort();
  const auto back = awlmark::parse_length_in(awlmark::format_length(*length));
  if (!back || std::fabs(*back - *length) > 1.0 / 32 + 1e-6) std::abort();
  return 0;
}
