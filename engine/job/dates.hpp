// Dates and times as the document writes them: 2026-05-11, 2026-05-04T09:10:00Z (RFC 3339, UTC or
// with an offset). Civil-day arithmetic without a clock or a locale.
#pragma once

#include <optional>
#include <string>

namespace awlmark {

// Days since 1970-01-01 of a date that exists; nothing otherwise.
std::optional<long> day_of(const std::string& date);
std::string date_of(long day);
// 0 Monday .. 6 Sunday
int weekday_of(long day);

bool valid_date(const std::string& date);
bool valid_time(const std::string& time);
// Seconds since 1970-01-01T00:00:00Z.
std::optional<long long> second_of(const std::string& time);

}  // namespace awlmark
