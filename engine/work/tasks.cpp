#include "work/tasks.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <stdexcept>
#include <utility>

#include "base/length.hpp"
#include "tables/materials.hpp"
#include "tables/table.hpp"

namespace awlmark::work {
namespace {

constexpr double kDefaultCrew = 2;
constexpr double kDefaultDay_h = 8;
constexpr double kDryEnough_percent = 19;  // the usual limit before framing is enclosed
constexpr double kLiftDefault_h = 1;

struct Amount {
  double quantity = 0;
  std::string unit;
  goods::Growth grows;
};

using Flags = std::set<std::string>;
using Amounts = std::map<std::string, Amount>;

goods::Growth with_layer(const std::string& id) { return id.empty() ? goods::Growth{} : goods::Growth{goods::Extent::layer_sf, id}; }

bool has_gate(const hazards::Hazards& found, const std::string& id) {
  return std::any_of(found.gates.begin(), found.gates.end(), [&](const hazards::Gate& g) { return g.id == id; });
}

double line_quantity(const takeoff::TakeOff& found, const std::string& id) {
  double sum = 0;
  for (const auto& line : found.lines)
    if (line.id == id) sum += line.quantity;
  return sum;
}

bool tile_finish(const Job& job) {
  return job.rebuild && (job.rebuild->finish == awlmark::Finish::porcelain_tile || job.rebuild->finish == awlmark::Finish::ceramic_tile ||
                         job.rebuild->finish == awlmark::Finish::stone_tile);
}

double room_sf(const Job& job) {
  Region left = as_region(job.room.outline_in);
  if (job.shower) left = subtract(left, as_region(job.shower->outline_in));
  return area_in2(left) / 144;
}

Flags flags_of(const WorkSite& site) {
  const auto& job = site.job;
  Flags on{"always"};
  const auto set = [&](const char* name, bool yes) {
    if (yes) on.insert(name);
  };
  set("asbestos", has_gate(site.hazards, "asbestos_removal"));
  set("contain", has_gate(site.hazards, "lead_contain") || has_gate(site.hazards, "growth_limited") || has_gate(site.hazards, "growth_full"));
  set("lead", has_gate(site.hazards, "lead_cleaned"));
  set("dirty_water", has_gate(site.hazards, "water_black_clean") || has_gate(site.hazards, "water_grey_clean"));
  set("water_runs", has_gate(site.hazards, "water_stopped"));
  set("fixtures", std::any_of(job.fixtures.begin(), job.fixtures.end(), [](const Fixture& f) { return f.stands; }));
  set("shores", !site.floor.while_open.shores.empty());
  set("shower", job.shower.has_value());
  set("tile", tile_finish(job));
  set("sheet", job.rebuild && !tile_finish(job));
  set("patch", !job.rebuild);
  const bool structural = site.option || !site.cut.members.empty();
  set("permit", job.shower || structural);
  const bool option = site.option && site.option->hours.likely > 0;
  set(option ? "option" : "no_option", true);
  // Without a reading it is not known to be dry: the fans are planned.
  double wettest = -1;
  for (const auto& mark : job.marks)
    if (mark.mc_percent) wettest = std::max(wettest, *mark.mc_percent);
  set("wet", wettest < 0 || wettest > kDryEnough_percent);
  return on;
}

Amounts amounts_of(const WorkSite& site) {
  const auto& job = site.job;
  Amounts has;
  has["one"] = {1, "job", {}};
  has["room_sf"] = {room_sf(job), "sf", {}};
  has["finish_sf"] = {room_sf(job), "sf", {}};
  const double shower_sf = job.shower ? area_in2(job.shower->outline_in) / 144 : 0;
  has["shower_sf"] = {shower_sf, "sf", {}};
  has["shower_one"] = {job.shower ? 1.0 : 0.0, "shower", {}};
  has["grout_sf"] = {room_sf(job) + shower_sf, "sf", {}};
  double around_in = 0;
  const auto& ring = job.room.outline_in;
  for (std::size_t i = 0; i < ring.size(); ++i) around_in += distance_in(ring[i], ring[(i + 1) % ring.size()]);
  has["perimeter_ft"] = {around_in / 12, "ft", {}};
  double lift = 0;
  for (const auto& fixture : job.fixtures)
    if (fixture.stands) lift += fixture.lift_hours.value_or(kLiftDefault_h);
  has["lift_hours"] = {lift, "h", {}};
  has["shores"] = {static_cast<double>(site.floor.while_open.shores.size()), "shore", {}};
  has["edge_ft"] = {line_quantity(site.take_off, "out.edges"), "ft", {goods::Extent::saw_ft, {}}};
  has["plate_ft"] = {line_quantity(site.take_off, "out.plate"), "ft", {goods::Extent::plate_ft, {}}};
  has["wallboard_sf"] = {line_quantity(site.take_off, "out.wallboard"), "sf", {goods::Extent::wallboard_sf, {}}};
  double blocking_ft = 0;
  for (const auto& block : site.cut.blocking) blocking_ft += block.length_in / 12;
  has["blocking_ft"] = {blocking_ft, "ft", {goods::Extent::blocking_ft, {}}};
  std::set<std::string> members;
  for (const auto& member : site.cut.members) members.insert(member.support);
  has["members"] = {static_cast<double>(members.size()), "member", {goods::Extent::members, {}}};
  const Layer* deck = structural_deck(job);
  const std::string deck_id = deck ? deck->id : "";
  has["bags"] = {static_cast<double>(site.take_off.bags), "bag", with_layer(deck_id)};
  const auto out_of = [&](const std::string& layer) {
    const auto found = site.cut.area_sf.find(layer);
    return found == site.cut.area_sf.end() ? 0.0 : found->second;
  };
  has["deck_sf"] = {deck ? out_of(deck_id) : 0, "sf", with_layer(deck_id)};
  double patch = 0;
  for (const auto& layer : job.layers)
    if (tables::material_facts(doc::word_of(layer.material)).kind == "finish") patch = std::max(patch, out_of(layer.id));
  has["patch_sf"] = {patch, "sf", job.layers.empty() ? goods::Growth{} : with_layer(job.layers.front().id)};
  // Suspect flooring is taken out whole, room wide, where its removal is what clears the gate.
  double suspect = 0;
  for (const auto& gate : site.hazards.gates)
    if (gate.id == "asbestos_removal") suspect = area_in2(job.room.outline_in) / 144;
  has["suspect_sf"] = {suspect, "sf", {}};
  return has;
}

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

floor::Hours times(const tables::Row& row, const char* prefix, double factor) {
  const std::string p = prefix;
  return {row.number(p + "low") * factor, row.number(p + "likely") * factor, row.number(p + "high") * factor};
}

std::vector<std::string> words_in(const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text + " ") {
    if (c != ' ')
      word += c;
    else if (!word.empty())
      words.push_back(std::exchange(word, {}));
  }
  return words;
}

Task make_task(const tables::Row& row, const std::string& id, const std::string& title, const Amount& amount) {
  Task task;
  task.id = id;
  task.title = title;
  task.who = row.text("who");
  task.rate_scale = row.number("rate_scale");
  task.fee = row.number("fee");
  const double per = row.number("per");
  task.hours = times(row, "", amount.quantity / per);
  task.wait_hours = times(row, "wait_", 1);
  task.hold = row.text("hold");
  task.quantity = amount.quantity;
  task.unit = amount.unit;
  task.grows = amount.grows;
  task.reason = row.reason();
  task.reason.compares = "crew hours of: " + title;
  task.reason.steps = {format_number(amount.quantity, 1) + " " + amount.unit + ", " + format_number(row.number("low"), 2) + " - " +
                       format_number(row.number("likely"), 2) + " - " + format_number(row.number("high"), 2) + " h for " + format_number(per, 0)};
  return task;
}

// Links to rows that this job leaves out pass on to what those rows follow.
class Linker {
 public:
  explicit Linker(const std::map<std::string, std::vector<std::string>>& ids) : ids_(ids) {}
  std::vector<std::string> after(const std::string& text) const {
    std::vector<std::string> found;
    std::set<std::string> seen;
    for (const auto& word : words_in(text)) follow(word, found, seen);
    return found;
  }

 private:
  void follow(const std::string& row_id, std::vector<std::string>& found, std::set<std::string>& seen) const {
    if (!seen.insert(row_id).second) return;
    const auto here = ids_.find(row_id);
    if (here != ids_.end() && !here->second.empty()) {
      for (const auto& id : here->second)
        if (std::find(found.begin(), found.end(), id) == found.end()) found.push_back(id);
      return;
    }
    if (row_id == "layers") {
      for (const char* strip : {"strip_flexible", "strip_tile", "take_up_panel", "take_up_plank"}) follow(strip, found, seen);
      return;
    }
    const auto* row = tables::table("tasks.csv").find("id", row_id);
    if (!row) throw std::logic_error("data: tasks.csv has no " + row_id);
    for (const auto& word : words_in(row->text("after"))) follow(word, found, seen);
  }
  const std::map<std::string, std::vector<std::string>>& ids_;
};

hazards::Before step_of(const std::string& row_id) {
  static const std::set<std::string> touching{"lab_sample", "permit", "protect", "shut_off", "stop_water"};
  static const std::set<std::string> opening{"lift_fixtures", "contain", "asbestos_removal", "asbestos_set_up", "shore"};
  static const std::set<std::string> cutting{"strip_flexible", "strip_tile", "take_up_panel", "take_up_plank", "cut_edges", "plates", "wallboard"};
  if (touching.count(row_id)) return hazards::Before::touching;
  if (opening.count(row_id)) return hazards::Before::opening;
  if (cutting.count(row_id)) return hazards::Before::cutting;
  return hazards::Before::covering;
}

// The first task of each step carries the gates that stand before that step.
void hang_gates(const hazards::Hazards& found, const std::vector<std::string>& row_ids, std::vector<Task>& tasks) {
  static const std::set<std::string> covers{"lay_deck", "rebuild_deck", "wallboard_back"};
  for (const auto step : {hazards::Before::touching, hazards::Before::opening, hazards::Before::cutting, hazards::Before::covering})
    for (std::size_t i = 0; i < tasks.size(); ++i) {
      if (step == hazards::Before::covering ? !covers.count(row_ids[i]) : step_of(row_ids[i]) != step) continue;
      for (const auto& gate : found.gates)
        if (gate.before == step) tasks[i].gates.push_back(gate.id);
      break;
    }
}

// Every task after what it follows; otherwise in the order of the table.
void put_in_order(std::vector<Task>& tasks, std::vector<std::string>& row_ids) {
  std::vector<Task> sorted;
  std::vector<std::string> sorted_rows;
  std::set<std::string> placed;
  std::vector<bool> done(tasks.size(), false);
  while (sorted.size() < tasks.size()) {
    std::size_t next = tasks.size();
    for (std::size_t i = 0; i < tasks.size() && next == tasks.size(); ++i)
      if (!done[i] && std::all_of(tasks[i].after.begin(), tasks[i].after.end(), [&](const std::string& id) { return placed.count(id) > 0; })) next = i;
    if (next == tasks.size()) throw std::logic_error("data: tasks.csv goes round in a circle");
    done[next] = true;
    placed.insert(tasks[next].id);
    sorted.push_back(tasks[next]);
    sorted_rows.push_back(row_ids[next]);
  }
  tasks = std::move(sorted);
  row_ids = std::move(sorted_rows);
}

// The option's hours of one step. Taking up the deck and setting shores are tasks of their own.
Task option_task(const tables::Row& row, const floor::Option& option, floor::Part part) {
  Task task = make_task(row, row.text("id"), row.text("title") + ": " + option.title, {1, "option", {}});
  task.hours = {};
  task.quantity = 0;
  task.reason.steps.clear();
  for (const auto& labour : option.labour) {
    if (labour.part != part) continue;
    task.hours.low += labour.hours.low;
    task.hours.likely += labour.hours.likely;
    task.hours.high += labour.hours.high;
    if (task.grows.with == goods::Extent::fixed) task.grows = labour.grows;
    if (task.unit == "option" || task.unit == labour.unit) task.quantity += labour.quantity, task.unit = labour.unit;
    task.reason.steps.push_back(labour.row + ": " + format_number(labour.quantity, 1) + " " + labour.unit + ", " + format_number(labour.hours.likely, 1) +
                                " h");
  }
  return task;
}

}  // namespace

int crew_of(const Job& job) { return std::max(1, job.work && job.work->crew ? *job.work->crew : static_cast<int>(kDefaultCrew)); }
double hours_per_day_of(const Job& job) { return job.work && job.work->hours_per_day ? *job.work->hours_per_day : kDefaultDay_h; }

std::vector<Task> tasks_of(const WorkSite& site) {
  const auto on = flags_of(site);
  const auto has = amounts_of(site);
  std::vector<Task> tasks;
  std::vector<std::string> row_ids;
  std::map<std::string, std::vector<std::string>> ids;
  const auto add = [&](const tables::Row& row, Task task) {
    ids[row.text("id")].push_back(task.id);
    row_ids.push_back(row.text("id"));
    tasks.push_back(std::move(task));
  };
  const tables::Row* daily = nullptr;
  bool stripped = false;
  for (const auto& row : tables::table("tasks.csv").rows()) {
    const auto &id = row.text("id"), &driver = row.text("driver"), &when = row.text("when");
    if (driver == "days") {
      daily = &row;
    } else if (driver == "layer") {
      // All layers at the first strip row, from the top down, whatever they are made of.
      if (std::exchange(stripped, true)) continue;
      for (const auto& layer : site.job.layers) {
        const auto area = site.cut.area_sf.find(layer.id);
        if (area == site.cut.area_sf.end() || area->second <= 0) continue;
        const auto* strip = tables::table("tasks.csv").find("id", strip_row(layer));
        add(*strip, make_task(*strip, "strip." + layer.id, strip->text("title") + " " + tables::material_facts(doc::word_of(layer.material)).spoken,
                              {area->second, "sf", with_layer(layer.id)}));
      }
    } else if (on.count(when)) {
      if (driver == "option") {
        Task task = option_task(row, *site.option, id == "rebuild_frame" ? floor::Part::framing : floor::Part::deck);
        if (!(task.hours.high > 0)) continue;
        add(row, std::move(task));
        continue;
      }
      const auto amount = has.find(driver);
      if (amount == has.end()) throw std::logic_error("data: tasks.csv: there is no driver " + driver);
      if (amount->second.quantity > 0) add(row, make_task(row, id, row.text("title"), amount->second));
    }
  }
  const Linker linker(ids);
  std::string last_strip;
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    tasks[i].after = linker.after(tables::table("tasks.csv").find("id", row_ids[i])->text("after"));
    if (tasks[i].id.rfind("strip.", 0) != 0) continue;
    if (!last_strip.empty()) tasks[i].after.push_back(last_strip);  // a layer comes up after what lies on it
    last_strip = tasks[i].id;
  }
  put_in_order(tasks, row_ids);
  hang_gates(site.hazards, row_ids, tasks);
  if (daily) {
    double crew_h = 0;
    for (const auto& task : tasks)
      if (task.who == "crew") crew_h += task.hours.likely;
    const double days = std::ceil(crew_h / (crew_of(site.job) * std::max(1.0, hours_per_day_of(site.job) - daily->number("likely"))));
    if (days > 0) tasks.push_back(make_task(*daily, "daily", daily->text("title"), {days, "day", {}}));
  }
  return tasks;
}

}  // namespace awlmark::work
