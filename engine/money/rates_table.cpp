#include "money/rates_table.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>

#include "base/doc.hpp"
#include "base/length.hpp"
#include "money/money.hpp"
#include "tables/materials.hpp"

namespace awlmark::money {
namespace {

const std::vector<std::string> kColumns{"kind", "id", "figure", "own", "starting", "unit", "what"};

struct Key {
  const char* id;
  std::optional<double> Rates::*member;
  const char* unit;
  const char* what;
};
const std::vector<Key>& keys() {
  static const std::vector<Key> all{
      {"labour_per_hour", &Rates::labour_per_hour, "usd/h", "one hour of one person with all burden"},
      {"overhead_percent", &Rates::overhead_percent, "percent of cost", "overhead; leave it and profit empty where margin is given"},
      {"profit_percent", &Rates::profit_percent, "percent of cost and overhead", "profit"},
      {"margin_percent", &Rates::margin_percent, "percent of the price", "margin, instead of overhead and profit"},
      {"sales_tax_percent", &Rates::sales_tax_percent, "percent", "sales tax that is added"},
      {"material_scale", &Rates::material_scale, "", "of the starting prices of goods; own prices are not scaled"},
      {"opening", &Rates::opening, "usd", "cost of one opening made and closed; empty: its hours at the labour rate"},
      {"leave_unsound_per_sf", &Rates::leave_unsound_per_sf, "usd/sf", "what unsound wood left under a new floor costs later"},
      {"tear_out_sound_per_sf", &Rates::tear_out_sound_per_sf, "usd/sf", "tearing out and putting back wood that was sound"}};
  return all;
}

struct Figure {
  const char* id;
  std::optional<double> OwnTask::*member;
};
const std::vector<Figure>& figures() {
  static const std::vector<Figure> all{
      {"low", &OwnTask::low},         {"likely", &OwnTask::likely},        {"high", &OwnTask::high}, {"fee", &OwnTask::fee}, {"fee_each", &OwnTask::fee_each},
      {"day_fee", &OwnTask::day_fee}, {"rate_scale", &OwnTask::rate_scale}};
  return all;
}

// ---- Reading

struct Record {
  int line = 0;
  std::vector<std::string> cells;
};

std::vector<Record> records_of(std::string_view text, Problems& problems) {
  std::vector<Record> records;
  Record now{1, {""}};
  int line = 1;
  bool quoted = false, any = false;
  const auto end_record = [&] {
    if (any) records.push_back(now);
    now = {line, {""}}, any = false;
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\n') ++line;
    if (quoted) {
      if (c != '"')
        now.cells.back() += c;
      else if (i + 1 < text.size() && text[i + 1] == '"')
        now.cells.back() += text[++i];
      else
        quoted = false;
    } else if (c == '"') {
      quoted = any = true;
    } else if (c == ',') {
      now.cells.emplace_back(), any = true;
    } else if (c == '\n') {
      end_record();
    } else if (c != '\r') {
      now.cells.back() += c, any = true;
    }
  }
  if (quoted) problems.push_back({"line " + std::to_string(now.line), "opens a quote that nothing closes", "close it, or take it out"});
  ++line;
  end_record();
  return records;
}

std::string trimmed(const std::string& text) {
  const auto from = text.find_first_not_of(" \t");
  return from == std::string::npos ? std::string() : text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

class Reader {
 public:
  Outcome<RatesFile> read(std::string_view text) {
    const auto records = records_of(text, out_.problems);
    if (out_.problems.empty() && header(records))
      for (std::size_t i = 1; i < records.size(); ++i) take(records[i]);
    if (out_.problems.empty()) out_.value = std::move(file_);
    std::stable_sort(lines_.begin(), lines_.end(), [](const auto& a, const auto& b) { return a.first.size() > b.first.size(); });
    return std::move(out_);
  }
  const Lines& lines() const { return lines_; }

 private:
  void problem(const std::string& at, std::string what, std::string mend) { out_.problems.push_back({at, std::move(what), std::move(mend)}); }

  bool header(const std::vector<Record>& records) {
    if (records.empty()) return problem("line 1", "is empty", "write a table with: awlmark rates write"), false;
    for (std::size_t c = 0; c < records[0].cells.size(); ++c) column_.emplace(trimmed(records[0].cells[c]), c);
    if (records[0].cells.size() == 1 && records[0].cells[0].find(';') != std::string::npos)
      return problem("line 1", "has semicolons between its cells", "save it with commas between cells and points in numbers"), false;
    for (const char* needed : {"kind", "id", "figure", "own"})
      if (!column_.count(needed)) problem("line 1", std::string("has no column ") + needed, "keep the columns that awlmark rates write gives");
    return out_.problems.empty();
  }

  std::string cell(const Record& record, const char* column) const {
    const auto found = column_.find(column);
    return found == column_.end() || found->second >= record.cells.size() ? std::string() : trimmed(record.cells[found->second]);
  }

  void take(const Record& record) {
    const std::string own = cell(record, "own");
    if (own.empty()) return;
    const std::string at = "line " + std::to_string(record.line), kind = cell(record, "kind"), id = cell(record, "id"), figure = cell(record, "figure");
    if (!seen_.emplace(kind + " " + id + " " + figure, record.line).second)
      return problem(at, "gives " + kind + " " + id + " " + figure + " again, as line " + std::to_string(seen_[kind + " " + id + " " + figure]), "keep one");
    if (kind == "file") return take_file(at, id, own);
    if (kind == "rate" && id == "sales_tax_on") {
      const auto word = doc::from_word<TaxOn>(own);
      if (!word) return problem(at, "own is '" + own + "'", "say in_prices, goods, invoice or none");
      file_.rates.sales_tax_on = *word;
      lines_.emplace_back("rates.sales_tax_on", record.line);
      return;
    }
    char* end = nullptr;
    const double value = std::strtod(own.c_str(), &end);
    if (own.find_first_not_of("0123456789.-+eE") != std::string::npos || end == own.c_str() || *end != 0)
      return problem(at, "own is '" + own + "'", "give a plain number: 1234.5, without $ and thousands commas");
    if (kind == "rate") return take_key(at, record.line, id, value);
    if (kind == "price") return take_price(record, id, value);
    if (kind == "task") return take_task(at, record.line, id, figure, value);
    problem(at, "kind is '" + kind + "'", "say rate, price or task");
  }

  void take_file(const std::string& at, const std::string& id, const std::string& own) {
    if (id == "contractor")
      file_.contractor = own;
    else if (id == "note")
      file_.note = own;
    else if (id == "date")
      file_.rates.date = own;
    else
      problem(at, "id is '" + id + "'", "of the file there are contractor, date and note");
  }

  void take_key(const std::string& at, int line, const std::string& id, double value) {
    std::vector<std::string> known;
    for (const auto& key : keys()) {
      known.emplace_back(key.id);
      if (id != key.id) continue;
      file_.rates.*key.member = value;
      lines_.emplace_back("rates." + id, line);
      return;
    }
    const auto near = nearest_words(id, known);
    problem(at, "names '" + id + "', which is no rate", near.empty() ? "keep the ids that awlmark rates write gives" : "did you mean '" + near.front() + "'?");
  }

  void take_price(const Record& record, const std::string& id, double value) {
    OwnPrice own{id, value, {}};
    if (const auto unit = cell(record, "unit"); !unit.empty()) own.unit = unit;
    lines_.emplace_back("rates.prices[" + std::to_string(file_.rates.prices.size()) + "]", record.line);
    file_.rates.prices.push_back(std::move(own));
  }

  void take_task(const std::string& at, int line, const std::string& id, const std::string& figure, double value) {
    const auto known = std::find_if(figures().begin(), figures().end(), [&](const Figure& f) { return figure == f.id; });
    if (known == figures().end()) return problem(at, "figure is '" + figure + "'", "say low, likely, high, fee, fee_each, day_fee or rate_scale");
    auto& tasks = file_.rates.tasks;
    auto there = std::find_if(tasks.begin(), tasks.end(), [&](const OwnTask& task) { return task.id == id; });
    if (there == tasks.end()) there = tasks.insert(tasks.end(), OwnTask{id, {}, {}, {}, {}, {}, {}, {}});
    (*there).*(known->member) = value;
    const std::string key = "rates.tasks[" + std::to_string(there - tasks.begin()) + "]";
    lines_.emplace_back(key + "." + figure, line);
    lines_.emplace_back(key, line);
  }

  Outcome<RatesFile> out_;
  RatesFile file_;
  std::map<std::string, std::size_t> column_;
  std::map<std::string, int> seen_;
  Lines lines_;
};

// ---- Writing

std::string field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

// The shortest digits that read back as the same number.
std::string figure_text(const std::optional<double>& value) { return value ? doc::Json(*value).dump() : std::string(); }

void row(std::string& out, const std::vector<std::string>& cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) out += (i > 0 ? "," : "") + field(cells[i]);
  out += "\r\n";
}

template <class T>
const T* find(const std::vector<T>& list, const std::string& id) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const T& one) { return one.id == id; });
  return found == list.end() ? nullptr : &*found;
}

void price_rows(const Rates& rates, std::string& out) {
  const Job nobody;
  const auto add = [&](const std::string& id, double starting, const std::string& unit, const std::string& what) {
    const auto* own = find(rates.prices, id);
    row(out, {"price", id, "", own ? figure_text(own->price) : "", figure_text(starting), unit, what});
  };
  for (const auto& one : tables::table("rates.csv").rows()) {
    const auto& id = one.text("id");
    const bool key = std::any_of(keys().begin(), keys().end(), [&](const Key& k) { return id == k.id; });
    if (!key) add(id, one.number("value"), one.text("unit"), one.text("what"));
  }
  for (const auto& one : tables::table("goods.csv").rows()) add(one.text("id"), one.number("price"), one.text("unit"), one.text("item"));
}

void task_rows(const Rates& rates, std::string& out) {
  const auto add = [&](const tables::Row& one, const std::string& id, const std::string& measure, const std::string& what, bool money) {
    const auto* own = find(rates.tasks, id);
    for (const auto& figure : figures()) {
      const std::string name = figure.id;
      const bool hours = name == "low" || name == "likely" || name == "high";
      if (!hours && !money) continue;
      row(out, {"task", id, name, own ? figure_text((*own).*figure.member) : "", figure_text(one.number(name)),
                hours ? "h for " + measure : (name == "rate_scale" ? "of the labour rate" : "usd"), what});
    }
  };
  for (const auto& one : tables::table("tasks.csv").rows()) {
    const bool by_option = one.text("driver") == "option";  // its hours are those of the floor's own tasks
    if (!by_option && one.text("driver") != "days") add(one, one.text("id"), one.text("per") + " of " + one.text("driver"), one.text("title"), true);
  }
  for (const auto& one : tables::table("floor_hours.csv").rows())
    add(one, kFloorTask + one.text("id"), one.text("per") + " " + one.text("unit"), one.text("what"), false);
}

}  // namespace

Outcome<RatesFile> read_rates_csv(std::string_view text, Lines& lines) {
  Reader reader;
  auto out = reader.read(text);
  lines = reader.lines();
  return out;
}

std::string write_rates_csv(const RatesFile& file) {
  const auto& rates = file.rates;
  std::string out;
  row(out, kColumns);
  row(out, {"file", "contractor", "", file.contractor.value_or(""), "", "", "whose rates these are"});
  row(out, {"file", "date", "", rates.date.value_or(""), "", "", "of these rates: 2026-05-11"});
  row(out, {"file", "note", "", file.note.value_or(""), "", "", ""});
  for (const auto& key : keys()) {
    std::string starting;
    if (tables::table("rates.csv").find("id", key.id)) starting = figure_text(tables::rate(key.id).value);
    row(out, {"rate", key.id, "", figure_text(rates.*key.member), starting, key.unit, key.what});
  }
  row(out, {"rate", "sales_tax_on", "", rates.sales_tax_on == TaxOn::in_prices ? "" : doc::word_of(rates.sales_tax_on), "in_prices",
            "in_prices, goods, invoice, none", "where sales tax stands"});
  price_rows(rates, out);
  task_rows(rates, out);
  return out;
}

}  // namespace awlmark::money
