#include "tables/table.hpp"

#include <memory>
#include <stdexcept>

#include "base/doc.hpp"
#include "tables/embedded.hpp"

namespace awlmark::tables {
namespace {

// Splits one record off `text`; quoted fields may hold commas, doubled quotes and line ends.
std::vector<std::string> take_record(std::string_view& text) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  std::size_t i = 0;
  for (; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c == '"' && i + 1 < text.size() && text[i + 1] == '"')
        cells.back() += text[++i];
      else if (c == '"')
        quoted = false;
      else
        cells.back() += c;
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',') {
      cells.emplace_back();
    } else if (c == '\n') {
      ++i;
      break;
    } else if (c != '\r') {
      cells.back() += c;
    }
  }
  text.remove_prefix(i);
  return cells;
}

double to_number(const std::string& cell, std::string_view column) {
  // The tables hold plain decimals and fractions of inches; JSON's grammar covers the decimals.
  const auto parsed = doc::Json::parse(cell, nullptr, false);
  if (!parsed.is_number()) throw std::logic_error("data: '" + cell + "' in column " + std::string(column) + " is not a number");
  return parsed.get<double>();
}

}  // namespace

std::string_view embedded(std::string_view name) {
  for (const auto& file : embedded_files())
    if (file.name == name) return file.text;
  throw std::logic_error("data: there is no " + std::string(name));
}

const std::string& Row::text(std::string_view column) const {
  const auto found = columns_->find(std::string(column));
  if (found == columns_->end()) throw std::logic_error("data: there is no column " + std::string(column));
  return cells_[found->second];
}

double Row::number(std::string_view column) const { return to_number(text(column), column); }

std::optional<double> Row::maybe_number(std::string_view column) const {
  const auto& cell = text(column);
  if (cell.empty()) return std::nullopt;
  return to_number(cell, column);
}

bool Row::flag(std::string_view column) const {
  const auto& cell = text(column);
  if (cell == "yes") return true;
  if (cell == "no") return false;
  throw std::logic_error("data: '" + cell + "' in column " + std::string(column) + " is neither yes nor no");
}

SourceStatus Row::status() const {
  const auto status = doc::from_word<SourceStatus>(text("status"));
  if (!status) throw std::logic_error("data: '" + text("status") + "' is not a status");
  return *status;
}

Reason Row::reason() const {
  Reason reason;
  reason.source = text("source");
  reason.edition = text("edition");
  reason.rule = text("where");
  reason.status = status();
  return reason;
}

Table::Table(std::string_view csv) {
  const auto header = take_record(csv);
  for (std::size_t i = 0; i < header.size(); ++i) columns_[header[i]] = i;
  while (!csv.empty()) {
    auto cells = take_record(csv);
    if (cells.size() == 1 && cells[0].empty()) continue;
    if (cells.size() != header.size())
      throw std::logic_error("data: a row that starts with '" + cells[0] + "' has " + std::to_string(cells.size()) + " cells, not " +
                             std::to_string(header.size()));
    rows_.emplace_back(&columns_, std::move(cells));
  }
}

const Row* Table::find(std::string_view column, std::string_view value) const {
  for (const auto& row : rows_)
    if (row.text(column) == value) return &row;
  return nullptr;
}

const Row* Table::find(std::string_view column, std::string_view value, std::string_view column2, std::string_view value2) const {
  for (const auto& row : rows_)
    if (row.text(column) == value && row.text(column2) == value2) return &row;
  return nullptr;
}

const Table& table(std::string_view file) {
  // Parsed on first use and kept: the text is part of the program and never changes.
  static std::map<std::string, std::unique_ptr<Table>, std::less<>> parsed;
  const auto found = parsed.find(file);
  if (found != parsed.end()) return *found->second;
  auto made = std::make_unique<Table>(embedded(file));
  return *parsed.emplace(std::string(file), std::move(made)).first->second;
}

}  // namespace awlmark::tables
