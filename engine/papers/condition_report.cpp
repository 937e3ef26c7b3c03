// The condition report: page 1 for the owner, page 2 where it is, page 3 before and after. Pages 2 and
// 3 carry no money, so that they can go to the inspector and the insurer as they are.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "job/dates.hpp"
#include "papers/drawing/condition_plan.hpp"
#include "papers/drawing/section.hpp"
#include "papers/gates.hpp"
#include "papers/keys.hpp"
#include "papers/report_sections.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

// The first sentence: the annex holds the whole.
std::string first_sentence(const std::string& text) {
  for (std::size_t i = 0; i + 1 < text.size(); ++i)
    if ((text[i] == '.' || text[i] == ';') && text[i + 1] == ' ' && i > 20) return text.substr(0, i) + ".";
  return text;
}

const work::Task* task_of(const Findings& findings, const std::string& id) {
  if (!findings.work) return nullptr;
  for (const auto& task : findings.work->tasks)
    if (task.id == id) return &task;
  return nullptr;
}

// From lifting the fixtures to setting them again, in days of the calendar; nothing without dates.
std::optional<long> days_without(const Findings& findings) {
  const auto* lifted = task_of(findings, "lift_fixtures");
  const auto* reset = task_of(findings, "reset_fixtures");
  if (!lifted || !reset) return std::nullopt;
  const auto from = day_of(lifted->starts), to = day_of(reset->ends);
  return from && to && *to >= *from ? std::optional<long>(*to - *from + 1) : std::nullopt;
}

std::string fixture_missed(const Job& job) {
  const bool toilet = std::any_of(job.fixtures.begin(), job.fixtures.end(), [](const Fixture& f) { return f.kind == FixtureKind::toilet; });
  if (toilet && job.shower) return "toilet and shower in this room";
  if (toilet) return "toilet in this room";
  return job.shower ? "shower" : "";
}

void figures(const Report& report) {
  auto& out = report.sheet.out();
  std::vector<Fact> items;
  const auto& findings = report.findings;
  const Layer* deck = structural_deck(report.job);
  if (findings.cut_back && deck) {
    const auto area = findings.cut_back->area_sf.find(deck->id);
    items.push_back({"of the floor boards come out, by what is known now", square_feet(area == findings.cut_back->area_sf.end() ? 0 : area->second)});
  }
  if (findings.price)
    items.push_back({"half of jobs like this one end below it, 9 in 10 below " + rough_money(findings.price->p90), rough_money(findings.price->p50)});
  if (findings.work && findings.work->finish.p50_days > 0) {
    const auto& finish = findings.work->finish;
    items.push_back({"half of jobs like this one are done by then" + std::string(finish.p50.empty() ? "" : ", " + spoken_date(finish.p50)) + "; 4 in 5 " +
                         (finish.p80.empty() ? "in " + format_number(finish.p80_days, 0) : "by " + spoken_date(finish.p80)),
                     format_number(finish.p50_days, 0) + " working days"});
    if (const auto missed = fixture_missed(report.job); !missed.empty()) {
      const auto days = days_without(findings);
      items.push_back({"about as long without the " + missed, days ? std::to_string(*days) + " days" : format_number(finish.p50_days, 0) + " working days"});
    }
  }
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
  Table table{{"If", "How likely", "Half end below", "9 in 10 end below"}, {}, "grid"};
  for (const auto& branch : price.branches)
    table.rows.push_back(
        {{sentence_case(branch.words), ""}, {in_hundred(branch.chance), ""}, {rough_money(branch.p50), "num"}, {rough_money(branch.p90), "num"}});
  table.rows.push_back({{"As things stand today", "good"}, {"", ""}, {rough_money(price.p50), "num"}, {rough_money(price.p90), "num"}});
  report.sheet.table(table);
  std::string words;
  if (std::isfinite(price.from_floor_share)) words = "About " + percent(price.from_floor_share) + " of what is uncertain is floor that nobody has seen. ";
  if (!findings.survey.stop && !findings.survey.next_openings.empty()) {
    const auto& next = findings.survey.next_openings.front();
    words += "The next look costs about " + rough_money(next.cost) + " and is expected to save about " + rough_money(next.worth) + ". ";
  }
  report.sheet.say(words + "A range is not an offer: what you sign is on the price sheet.", "tight");
}

// By when: the first day of the task that waits for it, else the first day of the work.
std::string due(const Report& report, std::initializer_list<const char*> tasks) {
  for (const char* id : tasks)
    if (const auto* task = task_of(report.findings, id); task && !task->starts.empty()) return spoken_date(task->starts);
  if (report.job.work && report.job.work->start) return spoken_date(*report.job.work->start);
  return "before work starts";
}

void decisions(const Report& report) {
  report.sheet.section("What you decide");
  Table table{{"Decision", "By", "Yes or no, initials"}, {}, "blank"};
  const auto row = [&](const std::string& what, const std::string& by) { table.rows.push_back({{what, ""}, {by, "date"}, {" ", ""}}); };
  if (report.findings.hazards)
    for (const auto& gate : report.findings.hazards->gates)
      if (gate.hazard == "asbestos") {
        row("Have the old flooring sampled before anyone touches it", due(report, {"lab_sample"}));
        break;
      }
  if (const auto* option = chosen_option(report.findings))
    row("Rebuild this way: " + option->title + (option->needs_engineer ? "; an engineer is asked first" : ""), due(report, {"engineer_note", "permit"}));
  if (report.findings.shower && !report.findings.shower->conflicts.empty())
    row("Shower: " + first_sentence(report.findings.shower->conflicts.front()), due(report, {"order_parts"}));
  if (report.findings.price) {
    for (const auto& scope : report.findings.price->scope)
      if (scope.part == "offer" && !scope.items.empty()) row("Take or leave: " + joined(scope.items), due(report, {"order_parts", "rebuild_deck"}));
    row("Work stops, safe, at " + rough_money(report.findings.price->cap) + " until you have signed for more", due(report, {"protect"}));
  }
  report.sheet.table(table);
}

std::string cause_words(const Report& report, const Source& source) {
  std::string text = sentence_case(source_kind_words(source.kind)) + (source.at_in ? ", " + place_words(report.job, *source.at_in) : ", place not known");
  text += source.active == Activity::yes  ? ". Water still comes: stop it first."
          : source.active == Activity::no ? ". It has stopped" + (source.stopped ? " (" + spoken_date(*source.stopped) + ", as told)." : std::string("."))
                                          : ". Whether water still comes is not known.";
  if (source.note) text += " As told: " + *source.note + (source.note->empty() || source.note->back() == '.' ? "" : ".");
  return text + " Keep the part that failed, with a tag.";
}

void claim_facts(const Report& report) {
  if (!report.job.claim) return;
  const auto& claim = *report.job.claim;
  std::vector<Fact> facts;
  const auto add = [&](const std::string& name, const std::optional<std::string>& value) {
    if (value && !value->empty()) facts.push_back({name, *value});
  };
  add("Date of loss", claim.date_of_loss ? std::optional(spoken_date(*claim.date_of_loss)) : std::nullopt);
  add("Claim number", claim.number);
  add("Insurer", claim.insurer);
  add("Adjuster's visit", claim.adjuster_visit ? std::optional(spoken_date(*claim.adjuster_visit)) : std::nullopt);
  if (claim.sudden) facts.push_back({"As the owner tells it", *claim.sudden ? "it came at once" : "it went on for a long time"});
  if (!facts.empty()) report.sheet.facts(facts);
}

void owner_page(const Report& report) {
  write_facts(report);
  claim_facts(report);
  report.sheet.section("What was seen");
  std::vector<std::string> seen = found_words(report.job, report.findings);
  for (const auto& source : report.job.sources) seen.push_back(cause_words(report, source));
  if (report.job.sources.empty())
    seen.push_back("Where the water came from is not known yet. Find it and stop it: a new floor over live water rots like the old one.");
  report.sheet.list(seen, "short-list");
  figures(report);
  what_could_change(report);
  decisions(report);
  report.sheet.caution_box({});
}

// Members and plates with decay, one line each.
void members(const Report& report) {
  if (!report.findings.cut_back) return;
  const auto& cut = *report.findings.cut_back;
  Table table{{"Member or plate", "From, along it", "To", "Deep", "Face", "How known"}, {}, "grid"};
  for (const auto& member : cut.members) {
    const Support* support = find_support(report.job, member.support);
    table.rows.push_back({{support == nullptr ? member.support : member.support + ", " + support_words(*support), ""},
                          {format_length(member.from_in), "num"},
                          {format_length(member.to_in), "num"},
                          {member.known ? format_inches(member.depth_in) : "not read", "num"},
                          {spoken_id(doc::word_of(member.face)), ""},
                          {member.known ? "read" : chances(member.p_unsound), ""}});
  }
  for (const auto& [wall, feet] : cut.plate_ft)
    if (feet > 0)
      table.rows.push_back({{"bottom plate of wall " + wall, ""}, {"", ""}, {"", ""}, {format_length(feet * 12) + " goes", "num"}, {"", ""}, {"", ""}});
  if (table.rows.empty()) return;
  report.sheet.table(table);
}

void where_page(const Report& report) {
  report.sheet.section("Where it is", true);
  const auto& survey = report.findings.survey;
  const auto* cut = report.findings.cut_back ? &*report.findings.cut_back : nullptr;
  if (const auto* main = main_field(report.job, survey)) {
    ConditionPlanStyle style;
    style.height_in = 3.8;
    style.cut_back = cut;
    report.sheet.figure(condition_plan(report.job, survey, *main, style), "Plan of the " + main->layer + ", from above.",
                        condition_legend(report.job, survey, cut != nullptr));
  } else {
    report.sheet.say("There is no map: the survey holds no layer.");
  }
  const auto framing = framing_of(report.job, report.findings);
  if (!framing.members.empty())
    if (const auto station = section_cut(report.job, report.findings, framing))
      report.sheet.figure(section_as_found(report.job, framing, *station), "Section as found, " + section_words(report.job, framing, *station) + ".");
  Table table{{"Layer", "Rotten or soft, middle figure", "8 chances in 10 that it is", "Comes out"}, {}, "grid"};
  for (const auto& [layer, range] : survey.unsound_sf) {
    std::string out = "-";
    if (cut != nullptr) {
      const auto area = cut->area_sf.find(layer);
      out = square_feet(area == cut->area_sf.end() ? 0 : area->second);
    }
    table.rows.push_back(
        {{layer_title(report.job, layer), ""}, {square_feet(range.p50), "num"}, {between_square_feet(range.p10, range.p90), ""}, {out, "num"}});
  }
  report.sheet.table(table);
  members(report);
  std::vector<std::string> unseen = unseen_items(report);
  if (unseen.empty()) return;
  constexpr std::size_t kShown = 4;
  const auto more = unseen.size() > kShown ? unseen.size() - kShown : 0;
  unseen.resize(unseen.size() - more);
  if (more > 0) unseen.push_back(std::to_string(more) + " more are in the annex.");
  report.sheet.out().open("p", {{"class", "tight"}}).element("b", "Not seen: ");
  for (const auto& item : unseen) report.sheet.out().text(item + " ");
  report.sheet.out().close();
}

void moisture(const Report& report) {
  if (!report.findings.drying) return;
  report.sheet.sub("Moisture against target");
  Table table{{"Layer or member", "Now", "Target", "Half are dry by", "9 in 10 by", "May be closed"}, {}, "grid"};
  for (const auto& layer : report.findings.drying->layers)
    table.rows.push_back({{layer.support ? "member " + *layer.support : layer_title(report.job, layer.layer), ""},
                          {format_number(layer.now_percent, 0) + " %", "num"},
                          {format_number(layer.limit_percent, 0) + " %", "num"},
                          {layer.close_p50 ? spoken_date(*layer.close_p50) : "not in this air", "date"},
                          {layer.close_p90 ? spoken_date(*layer.close_p90) : "not in this air", "date"},
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
                                                    : "fails " + std::to_string(failed) + " of " + count_of(option->checks.size(), "check", "checks")) +
                            std::string(option->needs_engineer ? "; an engineer settles what the framing sheet lists. " : ". "));
    if (!option->steps.empty()) report.sheet.out().text(first_sentence(option->steps.front()));
    report.sheet.out().close();
  }
}

void before_page(const Report& report) {
  report.sheet.section("Before and after", true);
  report.sheet.say("A box is ticked when it is met, with initials and date. All of it, with its sources, is in the annex.", "small");
  if (!report.findings.hazards)
    report.sheet.say("Hazards were not worked out. Treat old flooring, its backing and glue as if they held asbestos, and old paint as if it held lead.");
  else
    write_gate_cards(report.sheet, cards_by_subject(*report.findings.hazards), true);
  moisture(report);
  ways(report);
  if (!report.findings.assumed.empty())
    report.sheet.say(count_of(report.findings.assumed.size(), "thing", "things") +
                         " that nobody recorded were taken on the safe side; the annex lists each, and how to know better.",
                     "tight");
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
