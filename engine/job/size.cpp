// Lumber sizes by name.
#include <array>
#include <cmath>

#include "base/length.hpp"
#include "job/job.hpp"

namespace awlmark {
namespace {

// Dressed dry sizes of softwood lumber, PS 20 (from memory; the same figures as NDS Supplement Table
// 1A): boards under 2 in. lose 1/4 in. of thickness, dimension lumber 1/2 in., and widths of 8 in.
// and wider 3/4 in.; timbers 5 in. and thicker 1/2 in. each way.
double dressed_thickness_in(int nominal) {
  if (nominal == 1) return 0.75;
  return nominal - 0.5;
}

double dressed_width_in(int nominal, int thickness) {
  if (thickness >= 5) return nominal - 0.5;
  return nominal >= 8 ? nominal - 0.75 : nominal - 0.5;
}

std::optional<int> take_number(const std::string& text, std::size_t& at) {
  const std::size_t start = at;
  int value = 0;
  while (at < text.size() && text[at] >= '0' && text[at] <= '9' && at - start < 2) value = value * 10 + (text[at++] - '0');
  if (at == start || value == 0) return std::nullopt;
  return value;
}

}  // namespace

std::optional<SectionSize> section_of(const std::string& nominal) {
  std::size_t at = 0;
  auto first = take_number(nominal, at);
  if (!first) return std::nullopt;
  int plies = 1;
  if (at < nominal.size() && nominal[at] == '-') {
    plies = *first;
    if (plies > 6) return std::nullopt;
    ++at;
    first = take_number(nominal, at);
    if (!first) return std::nullopt;
  }
  if (at >= nominal.size() || nominal[at] != 'x') return std::nullopt;
  ++at;
  const auto second = take_number(nominal, at);
  if (!second || at != nominal.size()) return std::nullopt;
  if (*first > 24 || *second > 24 || *second < 2 || *first > *second) return std::nullopt;
  const double one = dressed_thickness_in(*first);
  return SectionSize{nominal, plies, plies * one, dressed_width_in(*second, *first)};
}

std::string section_text(const SectionSize& size) {
  if (!size.nominal.empty()) return size.nominal;
  return format_inches(size.b_in) + " x " + format_inches(size.d_in);
}

}  // namespace awlmark
