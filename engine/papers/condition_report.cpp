// The condition report: page 1 for the owner, page 2 where it is, page 3 before and after. Pages 2 and
// 3 carry no money, so that they can go to the inspector and the insurer as they are.
#include <algorithm>
#include <cmath>
#include <map>

#include "base/length.hpp"
#include "papers/drawing/condition_plan.hpp"
#include "papers/drawing/drying_chart.hpp"
#include "papers/keys.hpp"
#include "papers/report_sections.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

constexpr std::size_t kMostCards = 7;

// The first sentence: the annex holds the whole.
std::string first_sentence(const std::string& text) {
  for (std::size_t i = 0; i + 1 < text.size(); ++i)
    if ((text[i] == '.' || text[i] == ';') && text[i + 1] == ' ' && i > 20) return text.substr(0, i) + ".";
  return text;
}

void figures(const Report& report) {
  auto& out = report.sheet.out();
  std::vector<Fact> items;
  const auto& findings = report.findings;
  const Layer* deck = structural_deck(report.job);
  if (findings.cut_back && deck) {
    const auto area = findings.cut_back->area_sf.find(deck->id);
    items.push_back({"of " + material_words(deck->material) + " coming out, by what is known now",
                     square_feet(area == findings.cut_back->area_sf.end() ? 0 : area->second)});
  }
  if (findings.price)
    items.push_back({"even chance of ending below; 9 chances in 10 below " + rough_money(findings.price->p90), rough_money(findings.price->p50)});
  if (findings.work && findings.work->finish.p50_days > 0)
    items.push_back({"working days, even chance; 4 chances in 5 within " + format_number(findings.work->finish.p80_days, 0),
                     format_number(findings.work->finish.p50_days, 0) + " days"});
  const bool toilet = std::any_of(report.job.fixtures.begin(), report.job.fixtures.end(), [](const Fixture& f) { return f.kind == FixtureKind::toilet; });
  if (findings.work && findings.work->finish.p50_days > 0 && (toilet || report.job.shower))
    items.push_back({std::string("about as long without the ") + (toilet && report.job.shower ? "toilet and shower here"
                                                                  : toilet                    ? "toilet here"
                                                                                              : "shower"),
                     format_number(std::ceil(findings.work->finish.p50_days), 0) + " working days"});
  if (items.empty()) return;
  out.open("div", {{"class", "figures"}});
  for (const auto& item : items) out.open("div").element("b", item.value).element("span", item.name).close();
  out.close();
}

void what_could_change(const Report& report) {
  const auto& findings = report.findings;
  report.sheet.section("What could change it, in money");
  if (!findings.price) {
    report.sheet.say("No price was worked out with this report. Treat any figure given before the floor is open as incomplete.");
    return;
  }
  const auto& price = *findings.price;
  std::vector<std::string> items;
  items.push_back("From the even chance to 9 chances in 10 is " + rough_money(price.p90 - price.p50) + " more; 1 job in 10 like this ends below " +
                  rough_money(price.p10) + ".");
  if (std::isfinite(price.from_floor_share))
    items.push_back("About " + percent(price.from_floor_share) + " of that is floor that nobody has seen. Opening it narrows the range.");
  if (!findings.survey.stop && !findings.survey.next_openings.empty()) {
    const auto& next = findings.survey.next_openings.front();
    items.push_back("The next look, at " + place_words(next.at_in) + ", is worth about " + rough_money(next.worth) + " and costs about " +
                    rough_money(next.cost) + ".");
  }
  for (const auto& words : price.words)
    if (items.size() < 6) items.push_back(words);
  report.sheet.list(items, "tight");
}

void decisions(const Report& report) {
  report.sheet.section("What you decide");
  Table table{{"Decision", "By", "Yes / no, initials"}, {}, "blank"};
  const std::string start = report.job.work && report.job.work->start ? *report.job.work->start : "before work starts";
  const auto row = [&](const std::string& what, const std::string& by) { table.rows.push_back({{what, ""}, {by, ""}, {" ", ""}}); };
  if (report.findings.hazards)
    for (const auto& gate : report.findings.hazards->gates)
      if (gate.id.find("sampl") != std::string::npos || gate.hazard == "asbestos") {
        row("Have the old layers sampled before they are touched", "first");
        break;
      }
  if (const auto* option = chosen_option(report.findings))
    row("Rebuild this way: " + option->title + (option->needs_engineer ? ", with an engineer's word" : ""), start);
  if (report.findings.shower && !report.findings.shower->conflicts.empty()) row("Shower: " + report.findings.shower->conflicts.front(), start);
  row("A cap: work stops there, safe, until you have signed more", start);
  report.sheet.table(table);
}

void owner_page(const Report& report) {
  write_facts(report);
  report.sheet.section("What was seen");
  std::vector<std::string> seen = found_sentences(report);
  for (const auto& source : report.job.sources) {
    std::string text = sentence_case(source_kind_words(source.kind)) + (source.at_in ? ", near " + place_words(*source.at_in) : ", place not known");
    text += source.active == Activity::yes  ? ": water still comes, stop it first."
            : source.active == Activity::no ? ": it has stopped"
                                            : ": whether it still runs is not known.";
    if (source.active == Activity::no) text += source.stopped ? " (" + *source.stopped + ", as told)." : ".";
    seen.push_back(text + " Keep the part that failed, tagged.");
  }
  report.sheet.list(seen, "short-list");
  figures(report);
  what_could_change(report);
  decisions(report);
  report.sheet.caution_box({});
}

void where_page(const Report& report) {
  report.sheet.section("Where it is", true);
  const auto& survey = report.findings.survey;
  if (const auto* main = main_field(report.job, survey)) {
    ConditionPlanStyle style;
    style.height_in = 4.9;
    report.sheet.figure(condition_plan(report.job, survey, *main, style), "Plan of the " + layer_title(report.job, main->layer) + ", seen from above.",
                        condition_legend(report.job, survey));
  } else {
    report.sheet.say("There is no map: the survey holds no layer.");
  }
  Table table{{"Layer", "Middle figure", "8 chances in 10 that it is", "Comes out"}, {}, ""};
  for (const auto& [layer, range] : survey.unsound_sf) {
    std::string out = "-";
    if (report.findings.cut_back) {
      const auto area = report.findings.cut_back->area_sf.find(layer);
      out = square_feet(area == report.findings.cut_back->area_sf.end() ? 0 : area->second);
    }
    table.rows.push_back(
        {{layer_title(report.job, layer), ""}, {square_feet(range.p50), "num"}, {between_square_feet(range.p10, range.p90), ""}, {out, "num"}});
  }
  report.sheet.table(table);
  const auto unseen = unseen_items(report);
  if (!unseen.empty()) {
    report.sheet.sub("Not seen");
    report.sheet.list({unseen.begin(), unseen.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(unseen.size(), 6))}, "tight");
    if (unseen.size() > 6) report.sheet.say(std::to_string(unseen.size() - 6) + " more are in the annex.", "small");
  }
}

std::string card_title(const std::string& hazard) { return hazard.empty() ? "Other" : sentence_case(spoken_id(hazard)); }

// Cards by subject; with more subjects than cards the smallest share the last one. No gate is left out.
std::vector<std::pair<std::string, std::vector<const hazards::Gate*>>> cards(const hazards::Hazards& hazards) {
  std::vector<std::pair<std::string, std::vector<const hazards::Gate*>>> out;
  for (const auto& gate : hazards.gates) {
    auto at = std::find_if(out.begin(), out.end(), [&](const auto& card) { return card.first == gate.hazard; });
    if (at == out.end()) at = out.insert(out.end(), {gate.hazard, {}});
    at->second.push_back(&gate);
  }
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.second.size() > b.second.size(); });
  while (out.size() > kMostCards) {
    auto last = std::move(out.back());
    out.pop_back();
    out.back().first = "";
    out.back().second.insert(out.back().second.end(), last.second.begin(), last.second.end());
  }
  return out;
}

std::string when_words(hazards::Before before) { return "before " + spoken_id(doc::word_of(before)); }

void gate_cards(const Report& report) {
  if (!report.findings.hazards) {
    report.sheet.say("Hazards were not worked out. Treat old flooring, its backing and glue as if they held asbestos, and old paint as if it held lead.");
    return;
  }
  auto& out = report.sheet.out();
  out.open("div", {{"class", "two"}});
  for (const auto& [hazard, gates] : cards(*report.findings.hazards)) {
    out.open("div", {{"class", "gate"}}).element("b", card_title(hazard));
    for (const auto* gate : gates) {
      out.open("p").open("span", {{"class", "box"}}).close().text(gate->brief.empty() ? first_sentence(gate->text) : sentence_case(gate->brief));
      out.element("span", " " + sentence_case(when_words(gate->before)) + (gate->who.empty() ? "" : "; " + gate->who) + ".", {{"class", "who"}}).close();
    }
    out.close();
  }
  out.close();
}

void moisture(const Report& report) {
  if (!report.findings.drying) return;
  report.sheet.sub("Moisture against target");
  Table table{{"Layer or member", "Now", "Target", "Even chance by", "9 in 10 by", "Released"}, {}, ""};
  for (const auto& layer : report.findings.drying->layers)
    table.rows.push_back({{layer.support ? "member " + *layer.support : layer_title(report.job, layer.layer), ""},
                          {format_number(layer.now_percent, 0) + " %", "num"},
                          {format_number(layer.limit_percent, 0) + " %", "num"},
                          {layer.close_p50.value_or("not in this air"), ""},
                          {layer.close_p90.value_or("not in this air"), ""},
                          {layer.released ? "yes" : "no: needs " + layer.needs, ""}});
  report.sheet.table(table);
}

void ways(const Report& report) {
  if (!report.findings.floor || report.findings.floor->options.empty()) return;
  report.sheet.sub("The way chosen, and one other");
  const auto* chosen = chosen_option(report.findings);
  const floor::Option* other = nullptr;
  for (const auto& option : report.findings.floor->options)
    if (&option != chosen && (!other || (option.ok && !other->ok))) other = &option;
  for (const auto* option : {chosen, other}) {
    if (!option) continue;
    report.sheet.out().open("p", {{"class", "tight"}}).element("b", option->title + (option == chosen ? " (chosen): " : ": "));
    const auto failed = std::count_if(option->checks.begin(), option->checks.end(), [](const Check& c) { return awlmark::failing(c); });
    report.sheet.out().text((option->checks.empty() ? "no check made"
                             : failed == 0          ? "passes every check made"
                                                    : "fails " + std::to_string(failed) + " of " + std::to_string(option->checks.size()) + " checks") +
                            std::string(option->needs_engineer ? "; an engineer settles what is listed on the framing sheet. " : ". "));
    if (option == chosen && !option->steps.empty()) report.sheet.out().text(first_sentence(option->steps.front()));
    report.sheet.out().close();
  }
}

void before_page(const Report& report) {
  report.sheet.section("Before and after", true);
  report.sheet.say("A box is ticked when it is met, with initials and date. All of it, with its sources, is in the annex.", "small");
  gate_cards(report);
  moisture(report);
  ways(report);
  report.sheet.signatures({"Received, not yet agreed: owner", "Contractor: this is what we found"});
}

}  // namespace

Paper condition_report(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Condition report");
  ReasonList reasons;
  const Report report{job, findings, sheet, reasons};
  owner_page(report);
  where_page(report);
  before_page(report);
  return {"condition-report.html", "Condition report", sheet.html()};
}

}  // namespace awlmark::papers
