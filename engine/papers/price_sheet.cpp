#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/price_bar.hpp"
#include "papers/keys.hpp"
#include "papers/reasons.hpp"
#include "papers/sheet.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

void price_range(Sheet& sheet, const price::Price& price) {
  sheet.section("The range");
  sheet.figure(price_bar(price), "How likely this job ends below a price.");
  for (const auto& words : price.words) sheet.say(words);
  Table table{{"Part", "Amount", "What it means"}, {}, "cards"};
  table.rows.push_back(
      {{"Base", "good"}, {money(price.base), "num"}, {"The work as planned, with its quantities; what turns up is added at the unit prices below.", ""}});
  table.rows.push_back({{"Allowance", "good"},
                        {money(price.allowance), "num"},
                        {"For floor and hours not yet known, above the even chance. With it, 4 jobs in 5 like this one end below " + money(price.p80) +
                             ". What is not needed is not charged.",
                         ""}});
  table.rows.push_back(
      {{"Contingency", "good"}, {money(price.contingency), "num"}, {"Kept aside. With it, 9 jobs in 10 end below " + money(price.p90) + ".", ""}});
  sheet.table(table);
  if (std::isfinite(price.from_floor_share))
    sheet.say("About " + percent(price.from_floor_share) +
              " of the uncertainty is floor that nobody has seen; opening it up narrows the range. The rest is how long work takes and what things cost.");
}

void price_lines(Sheet& sheet, const price::Price& price) {
  if (price.lines.empty()) return;
  sheet.section("What it is made of");
  Table table{{"Item", "Low", "Likely", "High"}, {}, ""};
  for (const auto& line : price.lines)
    table.rows.push_back({{line.item, ""}, {money(line.low), "num"}, {money(line.likely), "num"}, {money(line.high), "num"}});
  sheet.table(table);
  sheet.say(
      "Lows do not add up to a likely low, nor highs to a likely high: not everything goes well, or badly, on the same job. The range above is reckoned from "
      "whole jobs.",
      "small");
}

std::string group_title(const std::string& group) {
  if (group == "take_out") return "Take out";
  if (group == "put_back") return "Put back";
  if (group == "protect") return "Protect";
  return group.empty() ? "Other" : sentence_case(spoken_id(group));
}

void quantities(Sheet& sheet, const takeoff::TakeOff& take_off) {
  sheet.section("Quantities");
  std::vector<std::string> groups;
  for (const auto& line : take_off.lines)
    if (std::find(groups.begin(), groups.end(), line.group) == groups.end()) groups.push_back(line.group);
  for (const auto& group : groups) {
    sheet.sub(group_title(group));
    Table table{{"Item", "Quantity", "Unit", "Unit price", "How measured"}, {}, "cards"};
    for (const auto& line : take_off.lines)
      if (line.group == group)
        table.rows.push_back({{line.item, ""},
                              {figure(line.quantity), "num"},
                              {line.unit, ""},
                              {line.unit_price > 0 ? "$" + format_number(line.unit_price, 2) : "", "num"},
                              {line.from, ""}});
    sheet.table(table);
  }
  if (take_off.debris_lb > 0)
    sheet.say("Debris: about " + figure(take_off.debris_lb) + " lb, " + figure(take_off.debris_yd3) + " cubic yards" +
              (take_off.bags > 0 ? ", " + count_of(static_cast<std::size_t>(take_off.bags), "bag", "bags") : "") + ".");
  sheet.list(take_off.notes, "small");
}

std::string hours_text(const floor::Hours& hours) {
  if (hours.high <= 0) return "";
  return format_number(hours.low, 1) + " - " + format_number(hours.likely, 1) + " - " + format_number(hours.high, 1);
}

void tasks(Sheet& sheet, ReasonList& reasons, const work::Work& work) {
  if (work.tasks.empty()) return;
  sheet.section("Work, in order");
  Table table{{"Task", "Who", "Hours, low - likely - high", "Wait hours", "Hold"}, {}, "cards"};
  for (const auto& task : work.tasks) {
    const bool critical = std::find(work.critical.begin(), work.critical.end(), task.id) != work.critical.end();
    table.rows.push_back({{task.title, critical ? "good" : "", reasons.number_of(task.reason)},
                          {spoken_id(task.who), ""},
                          {hours_text(task.hours), ""},
                          {hours_text(task.wait_hours), ""},
                          {task.hold, ""}});
  }
  sheet.table(table);
  if (!work.critical.empty()) sheet.say("Tasks in heavy type set the finish date.", "small");
}

}  // namespace

Paper price_sheet(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Price sheet");
  ReasonList reasons;
  sheet.facts({{"Owner", job.job.owner.value_or("not recorded")},
               {"Address", job.job.address.value_or("not recorded")},
               {"Contractor", job.job.contractor.value_or("not recorded")},
               {"Date", " "}});
  if (findings.price) {
    price_range(sheet, *findings.price);
    price_lines(sheet, *findings.price);
  }
  if (findings.takeoff) quantities(sheet, *findings.takeoff);
  if (findings.work) tasks(sheet, reasons, *findings.work);
  sheet.cautions({"This is a range, not an offer. What is not named here is not in it.",
                  "Work that opening up adds is a change: written, priced and signed before it is done."});
  sheet.signatures({"Contractor", "Owner"});
  if (!reasons.empty()) {
    sheet.section("Reasons and sources");
    reasons.write(sheet.out());
  }
  return {"price-sheet.html", "Price sheet", sheet.html()};
}

}  // namespace awlmark::papers
