#include "base/length.hpp"

#include <cmath>
#include <cstdint>

namespace awlmark {
namespace {

constexpr double kLongest_in = 1e6;

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  void skip_blank() {
    while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\t')) ++at_;
  }
  bool done() const { return at_ == text_.size(); }
  bool digit() const { return at_ < text_.size() && text_[at_] >= '0' && text_[at_] <= '9'; }
  bool take(std::string_view word) {
    if (text_.substr(at_, word.size()) != word) return false;
    at_ += word.size();
    return true;
  }
  bool take_any(std::initializer_list<std::string_view> words) {
    for (const auto word : words)
      if (take(word)) return true;
    return false;
  }
  std::size_t place() const { return at_; }
  void back_to(std::size_t place) { at_ = place; }

  // Digits with an optional decimal part; nothing when there is no digit.
  std::optional<double> decimal() {
    if (!digit() && !(at_ + 1 < text_.size() && text_[at_] == '.' && text_[at_ + 1] >= '0' && text_[at_ + 1] <= '9')) return std::nullopt;
    double value = 0;
    while (digit()) value = value * 10 + (text_[at_++] - '0');
    if (at_ < text_.size() && text_[at_] == '.') {
      ++at_;
      double scale = 1;
      double part = 0;
      while (digit()) {
        part = part * 10 + (text_[at_++] - '0');
        scale *= 10;
      }
      value += part / scale;
    }
    return value;
  }

  // "4", "4.5", "1/2", "4 1/2" or "4-1/2".
  std::optional<double> mixed() {
    const auto whole = decimal();
    if (!whole) return std::nullopt;
    const auto after_whole = at_;
    if (take("/")) {
      const auto below = decimal();
      if (!below || *below == 0) return std::nullopt;
      return *whole / *below;
    }
    if (take("-") || (skip_blank(), true)) {
      const auto above = decimal();
      if (above && take("/")) {
        const auto below = decimal();
        if (!below || *below == 0 || *above >= *below) return std::nullopt;
        return *whole + *above / *below;
      }
    }
    back_to(after_whole);
    return whole;
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
};

std::optional<double> metric_scale(Reader& reader) {
  if (reader.take("mm")) return kInchesPerMetre / 1000;
  if (reader.take("cm")) return kInchesPerMetre / 100;
  if (reader.take("m")) return kInchesPerMetre;
  return std::nullopt;
}

std::optional<double> read_unsigned(Reader& reader) {
  const auto first = reader.mixed();
  if (!first) return std::nullopt;
  reader.skip_blank();
  if (const auto scale = metric_scale(reader)) return *first * *scale;
  const bool feet_mark = reader.take_any({"'", "\u2032", "feet", "foot", "ft.", "ft"});
  const auto after_first = reader.place();
  reader.skip_blank();
  const bool dash = reader.take("-");
  reader.skip_blank();
  if (feet_mark || dash) {
    const auto inches = reader.mixed();
    if (!inches) {
      if (dash) return std::nullopt;
      return *first * 12;
    }
    if (*inches >= 12) return std::nullopt;  // 7' 14" is a slip, not a length
    reader.skip_blank();
    reader.take_any({"\"", "\u2033", "''", "inches", "inch", "in.", "in"});
    return *first * 12 + *inches;
  }
  reader.back_to(after_first);
  reader.skip_blank();
  reader.take_any({"\"", "\u2033", "''", "inches", "inch", "in.", "in"});
  return first;
}

std::string fraction_text(std::int64_t sixteenths) {
  std::int64_t over = 16;
  while (sixteenths % 2 == 0) {
    sixteenths /= 2;
    over /= 2;
  }
  return std::to_string(sixteenths) + "/" + std::to_string(over);
}

// Inches and a fraction from a count of sixteenths below a foot (or any count, when feet are not split off).
std::string inches_text(std::int64_t sixteenths) {
  const std::int64_t whole = sixteenths / 16;
  const std::int64_t rest = sixteenths % 16;
  if (rest == 0) return std::to_string(whole) + "\"";
  if (whole == 0) return fraction_text(rest) + "\"";
  return std::to_string(whole) + " " + fraction_text(rest) + "\"";
}

std::int64_t to_sixteenths(double length_in) { return std::llround(std::fabs(length_in) * 16); }

}  // namespace

std::optional<double> parse_length_in(std::string_view text) {
  Reader reader(text);
  reader.skip_blank();
  const bool minus = reader.take_any({"-", "\u2212"});
  reader.skip_blank();
  const auto length = read_unsigned(reader);
  if (!length) return std::nullopt;
  reader.skip_blank();
  if (!reader.done() || !(*length <= kLongest_in)) return std::nullopt;
  return minus ? -*length : *length;
}

std::string format_length(double length_in) {
  if (!(std::fabs(length_in) <= kLongest_in)) return "?";
  const std::int64_t total = to_sixteenths(length_in);
  const std::string sign = length_in < 0 && total > 0 ? "-" : "";
  const std::int64_t feet = total / (12 * 16);
  const std::int64_t rest = total % (12 * 16);
  if (feet == 0) return sign + inches_text(rest);
  return sign + std::to_string(feet) + "' " + inches_text(rest);
}

std::string format_inches(double length_in) {
  if (!(std::fabs(length_in) <= kLongest_in)) return "?";
  const std::int64_t total = to_sixteenths(length_in);
  return (length_in < 0 && total > 0 ? "-" : "") + inches_text(total);
}

std::string format_number(double value, int digits) {
  if (!(std::fabs(value) < 1e15)) return "?";
  std::int64_t scale = 1;
  for (int i = 0; i < digits; ++i) scale *= 10;
  const std::int64_t scaled = std::llround(std::fabs(value) * static_cast<double>(scale));
  std::string text = std::to_string(scaled / scale);
  if (digits > 0) {
    std::string part = std::to_string(scaled % scale);
    text += "." + std::string(static_cast<std::size_t>(digits) - part.size(), '0') + part;
  }
  return value < 0 && scaled > 0 ? "-" + text : text;
}

}  // namespace awlmark
