#include "work/work.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "base/stats.hpp"
#include "work/schedule.hpp"
#include "work/tasks.hpp"

namespace awlmark::work {
namespace {

constexpr int kDraws = 1000;
constexpr std::uint64_t kSeed = 1954;
constexpr double kDailySetUp_h = 1;  // of each day: set-up, clean-up, protection

ThreePoint as_range(const floor::Hours& hours) { return {hours.low, hours.likely, hours.high}; }

std::string working_days_text(double days) { return format_number(std::ceil(days - 1e-9), 0) + (days > 1 ? " working days" : " working day"); }

}  // namespace

Work work(const Job& job, const hazards::Hazards& hazards, const cutback::CutBack& cut_back, const floor::Floor& floor, const takeoff::TakeOff& take_off) {
  WorkSite site{job, hazards, cut_back, floor, take_off, nullptr};
  const auto chosen = std::find_if(floor.options.begin(), floor.options.end(), [&](const floor::Option& o) { return o.id == floor.chosen; });
  if (chosen != floor.options.end()) site.option = &*chosen;
  Work out;
  out.tasks = tasks_of(site);
  const int crew = crew_of(job);
  const Calendar calendar(job.work ? job.work->start : std::nullopt, std::max(1.0, hours_per_day_of(job) - kDailySetUp_h));
  std::vector<double> finish, total, hours(out.tasks.size()), waits(out.tasks.size());
  for (int draw = 0; draw < kDraws; ++draw) {
    Random random(stream_seed(kSeed, static_cast<std::uint64_t>(draw)));
    const double pace = pace_draw(kPaceSpread, random);
    double sum = 0;
    for (std::size_t i = 0; i < out.tasks.size(); ++i) {
      hours[i] = pert_draw(as_range(out.tasks[i].hours), random) * pace;
      waits[i] = pert_draw(as_range(out.tasks[i].wait_hours), random);
      sum += hours[i];
    }
    total.push_back(sum);
    finish.push_back(schedule(out.tasks, hours, waits, crew, calendar).finish);
  }
  std::sort(finish.begin(), finish.end());
  std::sort(total.begin(), total.end());
  out.total_hours = {quantile_sorted(total, 0.1), quantile_sorted(total, 0.5), quantile_sorted(total, 0.9)};
  const double p50 = quantile_sorted(finish, 0.5), p80 = quantile_sorted(finish, 0.8);
  out.finish = {calendar.date(p50), calendar.date(p80), calendar.working_days(p50), calendar.working_days(p80)};
  for (std::size_t i = 0; i < out.tasks.size(); ++i) {
    hours[i] = pert_mean(as_range(out.tasks[i].hours));
    waits[i] = pert_mean(as_range(out.tasks[i].wait_hours));
  }
  out.critical = schedule(out.tasks, hours, waits, crew, calendar).critical;
  out.notes.push_back("Half of such jobs end within " + working_days_text(out.finish.p50_days) + ", four in five within " +
                      working_days_text(out.finish.p80_days) + "; crew of " + std::to_string(crew) + ", Monday to Friday. Holidays are not counted.");
  out.notes.push_back("Waits for the laboratory, drying, inspection and cure run day and night; they set the calendar more than the hours do.");
  out.notes.push_back("The lows and highs are ends of single tasks; their sums are far outside any likely result.");
  return out;
}

}  // namespace awlmark::work
