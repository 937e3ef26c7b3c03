// Papers for people outside the job: one question to the engineer, the insurer's estimate.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/condition_plan.hpp"
#include "papers/drawing/framing_plan.hpp"
#include "papers/drawing/pieces_plan.hpp"
#include "papers/keys.hpp"
#include "papers/report_sections.hpp"
#include "papers/sheet.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

std::string load_words(const floor::AsFound& found) { return "Dead " + figure(found.dead_psf) + " psf as found, live " + figure(found.live_psf) + " psf."; }

// The failing checks of the way proposed, the worst of each member and kind.
void checks_table(Sheet& sheet, const std::vector<Check>& checks) {
  std::vector<const Check*> worst;
  for (const auto& check : checks)
    if (failing(check)) worst.push_back(&check);
  std::stable_sort(worst.begin(), worst.end(), [](const Check* a, const Check* b) { return a->ratio > b->ratio + 1e-12; });
  constexpr std::size_t kShown = 5;
  Table table{{"Member", "Check", "Asked", "Has", "Ratio", "Rule"}, {}, "grid"};
  for (std::size_t i = 0; i < worst.size() && i < kShown; ++i) {
    const auto& check = *worst[i];
    const std::string unit = check.reason.unit.empty() ? "" : " " + check.reason.unit;
    const bool no_ratio = check.state == CheckState::nothing_left || check.state == CheckState::not_allowed;
    table.rows.push_back({{check.member.empty() ? check.id : check.member, ""},
                          {spoken_id(check.kind) + (check.case_ ? " (" + *check.case_ + ")" : ""), ""},
                          {figure(check.demand) + unit, "num"},
                          {no_ratio ? "-" : figure(check.capacity) + unit, "num"},
                          {no_ratio ? spoken_id(doc::word_of(check.state)) : format_number(check.ratio, 2), "num"},
                          {check.reason.rule, ""}});
  }
  sheet.table(table);
  if (worst.size() > kShown) sheet.say(count_of(worst.size() - kShown, "more", "more") + " on the framing sheet.", "small");
}

bool is_betterment(const price::Scope& scope) { return scope.part == "offer"; }

// The day on which the first thing comes out; empty without dates.
std::string first_tear_out(const Findings& findings) {
  std::string first;
  if (!findings.work) return first;
  for (const auto& task : findings.work->tasks)
    for (const char* kind : {"lift_fixtures", "wallboard", "strip", "take_up", "plates", "asbestos_removal"})
      if (task.id.rfind(kind, 0) == 0 && !task.starts.empty() && (first.empty() || task.starts < first)) first = task.starts;
  return first;
}

}  // namespace

Paper engineer_question(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Question to the engineer");
  const auto& option = *chosen_option(findings);
  const auto& found = findings.floor->as_found;
  sheet.facts({{"Owner", job.job.owner.value_or("not recorded")},
               {"Address", job.job.address.value_or("not recorded")},
               {"From", job.job.contractor.value_or("not recorded")},
               {"Answer wanted by", findings.work && job.work && job.work->start ? spoken_date(*job.work->start) : "before the framing is ordered"}});
  sheet.say("House built " + (job.job.year_built ? std::to_string(*job.job.year_built) : std::string("in a year not known")) + ". " + load_words(found) +
                " Finish: " + (job.rebuild ? finish_words(job.rebuild->finish) : "not chosen") + ". Proposed: " + option.title + ".",
            "tight");
  sheet.section("Please settle");
  sheet.list(option.engineer_for.empty() ? std::vector<std::string>{"whether the way proposed may stand as drawn"} : option.engineer_for, "tight");
  FramingPlanStyle style;
  style.name = "ask";
  style.width_in = 7.3;
  style.height_in = 4.1;
  sheet.figure(framing_plan(job, findings, framing_of(job, findings), style), "Framing as found, what comes out, what the proposal adds.");
  checks_table(sheet, option.checks);
  if (!option.asks.empty()) sheet.say("Still to be measured or asked: " + option.asks.front(), "tight");
  sheet.sub("Answer");
  sheet.out()
      .open("p")
      .open("span", {{"class", "box"}})
      .close()
      .text("stands as drawn  ")
      .open("span", {{"class", "box"}})
      .close()
      .text("stands with the changes below  ");
  sheet.out().open("span", {{"class", "box"}}).close().text("needs a drawing of its own").close();
  sheet.caution_box({"The reckoning behind this question is not an engineer's; it uses the sizes that the crew read."});
  sheet.signatures({"Engineer, licence no.", "Asked by"});
  return {"engineer-question.html", "Question to the engineer", sheet.html()};
}

Paper insurer_estimate(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Estimate for the insurer");
  const Claim claim = job.claim.value_or(Claim{});
  sheet.facts({{"Owner", job.job.owner.value_or("not recorded")},
               {"Address", job.job.address.value_or("not recorded")},
               {"Insurer", claim.insurer.value_or("not recorded")},
               {"Claim number", claim.number.value_or("not recorded")},
               {"Date of loss", claim.date_of_loss ? spoken_date(*claim.date_of_loss) : "not recorded"},
               {"As the owner tells it", claim.sudden ? (*claim.sudden ? "at once" : "over a long time") : "not recorded"},
               {"Adjuster's visit", claim.adjuster_visit ? spoken_date(*claim.adjuster_visit) : "not agreed yet"},
               {"Contractor", job.job.contractor.value_or("not recorded")}});
  const auto tear_out = first_tear_out(findings);
  sheet.say("Notice: tear-out is planned to start on " + (tear_out.empty() ? std::string("____________") : spoken_date(tear_out)) +
                ". The floor stays as found, and the failed part is kept and tagged, until the adjuster has seen it or has said in writing that he will not. "
                "This paper says what was seen. It says nothing about cover.",
            "tight");
  sheet.section("What was seen");
  std::vector<std::string> seen = found_words(job, findings);
  for (const auto& source : job.sources)
    seen.push_back(sentence_case(source_kind_words(source.kind)) + (source.at_in ? ", " + place_words(job, *source.at_in) : ", place not known") +
                   (source.note ? ". As told: " + *source.note : "") + ".");
  sheet.list(seen, "tight");
  if (const auto* main = main_field(job, findings.survey)) {
    ConditionPlanStyle style;
    style.height_in = 2.7;
    style.cut_back = findings.cut_back ? &*findings.cut_back : nullptr;
    sheet.figure(condition_plan(job, findings.survey, *main, style), "The deck as found: readings by their numbers, the line of what comes out.");
  } else if (findings.cut_back) {
    sheet.figure(pieces_plan(job, findings, "", {"room", 7.3, 2.7, 0.375, false}), "The room.");
  }
  const std::size_t photos = job.photos.size();
  sheet.say(photos == 0 ? "No photographs are attached to the job yet."
                        : count_of(photos, "photograph is", "photographs are") + " listed in the photo record, keyed to the plan.",
            "tight");
  sheet.section("Repair of the loss, by quantity");
  if (findings.takeoff) {
    Table table{{"Line", "Quantity", "Unit", "How measured"}, {}, "grid"};
    for (const auto& line : findings.takeoff->lines)
      if (line.group == "take_out") table.rows.push_back({{line.item, ""}, {figure(line.quantity), "num"}, {line.unit, ""}, {line.from, ""}});
    sheet.table(table);
  }
  if (findings.price) {
    sheet.say("All-in prices by unit, labour, goods, disposal, overhead and profit together:", "tight");
    Table table{{"Repair", "Quantity in the base", "Unit", "Price a unit", "Money"}, {}, "grid"};
    for (const auto& unit : findings.price->unit_prices) {
      std::string quantity = "-", amount = "-";
      for (const auto& base : findings.price->base_quantities)
        if (base.item == unit.item) quantity = figure(base.quantity), amount = money(base.quantity * unit.price);
      table.rows.push_back({{unit.item, ""}, {quantity, "num"}, {unit.unit, ""}, {"$" + format_number(unit.price, 2), "num"}, {amount, "num"}});
    }
    sheet.table(table);
    std::vector<std::string> better;
    for (const auto& scope : findings.price->scope)
      if (is_betterment(scope)) better.insert(better.end(), scope.items.begin(), scope.items.end());
    if (job.shower) better.push_back("the new shower, with its pan, drain, membrane and tile");
    if (!better.empty()) sheet.say("Betterment, kept apart and not asked for here: " + joined(better) + ".", "tight");
    for (const auto& words : findings.price->words)
      if (words.rfind("Overhead", 0) == 0 || words.rfind("Goods", 0) == 0) sheet.say(words, "tight");
  }
  sheet.section("Weights and moisture");
  if (findings.takeoff)
    sheet.say("Comes out: about " + figure(findings.takeoff->debris_lb) + " lb, " + figure(findings.takeoff->debris_yd3) +
                  " cubic yards, within a third either way. Tickets of the dump: no. ____________ lb ____________",
              "tight");
  Table wet{{"Reading", "On", "Percent", "When"}, {}, "grid"};
  for (const auto& mark : numbered(job))
    if (mark.mark->mc_percent)
      wet.rows.push_back({{"no. " + std::to_string(mark.number), ""},
                          {mark.mark->layer.value_or(mark.mark->support ? "member " + *mark.mark->support
                                                     : mark.mark->wall  ? "wall " + *mark.mark->wall
                                                                        : ""),
                           ""},
                          {format_number(*mark.mark->mc_percent, 1), "num"},
                          {mark.mark->time ? spoken_date(*mark.mark->time) : "", "date"}});
  sheet.table(wet);
  if (findings.drying) sheet.say("The drying log goes on from here, a line a day until the wood may be covered.", "tight");
  sheet.caution_box({});
  sheet.signatures({"Contractor", "Received: for the insurer"});
  return {"insurer-estimate.html", "Estimate for the insurer", sheet.html()};
}

}  // namespace awlmark::papers
