#include "money/rates_file.hpp"

#include <algorithm>

#include "base/doc.hpp"
#include "base/length.hpp"
#include "money/money.hpp"
#include "money/rates_table.hpp"

namespace awlmark::money {

doc::FieldRules field_rules(const RatesFile*) {
  return {{.name = "format", .text = "the words awlmark-rates", .required = true, .max_chars = 40},
          {.name = "version", .text = "1", .required = true, .min = 1, .max = 1},
          {.name = "contractor", .max_chars = 200},
          {.name = "rates", .text = "as in the job document", .required = true}};
}

namespace {

template <class T>
void take(const std::optional<T>& from, std::optional<T>& to) {
  if (from) to = from;
}

template <class T>
void take_list(const std::vector<T>& from, std::vector<T>& to) {
  for (const auto& one : from) {
    const auto there = std::find_if(to.begin(), to.end(), [&](const T& old) { return old.id == one.id; });
    if (there == to.end())
      to.push_back(one);
    else
      *there = one;
  }
}

Outcome<RatesFile> checked(std::string_view json) {
  Outcome<RatesFile> file = doc::read_text<RatesFile>(json);
  if (!file) return file;
  if (file.value->format != "awlmark-rates")
    file.problems.push_back({"format", "is '" + file.value->format + "'", "a file of rates says awlmark-rates; one job's rates stand in its own document"});
  // The document's own checks of its rates; of the rest of a job there is nothing here.
  Job job;
  job.rates = file.value->rates;
  Problems all, warnings;
  validate(job, all, warnings);
  for (auto& problem : all)
    if (problem.at.compare(0, 6, "rates.") == 0) file.problems.push_back(std::move(problem));
  if (!file.problems.empty()) file.value.reset();
  return file;
}

std::string percent(double share) { return format_number(share * 100, 1) + " percent"; }

}  // namespace

Outcome<RatesFile> read_rates(std::string_view text) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {{}, {{"", "is empty", "write one with: awlmark rates write"}}, {}};
  if (text[first] == '{') return checked(text);
  Lines lines;
  Outcome<RatesFile> file = read_rates_csv(text, lines);
  if (!file) return file;
  // Ranges and cross-checks are those of the JSON form; their places are told by line.
  file = checked(write_rates_json(*file.value));
  for (auto& problem : file.problems)
    for (const auto& [key, line] : lines)
      if (problem.at.compare(0, key.size(), key) == 0) {
        problem.at = "line " + std::to_string(line);
        break;
      }
  return file;
}

std::string write_rates_json(const RatesFile& file) { return doc::write(file).dump(2) + "\n"; }

void use_rates(const Rates& from, Job& job) {
  if (!job.rates) job.rates = Rates{};
  Rates& to = *job.rates;
  // A margin takes the place of overhead and profit, and the other way round.
  if (from.margin_percent) to.overhead_percent.reset(), to.profit_percent.reset();
  if (from.overhead_percent || from.profit_percent) to.margin_percent.reset();
  for (const auto member : {&Rates::leave_unsound_per_sf, &Rates::tear_out_sound_per_sf, &Rates::opening, &Rates::labour_per_hour, &Rates::overhead_percent,
                            &Rates::profit_percent, &Rates::margin_percent, &Rates::material_scale})
    take(from.*member, to.*member);
  if (from.sales_tax_on != TaxOn::in_prices) to.sales_tax_on = from.sales_tax_on, to.sales_tax_percent = from.sales_tax_percent;
  take(from.date, to.date);
  take_list(from.prices, to.prices);
  take_list(from.tasks, to.tasks);
}

std::string rates_text(const RatesFile& file) {
  Job job;
  job.rates = file.rates;
  const auto markup = markup_of(job);
  std::string text = "  labour $" + format_number(stakes_of(job).labour_per_hour, 2) + " an hour\n";
  text += markup.by_margin
              ? "  margin " + percent(markup.margin) + " of the price: " + percent(markup.times - 1) + " added to cost\n"
              : "  overhead " + percent(markup.overhead) + " and profit " + percent(markup.profit) +
                    " added to cost, compounded: " + percent(markup.times - 1) + " on cost, a margin of " + percent(markup.margin) + " of the price\n";
  const auto tax = sales_tax_of(job);
  text += "  sales tax: " + doc::spoken(tax.on) + (tax.share > 0 ? ", " + format_number(tax.share * 100, 3) + " percent" : std::string()) + "\n";
  text += "  " + std::to_string(file.rates.prices.size()) + " prices and " + std::to_string(file.rates.tasks.size()) + " tasks of the contractor's own\n";
  return text;
}

}  // namespace awlmark::money
