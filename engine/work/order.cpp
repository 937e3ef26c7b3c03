// What follows what, and which task carries which gate.
#include <algorithm>
#include <stdexcept>
#include <utility>

#include "tables/table.hpp"
#include "work/gates.hpp"
#include "work/site.hpp"

namespace awlmark::work {
namespace {

using Ids = std::map<std::string, std::vector<std::string>>;

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

// Links to rows that this job leaves out pass on to what those rows follow.
class Linker {
 public:
  explicit Linker(const Ids& ids) : ids_(ids) {}
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
  const Ids& ids_;
};

// Every task after what it follows; otherwise in the order of the table.
void sort_tasks(std::vector<Task>& tasks, std::vector<std::string>& rows) {
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
    sorted.push_back(std::move(tasks[next]));
    sorted_rows.push_back(rows[next]);
  }
  tasks = std::move(sorted);
  rows = std::move(sorted_rows);
}

}  // namespace

void put_in_order(const hazards::Hazards& found, std::vector<Task>& tasks, std::vector<std::string>& rows) {
  Ids ids;
  for (std::size_t i = 0; i < tasks.size(); ++i) ids[rows[i]].push_back(tasks[i].id);
  const Linker linker(ids);
  std::string last_strip;
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    tasks[i].after = linker.after(tables::table("tasks.csv").find("id", rows[i])->text("after"));
    if (tasks[i].id.compare(0, 6, "strip.") != 0) continue;
    if (!last_strip.empty()) tasks[i].after.push_back(last_strip);  // a layer comes up after what lies on it
    last_strip = tasks[i].id;
  }
  sort_tasks(tasks, rows);
  hang_gates(found, rows, tasks);
}

}  // namespace awlmark::work
