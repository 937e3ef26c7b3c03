#include "price/csv.hpp"

#include <vector>

#include "base/length.hpp"

namespace awlmark::price {
namespace {

std::string field(const std::string& text) {
  std::string safe = text;
  if (!safe.empty() && std::string("=+-@\t\r").find(safe[0]) != std::string::npos) safe.insert(safe.begin(), '\'');
  if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
  std::string out = "\"";
  for (const char c : safe) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + "\"";
}

// A number stands as it is: a minus before it is no formula.
struct Cell {
  std::string text;
  Cell(const char* words) : text(field(words)) {}
  Cell(const std::string& words) : text(field(words)) {}
  Cell(double value) : text(format_number(value, 2)) {}
};

void row(std::string& out, const std::vector<Cell>& cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) out += (i > 0 ? "," : "") + cells[i].text;
  out += "\r\n";
}

}  // namespace

std::string take_off_csv(const takeoff::TakeOff& take_off) {
  std::string out;
  row(out, {"group", "item", "quantity", "unit", "unit price usd", "cost usd", "how measured"});
  for (const auto& line : take_off.lines)
    row(out, {line.group, line.item, line.quantity, line.unit, line.unit_price, line.quantity * line.unit_price, line.from});
  return out;
}

std::string price_csv(const Price& price) {
  std::string out;
  row(out, {"part", "item", "quantity", "unit", "usd"});
  row(out, {"opening", "opening up and making safe", 1.0, "job", price.opening});
  row(out, {"base", "repair as planned", 1.0, "job", price.base});
  for (const auto& item : price.base_quantities) row(out, {"base quantity", item.item, item.quantity, item.unit, ""});
  for (const auto& unit : price.unit_prices) row(out, {"unit price", unit.item, 1.0, unit.unit, unit.price});
  row(out, {"cap", "work stops there until the owner signs for more", 1.0, "job", price.cap});
  row(out, {"standby", "a day of waiting", 1.0, "day", price.standby});
  for (const auto& [name, value] : {std::pair{"p10", price.p10}, std::pair{"p50", price.p50}, std::pair{"p80", price.p80}, std::pair{"p90", price.p90}})
    row(out, {"range", name, 1.0, "job", value});
  for (const auto& branch : price.branches) row(out, {"branch", branch.words, branch.chance, "chance", branch.p50});
  for (const auto& item : price.not_included) row(out, {"not included", item, "", "", ""});
  return out;
}

}  // namespace awlmark::price
