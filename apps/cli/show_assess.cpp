#include <algorithm>

#include "base/length.hpp"
#include "show.hpp"
#include "text.hpp"

namespace awlmark::cli {
namespace {

std::string sourced(const Reason& reason) {
  if (reason.source.empty()) return doc::spoken(reason.status);
  return reason.source + (reason.edition.empty() ? "" : " " + reason.edition) + (reason.status == SourceStatus::read ? "" : ", " + doc::spoken(reason.status));
}

std::string hazards_text(const hazards::Hazards& hazards) {
  std::string text = heading("Hazards: what must be true first");
  for (const auto before : {hazards::Before::touching, hazards::Before::opening, hazards::Before::cutting, hazards::Before::covering}) {
    bool titled = false;
    for (const auto& gate : hazards.gates) {
      if (gate.before != before) continue;
      if (!titled) text += "  Before " + doc::spoken(before) + ":\n";
      titled = true;
      text += bullet(gate.text + (gate.who.empty() ? "" : " Who: " + gate.who + ".") + " [" + sourced(gate.reason) + "]");
    }
  }
  return text;
}

std::string cut_text(const cutback::CutBack& cut) {
  std::string text = heading("Cut back");
  for (const auto& words : cut.words) text += bullet(words);
  for (const auto& [layer, area_sf] : cut.area_sf) text += "  " + layer + ": take out " + format_number(area_sf, 1) + " sf\n";
  text += "  Edges:\n";
  for (const auto& edge : cut.edges)
    text += bullet(edge.layer + ", " + doc::spoken(edge.kind) + ", " + format_length(edge.length_in) + " from (" + format_length(edge.from_in.x_in) + ", " +
                   format_length(edge.from_in.y_in) + ") to (" + format_length(edge.to_in.x_in) + ", " + format_length(edge.to_in.y_in) + "): " + edge.why);
  for (const auto& block : cut.blocking) text += bullet("Blocking " + format_length(block.length_in) + ": " + block.why);
  text += "  Rules:\n";
  for (const auto& rule : cut.rules) text += bullet(doc::in_quotes(rule.rule) + (rule.on ? "" : " (off)") + ": " + rule.words);
  for (const auto& note : cut.notes) text += bullet(note);
  text += "  Cost of this cut-back " + money(cut.cost) + "; what is left behind may cost " + money(cut.expected_loss_left) + ".\n";
  return text;
}

// "0.15 of 0.13 in, ratio 1.12"; without a capacity or a ratio where the check's state says there is none.
std::string figures_text(const Check& check) {
  const std::string unit = check.reason.unit.empty() ? "" : " " + check.reason.unit;
  if (check.state == CheckState::nothing_left) return format_number(check.demand, 2) + unit + " asked, nothing left to carry it";
  if (check.state == CheckState::not_allowed) return "not allowed";
  return format_number(check.demand, 2) + " of " + format_number(check.capacity, 2) + unit + ", ratio " + format_number(check.ratio, 2);
}

std::string checks_text(const std::vector<Check>& checks) {
  std::string text;
  for (const auto& check : checks) {
    if (check.ok) continue;
    const auto& reason = check.reason;
    text += bullet("FAILS  " + check.id + ": " + figures_text(check) + " [" + (reason.rule.empty() ? "" : reason.rule + "; ") + sourced(reason) + "]");
  }
  return text;
}

std::string floor_text(const floor::Floor& floor) {
  std::string text = heading("Floor as found: " + std::string(floor.as_found.ok ? "holds" : "does not hold"));
  for (const auto& words : floor.as_found.words) text += bullet(words);
  text += checks_text(floor.as_found.checks);
  for (const auto& assumed : floor.as_found.assumed) text += bullet("Assumed: " + assumed);
  text += heading("While it is open");
  for (const auto& words : floor.while_open.words) text += bullet(words);
  for (const auto& item : floor.while_open.unsupported) text += bullet("Unsupported: " + item);
  for (const auto& shore : floor.while_open.shores)
    text += bullet("Shore under " + shore.under + " at (" + format_length(shore.at_in.x_in) + ", " + format_length(shore.at_in.y_in) +
                   "): " + format_number(shore.load_lb, 0) + " lb, pad " + format_number(shore.pad_sf, 1) + " sf");
  text += heading("Ways to rebuild, best first");
  for (const auto& option : floor.options) {
    text += "  " + std::to_string(option.rank) + ". " + option.title + (option.id == floor.chosen ? " (taken)" : "") +
            (option.ok ? ": holds" : ": does not hold") + (option.needs_engineer ? ", needs an engineer" : "") + "\n";
    text += bullet("Height " + std::string(option.height_change_in >= 0 ? "+" : "") + format_inches(option.height_change_in) + ", weight " +
                   format_number(option.weight_psf, 1) + " psf, cost " + money(option.cost) + ", hours " + format_number(option.hours.low, 0) + " to " +
                   format_number(option.hours.high, 0));
    if (!option.trade_off.empty()) text += bullet(option.trade_off);
    for (const auto& point : option.engineer_for) text += bullet("Engineer: " + point + ".");
    // Of the ways not taken the sentence above is enough; their checks are in the findings.
    if (option.id == floor.chosen) text += checks_text(option.checks);
  }
  return text;
}

std::string trades_text(const Findings& findings) {
  std::string text;
  if (findings.takeoff) {
    text += heading("Take-off");
    for (const auto& line : findings.takeoff->lines)
      text += "  " + format_number(line.quantity, 1) + " " + line.unit + "  " + line.item + (line.from.empty() ? "" : " (" + line.from + ")") + "\n";
  }
  if (findings.work) {
    text += heading("Work");
    for (const auto& task : findings.work->tasks)
      text += "  " + task.title + ": " + format_number(task.hours.low, 1) + " - " + format_number(task.hours.likely, 1) + " - " +
              format_number(task.hours.high, 1) + " h" + (task.hold.empty() ? "" : "; hold: " + task.hold) + "\n";
    if (!findings.work->finish.p50.empty())
      text += "  Done by " + findings.work->finish.p50 + " as likely as not, by " + findings.work->finish.p80 + " four times in five.\n";
  }
  if (findings.price) {
    const auto& price = *findings.price;
    text += heading("Price");
    text += "  " + money(price.p50) + " as likely as not; 8 chances in 10 between " + money(price.p10) + " and " + money(price.p90) + "; four in five below " +
            money(price.p80) + ".\n";
    for (const auto& words : price.words) text += bullet(words);
  }
  return text;
}

}  // namespace

std::string assess_text(const Job&, const Findings& findings) {
  std::string text;
  if (findings.hazards) text += hazards_text(*findings.hazards);
  if (findings.cut_back) text += cut_text(*findings.cut_back);
  if (findings.floor) text += floor_text(*findings.floor);
  text += trades_text(findings);
  text += heading("Cautions");
  for (const auto& caution : findings.cautions) text += bullet(caution);
  return text;
}

}  // namespace awlmark::cli
