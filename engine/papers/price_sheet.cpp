// What people sign, in two pages: page 1 the fees, the base with its quantities, unit prices, the cap and
// what is not included; page 2 how it was worked out, as the reason behind. Percentiles are never added.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/price_bar.hpp"
#include "papers/keys.hpp"
#include "papers/sheet.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

std::string exact_money(double dollars) { return std::fabs(dollars) < 100 ? "$" + format_number(dollars, 2) : money(dollars); }

void opening(Sheet& sheet, const price::Price& price) {
  sheet.section("1. Opening and making safe");
  sheet.say("A fixed fee of " + money(price.opening) +
                ": the openings that the survey asks for, photographs, and the place left safe and closed. It is signed alone, and ends there unless part 2 is "
                "signed.",
            "tight");
}

void repair(Sheet& sheet, const price::Price& price) {
  sheet.section("2. The repair");
  sheet.say("Base: " + rough_money(price.base) + ", for the quantities below. Laboratory clear, framing as drawn.", "tight");
  Table table{{"In the base", "Quantity", "Unit", "More or less of it: all-in, each"}, {}, "grid"};
  std::vector<std::string> shown;
  for (const auto& item : price.base_quantities) {
    std::string unit_price;
    for (const auto& unit : price.unit_prices)
      if (unit.item == item.item) unit_price = exact_money(unit.price), shown.push_back(unit.item);
    table.rows.push_back({{item.item, ""}, {figure(item.quantity), "num"}, {item.unit, ""}, {unit_price, "num"}});
  }
  for (const auto& unit : price.unit_prices)
    if (std::find(shown.begin(), shown.end(), unit.item) == shown.end())
      table.rows.push_back({{unit.item, ""}, {"-", "num"}, {unit.unit, ""}, {exact_money(unit.price), "num"}});
  sheet.table(table);
  sheet.list({"What turns up is added, what is not needed is credited, at these prices. It is measured together and photographed before it is covered.",
              "Each change is written with its price, the running total and the days, and signed before that work.",
              "Cap: at " + rough_money(price.cap) + " work stops, safe, until you have signed for more. A day of standing by then costs " +
                  rough_money(price.standby) + "."},
             "tight");
}

void branches(Sheet& sheet, const price::Price& price) {
  if (price.branches.empty()) return;
  sheet.sub("Prices that wait for an answer");
  Table table{{"If", "How likely", "Half of such jobs end below", "4 in 5 below"}, {}, "grid"};
  for (const auto& branch : price.branches)
    table.rows.push_back(
        {{sentence_case(branch.words), ""}, {in_hundred(branch.chance), ""}, {rough_money(branch.p50), "num"}, {rough_money(branch.p80), "num"}});
  sheet.table(table);
}

void not_included(Sheet& sheet, const price::Price& price, const takeoff::TakeOff* take_off) {
  std::vector<std::string> items = price.not_included;
  if (take_off != nullptr)
    for (const auto& note : take_off->notes)
      if (note.find("not in this take-off") != std::string::npos) items.push_back(note);
  if (items.empty()) return;
  sheet.sub("Not included");
  sheet.list(items, "tight columns");
}

std::string asked(const std::optional<std::string>& value) { return value && !value->empty() ? *value : "ask"; }

// Settings of the state: what is unset prints "ask".
void state(Sheet& sheet, const Job& job) {
  const StateSettings settings = job.settings.value_or(StateSettings{});
  const auto number = [](const std::optional<double>& value, const char* unit) { return value ? figure(*value) + unit : std::string("ask"); };
  sheet.sub("This is attached to the contractor's own contract; the state decides the rest");
  sheet.facts({{"Licence number", asked(settings.licence_number)},
               {"Deposit at most", number(settings.deposit_max_percent, " %")},
               {"Days to cancel", number(settings.cancellation_days, ", and work waits for their end")},
               {"Lien notice", asked(settings.lien_notice)},
               {"Changes in writing", settings.written_changes ? (*settings.written_changes ? "yes" : "not asked") : "ask; here yes"},
               {"Source of these", settings.source ? *settings.source + (settings.date ? ", " + spoken_date(*settings.date) : "") : "ask"}});
}

void range(Sheet& sheet, const price::Price& price) {
  sheet.section("Where the figures come from", true);
  sheet.figure(price_bar(price), "How likely this job ends below a price.");
  sheet.say("Half of jobs like this one end below " + rough_money(price.p50) + ", 4 in 5 below " + rough_money(price.p80) + ", 9 in 10 below " +
                rough_money(price.p90) + ". These are chances of the whole, not sums to be paid; they do not add up.",
            "tight");
  const std::vector<std::pair<const char*, double>> causes = {{"floor not yet seen", price.spread.floor},
                                                              {"the laboratory", price.spread.laboratory},
                                                              {"the engineer", price.spread.engineer},
                                                              {"hours", price.spread.hours},
                                                              {"prices", price.spread.prices},
                                                              {"waits", price.spread.waits}};
  std::vector<std::string> parts;
  for (const auto& [what, share] : causes)
    if (std::isfinite(share) && share >= 0.005) parts.push_back(std::string(what) + " " + percent(share));
  if (!parts.empty()) sheet.say("What makes it uncertain: " + joined(parts) + ".", "tight");
  if (price.lines.empty()) return;
  Table table{{"Of the whole", "Low", "Likely", "High"}, {}, "grid"};
  for (const auto& line : price.lines)
    table.rows.push_back({{line.item, ""}, {rough_money(line.low), "num"}, {rough_money(line.likely), "num"}, {rough_money(line.high), "num"}});
  sheet.table(table);
  sheet.say("Lows do not add up to a likely low, nor highs to a likely high: not everything goes well, or badly, on one job.", "small");
  for (const auto& words : price.words)
    if (words.rfind("Overhead", 0) == 0 || words.rfind("Goods", 0) == 0) sheet.say(words, "tight");
}

void days(Sheet& sheet, const work::Work& work) {
  sheet.section("When");
  const auto& finish = work.finish;
  const auto by = [](double in_days, const std::string& date) {
    return format_number(in_days, 0) + " working days" + (date.empty() ? "" : " (" + spoken_date(date) + ")");
  };
  sheet.say("Half of jobs like this one are done in " + by(finish.p50_days, finish.p50) + ", 4 in 5 in " + by(finish.p80_days, finish.p80) + ", 9 in 10 in " +
                by(finish.p90_days, finish.p90) + ".",
            "tight");
  sheet.say("Hands-on hours of the crew: " + format_number(work.total_hours.low, 0) + " to " + format_number(work.total_hours.high, 0) + ", likely " +
                format_number(work.total_hours.likely, 0) + ".",
            "tight");
  Table table{{"What sets the date", "How often", "Working days then"}, {}, "grid"};
  for (std::size_t i = 0; i < work.drivers.size() && i < 5; ++i)
    table.rows.push_back({{work.drivers[i].title, ""}, {percent(work.drivers[i].on_path), "num"}, {format_number(work.drivers[i].days, 1), "num"}});
  sheet.table(table);
}

}  // namespace

Paper price_sheet(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Price sheet");
  sheet.facts({{"Owner", job.job.owner.value_or("not recorded")},
               {"Address", job.job.address.value_or("not recorded")},
               {"Contractor", job.job.contractor.value_or("not recorded")},
               {"Date, number", " "}});
  const auto& price = *findings.price;
  opening(sheet, price);
  repair(sheet, price);
  branches(sheet, price);
  not_included(sheet, price, findings.takeoff ? &*findings.takeoff : nullptr);
  sheet.signatures({"Owner", "Contractor"});
  range(sheet, price);
  if (findings.work) days(sheet, *findings.work);
  state(sheet, job);
  sheet.caution_box({"What is not named here is not in it."});
  return {"price-sheet.html", "Price sheet", sheet.html()};
}

}  // namespace awlmark::papers
