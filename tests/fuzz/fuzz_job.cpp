// Any text: read as a job; when it is one, written and read back the same.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "job/job.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto job = awlmark::read_job({reinterpret_cast<const char*>(data), size});
  if (job.value.has_value() == !job.problems.empty()) std::abort();
  if (!job) return 0;
  const auto text = awlmark::write_job(*job.value);
  const auto again = awlmark::read_job(text);
  if (!again || awlmark::write_job(*again.value) != text) std::abort();
  for (const auto& mark : job.value->marks) (void)awlmark::place_of(*job.value, mark);
  return 0;
}
