// Working time on civil days: crews work Monday to Friday, waits run day and night.
//
// A moment is hours since midnight at the start of day 0 of the job.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace awlmark::work {

class Calendar {
 public:
  // `start` is a date (2026-05-11); without one day 0 is a Monday. A start on a weekend moves work
  // to the Monday after it. Work runs from 8:00 for `hours_per_day`.
  // `holidays` are dates on which nobody works; one that is no date counts for nothing.
  Calendar(const std::optional<std::string>& start, double hours_per_day, const std::vector<std::string>& holidays = {});

  bool dated() const { return dated_; }
  double start() const;                                // first working moment
  double after_work(double from, double hours) const;  // the moment when that much work is done
  double after_days(double from, double days) const;   // so many working days later, at the same time of day
  double next_working(double from) const;              // the first moment at or after it when someone works
  double working_hours_between(double from, double to) const;
  std::string date(double moment) const;  // empty without a start date
  // Midnight at the start of that date, never before the job's day 0; 0 without a start date or for no date.
  double moment_of(const std::string& date) const;
  // So many working days after that date have passed at this moment.
  double after_working_days(const std::string& date, double days) const;
  // Working days from the start, the day of `moment` counted in part: 1.5 is noon of the second day.
  double working_days(double moment) const;

 private:
  bool working_day(long day) const;
  long first_day_ = 0;  // days since 1970-01-01
  bool dated_ = false;
  std::set<long> holidays_;  // days since 1970-01-01
  double hours_per_day_;
};

inline constexpr double kDayStarts_h = 8;

}  // namespace awlmark::work
