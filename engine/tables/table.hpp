// A table of data/*.csv: comma-separated, first line the column names, fields in double quotes where
// they hold a comma. Every table ends with the columns source, edition, where, status; `status` is
// read, memory, common_practice or derived. tests/tables checks that every row of every table has them.
//
// A table is the program's own text, so a fault in it throws std::logic_error (and fails a test);
// nothing that a user types reaches this code.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/reason.hpp"

namespace awlmark::tables {

class Row {
 public:
  Row(const std::map<std::string, std::size_t>* columns, std::vector<std::string> cells) : columns_(columns), cells_(std::move(cells)) {}
  const std::string& text(std::string_view column) const;             // throws when there is no such column
  double number(std::string_view column) const;                       // throws when it is not a number
  std::optional<double> maybe_number(std::string_view column) const;  // nothing when the cell is empty
  bool flag(std::string_view column) const;                           // yes / no
  SourceStatus status() const;
  // Source, edition, where (as the rule) and status of the row; the caller fills in the comparison.
  Reason reason() const;

 private:
  const std::map<std::string, std::size_t>* columns_;
  std::vector<std::string> cells_;
};

class Table {
 public:
  explicit Table(std::string_view csv);
  Table(const Table&) = delete;
  Table& operator=(const Table&) = delete;
  const std::vector<Row>& rows() const { return rows_; }
  bool has_column(std::string_view name) const { return columns_.contains(std::string(name)); }
  // The first row whose `column` is `value`; nothing when there is none.
  const Row* find(std::string_view column, std::string_view value) const;
  const Row* find(std::string_view column, std::string_view value, std::string_view column2, std::string_view value2) const;

 private:
  std::map<std::string, std::size_t> columns_;
  std::vector<Row> rows_;
};

// The table of that file, parsed once: table("materials.csv").
const Table& table(std::string_view file);

}  // namespace awlmark::tables
