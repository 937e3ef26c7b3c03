#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/framing_plan.hpp"
#include "papers/drawing/section.hpp"
#include "papers/framing_tables.hpp"
#include "papers/keys.hpp"
#include "papers/sheet.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

// The plan, its legend and the members; then sections and details; then checks and cautions: three pages for an ordinary room.
constexpr double kPlanHeight_in = 4.5;
constexpr double kPlanWidth_in = 7.3;
constexpr std::size_t kMembersOnPage = 6;  // rows of the schedule; more of them are in the annex

class FramingSheet {
 public:
  FramingSheet(const Job& job, const Findings& findings, Sheet& sheet, int sources_before)
      : job_(job), findings_(findings), floor_(*findings.floor), framing_(framing_of(job, findings)), sheet_(sheet), sources_(sources_before) {}

  // What the inspector holds in his hand; the grids and the factors are in the annex.
  void short_form() {
    facts();
    plan();
    schedule(kMembersOnPage);
    sections();
    shores();
    verdicts();
    failing_checks();
    while_open();
    sheet_.caution_box({"Sizes and places are as the crew recorded them. Measure again before cutting; figured dimensions go before scaled ones."});
    sheet_.signatures({"Contractor", "Inspector"});
    write_sources();
  }

  // For the annex: every check and factor.
  void records() {
    schedule(1000);
    trade_offs();
    checks("Framing: checks of the floor as found", floor_.as_found.checks);
    chosen();
    decay();
    cut_back();
    loads();
    worked();
    write_sources();
  }

 private:
  // Two tight lines, so that the drawings stand on the first page.
  void facts() {
    const auto& job = job_.job;
    const auto* option = chosen_option(findings_);
    sheet_.say("Owner: " + job.owner.value_or("not recorded") + ". Address: " + job.address.value_or("not recorded") +
                   ". Contractor: " + job.contractor.value_or("not recorded") + ". Permit no.: ____________",
               "tight");
    sheet_.say("House built " + (job.year_built ? std::to_string(*job.year_built) : std::string("in a year not known")) +
                   ". Below: " + (job.below == Below::unknown ? "not known" : spoken_id(doc::word_of(job.below))) + ". Live load " +
                   figure(floor_.as_found.live_psf) + " psf, dead load " + figure(floor_.as_found.dead_psf) + " psf as found" +
                   (option == nullptr ? "" : ", " + figure(option->weight_psf) + " psf as rebuilt") +
                   ". Finish: " + (job_.rebuild ? finish_words(job_.rebuild->finish) : "not chosen") + ".",
               "tight");
    if (!floor_.as_found.words.empty()) sheet_.say(floor_.as_found.words.front(), "tight");
    if (option == nullptr) return;
    sheet_.say("Way chosen: " + option->title + ". " + option->trade_off + (rests_on(*option).empty() ? "" : " It rests on this: " + rests_on(*option)),
               option->ok ? "tight" : "tight bad");
  }

  // What no one said of a wall and the verdict hangs on: beside it, not in the annex.
  static std::string rests_on(const floor::Option& option) {
    std::string out;
    for (const auto& ask : option.asks)
      if (ask.rfind("What wall", 0) == 0) out += (out.empty() ? "" : " ") + ask;
    return out;
  }

  void plan() {
    if (framing_.members.empty()) {
      sheet_.say("No member is recorded, so there is no framing plan. Measure the members before anything is cut.");
      return;
    }
    FramingPlanStyle style;
    style.height_in = kPlanHeight_in;
    style.width_in = kPlanWidth_in;
    sheet_.figure(framing_plan(job_, findings_, framing_, style), chosen_option(findings_) == nullptr
                                                                      ? "Framing plan as found, with the cut-back."
                                                                      : "Framing plan: as found, the cut-back, and what the way chosen adds.");
    sheet_.out().add(framing_legend());
  }

  void sections() {
    sheet_.section("Sections and details");
    const auto* option = chosen_option(findings_);
    const auto cut = framing_.members.empty() ? std::nullopt : section_cut(job_, findings_, framing_);
    if (cut) sheet_.figure(section_as_found(job_, framing_, *cut), "Section as found, " + section_words(job_, framing_, *cut) + ".");
    if (cut && option != nullptr) sheet_.figure(section_as_rebuilt(job_, findings_, framing_, *cut), "Section as rebuilt, same place.");
    if (option == nullptr || option->steps.empty()) return;
    sheet_.sub("How it is built");
    steps(*option);
  }

  void steps(const floor::Option& option) {
    sheet_.out().open("ol", {{"class", "tight"}});
    for (const auto& step : option.steps) sheet_.out().element("li", step);
    sheet_.out().close();
  }

  // Every way in a row; why each stands where it does is in the annex.
  void verdicts() {
    sheet_.section("Checks and cautions");
    if (floor_.options.empty()) return;
    Table table{{"", "Way", "Checks", "Engineer", "Cost"}, {}, "cards"};
    for (const auto& option : floor_.options) {
      const bool taken = option.id == floor_.chosen;
      table.rows.push_back({{std::to_string(option.rank), "num"},
                            {option.title + (taken ? " (chosen)" : ""), taken ? "good" : ""},
                            {verdict_words(option), option.ok ? "" : "bad"},
                            {option.needs_engineer ? "yes" : "no", ""},
                            {"$" + figure(option.cost), "num"}});
    }
    sheet_.table(table);
    engineer_points();
  }

  void trade_offs() {
    if (floor_.options.empty()) return;
    sheet_.section("Ways to rebuild, best first");
    std::vector<std::string> items;
    for (const auto& option : floor_.options) items.push_back(std::to_string(option.rank) + ". " + option.title + ": " + option.trade_off);
    sheet_.list(items);
  }

  static std::string verdict_words(const floor::Option& option) {
    switch (option.verdict) {
      case floor::Verdict::passes:
        return "all pass";
      case floor::Verdict::ask:
        return "pass unless a wall carries the most it may: ask";
      case floor::Verdict::engineer:
        return "an engineer settles it";
      case floor::Verdict::fails:
        break;
    }
    const auto count = fail_count(option.checks);
    return count > 0 ? count_of(count, "fails", "fail") : "fails";
  }
  static std::size_t fail_count(const std::vector<Check>& checks) {
    return static_cast<std::size_t>(std::count_if(checks.begin(), checks.end(), [](const Check& check) { return failing(check); }));
  }

  // What the way chosen asks an engineer; the other ways' points are in the findings.
  void engineer_points() {
    const auto* option = chosen_option(findings_);
    if (option == nullptr || option->engineer_for.empty()) return;
    sheet_.sub("What an engineer is asked to settle");
    sheet_.list(option->engineer_for, "tight");
  }

  void schedule(std::size_t most) {
    if (framing_.members.empty()) return;
    auto table = schedule_of(job_, framing_);
    const std::size_t rows = table.rows.size();
    const bool brief = most < 1000;
    if (brief) {
      sheet_.section("Members");
      if (rows > most) table.rows.resize(most);
      // Where they lie is on the plan; notes are in the annex.
      for (auto& row : table.rows) row.erase(row.begin() + 4);
      table.head.erase(table.head.begin() + 4);
    } else {
      sheet_.section("Schedule of members");
      sheet_.say("Places are measured from the datum corner 0, 0. Rests are measured along the member from its first end.", "small");
    }
    sheet_.table(table);
    if (brief && rows > most) sheet_.say(std::to_string(rows - most) + " more rows are in the annex.", "small");
  }

  void decay() {
    if (framing_.decay.empty()) return;
    sheet_.sub("Decay in members");
    Table table{{"Key", "Member", "From", "To", "Depth", "Width", "Face", "Known by"}, {}, "cards"};
    for (const auto& decay : framing_.decay) {
      const auto& member = framing_.members[decay.member];
      table.rows.push_back({{decay.key, "good"},
                            {member.name, ""},
                            {format_length(decay.from_in), "num"},
                            {format_length(decay.to_in), "num"},
                            {format_inches(decay.depth_in), "num"},
                            {decay.width_in > 0 ? format_inches(decay.width_in) : "full", "num"},
                            {decay.face, ""},
                            {decay.known ? "a reading" : "likely, not read", decay.known ? "bad" : ""}});
    }
    sheet_.table(table);
  }

  void cut_back() {
    if (!findings_.cut_back) return;
    const auto& cut = *findings_.cut_back;
    sheet_.section("Cut-back");
    for (const auto& words : cut.words) sheet_.say(words);
    sheet_.table(blocking_rows(cut));
  }

  void loads() {
    if (floor_.as_found.loads.empty()) return;
    sheet_.section("Loads");
    Table table{{"Load", "Kind", "psf", "lb"}, {}, ""};
    for (const auto& line : floor_.as_found.loads)
      table.rows.push_back({{line.item, "", sources_.number_of(line.reason)},
                            {line.kind, ""},
                            {line.psf != 0 ? figure(line.psf) : "", "num"},
                            {line.lb != 0 ? figure(line.lb) : "", "num"}});
    sheet_.table(table);
  }

  void checks(const std::string& title, const std::vector<Check>& list) {
    if (list.empty()) return;
    sheet_.section(title);
    sheet_.say("Ratio of what is asked to what is there; up to 1.00 passes. The small number is the rule at the end of this paper.", "small");
    sheet_.table(check_grid(job_, list, sources_));
    const auto rows = check_rows(job_, list, sources_);
    if (rows.rows.empty()) return;
    sheet_.sub("With their figures: the worst of the deck, and of each check that fails the worst member");
    sheet_.table(rows);
  }

  // The factors behind what governs, of the way chosen, else of the floor as found.
  void worked() {
    const auto* option = chosen_option(findings_);
    const auto list = governing(option != nullptr ? option->checks : floor_.as_found.checks);
    if (list.empty()) return;
    sheet_.section(option != nullptr ? "How the governing checks of the way chosen were worked" : "How the governing checks were worked");
    sheet_.say("A factor that several checks share is written where it is first used.", "small");
    sheet_.out().open("ul", {{"class", "reasons"}});
    std::set<std::string> written;
    for (const auto* check : list) {
      std::string steps;
      for (const auto& step : check->reason.steps)
        if (written.insert(step).second) steps += (steps.empty() ? "" : "; ") + step;
      sheet_.out().open("li").element("b", sentence_case(check->reason.compares) + ". ");
      sheet_.out().text((steps.empty() ? "Factors as above" : steps) + ". Ratio: " + ratio_cell(*check) + ".");
      reason_link(sheet_.out(), sources_.number_of(check->reason));
      sheet_.out().close();
    }
    sheet_.out().close();
  }

  void chosen() {
    const auto* option = chosen_option(findings_);
    if (option == nullptr) {
      sheet_.section("Rebuild");
      sheet_.say("No way to rebuild has been chosen or found. Nothing is closed before one is.");
      return;
    }
    checks("Checks of the way chosen: " + option->title, option->checks);
    if (!option->goods.empty()) {
      sheet_.sub("Material");
      Table table{{"Item", "Quantity", "Unit", "Length of one"}, {}, ""};
      for (const auto& good : option->goods)
        table.rows.push_back(
            {{good.item, ""}, {figure(good.quantity), "num"}, {doc::word_of(good.unit), ""}, {good.length_in > 0 ? format_length(good.length_in) : "", "num"}});
      sheet_.table(table);
    }
    sheet_.list(option->cautions);
  }

  void while_open() {
    const auto& open = floor_.while_open;
    sheet_.sub("While the floor is open");
    std::vector<std::string> items = floor_.holds;
    items.insert(items.end(), open.words.begin(), open.words.end());
    if (open.words.empty() && open.open_at_once_in > 0) items.push_back("Open at most " + format_length(open.open_at_once_in) + " along the members at once.");
    if (!open.unsupported.empty()) items.push_back("Loses its support when the cut-back is made: " + semicolons(open.unsupported) + ".");
    if (const auto* option = chosen_option(findings_)) items.insert(items.end(), option->cautions.begin(), option->cautions.end());
    sheet_.list(items, "tight");
  }

  void shores() {
    const auto all = shores_of(findings_);
    if (all.empty()) {
      sheet_.say("No shore under a member follows from what is recorded.");
      return;
    }
    sheet_.sub("Shores");
    Table table{{"Shore", "Under", "Place", "Load", "Pad at least"}, {}, "cards"};
    for (std::size_t i = 0; i < all.size(); ++i) {
      const auto& shore = all[i];
      table.rows.push_back({{"P" + std::to_string(i + 1), "good", sources_.number_of(shore.reason)},
                            {shore.under, ""},
                            {place_words(job_, shore.at_in), ""},
                            {figure(shore.load_lb) + " lb", "num"},
                            {pad_words(shore.pad_sf), "num"}});
    }
    sheet_.table(table);
  }

  static std::string semicolons(const std::vector<std::string>& items) {
    std::string out;
    for (const auto& item : items) out += (out.empty() ? "" : "; ") + item;
    return out;
  }

  void write_sources() {
    if (sources_.empty()) return;
    sheet_.section("Rules and sources");
    sources_.write(sheet_.out());
  }

  // With their figures: the worst of the deck, and of each check that fails the worst member, of the way chosen.
  void failing_checks() {
    const auto* option = chosen_option(findings_);
    const auto& list = option != nullptr ? option->checks : floor_.as_found.checks;
    if (list.empty()) return;
    sheet_.sub(option != nullptr ? "Checks of the way chosen, in figures" : "Checks of the floor as found, in figures");
    const auto failed = std::count_if(list.begin(), list.end(), [](const Check& check) { return awlmark::failing(check); });
    sheet_.say(std::to_string(list.size()) + " checks, " + (failed == 0 ? std::string("all pass") : std::to_string(failed) + " fail") +
                   ". Here the worst of the deck, and of each check that fails the worst member; all of them are in the annex.",
               "small");
    sheet_.table(check_rows(job_, list, sources_));
  }

  const Job& job_;
  const Findings& findings_;
  const floor::Floor& floor_;
  Framing framing_;
  Sheet& sheet_;
  SourceList sources_;
};

}  // namespace

Paper framing_sheet(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Framing sheet");
  FramingSheet(job, findings, sheet, 0).short_form();
  return {"framing-sheet.html", "Framing sheet", sheet.html()};
}

void write_framing_records(const Job& job, const Findings& findings, Sheet& sheet, int sources_before) {
  FramingSheet(job, findings, sheet, sources_before).records();
}

}  // namespace awlmark::papers
