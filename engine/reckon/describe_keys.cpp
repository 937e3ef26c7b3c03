#include "reckon/describe_keys.hpp"

#include <array>
#include <cmath>
#include <utility>

#include "base/doc.hpp"

namespace awlmark::reckon {
namespace {

bool ends_with(std::string_view text, std::string_view end) { return text.size() > end.size() && text.substr(text.size() - end.size()) == end; }

// Longest endings first: `_in_per_ft` before `_ft`, `_inlb` before `_lb`.
constexpr std::array<std::pair<std::string_view, std::string_view>, 30> kUnits{{{"_in2_per_day", "sq in. a day"},
                                                                                {"_lbin2_per_ft", "lb sq in. a foot of width"},
                                                                                {"_btu_per_lb", "Btu/lb of dry air"},
                                                                                {"_lb_per_in", "lb/in."},
                                                                                {"_in_per_ft", "in. a foot"},
                                                                                {"_per_hour", "an hour"},
                                                                                {"_humidity_ratio", "lb water/lb dry air"},
                                                                                {"_percent", "percent"},
                                                                                {"_inlb", "in.-lb"},
                                                                                {"_over", "span over this"},
                                                                                {"_days", "days"},
                                                                                {"_hours", "hours"},
                                                                                {"_psi", "psi"},
                                                                                {"_psf", "psf"},
                                                                                {"_pli", "lb/in."},
                                                                                {"_plf", "lb/ft"},
                                                                                {"_pcf", "lb/cu ft"},
                                                                                {"_in2", "sq in."},
                                                                                {"_in3", "cu in."},
                                                                                {"_in4", "in.^4"},
                                                                                {"_ft2", "sq ft"},
                                                                                {"_ft3", "cu ft"},
                                                                                {"_gal", "US gallons"},
                                                                                {"_sf", "sq ft"},
                                                                                {"_lb", "lb"},
                                                                                {"_in", "in."},
                                                                                {"_ft", "ft"},
                                                                                {"_f", "degrees F"},
                                                                                {"_h", "hours"},
                                                                                {"_kpa", "kPa"}}};

}  // namespace

std::string number_text(double value) {
  std::string text = doc::Json(value).dump();
  // JSON writes 360.0 for a double; people write 360.
  if (text.size() > 2 && text.compare(text.size() - 2, 2, ".0") == 0) text.resize(text.size() - 2);
  return text;
}

std::string unit_of_name(std::string_view name) {
  for (const auto& [ending, unit] : kUnits)
    if (ends_with(name, ending)) return std::string(unit);
  return {};
}

std::string range_text(const doc::FieldRule& rule) {
  std::string text;
  if (std::isfinite(rule.min)) text = (rule.above_min ? "more than " : "at least ") + number_text(rule.min);
  if (std::isfinite(rule.max)) text += (text.empty() ? "at most " : ", at most ") + number_text(rule.max);
  return text;
}

std::string key_table(const std::vector<KeyLine>& lines) {
  std::size_t widest = 0;
  for (const auto& line : lines) widest = std::max(widest, line.name.size() + 2 * static_cast<std::size_t>(line.depth));
  std::string text;
  for (const auto& line : lines) {
    const std::string name = std::string(2 * static_cast<std::size_t>(line.depth), ' ') + line.name;
    text += "  " + name + std::string(widest - name.size() + 2, ' ') + line.kind;
    if (!line.notes.empty()) text += " (" + line.notes + ")";
    text += "\n";
    if (!line.text.empty()) text += "  " + std::string(widest + 2, ' ') + "  " + line.text + "\n";
  }
  return text;
}

}  // namespace awlmark::reckon
