// Records: the photographs that there are and those still to be taken; what is handed over at the end.
#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/condition_plan.hpp"
#include "papers/drawing/framing_lines.hpp"
#include "papers/drawing/pieces_plan.hpp"
#include "papers/keys.hpp"
#include "papers/report_sections.hpp"
#include "papers/sheet.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

// What is gone once it is covered, so what has to be photographed, with its place.
std::vector<std::pair<std::string, std::string>> to_photograph(const Job& job, const Findings& findings) {
  std::vector<std::pair<std::string, std::string>> out;
  for (const auto& source : job.sources)
    out.push_back({"where the water came from, and the part that failed", source.at_in ? place_words(job, *source.at_in) : "where it is found"});
  if (findings.cut_back)
    for (const auto& member : findings.cut_back->members)
      out.push_back({"member " + member.support + ", before and after the rot is cut out",
                     format_length(member.from_in) + " to " + format_length(member.to_in) + " along it"});
  const auto shores = shores_of(findings);
  for (std::size_t i = 0; i < shores.size(); ++i) out.push_back({"shore P" + std::to_string(i + 1) + " on its pad", place_words(job, shores[i].at_in)});
  if (findings.cut_back && !findings.cut_back->blocking.empty())
    out.push_back({"each of " + count_of(findings.cut_back->blocking.size(), "block", "blocks") + ", nails to be seen", "as the crew sheet lists them"});
  std::map<std::string, std::vector<std::string>> added;  // by kind
  if (const auto* option = chosen_option(findings))
    for (const auto& line : option->framing)
      if (line.kind != "blocking") added[line.kind].push_back(line.id);
  for (const auto& [kind, ids] : added) out.push_back({spoken_id(kind) + " " + joined(ids) + ": fasteners and hangers", "as the framing sheet draws them"});
  return out;
}

}  // namespace

Paper photo_record(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Photo record");
  sheet.say("One angle four times: before, open, repaired, covered. A tape in the picture, no faces, no house papers.", "tight");
  if (const auto* main = main_field(job, findings.survey)) {
    ConditionPlanStyle style;
    style.height_in = 3.8;
    sheet.figure(condition_plan(job, findings.survey, *main, style), "Where the photographs were taken: flags with the numbers of the list.");
  } else if (findings.cut_back) {
    sheet.figure(pieces_plan(job, findings, "", {}), "The room.");
  }
  ReasonList reasons;
  write_photos({job, findings, sheet, reasons});
  sheet.section("Before it is covered");
  Table table{{"What", "Where", "Before, no.", "Open, no.", "Repaired, no.", "Covered, no."}, {}, "blank"};
  for (const auto& [what, where] : to_photograph(job, findings)) table.rows.push_back({{what, ""}, {where, ""}, {" ", ""}, {" ", ""}, {" ", ""}, {" ", ""}});
  constexpr std::size_t kMost = 40;
  const auto more = table.rows.size() > kMost ? table.rows.size() - kMost : 0;
  table.rows.resize(table.rows.size() - more);
  sheet.table(table);
  if (more > 0) sheet.say(count_of(more, "more member", "more members") + ": as the framing sheet draws them.", "small");
  sheet.caution_box({"No photograph is worth a step onto soft floor."});
  return {"photo-record.html", "Photo record", sheet.html()};
}

Paper handover(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Handover");
  sheet.facts({{"Owner", job.job.owner.value_or("not recorded")},
               {"Address", job.job.address.value_or("not recorded")},
               {"Contractor", job.job.contractor.value_or("not recorded")},
               {"Date", " "}});
  sheet.section("What was done");
  Table done{{"Part", "As planned", "As built"}, {}, "blank fill"};
  if (findings.price)
    for (const auto& item : findings.price->base_quantities)
      done.rows.push_back({{item.item, ""}, {figure(item.quantity) + " " + item.unit, "num"}, {" ", ""}});
  if (const auto* option = chosen_option(findings)) done.rows.push_back({{option->title, ""}, {"as the framing sheet", ""}, {" ", ""}});
  sheet.table(done);
  if (findings.cut_back) {
    const Layer* deck = structural_deck(job);
    PiecesPlanStyle style;
    style.height_in = 2.9;
    style.saw_lines = false;
    sheet.figure(pieces_plan(job, findings, deck ? deck->id : "", style), "Where the deck is new.");
  }
  sheet.section("What is handed over");
  Table papers{{"Paper or thing", "Handed over, initials"}, {}, "blank fill"};
  std::vector<std::string> items = {"permit card with final sign-off", "condition report, scope of work, signed changes", "photo record"};
  if (findings.hazards)
    for (const auto& met : findings.hazards->met)
      items.push_back("met: " + spoken_id(met.gate) + ", " + met.by + ", " + spoken_date(met.time) + (met.evidence.empty() ? "" : " (" + met.evidence + ")"));
  if (findings.drying) items.push_back("drying log with the two last readings");
  if (findings.shower) items.push_back("flood-test sheet, signed; data of membrane, drain, mortar and grout");
  for (const char* item : {"laboratory reports and clearance, where there are any", "spare tile and the colour of the grout", "warranty in writing",
                           "lien releases, final invoice against contract and changes"})
    items.emplace_back(item);
  for (const auto& item : items) papers.rows.push_back({{item, ""}, {" ", ""}});
  sheet.table(papers);
  sheet.section("Living with it");
  std::vector<std::string> care = {
      "Wipe up standing water within the day; look under the floor, or at the ceiling below, after a month, six months and a year.",
      "A soft spot, a stain or a smell of earth: call before it is walked on for long."};
  if (findings.shower)
    care.insert(care.begin(), "First shower: not before ____________ (grout and sealant cured). Sealant in the corners is looked at once a year.");
  if (findings.cut_back && findings.cut_back->expected_loss_left > 0)
    care.push_back("Wood that nobody saw was judged from what was seen beside it: some may have been left behind.");
  sheet.list(care, "tight");
  sheet.caution_box({}, true);
  sheet.signatures({"Owner: walked through, received", "Contractor"});
  return {"handover.html", "Handover", sheet.html()};
}

}  // namespace awlmark::papers
