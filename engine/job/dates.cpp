#include "job/dates.hpp"

#include <cstdio>

namespace awlmark {
namespace {

std::optional<int> digits(const std::string& text, std::size_t at, std::size_t count) {
  if (at + count > text.size()) return std::nullopt;
  int value = 0;
  for (std::size_t i = at; i < at + count; ++i) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    value = value * 10 + (text[i] - '0');
  }
  return value;
}

// Proleptic Gregorian calendar: days of whole 400-year eras, then of the year that starts in March,
// so that the leap day comes last. (H. Hinnant's public-domain derivation, restated.)
long days_from_civil(long year, int month, int day) {
  year -= month <= 2;
  const long era = (year >= 0 ? year : year - 399) / 400;
  const long year_of_era = year - era * 400;
  const long day_of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
  return era * 146097 + year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year - 719468;
}

std::optional<int> offset_minutes(const std::string& time, std::size_t at) {
  if (at + 1 == time.size() && time[at] == 'Z') return 0;
  if (at + 6 != time.size() || (time[at] != '+' && time[at] != '-') || time[at + 3] != ':') return std::nullopt;
  const auto hours = digits(time, at + 1, 2), minutes = digits(time, at + 4, 2);
  if (!hours || !minutes || *hours > 23 || *minutes > 59) return std::nullopt;
  return (time[at] == '-' ? -1 : 1) * (*hours * 60 + *minutes);
}

}  // namespace

std::optional<long> day_of(const std::string& date) {
  if (date.size() != 10 || date[4] != '-' || date[7] != '-') return std::nullopt;
  const auto year = digits(date, 0, 4), month = digits(date, 5, 2), day = digits(date, 8, 2);
  if (!year || !month || !day || *month < 1 || *month > 12 || *day < 1) return std::nullopt;
  const long count = days_from_civil(*year, *month, *day);
  if (date_of(count) != date) return std::nullopt;  // 2026-02-30
  return count;
}

std::string date_of(long day) {
  const long z = day + 719468;
  const long era = (z >= 0 ? z : z - 146096) / 146097;
  const long day_of_era = z - era * 146097;
  const long year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
  const long day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  const long shifted = (5 * day_of_year + 2) / 153;
  const int of_month = static_cast<int>(day_of_year - (153 * shifted + 2) / 5 + 1);
  const int month = static_cast<int>(shifted < 10 ? shifted + 3 : shifted - 9);
  const long year = year_of_era + era * 400 + (month <= 2);
  char text[32];
  std::snprintf(text, sizeof text, "%04ld-%02d-%02d", year, month, of_month);
  return text;
}

int weekday_of(long day) { return static_cast<int>(((day + 3) % 7 + 7) % 7); }

bool valid_date(const std::string& date) { return day_of(date).has_value(); }

std::optional<long long> second_of(const std::string& time) {
  if (time.size() < 17 || (time[10] != 'T' && time[10] != ' ') || time[13] != ':') return std::nullopt;
  const auto day = day_of(time.substr(0, 10));
  const auto hour = digits(time, 11, 2), minute = digits(time, 14, 2);
  if (!day || !hour || !minute || *hour > 23 || *minute > 59) return std::nullopt;
  std::size_t at = 16;
  int second = 0;
  if (time[at] == ':') {
    const auto seconds = digits(time, at + 1, 2);
    if (!seconds || *seconds > 60) return std::nullopt;
    second = *seconds;
    at += 3;
    if (at < time.size() && time[at] == '.')
      for (++at; at < time.size() && time[at] >= '0' && time[at] <= '9';) ++at;
  }
  if (at >= time.size()) return std::nullopt;
  const auto offset = offset_minutes(time, at);
  if (!offset) return std::nullopt;
  return static_cast<long long>(*day) * 86400 + *hour * 3600 + (*minute - *offset) * 60 + second;
}

bool valid_time(const std::string& time) { return second_of(time).has_value(); }

}  // namespace awlmark
