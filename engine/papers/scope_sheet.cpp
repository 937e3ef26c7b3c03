// Scope of work: what is taken out and put back with its quantities, in which order, what must hold
// before what, and what is left out by name.
#include <algorithm>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/pieces_plan.hpp"
#include "papers/keys.hpp"
#include "papers/sheet.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

void parts(Sheet& sheet, const price::Price& price) {
  for (const auto& scope : price.scope) {
    const std::string title = scope.part == "must" ? "Must be done: " : scope.part == "should" ? "Should be done with it: " : "Offered, yours to leave: ";
    sheet.out().open("p", {{"class", "tight"}}).element("b", title).text(joined(scope.items) + ".").close();
  }
}

void goods(Sheet& sheet, const takeoff::TakeOff& take_off) {
  sheet.out().open("div", {{"class", "halves"}});
  const std::vector<std::pair<std::string, std::string>> groups = {{"take_out", "Take out"}, {"put_back", "Put back"}, {"protect", "Protect and carry away"}};
  for (const auto& [group, title] : groups) {
    Table table{{"Item", "Quantity", "Unit"}, {}, "grid"};
    for (const auto& line : take_off.lines)
      if (line.group == group) table.rows.push_back({{line.item, ""}, {figure(line.quantity), "num"}, {line.unit, ""}});
    if (table.rows.empty()) continue;
    sheet.sub(title);
    sheet.table(table);
  }
  sheet.out().close();
}

void built(Sheet& sheet, const Job& job, const floor::Option& option) {
  sheet.section("How it is built");
  sheet.say(option.title + ". " + option.trade_off, "tight");
  sheet.out().open("ol", {{"class", "tight"}});
  for (const auto& step : option.steps) sheet.out().element("li", step);
  sheet.out().close();
  if (!option.deck.empty()) {
    std::vector<std::string> layers;
    for (const auto& part : option.deck) layers.push_back(part.words);
    if (job.rebuild) layers.insert(layers.begin(), finish_words(job.rebuild->finish));
    sheet.say("From the top down: " + joined(layers) + ".", "tight");
  }
}

void order(Sheet& sheet, const work::Work& work) {
  if (work.tasks.empty()) return;
  sheet.section("Order of work");
  Table table{{"Task", "Who", "From", "To", "Hours", "Ends only when"}, {}, "grid"};
  for (const auto& task : work.tasks) {
    if (task.id == "daily") continue;
    table.rows.push_back({{task.title + (task.only_if.empty() ? "" : " (only if the laboratory finds asbestos)"), ""},
                          {spoken_id(task.who), ""},
                          {task.starts, "date"},
                          {task.ends, "date"},
                          {format_number(task.hours.likely, 1), "num"},
                          {task.hold, ""}});
  }
  sheet.table(table);
  if (!work.notes.empty()) sheet.say(work.notes.front(), "tight");
}

void declined(Sheet& sheet, const Job& job) {
  Table table{{"Offered and declined", "By", "When", "Signed as declined"}, {}, "blank"};
  for (const auto& decision : job.decisions)
    if (decision.answer == Answer::declined) table.rows.push_back({{decision.what, ""}, {decision.by, ""}, {spoken_date(decision.time), "date"}, {" ", ""}});
  if (table.rows.empty()) table.rows.push_back({{" ", ""}, {" ", ""}, {" ", ""}, {" ", ""}});
  sheet.table(table);
}

}  // namespace

Paper scope_of_work(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Scope of work");
  sheet.facts({{"Owner", job.job.owner.value_or("not recorded")},
               {"Address", job.job.address.value_or("not recorded")},
               {"Contractor", job.job.contractor.value_or("not recorded")},
               {"Permit", job.settings && job.settings->permit_required ? (*job.settings->permit_required ? "needed: no. ________" : "not needed") : "ask"}});
  sheet.section("What is done");
  if (findings.price) parts(sheet, *findings.price);
  if (findings.cut_back) {
    const Layer* deck = structural_deck(job);
    sheet.figure(pieces_plan(job, findings, deck ? deck->id : "", {"scope", 7.3, 3.5, 0.375, false}), "The room, and what comes out of its deck.");
  }
  if (findings.takeoff) {
    goods(sheet, *findings.takeoff);
    const auto& take_off = *findings.takeoff;
    sheet.say("Debris: about " + figure(take_off.debris_lb) + " lb, " + figure(take_off.debris_yd3) + " cubic yards.", "tight");
  }
  if (const auto* option = chosen_option(findings)) built(sheet, job, *option);
  if (findings.work) order(sheet, *findings.work);
  if (findings.price && !findings.price->not_included.empty()) {
    sheet.section("Not in it");
    sheet.list(findings.price->not_included, "tight columns");
  }
  declined(sheet, job);
  sheet.caution_box({"Nothing is covered before the inspector has signed, and before the wood is dry."});
  sheet.signatures({"Owner", "Contractor"});
  return {"scope-of-work.html", "Scope of work", sheet.html()};
}

}  // namespace awlmark::papers
