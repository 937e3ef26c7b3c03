#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/framing_plan.hpp"
#include "papers/drawing/section.hpp"
#include "papers/keys.hpp"
#include "papers/reasons.hpp"
#include "papers/sheet.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

class FramingSheet {
 public:
  FramingSheet(const Job& job, const Findings& findings)
      : job_(job), findings_(findings), floor_(*findings.floor), framing_(framing_of(job, findings)), sheet_(job, findings, "Framing sheet") {}

  Paper write() {
    facts();
    drawings();
    schedule();
    decay();
    cut_back();
    loads();
    checks("Checks of the floor as found", floor_.as_found.checks);
    chosen();
    while_open();
    sheet_.cautions(all_cautions());
    inspection();
    sheet_.signatures({"Contractor", "Inspector"});
    if (!reasons_.empty()) {
      sheet_.section("Rules, figures and sources", true);
      reasons_.write(sheet_.out());
    }
    return {"framing-sheet.html", "Framing sheet", sheet_.html()};
  }

 private:
  void facts() {
    const auto& job = job_.job;
    const auto* option = chosen_option(findings_);
    sheet_.facts({{"Owner", job.owner.value_or("not recorded")},
                  {"Address", job.address.value_or("not recorded")},
                  {"Contractor", job.contractor.value_or("not recorded")},
                  {"Permit no.", " "},
                  {"House built", job.year_built ? std::to_string(*job.year_built) : "not known"},
                  {"Below it", job.below == Below::unknown ? "not known" : spoken_id(doc::word_of(job.below))},
                  {"Live load", figure(floor_.as_found.live_psf) + " psf"},
                  {"Dead load", figure(floor_.as_found.dead_psf) + " psf as found"},
                  {"Finish", job_.rebuild ? finish_words(job_.rebuild->finish) : "not chosen"},
                  {"Way chosen", option == nullptr ? "none" : option->title}});
    for (const auto& words : floor_.as_found.words) sheet_.say(words);
    if (option != nullptr && option->needs_engineer) sheet_.say("The way chosen needs an engineer before work starts.", "bad");
  }

  void drawings() {
    if (framing_.members.empty()) {
      sheet_.say("No member is recorded, so there is no framing plan. Measure the members before anything is cut.");
      return;
    }
    const auto* option = chosen_option(findings_);
    sheet_.section("Drawings");
    sheet_.figure(
        framing_plan(job_, findings_, framing_, {}),
        option == nullptr ? "Framing plan as found, with the cut-back." : "Framing plan: as found, the cut-back, and what \"" + option->title + "\" adds.",
        framing_legend());
    const auto cut = section_cut(job_, findings_, framing_);
    if (!cut) return;
    sheet_.figure(section_as_found(job_, framing_, *cut), "Section as found, " + section_words(framing_, *cut) + ".");
    if (option != nullptr) sheet_.figure(section_as_rebuilt(job_, findings_, framing_, *cut), "Section as rebuilt (" + option->title + "), same place.");
  }

  std::string species_of(const DrawnMember& member) const {
    const auto* support = find_support(job_, member.line.id);
    if (support == nullptr) return member.added ? "new" : "";
    return species_words(support->species) + ", " + grade_words(support->grade);
  }

  void schedule() {
    if (framing_.members.empty()) return;
    sheet_.section("Schedule of members");
    sheet_.say("Places are measured from the datum corner 0, 0. Rests are measured along the member from its first end.", "small");
    Table table{{"Name", "What", "Section", "Species and grade", "From", "To", "Rests at", "Note"}, {}, "cards"};
    for (const auto& member : framing_.members) {
      const auto& line = member.line;
      std::vector<std::string> rests;
      for (const double rest : line.rests_at_in) rests.push_back(format_length(rest));
      std::string section = line.size.empty() ? "not known" : line.size;
      if (line.b_in > 0 && line.d_in > 0) section += " (" + format_inches(line.b_in) + " x " + format_inches(line.d_in) + ")";
      const std::string name = member.name + (member.name == line.id || line.id.empty() || member.added ? "" : " (" + line.id + ")");
      table.rows.push_back({{name, "good"},
                            {spoken_id(line.kind), ""},
                            {section, ""},
                            {species_of(member), ""},
                            {place_words(line.from_in), ""},
                            {place_words(line.to_in), ""},
                            {rests.empty() ? "not recorded" : joined(rests), ""},
                            {line.note, ""}});
    }
    sheet_.table(table);
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
    if (!cut.blocking.empty()) {
      Table table{{"Blocking", "From", "To", "Length", "Why"}, {}, "cards"};
      for (std::size_t i = 0; i < cut.blocking.size(); ++i) {
        const auto& block = cut.blocking[i];
        table.rows.push_back({{"B" + std::to_string(i + 1), "good"},
                              {place_words(block.from_in), ""},
                              {place_words(block.to_in), ""},
                              {format_length(block.length_in), "num"},
                              {block.why, ""}});
      }
      sheet_.table(table);
    }
  }

  void loads() {
    if (floor_.as_found.loads.empty()) return;
    sheet_.section("Loads");
    Table table{{"Load", "Kind", "psf", "lb"}, {}, ""};
    for (const auto& line : floor_.as_found.loads)
      table.rows.push_back({{line.item, "", reasons_.number_of(line.reason)},
                            {line.kind, ""},
                            {line.psf != 0 ? figure(line.psf) : "", "num"},
                            {line.lb != 0 ? figure(line.lb) : "", "num"}});
    sheet_.table(table);
  }

  void checks(const std::string& title, const std::vector<Check>& list) {
    if (list.empty()) return;
    sheet_.section(title);
    Table table{{"Member", "Check", "Asked", "Has", "Ratio", "Result"}, {}, "cards"};
    for (const auto& check : list) {
      const auto unit = check.reason.unit.empty() ? "" : " " + check.reason.unit;
      table.rows.push_back({{check.member.empty() ? check.id : check.member, ""},
                            {spoken_id(check.kind), "", reasons_.number_of(check.reason)},
                            {figure(check.demand) + unit, "num"},
                            {figure(check.capacity) + unit, "num"},
                            {check.ratio > 99 ? "over 99" : format_number(check.ratio, 2), "num"},
                            {check.ok ? "passes" : "FAILS", check.ok ? "good" : "bad"}});
    }
    sheet_.table(table);
  }

  void chosen() {
    const auto* option = chosen_option(findings_);
    if (option == nullptr) {
      sheet_.section("Rebuild");
      sheet_.say("No way to rebuild has been chosen or found. Nothing is closed before one is.");
      return;
    }
    checks("Checks of the way chosen: " + option->title, option->checks);
    if (!option->steps.empty()) {
      sheet_.sub("How it is built");
      sheet_.out().open("ol");
      for (const auto& step : option->steps) sheet_.out().element("li", step);
      sheet_.out().close();
    }
    if (!option->materials.empty()) {
      sheet_.sub("Material");
      Table table{{"Item", "Quantity", "Unit", "Length of one"}, {}, ""};
      for (const auto& need : option->materials)
        table.rows.push_back(
            {{need.item, ""}, {figure(need.quantity), "num"}, {need.unit, ""}, {need.piece_length_in ? format_length(*need.piece_length_in) : "", "num"}});
      sheet_.table(table);
    }
    sheet_.list(option->cautions);
  }

  void while_open() {
    const auto& open = floor_.while_open;
    sheet_.section("While the floor is open");
    for (const auto& words : open.words) sheet_.say(words);
    if (!open.unsupported.empty()) sheet_.say("Loses its support when the cut-back is made: " + joined(open.unsupported) + ".");
    if (open.open_at_once_in > 0) sheet_.say("Open at most " + format_length(open.open_at_once_in) + " along the members at once.");
    if (open.shores.empty()) {
      sheet_.say("No shore follows from what is recorded.");
      return;
    }
    Table table{{"Shore", "Under", "Place", "Load", "Pad at least"}, {}, "cards"};
    for (std::size_t i = 0; i < open.shores.size(); ++i) {
      const auto& shore = open.shores[i];
      table.rows.push_back({{"P" + std::to_string(i + 1), "good", reasons_.number_of(shore.reason)},
                            {shore.under, ""},
                            {place_words(shore.at_in), ""},
                            {figure(shore.load_lb) + " lb", "num"},
                            {figure(shore.pad_sf) + " sq ft", "num"}});
    }
    sheet_.table(table);
  }

  std::vector<std::string> all_cautions() const {
    auto cautions = floor_.cautions;
    cautions.insert(cautions.end(), floor_.as_found.assumed.begin(), floor_.as_found.assumed.end());
    cautions.push_back("Sizes and places are as the crew recorded them. Measure again before cutting; figured dimensions go before scaled ones.");
    return cautions;
  }

  // In the order in which an inspector walks, with room for what he measures.
  void inspection() {
    sheet_.section("Inspection");
    Table table{{"Item", "Limit", "Measured", "Pass, fail, not seen", "Initials, date"}, {}, "blank"};
    const auto row = [&](const std::string& item, const std::string& limit) {
      table.rows.push_back({{item, ""}, {limit, ""}, {" ", ""}, {" ", ""}, {" ", ""}});
    };
    row("Shores set before cutting",
        floor_.while_open.shores.empty() ? "as needed" : count_of(floor_.while_open.shores.size(), "shore", "shores") + ", places as drawn");
    row("Cut ends land on members or blocking", "middle of the member");
    if (!framing_.decay.empty()) row("Members with decay repaired or replaced", count_of(framing_.decay.size(), "stretch", "stretches") + ", see table");
    if (const auto* option = chosen_option(findings_)) row("New framing as drawn", option->title);
    row("Fasteners and hangers", "photographed before cover");
    if (findings_.hazards)
      for (const auto& gate : findings_.hazards->gates)
        if (gate.before == hazards::Before::covering) row(gate.text, gate.reason.rule);
    row("Nothing covered before sign-off", "signed card");
    sheet_.table(table);
  }

  const Job& job_;
  const Findings& findings_;
  const floor::Floor& floor_;
  Framing framing_;
  Sheet sheet_;
  ReasonList reasons_;
};

}  // namespace

Paper framing_sheet(const Job& job, const Findings& findings) { return FramingSheet(job, findings).write(); }

}  // namespace awlmark::papers
