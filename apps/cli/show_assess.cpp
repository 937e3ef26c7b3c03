#include <algorithm>
#include <cmath>

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
  std::string text = due_text(hazards);
  text += heading("Every gate, on the task it guards");
  std::string before;
  for (const auto& gate : hazards.gates) {
    if (doc::spoken(gate.before) != before) text += "  Before " + (before = doc::spoken(gate.before)) + ":\n";
    text += bullet(gate.text + (gate.who.empty() ? "" : " Who: " + gate.who + ".") + " [" + sourced(gate.reason) + "]");
  }
  for (const auto& met : hazards.met)
    text += bullet("Met: " + met.gate + ", by " + met.by + ", " + met.time + (met.evidence.empty() ? "" : ", " + met.evidence));
  return text;
}

// The one way in which a place is said.
std::string place(const Job& job, Point at_in) { return survey::place_in_words(job, std::nullopt, at_in); }

// What is only a chance is told to the hundred, on every door alike.
std::string about(double dollars) { return money(std::floor(dollars / 100 + 0.5) * 100); }

std::string cut_text(const Job& job, const cutback::CutBack& cut) {
  std::string text = heading("Cut back");
  for (const auto& words : cut.words) text += bullet(words);
  for (const auto& [layer, area_sf] : cut.area_sf) text += "  " + layer + ": take out " + format_number(area_sf, 1) + " sf\n";
  text += "  Edges:\n";
  for (const auto& edge : cut.edges)
    text += bullet(edge.layer + ", " + doc::spoken(edge.kind) + ", " + format_length(edge.length_in) + ", " + place(job, edge.from_in) + ", to " +
                   place(job, edge.to_in) + ": " + edge.why);
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
    if (!failing(check)) continue;
    const auto& reason = check.reason;
    text += bullet("FAILS  " + check.id + ": " + figures_text(check) + " [" + (reason.rule.empty() ? "" : reason.rule + "; ") + sourced(reason) + "]");
  }
  return text;
}

std::string floor_text(const Job& job, const floor::Floor& floor) {
  std::string text = heading("Floor as found: " + std::string(floor.as_found.ok ? "holds" : "does not hold"));
  for (const auto& words : floor.as_found.words) text += bullet(words);
  text += checks_text(floor.as_found.checks);
  text += heading("While it is open");
  for (const auto& words : floor.while_open.words) text += bullet(words);
  for (const auto& item : floor.while_open.unsupported) text += bullet("Unsupported: " + item);
  for (const auto& shore : floor.while_open.shores)
    text += bullet("Shore under " + shore.under + ", " + place(job, shore.at_in) + ": " + format_number(shore.load_lb, 0) + " lb, pad " +
                   format_number(shore.pad_sf, 1) + " sf");
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

std::string take_off_text(const takeoff::TakeOff& found) {
  std::string text = heading("Take-off");
  for (const auto& line : found.lines)
    text += "  " + format_number(line.quantity, 1) + " " + line.unit + "  " + line.item + (line.from.empty() ? "" : " (" + line.from + ")") + "\n";
  for (const auto& list : found.cut_lists) {
    text += "  " + list.item + ", cut" + (list.proven ? "" : " (not proven the least)") + ":\n";
    for (const auto& stick : list.sticks) {
      std::string cuts;
      for (const double cut : stick.cuts) cuts += (cuts.empty() ? "" : ", ") + format_inches(cut);
      text += bullet(std::to_string(stick.times) + " x " + format_length(stick.stock_in) + ": " + cuts + "; offcut " + format_inches(stick.offcut_in));
    }
  }
  for (const auto& note : found.notes) text += bullet(note);
  return text;
}

std::string hours_words(const floor::Hours& hours) {
  return format_number(hours.low, 1) + " - " + format_number(hours.likely, 1) + " - " + format_number(hours.high, 1);
}

std::string work_text(const work::Work& work) {
  std::string text = heading("Work");
  for (const auto& task : work.tasks) {
    text += "  " + task.title + " (" + task.who + "): " + hours_words(task.hours) + " h";
    if (task.wait_days.high > 0) text += "; waits " + hours_words(task.wait_days) + " working days";
    if (task.wait_hours.high > 0) text += "; waits " + hours_words(task.wait_hours) + " h";
    if (!task.starts.empty()) text += "; " + task.starts + (task.ends != task.starts ? " to " + task.ends : "");
    text += (task.hold.empty() ? "" : "; hold: " + task.hold) + (task.only_if.empty() ? "" : "; only if " + task.only_if) + "\n";
  }
  for (const auto& note : work.notes) text += bullet(note);
  return text;
}

std::string price_text(const price::Price& price) {
  std::string text = heading("Price");
  text += "  " + about(price.p50) + " as likely as not; 8 chances in 10 between " + about(price.p10) + " and " + about(price.p90) + "; four in five below " +
          about(price.p80) + ".\n";
  for (const auto& words : price.words) text += bullet(words);
  text += "  The base of " + about(price.base) + " holds:\n";
  for (const auto& item : price.base_quantities) text += bullet(format_number(item.quantity, 1) + " " + item.unit + " " + item.item);
  text += "  What may turn up, all-in, added and credited:\n";
  for (const auto& item : price.unit_prices) text += bullet(money(item.price) + " a " + (item.unit == "each" ? "piece" : item.unit) + ", " + item.item);
  text += "  Not included:\n";
  for (const auto& item : price.not_included) text += bullet(item);
  return text;
}

// Once, from whichever stage took it for granted.
std::string assumed_text(const Findings& findings) {
  std::string text = heading("Not recorded, and what was taken instead");
  for (const auto& item : findings.assumed) text += bullet((item.about.empty() ? "" : item.about + ": ") + item.words);
  return text;
}

void say(std::string& text, const std::string& head, const std::vector<std::string>& lines) {
  constexpr std::size_t kHead = 12;
  bool first = true;
  for (const auto& line : lines) {
    text += "  " + (first ? head + std::string(kHead - std::min(kHead, head.size()), ' ') : std::string(kHead, ' ')) + wrap(line, kHead + 2) + "\n";
    first = false;
  }
}

std::string coming_out(const cutback::CutBack& cut) {
  std::string text;
  for (const auto& [layer, sf] : cut.area_sf)
    if (sf > 0.05) text += (text.empty() ? "" : ", ") + format_number(sf, 1) + " sf of " + layer;
  if (cut.quantities.plate_ft > 0) text += ", " + format_number(cut.quantities.plate_ft, 1) + " ft of bottom plate";
  return text.empty() ? "nothing" : text;
}

std::vector<std::string> floor_lines(const floor::Floor& floor) {
  std::vector<std::string> lines{std::string("as found it ") + (floor.as_found.ok ? "holds" : "does not hold: keep people off and out from below")};
  for (const auto& option : floor.options)
    if (option.id == floor.chosen)
      lines.push_back(option.title + (option.needs_engineer ? "; an engineer is asked" : "") + (option.ok ? "" : "; checks are not met"));
  return lines;
}

std::vector<std::string> price_lines(const price::Price& price) {
  std::vector<std::string> lines{about(price.p50) + " as likely as not, four in five below " + about(price.p80) + "; to sign: base " + about(price.base) +
                                 ", cap " + about(price.cap)};
  for (const auto& branch : price.branches)
    if (branch.id.rfind("floor.", 0) != 0)
      lines.push_back("if " + branch.words + " (" + format_number(branch.chance * 100, 0) + " in 100): " + about(branch.p50));
  return lines;
}

std::vector<std::string> due_now(const hazards::Hazards& hazards) {
  constexpr std::size_t kShown = 5;
  std::vector<std::string> lines;
  std::size_t more = 0;
  for (const auto& gate : hazards.gates) {
    if (gate.before != hazards::Before::touching) continue;
    if (lines.size() < kShown)
      lines.push_back(gate.text + (gate.who.empty() ? "" : " Who: " + gate.who + "."));
    else
      ++more;
  }
  if (more > 0) lines.push_back("and " + std::to_string(more) + " more: --stages hazards");
  return lines;
}

std::vector<std::string> next_steps(const survey::Survey& survey) {
  std::vector<std::string> lines;
  if (survey.stop) lines.push_back("Stop opening. " + survey.stop_why);
  for (const auto& opening : survey.next_openings) {
    if (survey.stop || lines.size() >= 2) break;
    lines.push_back(opening.why);  // its place among the words
  }
  return lines;
}

}  // namespace

std::string assess_text(const Job& job, const Findings& findings) {
  std::string text = heading(job.job.name.empty() ? "This floor" : job.job.name);
  if (findings.cut_back) say(text, "Comes out", {coming_out(*findings.cut_back)});
  if (findings.floor) say(text, "Floor", floor_lines(*findings.floor));
  if (findings.price) say(text, "Price", price_lines(*findings.price));
  if (findings.work && !findings.work->finish.p50.empty())
    say(text, "Done", {"by " + findings.work->finish.p50 + " as likely as not, by " + findings.work->finish.p80 + " four times in five"});
  else if (findings.work)
    say(text, "Done",
        {"in " + format_number(findings.work->finish.p50_days, 0) + " working days as likely as not, in " + format_number(findings.work->finish.p80_days, 0) +
         " four times in five"});
  if (findings.hazards) say(text, "Due now", due_now(*findings.hazards));
  say(text, "Next", next_steps(findings.survey));
  if (!findings.assumed.empty())
    say(text, "Assumed", {std::to_string(findings.assumed.size()) + " things that nobody recorded are taken on the safe side: --stages assumed"});
  if (!findings.cautions.empty()) say(text, "Caution", {findings.cautions.front()});
  return text + "\n  More of it: --stages survey,hazards,cut_back,floor,take_off,work,price,assumed,cautions or all\n";
}

const std::vector<std::string>& stage_names() {
  static const std::vector<std::string> names{"survey", "hazards", "cut_back", "floor", "take_off", "work", "price", "assumed", "cautions"};
  return names;
}

std::string stage_text(const std::string& stage, const Job& job, const Findings& findings) {
  if (stage == "survey") return survey_text(job, findings);
  if (stage == "hazards" && findings.hazards) return hazards_text(*findings.hazards);
  if (stage == "cut_back" && findings.cut_back) return cut_text(job, *findings.cut_back);
  if (stage == "floor" && findings.floor) return floor_text(job, *findings.floor);
  if (stage == "take_off" && findings.takeoff) return take_off_text(*findings.takeoff);
  if (stage == "work" && findings.work) return work_text(*findings.work);
  if (stage == "price" && findings.price) return price_text(*findings.price);
  if (stage == "assumed") return assumed_text(findings);
  if (stage != "cautions") return {};
  std::string text = heading("Cautions");
  for (const auto& caution : findings.cautions) text += bullet(caution);
  return text;
}

std::string change_text(const price::ChangeOrder& order) {
  std::string text = heading("Change order");
  text += "  Found:\n";
  for (const auto& found : order.found) text += bullet(found);
  const auto list = [&](const char* title, const std::vector<price::ChangedItem>& items) {
    if (items.empty()) return;
    text += std::string("  ") + title + ":\n";
    for (const auto& item : items)
      text += bullet(format_number(item.quantity, 1) + " " + item.unit + " " + item.item +
                     (item.unit_price > 0 ? " at " + money(item.unit_price) + ": " + money(item.money) : ", no unit price was agreed"));
  };
  list("Added", order.added);
  list("Taken away", order.taken_away);
  text += "  Price " + money(order.total_before) + " -> " + money(order.total_after) + ": " + money(order.money) + ", of which " + money(order.at_unit_prices) +
          " at the unit prices agreed.\n";
  text += "  Days: " + format_number(order.days, 1) +
          (order.finish_after.empty() ? "" : "; done by " + order.finish_after + " instead of " + order.finish_before) + ".\n";
  for (const auto& words : order.words) text += bullet(words);
  return text + "\n  Owner ____________________   Contractor ____________________   Date __________\n";
}

}  // namespace awlmark::cli
