#include "work/work.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "base/special.hpp"
#include "base/stats.hpp"
#include "work/open.hpp"
#include "work/schedule.hpp"
#include "work/site.hpp"

namespace awlmark::work {
namespace {

constexpr std::size_t kDrawsWithoutSurvey = 1000;
constexpr std::size_t kFewestFactors = 4000;  // draws of hours and prices: cheap beside those of the floor
constexpr std::size_t kMostScheduled = 4000;  // schedules of all runs together
constexpr std::size_t kFewestDraws = 100;     // of one run
constexpr std::size_t kMostDrivers = 6;

ThreePoint as_range(const floor::Hours& hours) { return {hours.low, hours.likely, hours.high}; }
double at(const floor::Hours& range, double share) { return range.low + (range.high - range.low) * share; }

std::string working_days_text(double days) { return format_number(std::ceil(days - 1e-9), 0) + (days > 1 ? " working days" : " working day"); }

// The same luck for a task's planned hours and for what a draw adds to them.
std::vector<double> shares_of(Factors& factors, const Task& task) {
  if (task.hours.high > task.hours.low) return factors.shares(task.luck, as_range(task.hours));
  if (!task.grows.empty()) return factors.shares(task.luck, as_range(task.grows.front().per_unit));
  return std::vector<double>(factors.count(), 0);
}

struct Sample {
  double value = 0;
  double weight = 0;
};

double quantile_of(std::vector<Sample> sample, double p) {
  if (sample.empty()) return 0;
  std::sort(sample.begin(), sample.end(), [](const Sample& a, const Sample& b) { return a.value < b.value; });
  double total = 0, before = 0;
  for (const auto& one : sample) total += one.weight;
  for (const auto& one : sample) {
    before += one.weight;
    if (before >= p * total - 1e-12 * total) return one.value;
  }
  return sample.back().value;
}

// Everything that is summed over the draws of all runs.
struct Sums {
  std::vector<Sample> finish, crew_h;
  double crew_days = 0;
  std::map<std::string, Driver> drivers;
};

double days_between(const Calendar& calendar, double from, double to, double per_day) { return calendar.working_hours_between(from, to) / per_day; }

// When the wood may be closed, draw by draw: around the forecast's even chance, as wide as its 9 in 10 says,
// never more than that much sooner.
class Drier {
 public:
  Drier(const std::vector<Task>& tasks, const Calendar& calendar, const Factors& factors) {
    for (std::size_t i = 0; i < tasks.size(); ++i) {
      if (tasks[i].closes_p50.empty()) continue;
      const double p50 = calendar.moment_of(tasks[i].closes_p50), p90 = calendar.moment_of(tasks[i].closes_p90);
      std::vector<double> moments;
      for (const double p : factors.order("closing")) moments.push_back(std::max(0.0, p50 + (p90 - p50) * std::max(-1.0, normal_quantile(p) / kNineInTen)));
      closing_.push_back({i, std::move(moments)});
    }
  }
  void set(std::size_t draw, Times& times) const {
    for (const auto& [task, moments] : closing_) times.not_done_before[task] = moments[draw];
  }

 private:
  static constexpr double kNineInTen = 1.2815515655446004;  // standard normal
  std::vector<std::pair<std::size_t, std::vector<double>>> closing_;
};

class Runner {
 public:
  Runner(const Job& job, const Calendar& calendar, Factors& factors, const Reveal& reveal, int crew, int crews, std::size_t draws)
      : job_(job), calendar_(calendar), factors_(factors), reveal_(reveal), crew_(crew), crews_(crews), draws_(draws) {}

  void run(Run& run, Sums& sums) {
    const auto& tasks = run.tasks;
    const Net net = net_of(tasks, crew_, crews_);
    std::vector<std::vector<double>> wait_at, day_at;
    const Drier drier(tasks, calendar_, factors_);
    for (const auto& task : tasks) {
      run.at.push_back(shares_of(factors_, task));
      wait_at.push_back(factors_.shares("wait." + task.luck, as_range(task.wait_hours)));
      day_at.push_back(factors_.shares("wait." + task.luck, as_range(task.wait_days)));
    }
    Times times(tasks.size());
    for (std::size_t i = 0; i < tasks.size(); ++i) times.not_before[i] = calendar_.moment_of(tasks[i].not_before);
    const std::size_t all = factors_.count(), step = std::max<std::size_t>(1, all / draws_);
    const double weight = run.weight / static_cast<double>((all + step - 1) / step);
    for (std::size_t draw = 0; draw < all; draw += step) {
      double crew_h = 0, on_site_h = 0;
      const std::size_t floor = reveal_.draws() > 0 ? draw % reveal_.draws() : 0;
      for (std::size_t i = 0; i < tasks.size(); ++i) {
        const auto& task = tasks[i];
        double h = at(task.hours, run.at[i][draw]);
        for (const auto& grown : task.grows) h += std::max(0.0, reveal_.more(grown.with, floor)) * at(grown.per_unit, run.at[i][draw]);
        times.hours[i] = h * factors_.pace(draw);
        times.wait_h[i] = h > 0 || task.quantity > 0 ? at(task.wait_hours, wait_at[i][draw]) : 0;
        times.wait_days[i] = h > 0 || task.quantity > 0 ? at(task.wait_days, day_at[i][draw]) : 0;
        if (task.who != "crew") continue;
        crew_h += times.hours[i];
        on_site_h += times.hours[i] / net.nodes[i].hands;
      }
      drier.set(draw, times);
      wait_from_dates(tasks, times);
      const auto plan = schedule(net, times, calendar_);
      run.draws.push_back(draw);
      run.finish_h.push_back(plan.finish);
      run.hire.push_back(hire_of(tasks, net, plan));
      run.set_up_h.push_back(on_site_h / per_day() * crew_ * kDailySetUp_h);
      sums.finish.push_back({plan.finish, weight});
      sums.crew_h.push_back({crew_h, weight});
      sums.crew_days += weight * on_site_h / per_day();
      note_drivers(tasks, plan, weight, sums);
    }
  }

  // Dates of one feasible schedule at the mean of every range, and its longest chain.
  std::vector<std::string> date_tasks(std::vector<Task>& tasks) const {
    const Net net = net_of(tasks, crew_, crews_);
    Times times(tasks.size());
    for (std::size_t i = 0; i < tasks.size(); ++i) {
      times.hours[i] = pert_mean(as_range(tasks[i].hours));
      times.wait_h[i] = pert_mean(as_range(tasks[i].wait_hours));
      times.wait_days[i] = pert_mean(as_range(tasks[i].wait_days));
      times.not_before[i] = calendar_.moment_of(tasks[i].not_before);
      times.not_done_before[i] = calendar_.moment_of(tasks[i].closes_p50);
    }
    wait_from_dates(tasks, times);
    const auto plan = schedule(net, times, calendar_);
    for (std::size_t i = 0; i < tasks.size(); ++i) {
      tasks[i].starts = calendar_.date(plan.starts[i] + 1e-6);
      tasks[i].ends = calendar_.date(plan.ends[i]);
    }
    std::vector<std::string> critical;
    for (const std::size_t i : plan.critical) critical.push_back(tasks[i].id);
    return critical;
  }

 private:
  // A wait that has begun already runs from its own date.
  void wait_from_dates(const std::vector<Task>& tasks, Times& times) const {
    for (std::size_t i = 0; i < tasks.size(); ++i) {
      if (tasks[i].asked_on.empty() || !calendar_.dated()) continue;
      times.not_done_before[i] = calendar_.after_working_days(tasks[i].asked_on, times.wait_days[i]);
      times.wait_days[i] = 0;
    }
  }

  double per_day() const { return std::max(1.0, hours_per_day_of(job_) - kDailySetUp_h); }

  static double hire_of(const std::vector<Task>& tasks, const Net& net, const Schedule& plan) {
    double money = 0;
    for (std::size_t i = 0; i < tasks.size(); ++i) {
      if (!(tasks[i].day_fee > 0)) continue;
      const std::size_t until = net.nodes[i].until == static_cast<std::size_t>(-1) ? i : net.nodes[i].until;
      money += tasks[i].day_fee * std::max(1.0, std::ceil((plan.ends[until] - plan.starts[i]) / 24 - 1e-9));
    }
    return money;
  }

  void note_drivers(const std::vector<Task>& tasks, const Schedule& plan, double weight, Sums& sums) const {
    double from = calendar_.start();
    for (const std::size_t i : plan.critical) {
      auto& driver = sums.drivers[tasks[i].id];
      driver.task = tasks[i].id;
      driver.title = tasks[i].title;
      driver.on_path += weight;
      driver.days += weight * days_between(calendar_, from, plan.ends[i], per_day());
      from = plan.ends[i];
    }
  }

  const Job& job_;
  const Calendar& calendar_;
  Factors& factors_;
  const Reveal& reveal_;
  int crew_, crews_;
  std::size_t draws_;
};

std::vector<Driver> drivers_of(const Sums& sums) {
  std::vector<Driver> out;
  for (const auto& [id, driver] : sums.drivers) {
    out.push_back(driver);
    if (driver.on_path > 0) out.back().days /= driver.on_path;
  }
  std::stable_sort(out.begin(), out.end(), [](const Driver& a, const Driver& b) { return a.on_path * a.days > b.on_path * b.days + 1e-9; });
  if (out.size() > kMostDrivers) out.resize(kMostDrivers);
  return out;
}

// A task that comes only with one outcome says which.
void say_only_if(const Open& open, const std::vector<Run>& runs, std::vector<Task>& tasks) {
  for (auto& task : tasks)
    for (std::size_t o = 0; o < open.outcomes.size() && task.only_if.empty(); ++o) {
      bool always_with = true, ever = false, ever_without = false;
      for (const auto& run : runs) {
        const bool has = std::any_of(run.tasks.begin(), run.tasks.end(), [&](const Task& t) { return t.id == task.id && t.hours.high > 0; });
        const bool with = std::find(run.outcomes.begin(), run.outcomes.end(), o) != run.outcomes.end();
        if (with) always_with = always_with && has, ever = true;
        if (!with) ever_without = ever_without || has;
      }
      if (ever && always_with && !ever_without) task.only_if = open.outcomes[o].id;
    }
}

void add_daily(const Sums& sums, int crew, Work& out) {
  Task daily;
  daily.id = "daily";
  daily.title = "Daily set-up, clean-up, protection";
  daily.who = "crew";
  daily.hands = crew;
  daily.quantity = sums.crew_days;
  daily.unit = "day";
  const double hours = sums.crew_days * crew * kDailySetUp_h;
  daily.hours = {hours * 0.75, hours, hours * 1.5};
  daily.reason.compares = "crew hours of: daily set-up, clean-up, protection";
  daily.reason.steps = {format_number(sums.crew_days, 1) + " days, " + format_number(kDailySetUp_h, 0) + " h of each for each of " + std::to_string(crew)};
  daily.reason.source = "trade estimate";
  daily.reason.status = SourceStatus::common_practice;
  out.tasks.push_back(std::move(daily));
}

void say_drying(const DryingWord& drying, Work& out) {
  if (!drying.never.empty())
    out.notes.push_back("In this air " + drying.never +
                        " never dries enough to be closed: change the air first. Until then the date rests on the table's days of drying.");
  else if (drying.released)
    out.notes.push_back("The drying log releases the wood: no days of drying are waited for.");
  else if (drying.p50)
    out.notes.push_back("The wood may be closed about " + *drying.p50 + (drying.p90 ? ", 9 chances in 10 by " + *drying.p90 : std::string()) +
                        ", as the drying log forecasts; two readings release it, never the forecast.");
}

void say(const Job& job, int crew, int crews, const Open& open, Work& out) {
  out.notes.push_back("Half of such jobs end within " + working_days_text(out.finish.p50_days) + ", four in five within " +
                      working_days_text(out.finish.p80_days) + "; " + (crews > 1 ? std::to_string(crews) + " crews of " : std::string("crew of ")) +
                      std::to_string(crew) + ", Monday to Friday" +
                      (job.work && !job.work->holidays.empty() ? ", without the holidays given." : "; no holidays are given."));
  for (const auto& driver : out.drivers)
    if (driver.on_path > 0.5 && driver.days >= 1 && out.notes.size() < 4)
      out.notes.push_back(driver.title + " holds the date " + format_number(driver.days, 1) + " working days.");
  out.notes.push_back(std::string("More hands help only where a task takes them, and only one gang works in the room at a time") +
                      (crews > 1 ? "; a second crew helps below and elsewhere." : "."));
  out.notes.push_back("Waits for the laboratory, permit and inspection run in working days; drying and curing day and night.");
  for (const auto& note : open.notes) out.notes.push_back(note);
}

}  // namespace

Result work(const Job& job, const hazards::Hazards& hazards, const cutback::Result& cut_back, const floor::Floor& floor, const takeoff::TakeOff& take_off,
            const Options& options) {
  const auto chosen = std::find_if(floor.options.begin(), floor.options.end(), [&](const floor::Option& o) { return o.id == floor.chosen; });
  const floor::Option* option = chosen != floor.options.end() ? &*chosen : nullptr;
  Result result;
  result.reveal = Reveal(job, option, cut_back);
  const std::size_t draws = result.reveal.draws() > 0 ? result.reveal.draws() : kDrawsWithoutSurvey;
  // Every floor meets the same number of them.
  result.factors = Factors(draws * ((kFewestFactors + draws - 1) / draws), options.seed);
  const Open open = open_of(job, option);
  const int crew = crew_of(job);
  const double per_day = std::max(1.0, hours_per_day_of(job) - kDailySetUp_h);
  const Calendar calendar(job.work ? job.work->start : std::nullopt, per_day, job.work ? job.work->holidays : std::vector<std::string>{});
  const std::size_t each = std::max(kFewestDraws, kMostScheduled / open.runs.size());
  const int crews = crews_of(job);
  Runner runner(job, calendar, result.factors, result.reveal, crew, crews, std::min(result.factors.count(), each));
  Sums sums;
  for (const auto& combination : open.runs) {
    Run run;
    run.weight = combination.weight;
    run.outcomes = combination.outcomes;
    const auto found = open.runs.size() > 1 ? hazards::hazards(combination.job) : hazards;
    const WorkSite site{combination.job,
                        found,
                        cut_back.findings,
                        floor,
                        take_off,
                        result.reveal,
                        option,
                        open.suspects,
                        combination.positive,
                        combination.engineer_more,
                        options.drying ? &*options.drying : nullptr};
    run.tasks = tasks_of(site);
    runner.run(run, sums);
    result.runs.push_back(std::move(run));
  }
  Work& out = result.findings;
  for (const auto& task : result.runs.front().tasks)
    if (task.hours.high > 0 || task.quantity > 0) out.tasks.push_back(task);
  // The gates are those of the job as it stands, not of an outcome.
  say_only_if(open, result.runs, out.tasks);
  out.critical = runner.date_tasks(out.tasks);
  out.total_hours = {quantile_of(sums.crew_h, 0.1), quantile_of(sums.crew_h, 0.5), quantile_of(sums.crew_h, 0.9)};
  out.crew_days = sums.crew_days;
  const double p50 = quantile_of(sums.finish, 0.5), p80 = quantile_of(sums.finish, 0.8), p90 = quantile_of(sums.finish, 0.9);
  out.finish = {calendar.date(p50), calendar.date(p80), calendar.date(p90), calendar.working_days(p50), calendar.working_days(p80), calendar.working_days(p90)};
  out.drivers = drivers_of(sums);
  out.open = open.outcomes;
  add_daily(sums, crew, out);
  say(job, crew, crews, open, out);
  if (options.drying) say_drying(*options.drying, out);
  return result;
}

}  // namespace awlmark::work
