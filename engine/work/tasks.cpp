// The tasks of a run, from data/tasks.csv: which apply, and how many hours by quantity.
#include <algorithm>
#include <stdexcept>
#include <utility>

#include "base/described.hpp"
#include "base/length.hpp"
#include "job/dates.hpp"
#include "money/money.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"
#include "work/site.hpp"

namespace awlmark::work {
namespace {

constexpr double kDefaultCrew = 2;
constexpr double kDefaultDay_h = 8;
// An engineer who asks for more asks for half as much framing again: a judgement without a source.
constexpr double kEngineerMore = 1.5;
constexpr double kBlock_ft = 14.5 / 12;  // of a block between joists at 16 in.

// Business days to cancel what is signed at home: 16 CFR 429, from memory. Working days here, which are no fewer.
constexpr double kCancellation_days = 3;

using goods::Extent;

// Which row strips a layer of this material.
std::string strip_row(const Layer& layer) {
  switch (layer.material) {
    case Material::sheet_vinyl:
    case Material::sheet_linoleum:
    case Material::vinyl_tile:
    case Material::asphalt_tile:
    case Material::felt:
    case Material::adhesive:
      return "strip_flexible";
    case Material::ceramic_tile:
    case Material::porcelain_tile:
    case Material::stone_tile:
    case Material::mortar_bed:
    case Material::cement_board:
      return "strip_tile";
    case Material::board:
    case Material::plank_tg:
      return "take_up_plank";
    default:
      return "take_up_panel";
  }
}

floor::Hours times(const money::TaskHours& hours, double factor) { return {hours.low * factor, hours.likely * factor, hours.high * factor}; }
floor::Hours wait_of(const tables::Row& row) { return {row.number("wait_low"), row.number("wait_likely"), row.number("wait_high")}; }

// How one member's repair spreads around its likely hours, which is what members are counted in.
floor::Hours per_likely_hour(const Job& job) {
  const auto hours = money::floor_hours_of(job, *tables::table("floor_hours.csv").find("id", "sister"));
  return {hours.low / hours.likely, 1, hours.high / hours.likely};
}

void grow(Task& task, const goods::Growth& with, const floor::Hours& per_unit) {
  if (per_unit.high > 0) task.grows.push_back({with, per_unit});
}

Task make_task(const Job& job, const tables::Row& row, const std::string& id, const std::string& title, const Amount& amount) {
  Task task;
  task.id = id;
  task.title = title;
  task.who = row.text("who");
  task.hands = static_cast<int>(row.number("hands"));
  task.place = doc::from_word<Place>(row.text("place")).value_or(Place::room);
  const auto paid = money::money_of(job, row);
  const auto hours = money::hours_of(job, row);
  task.rate_scale = paid.rate_scale;
  task.fee = paid.fee + paid.fee_each * amount.quantity;
  task.day_fee = paid.day_fee;
  task.until = row.text("until");
  const double per = row.number("per"), least = row.number("least");
  const double counted = amount.quantity > 0 ? std::max(amount.quantity, least) : 0;
  task.hours = times(hours, counted / per);
  (row.text("wait_unit") == "d" ? task.wait_days : task.wait_hours) = wait_of(row);
  task.hold = row.text("hold");
  task.quantity = amount.quantity;
  task.unit = amount.unit;
  for (const auto& [with, units] : amount.grows) grow(task, with, with.with == Extent::members ? per_likely_hour(job) : times(hours, units / per));
  task.reason = row.reason();
  task.reason.compares = "hours, all hands together, of: " + title;
  task.reason.steps = {format_number(amount.quantity, 1) + " " + amount.unit +
                       (counted > amount.quantity ? ", counted as " + format_number(counted, 1) : std::string()) + ", " + format_number(hours.low, 2) + " - " +
                       format_number(hours.likely, 2) + " - " + format_number(hours.high, 2) + " h for " + format_number(per, 0)};
  return task;
}

// The option's hours of one step, and what one more of it would take. Taking up the deck and setting
// shores are tasks of their own.
Task option_task(const WorkSite& site, const tables::Row& row, floor::Part part) {
  Task task = make_task(site.job, row, row.text("id"), row.text("title") + ": " + site.option->title, {0, ""});
  task.reason.steps.clear();
  for (const auto& labour : site.option->labour) {
    if (labour.part != part) continue;
    const double scale = part == floor::Part::framing && site.engineer_more ? kEngineerMore : 1;
    task.hours.low += labour.hours.low * scale;
    task.hours.likely += labour.hours.likely * scale;
    task.hours.high += labour.hours.high * scale;
    if (task.unit.empty() || task.unit == labour.unit) task.quantity += labour.quantity, task.unit = labour.unit;
    task.reason.steps.push_back(labour.row + ": " + format_number(labour.quantity, 1) + " " + labour.unit + ", " + format_number(labour.hours.likely, 1) +
                                " h");
  }
  const auto& table = tables::table("floor_hours.csv");
  if (part == floor::Part::framing) {
    const auto* block = table.find("id", "blocking");
    grow(task, {Extent::members, {}}, per_likely_hour(site.job));
    grow(task, {Extent::blocking_ft, {}}, times(money::floor_hours_of(site.job, *block), 1 / block->number("per") / kBlock_ft));
    return task;
  }
  const Layer* deck = structural_deck(site.job);
  const bool whole = std::any_of(site.option->goods.begin(), site.option->goods.end(), [&](const goods::Good& good) {
    return good.kind == goods::Kind::deck_panel && good.grows.with == Extent::fixed && good.quantity > 0.9 * area_in2(site.job.room.outline_in) / 144;
  });
  if (!deck || whole) return task;  // a deck over the whole room is laid already
  const bool planks = deck->material == Material::board || deck->material == Material::plank_tg;
  const auto* lay = table.find("id", planks ? "lay_plank" : "lay_panel");
  auto per_sf = times(money::floor_hours_of(site.job, *lay), 1 / lay->number("per"));
  if (deck->material == Material::plank_tg) {
    const auto* spline = table.find("id", "spline");
    const double feet = 12 / deck->face_width_in.value_or(5.5);
    const auto more = times(money::floor_hours_of(site.job, *spline), feet / spline->number("per"));
    per_sf = {per_sf.low + more.low, per_sf.likely + more.likely, per_sf.high + more.high};
  }
  grow(task, {Extent::layer_sf, deck->id}, per_sf);
  return task;
}

// Only what a draw can bring is kept beside what is planned.
bool wanted(const WorkSite& site, const Task& task) {
  if (task.hours.high > 0 || (task.quantity > 0 && (task.wait_hours.high > 0 || task.wait_days.high > 0))) return true;
  return std::any_of(task.grows.begin(), task.grows.end(), [&](const Grown& grown) { return site.reveal.ever(grown.with); });
}

class Builder {
 public:
  explicit Builder(const WorkSite& site) : site_(site), on_(flags_of(site)), has_(amounts_of(site)), removed_(removed_layers(site)) {}

  std::vector<Task> build() {
    for (const auto& row : tables::table("tasks.csv").rows()) {
      const auto& driver = row.text("driver");
      if (driver == "days") continue;  // daily set-up: it shortens each day instead
      if (driver == "layer")
        strip_layers();
      else if (on_.count(row.text("when")))
        add_row(row, driver);
    }
    put_in_order(site_.hazards, tasks_, rows_);
    return std::move(tasks_);
  }

 private:
  void add(const tables::Row& row, Task task) {
    if (!wanted(site_, task)) return;
    rows_.push_back(row.text("id"));
    if (task.luck.empty()) task.luck = task.id;
    tasks_.push_back(std::move(task));
  }
  void add_row(const tables::Row& row, const std::string& driver) {
    const auto& id = row.text("id");
    if (driver == "option") return add(row, option_task(site_, row, id == "rebuild_frame" ? floor::Part::framing : floor::Part::deck));
    const auto amount = has_.find(driver);
    if (amount == has_.end()) throw std::logic_error("data: tasks.csv: there is no driver " + driver);
    Task task = make_task(site_.job, row, id, row.text("title"), amount->second);
    if (amount->second.quantity <= 0) task.wait_hours = task.wait_days = {}, task.fee = 0;
    take_lead(id, task);
    take_dates(id, task);
    add(row, std::move(task));
  }
  // What the job's own dates and the state's settings say of a wait.
  void take_dates(const std::string& id, Task& task) const {
    const auto& job = site_.job;
    const bool dated = job.work && job.work->start;  // without a first day no date can hold anything: the table's waits stand
    if (id == "cancellation") wait_to_cancel(task);
    if (dated && id == "adjuster" && job.claim->adjuster_visit) {
      task.wait_days = {};
      task.not_before = *job.claim->adjuster_visit;
      task.wait_hours = {24, 24, 24};  // the day of the visit
      task.reason.steps.push_back("the job gives " + task.not_before + " for it");
    }
    if (id == "licensed_lead" && job.settings && job.settings->asbestos_notice_days) {
      const double notice = *job.settings->asbestos_notice_days;
      task.wait_days = {std::max(task.wait_days.low, notice), std::max(task.wait_days.likely, notice), std::max(task.wait_days.high, notice)};
      task.reason.steps.push_back("notice of " + format_number(notice, 0) + " working days before removal");
    }
    if (id == "permit" && job.work && job.work->permit && job.work->permit->applied && task.wait_hours.high == 0) {
      task.hours = {};  // applied for already: only the wait is left
      task.asked_on = *job.work->permit->applied;
      task.reason.steps.push_back("applied for on " + task.asked_on);
    }
    if (dated && id == "dry_out" && site_.drying && site_.drying->p50 && site_.drying->never.empty()) {
      task.closes_p50 = *site_.drying->p50;
      task.closes_p90 = site_.drying->p90.value_or(later(*site_.drying->p50, site_.drying->read));
      task.wait_hours = {24, 24, 24};  // two readings a day apart release it
      task.reason.steps.push_back("the drying log's forecast: " + task.closes_p50 + ", 9 in 10 by " + task.closes_p90);
    }
  }
  // Where the forecast has no 9 in 10, twice as long as its even chance.
  static std::string later(const std::string& p50, const std::string& read) {
    const auto from = day_of(read), to = day_of(p50);
    return from && to && *to > *from ? date_of(*to + (*to - *from)) : p50;
  }
  void wait_to_cancel(Task& task) const {
    const auto& settings = site_.job.settings;
    const bool set = settings && settings->cancellation_days;
    const double days = set ? *settings->cancellation_days : kCancellation_days;
    task.wait_days = {days, days, days};
    if (site_.job.work && site_.job.work->signed_on) task.asked_on = *site_.job.work->signed_on;
    task.reason.steps = {format_number(days, 0) + " working days" + (task.asked_on.empty() ? "" : " from " + task.asked_on) +
                         (set ? ", as the state's settings say" : ", the federal rule for what is signed at home; the state may ask for more")};
  }
  // Calendar days from asking to having, as the contractor knows them.
  void take_lead(const std::string& id, Task& task) const {
    static const std::map<std::string, std::string> leads{
        {"permit", "permit"}, {"lab_sample", "laboratory"}, {"licensed_lead", "licensed_firm"}, {"engineer_note", "engineer"}, {"order_parts", "parts"}};
    const auto lead = leads.find(id);
    if (lead == leads.end() || !site_.job.work) return;
    const auto days = site_.job.work->lead_days.find(lead->second);
    if (days == site_.job.work->lead_days.end()) return;
    task.wait_days = {};
    task.wait_hours = {days->second * 24, days->second * 24, days->second * 24};
    task.reason.steps.push_back("the job gives " + format_number(days->second, 0) + " calendar days for it");
  }
  // All layers at the first strip row, from the top down, whatever they are made of.
  void strip_layers() {
    if (std::exchange(stripped_, true)) return;
    for (std::size_t i = 0; i < site_.job.layers.size(); ++i) {
      if (removed_.count(i)) continue;  // the licensed remover takes it, once
      const auto& layer = site_.job.layers[i];
      const auto* row = tables::table("tasks.csv").find("id", strip_row(layer));
      Task task = make_task(site_.job, *row, "strip." + layer.id, row->text("title") + " " + tables::material_facts(doc::word_of(layer.material)).spoken,
                            {layer_out_sf(site_, i), "sf", {{{Extent::layer_sf, layer.id}, 1}}});
      task.luck = "layer " + std::to_string(i);
      add(*row, std::move(task));
    }
  }

  const WorkSite& site_;
  std::set<std::string> on_;
  std::map<std::string, Amount> has_;
  std::set<std::size_t> removed_;
  std::vector<Task> tasks_;
  std::vector<std::string> rows_;
  bool stripped_ = false;
};

}  // namespace

int crew_of(const Job& job) { return std::max(1, job.work && job.work->crew ? *job.work->crew : static_cast<int>(kDefaultCrew)); }
int crews_of(const Job& job) { return std::max(1, job.work && job.work->crews ? *job.work->crews : 1); }
double hours_per_day_of(const Job& job) { return job.work && job.work->hours_per_day ? *job.work->hours_per_day : kDefaultDay_h; }

std::vector<Task> tasks_of(const WorkSite& site) { return Builder(site).build(); }

}  // namespace awlmark::work
