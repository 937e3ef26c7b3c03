#include "work/calendar.hpp"

#include <algorithm>
#include <cmath>

#include "job/dates.hpp"

namespace awlmark::work {
namespace {
constexpr long kSomeMonday = 4;  // 1970-01-05
constexpr double kCrumb = 1e-9;
}  // namespace

Calendar::Calendar(const std::optional<std::string>& start, double hours_per_day, const std::vector<std::string>& holidays)
    : first_day_(kSomeMonday), hours_per_day_(std::clamp(hours_per_day, 0.5, 16.0)) {
  const auto day = start ? day_of(*start) : std::nullopt;
  if (!day) return;
  first_day_ = *day;
  dated_ = true;
  for (const auto& date : holidays)
    if (const auto off = day_of(date)) holidays_.insert(*off);
}

bool Calendar::working_day(long day) const { return weekday_of(first_day_ + day) < 5 && (holidays_.empty() || !holidays_.count(first_day_ + day)); }

double Calendar::start() const { return next_working(0); }

double Calendar::next_working(double from) const {
  long day = static_cast<long>(std::floor(from / 24));
  for (;; ++day) {
    if (!working_day(day)) continue;
    const double opens = static_cast<double>(day) * 24 + kDayStarts_h;
    if (from < opens + hours_per_day_ - kCrumb) return std::max(from, opens);
  }
}

double Calendar::after_work(double from, double hours) const {
  if (hours <= 0) return from;
  double now = next_working(from);
  for (;;) {
    const double closes = std::floor(now / 24) * 24 + kDayStarts_h + hours_per_day_;
    if (now + hours <= closes + kCrumb) return now + hours;
    hours -= closes - now;
    now = next_working(closes);
  }
}

double Calendar::after_days(double from, double days) const {
  if (days <= 0) return from;
  // Counted in whole days from the time of day at which the wait began; the rest in hours of a day.
  const double whole = std::floor(days);
  long day = static_cast<long>(std::floor(from / 24));
  const double clock = from - static_cast<double>(day) * 24;
  for (double left = whole; left > 0;)
    if (working_day(++day)) left -= 1;
  return after_work(static_cast<double>(day) * 24 + clock, (days - whole) * hours_per_day_);
}

double Calendar::working_hours_between(double from, double to) const {
  double sum = 0;
  for (long day = static_cast<long>(std::floor(from / 24)); static_cast<double>(day) * 24 < to; ++day) {
    if (!working_day(day)) continue;
    const double opens = static_cast<double>(day) * 24 + kDayStarts_h;
    sum += std::max(0.0, std::min(to, opens + hours_per_day_) - std::max(from, opens));
  }
  return sum;
}

std::string Calendar::date(double moment) const {
  if (!dated_) return {};
  // Work that ends with the day ends on that day; so does a wait that ends at midnight.
  return date_of(first_day_ + static_cast<long>(std::floor((moment - kCrumb) / 24)));
}

double Calendar::moment_of(const std::string& date) const {
  const auto day = dated_ ? day_of(date) : std::nullopt;
  return day ? std::max(0.0, static_cast<double>(*day - first_day_) * 24) : 0;
}

double Calendar::after_working_days(const std::string& date, double days) const {
  const auto from = dated_ ? day_of(date) : std::nullopt;
  if (!from) return 0;
  long day = *from - first_day_;
  for (double left = std::ceil(days); left > 0;)
    if (working_day(++day)) left -= 1;
  return std::max(0.0, static_cast<double>(day + 1) * 24);  // midnight after the last of them
}

double Calendar::working_days(double moment) const { return working_hours_between(0, moment) / hours_per_day_; }

}  // namespace awlmark::work
