// The contractor's rates as a file of its own (docs/rates.md): JSON, or a table that a spreadsheet edits.
//
// JSON: {"format": "awlmark-rates", "version": 1, "contractor": "...", "rates": {...}}, `rates` as in the job
// document. CSV: a line a figure, with the table's starting value beside the contractor's own; a line whose
// `own` is empty is not given. Writing what was read gives the same figures, and the same bytes again.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "job/job.hpp"

namespace awlmark::money {

struct RatesFile {
  std::string format = "awlmark-rates";
  int version = 1;
  std::optional<std::string> contractor;
  Rates rates;
  std::optional<std::string> note;
};
BOOST_DESCRIBE_STRUCT(RatesFile, (), (format, version, contractor, rates, note))

doc::FieldRules field_rules(const RatesFile*);

// Either form, told apart by its first character. Every problem at once, with its key or its line.
Outcome<RatesFile> read_rates(std::string_view text);
std::string write_rates_json(const RatesFile& file);
std::string write_rates_csv(const RatesFile& file);
// The job with the file's figures in place of its own; what the file does not give stays.
void use_rates(const Rates& rates, Job& job);
// What of the file differs from the starting values, in words; how cost becomes price.
std::string rates_text(const RatesFile& file);

}  // namespace awlmark::money
