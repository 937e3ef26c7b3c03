// What has to happen: gates, cut-back, the floor as found, the ways to rebuild it, time and price.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/pieces_plan.hpp"
#include "papers/gates.hpp"
#include "papers/keys.hpp"
#include "papers/report_sections.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

void write_gate(const Report& report, const hazards::Gate& gate) {
  auto& out = report.sheet.out();
  out.open("div", {{"class", "gate"}}).open("p").open("span", {{"class", "box"}}).close().text(gate.text);
  reason_link(out, report.reasons.number_of(gate.reason));
  out.close();
  std::string who;
  if (!gate.who.empty()) who += "Who: " + gate.who + ". ";
  if (!gate.because.empty()) who += "Because: " + joined(gate.because) + ".";
  if (!who.empty()) out.element("p", who, {{"class", "who"}});
  out.close();
}

// Why each saw line lies where it lies, and each block.
void cut_reasons(const Report& report, const cutback::CutBack& cut) {
  Table table{{"Saw line or block", "From", "To", "Why there"}, {}, "grid"};
  for (const auto& edge : cut.edges)
    table.rows.push_back({{edge.layer + ", " + edge_words(edge.kind), ""},
                          {place_words(report.job, edge.from_in), ""},
                          {place_words(report.job, edge.to_in), ""},
                          {edge.why, ""}});
  for (const auto& block : cut.blocking)
    table.rows.push_back({{"blocking " + format_length(block.length_in), ""},
                          {place_words(report.job, block.from_in), ""},
                          {place_words(report.job, block.to_in), ""},
                          {block.why, ""}});
  report.sheet.table(table);
}

// Failing checks first, then by ratio; the floor's own order breaks ties.
std::vector<const Check*> worst_first(const std::vector<Check>& checks) {
  std::vector<const Check*> order;
  for (const auto& check : checks) order.push_back(&check);
  std::stable_sort(order.begin(), order.end(), [](const Check* a, const Check* b) { return a->ok != b->ok ? !a->ok : a->ratio > b->ratio + 1e-12; });
  return order;
}

std::string check_summary(const floor::Option& option) {
  if (option.checks.empty()) return "no check made";
  const Check& worst = *worst_first(option.checks).front();
  return (option.ok ? "all checks pass; closest: " : "fails: ") + (worst.member.empty() ? "" : worst.member + ", ") + spoken_id(worst.kind) + " at " +
         format_number(std::min(worst.ratio, 99.0), 2);
}

void tasks(const Report& report, const work::Work& work) {
  Table table{{"Task", "Who", "Hours, low - likely - high", "Wait, hours", "Wait, days"}, {}, "grid"};
  const auto hours = [](const floor::Hours& h) {
    return h.high <= 0 ? std::string() : format_number(h.low, 1) + " - " + format_number(h.likely, 1) + " - " + format_number(h.high, 1);
  };
  for (const auto& task : work.tasks)
    table.rows.push_back({{task.title, "", report.reasons.number_of(task.reason)},
                          {spoken_id(task.who), ""},
                          {hours(task.hours), ""},
                          {hours(task.wait_hours), ""},
                          {hours(task.wait_days), ""}});
  report.sheet.table(table);
}

void measured(const Report& report, const takeoff::TakeOff& take_off) {
  report.sheet.section("What is bought and carried, and how it was measured");
  Table table{{"Item", "Quantity", "Unit", "Unit price", "How measured"}, {}, "grid"};
  for (const auto& line : take_off.lines)
    table.rows.push_back({{line.item, ""},
                          {figure(line.quantity), "num"},
                          {line.unit, ""},
                          {line.unit_price > 0 ? "$" + format_number(line.unit_price, 2) : "", "num"},
                          {line.from, ""}});
  report.sheet.table(table);
  report.sheet.list(take_off.notes, "small");
}

std::string height_words(double change_in) {
  if (std::fabs(change_in) < 1.0 / 32) return "as today";
  return (change_in > 0 ? "up " : "down ") + format_inches(std::fabs(change_in));
}

std::string hours_words(const floor::Hours& hours) {
  return format_number(hours.low, 0) + " to " + format_number(hours.high, 0) + ", likely " + format_number(hours.likely, 0);
}

}  // namespace

void write_gates(const Report& report) {
  report.sheet.section("Before anyone starts");
  if (!report.findings.hazards) {
    report.sheet.say(
        "Hazards were not worked out with this report. Until they are, treat old flooring, its backing and glue as if they held asbestos and old paint as if "
        "it held lead.");
    return;
  }
  const auto& gates = report.findings.hazards->gates;
  if (gates.empty()) report.sheet.say("No gate follows from what is recorded.");
  for (const auto before : {hazards::Before::touching, hazards::Before::entering, hazards::Before::opening, hazards::Before::lifting, hazards::Before::cutting,
                            hazards::Before::drying, hazards::Before::covering, hazards::Before::finishing}) {
    if (std::none_of(gates.begin(), gates.end(), [&](const hazards::Gate& gate) { return gate.before == before; })) continue;
    report.sheet.sub(before_words(before));
    for (const auto& gate : gates)
      if (gate.before == before) write_gate(report, gate);
  }
  std::vector<std::string> layers;
  for (const auto& layer : report.findings.hazards->contaminated_layers) layers.push_back(layer_title(report.job, layer));
  if (!layers.empty()) report.sheet.say("Wetted by dirty water and porous, so it goes whatever its strength: " + joined(layers) + ".");
}

void write_cut_back(const Report& report) {
  if (!report.findings.cut_back) return;
  const auto& cut = *report.findings.cut_back;
  report.sheet.section("What comes out");
  for (const auto& words : cut.words) report.sheet.say(words);
  Table table{{"Layer", "Comes out", "Pieces", "With rot seen"}, {}, "cards"};
  for (const auto& [layer, area] : cut.area_sf) {
    std::size_t pieces = 0, known = 0;
    for (const auto& piece : cut.pieces)
      if (piece.layer == layer && piece.out) ++pieces, known += piece.known_decay ? 1 : 0;
    if (area >= 0.05 || pieces > 0)
      table.rows.push_back({{layer_title(report.job, layer), ""}, {square_feet(area), "num"}, {std::to_string(pieces), "num"}, {std::to_string(known), "num"}});
  }
  report.sheet.table(table);
  double block_in = 0;
  for (const auto& block : cut.blocking) block_in += block.length_in;
  if (!cut.blocking.empty())
    report.sheet.say("New blocking under cut ends: " + count_of(cut.blocking.size(), "piece", "pieces") + ", " + format_length(block_in) + " in all.");
  report.sheet.say("The plan costs about " + rough_money(cut.cost) +
                   " by the job's rates for tearing out, edges and blocking. The rot that may still be left behind is worth about " +
                   rough_money(cut.expected_loss_left) + " on average.");
  Table rules{{"Rule", "State", "Pieces changed", "Costs", "In words"}, {}, "grid"};
  for (const auto& rule : cut.rules)
    rules.rows.push_back({{spoken_id(rule.rule), "", report.reasons.number_of(rule.reason)},
                          {rule.on ? "on" : "switched off", rule.on ? "" : "bad"},
                          {std::to_string(rule.pieces_changed), "num"},
                          {rough_money(rule.added_cost), "num"},
                          {rule.words, ""}});
  report.sheet.table(rules);
  report.sheet.list(cut.notes, "small");
  cut_reasons(report, cut);
}

void write_floor(const Report& report) {
  if (!report.findings.floor) return;
  const auto& found = report.findings.floor->as_found;
  report.sheet.section("The floor as found");
  for (const auto& words : found.words) report.sheet.say(words);
  if (found.dead_psf > 0 || found.live_psf > 0)
    report.sheet.say("Reckoned for " + figure(found.live_psf) + " pounds a square foot of people and furniture and " + figure(found.dead_psf) +
                     " of its own weight.");
  // The owner needs the checks that matter; the framing sheet holds all of them.
  constexpr std::size_t kShown = 12;
  const auto order = worst_first(found.checks);
  Table table{{"What", "Check", "Ratio", "In words"}, {}, "cards"};
  for (std::size_t i = 0; i < order.size() && (i < kShown || !order[i]->ok); ++i) {
    const Check& check = *order[i];
    const auto ratio = check.ratio > 99 ? std::string("over 99") : format_number(check.ratio, 2);
    table.rows.push_back({{check.member.empty() ? check.id : check.member, ""},
                          {spoken_id(check.kind), "", report.reasons.number_of(check.reason)},
                          {ratio, "num"},
                          {ratio_words(check), failing(check) ? "bad" : "good"}});
  }
  if (!table.rows.empty()) report.sheet.say("Ratio is load over strength, or bending over the bending allowed: up to 1.00 passes.", "small");
  report.sheet.table(table);
  if (order.size() > table.rows.size())
    report.sheet.say(count_of(order.size() - table.rows.size(), "more check passes", "more checks pass") + " with more to spare; all are on the framing sheet.",
                     "small");
}

void write_options(const Report& report) {
  if (!report.findings.floor || report.findings.floor->options.empty()) return;
  const auto& floor = *report.findings.floor;
  report.sheet.section("Ways to rebuild it");
  std::vector<const floor::Option*> order;
  for (const auto& option : floor.options) order.push_back(&option);
  std::stable_sort(order.begin(), order.end(), [](const auto* a, const auto* b) { return (a->rank > 0 ? a->rank : 1000) < (b->rank > 0 ? b->rank : 1000); });
  Table table{{"", "Way", "Checks", "Height", "Weight", "Cost", "Hours"}, {}, "cards"};
  for (const auto* option : order) {
    const bool chosen = option->id == floor.chosen;
    table.rows.push_back(
        {{chosen             ? "chosen"
          : option->rank > 0 ? std::to_string(option->rank)
                             : "",
          chosen ? "good" : ""},
         {option->title + (option->needs_engineer ? " (needs an engineer)" : ""), chosen ? "good" : ""},
         {check_summary(*option), option->ok ? "" : "bad", option->checks.empty() ? 0 : report.reasons.number_of(worst_first(option->checks).front()->reason)},
         {height_words(option->height_change_in), ""},
         {figure(option->weight_psf) + " lb/sq ft", ""},
         {rough_money(option->cost), "num"},
         {hours_words(option->hours), ""}});
  }
  report.sheet.table(table);
  for (const auto* option : order) {
    std::string words;  // its trade-off stands with the framing's records
    if (!option->rules_out.empty()) words += (words.empty() ? "" : " ") + std::string("It rules out: ") + joined(option->rules_out) + ".";
    for (const auto& caution : option->cautions) words += (words.empty() ? "" : " ") + caution;
    if (words.empty()) continue;
    report.sheet.out().open("p").element("b", option->title + ": ").text(words).close();
  }
  if (const auto* chosen = chosen_option(report.findings); chosen != nullptr && !chosen->steps.empty()) {
    report.sheet.sub("How the chosen way is built");
    report.sheet.out().open("ol");
    for (const auto& step : chosen->steps) report.sheet.out().element("li", step);
    report.sheet.out().close();
  }
}

void write_price(const Report& report) {
  const auto& findings = report.findings;
  if (findings.work) {
    const auto& work = *findings.work;
    report.sheet.section("How long it takes");
    if (work.finish.p50_days > 0)
      report.sheet.say("An even chance of being done in " + format_number(work.finish.p50_days, 0) + " working days" +
                       (work.finish.p50.empty() ? "" : ", by " + work.finish.p50) + "; 4 chances in 5 of being done in " +
                       format_number(work.finish.p80_days, 0) + (work.finish.p80.empty() ? "." : ", by " + work.finish.p80 + "."));
    if (work.total_hours.high > 0)
      report.sheet.say("Hands-on hours of the crew: " + hours_words(work.total_hours) + ". Waiting for results, drying and curing comes on top.");
    report.sheet.list(work.notes, "small");
    tasks(report, work);
  }
  if (findings.takeoff) measured(report, *findings.takeoff);
  if (!findings.price) return;
  const auto& price = *findings.price;
  report.sheet.section("What it costs");
  for (const auto& words : price.words) report.sheet.say(words);
  Table table{{"Jobs like this one", "End below"}, {}, ""};
  table.rows.push_back({{"1 in 10", ""}, {rough_money(price.p10), "num"}});
  table.rows.push_back({{"5 in 10", "good"}, {rough_money(price.p50), "num"}});
  table.rows.push_back({{"8 in 10", ""}, {rough_money(price.p80), "num"}});
  table.rows.push_back({{"9 in 10", ""}, {rough_money(price.p90), "num"}});
  report.sheet.table(table);
  report.sheet.say("This is a range, not an offer. What it is made of is on the price sheet.", "small");
}

}  // namespace awlmark::papers
