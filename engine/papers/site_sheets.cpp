// Papers filled in on the site: change order, inspection, drying log, flood test.
#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "papers/drawing/drying_chart.hpp"
#include "papers/drawing/framing_lines.hpp"
#include "papers/drawing/pan_plan.hpp"
#include "papers/drawing/pieces_plan.hpp"
#include "papers/keys.hpp"
#include "papers/sheet.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

void head_facts(Sheet& sheet, const Job& job, const std::string& number) {
  sheet.facts({{"Owner", job.job.owner.value_or("not recorded")},
               {"Address", job.job.address.value_or("not recorded")},
               {"Contractor", job.job.contractor.value_or("not recorded")},
               {number, " "}});
}

void blank_rows(Table& table, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) table.rows.push_back(std::vector<Cell>(table.head.size(), Cell{" ", ""}));
}

void room_plan(Sheet& sheet, const Job& job, const Findings& findings) {
  if (!findings.cut_back) return;
  const Layer* deck = structural_deck(job);
  sheet.figure(pieces_plan(job, findings, deck ? deck->id : "", {"room", 7.3, 3.3, 0.375, false}), "The room and what comes out of its deck, as planned.");
}

// The thickness of one part as printed: the heights at its two faces are rounded, not the part, so that a column adds up.
std::string printed_thickness(const shower::HeightStack& stack, std::size_t part) {
  const auto sixteenths = [](double in) { return std::round(in * 16) / 16; };
  double under_in = 0;
  for (std::size_t i = 0; i < part; ++i) under_in += stack.parts[i].thickness_in;
  const double printed_in = sixteenths(under_in + stack.parts[part].thickness_in) - sixteenths(under_in);
  return printed_in == 0 && stack.parts[part].thickness_in != 0 ? "under 1/16\"" : format_inches(printed_in);
}

// The parts of every stack, from the framing up: what the section draws and has no room to name.
void build_up(Sheet& sheet, const shower::ShowerAnswer& answer) {
  Table table{{"Build-up, from the framing up"}, {}, "grid"};
  std::vector<std::string> parts;
  for (const auto& stack : answer.stacks) {
    table.head.push_back(sentence_case(spoken_id(stack.at)));
    for (const auto& part : stack.parts)
      if (std::find(parts.begin(), parts.end(), part.what) == parts.end()) parts.push_back(part.what);
  }
  const auto row = [&](const std::string& name, auto value) {
    std::vector<Cell> cells{{sentence_case(name), ""}};
    for (const auto& stack : answer.stacks) cells.push_back({value(stack), "num"});
    table.rows.push_back(std::move(cells));
  };
  for (const auto& name : parts)
    row(name, [&](const shower::HeightStack& stack) {
      for (std::size_t i = 0; i < stack.parts.size(); ++i)
        if (stack.parts[i].what == name) return printed_thickness(stack, i);
      return std::string();
    });
  row("top of the finish above the old framing", [](const shower::HeightStack& stack) { return format_inches(stack.top_in); });
  sheet.table(table);
  sheet.say("At the door: " + answer.door_threshold + (answer.door_threshold.empty() || answer.door_threshold.back() == '.' ? " " : ". ") +
                sentence_case(answer.flange) + ".",
            "small");
}

void pan_drawings(Sheet& sheet, const Job& job, const Findings& findings) {
  const auto& shower = *findings.shower;
  if (!shower.pan || !job.shower) return;
  sheet.figure(pan_plan(shower, job.shower->outline_in), "Pan from above: heights of the finished floor above the drain; thin lines are level.");
  for (const auto& answer : shower.answers) {
    if (answer.id != shower.chosen) continue;
    sheet.figure(height_section(answer), "Heights from the old framing's top, not to scale: " + answer.how + ". Step at the door " +
                                             format_inches(answer.step_at_door_in) + ", at the entry " + format_inches(answer.step_at_entry_in) + ".");
    build_up(sheet, answer);
  }
}

std::string limit_words(const Check& check) {
  const std::string unit = check.reason.unit.empty() ? "" : " " + check.reason.unit;
  const bool least = check.kind == "clearance" || check.kind == "fall_least";
  return (least ? "at least " + figure(check.demand) : "at most " + figure(check.capacity)) + unit + "; planned " +
         figure(least ? check.capacity : check.demand) + unit;
}

// With the rule beside it, as an inspector reads it; what was compared is in the annex.
void add_item(Table& table, const std::string& item, const std::string& limit, const Reason& reason = {}) {
  const std::string rule = reason.source + (reason.edition.empty() ? "" : " " + reason.edition);
  table.rows.push_back({{item, ""}, {limit, ""}, {rule.empty() ? "trade" : shortened(rule, 60), ""}, {" ", ""}, {" ", ""}, {" ", ""}});
}

void shower_items(Table& table, const shower::Shower& shower) {
  for (const auto& check : shower.checks)
    if (check.id.rfind("drain_run.", 0) != 0)  // the holes stand below, one line each
      add_item(table, sentence_case(check.reason.rule.empty() ? check.kind : check.reason.rule), limit_words(check), check.reason);
  if (shower.drain_run) {
    const auto& run = *shower.drain_run;
    add_item(table, "Trap arm " + figure(run.pipe_in) + " in., weir to vent, along the pipe",
             "at most " + figure(run.longest_ft) + " ft; planned " + format_number(run.length_ft, 1) + " ft, falls " + format_inches(run.total_fall_in),
             run.reason);
    for (const auto& cross : run.crosses)
      add_item(table, "Hole of " + format_inches(cross.hole_in) + " in " + cross.member,
               cross.ok ? "2 in. from both edges; " + format_inches(cross.from_top_in) + " from the top" : cross.why);
  }
  if (shower.wet_area)
    add_item(table, "Membrane up the walls and past the entry", "3 in. up" + std::string(shower.wet_area->band_sf > 0 ? ", 12 in. past the entry" : ""));
  if (shower.flood_test)
    add_item(table, "Flood test", figure(shower.flood_test->depth_in) + " in. at the threshold, " + figure(shower.flood_test->hours) + " h (see its sheet)",
             shower.flood_test->reason);
}

}  // namespace

Paper change_order(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Change order");
  head_facts(sheet, job, "Number and date");
  sheet.say(
      "Written, priced and signed before the work is done. It attaches to the contractor's own contract, which it does not replace; state law decides what "
      "else it must hold.");
  Table table{{"Found, added or taken away", "Where", "Quantity, unit", "Unit price", "Money", "Days", "Photo"}, {}, "blank"};
  blank_rows(table, 7);
  sheet.table(table);
  Table sums{{"", "Before", "This change", "After"}, {}, "blank"};
  for (const char* what : {"Price", "Finish date", "Payment steps"}) sums.rows.push_back({{what, ""}, {" ", ""}, {" ", ""}, {" ", ""}});
  sheet.table(sums);
  sheet.list({"Who asked for it: ____________________", "New risks or exclusions: ____________________"});
  sheet.caution_box(
      {"Work that was needed to make the place safe may come first: note the hour, the reason and the owner's consent, and sign within the day."});
  sheet.signatures({"Owner, before the work", "Contractor"});
  room_plan(sheet, job, findings);
  return {"change-order.html", "Change order", sheet.html()};
}

Paper inspection_sheet(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Inspection sheet");
  head_facts(sheet, job, "Permit no.");
  Table table{{"Item", "Limit and plan", "Rule", "Measured", "Pass, fail", "Initials, date"}, {}, "blank fill"};
  const auto shores = shores_of(findings);
  add_item(table, "Shores before cutting", shores.empty() ? "as needed" : count_of(shores.size(), "shore", "shores") + ", as on the framing sheet");
  add_item(table, "Cut ends on members or blocking", "middle of the member");
  if (const auto* option = chosen_option(findings)) {
    add_item(table, "Framing as drawn", option->title);
    if (option->needs_engineer)
      add_item(table, "Engineer's word in hand", option->engineer_for.empty() ? "as on the framing sheet" : option->engineer_for.front());
  }
  add_item(table, "Fasteners and hangers", "photographed before cover");
  if (findings.shower) shower_items(table, *findings.shower);
  if (findings.drying)
    for (const auto& layer : findings.drying->layers)
      add_item(table, "Moisture of " + (layer.support ? *layer.support : layer.layer) + ", two readings a day apart",
               "at most " + figure(layer.limit_percent) + " percent", layer.reason);
  if (findings.hazards)
    for (const auto& gate : findings.hazards->gates)
      if (gate.before == hazards::Before::covering || gate.before == hazards::Before::finishing)
        add_item(table, gate.brief.empty() ? gate.text : sentence_case(gate.brief), gate.who, gate.reason);
  add_item(table, "Nothing covered before sign-off", "signed card");
  sheet.table(table);
  sheet.caution_box({});
  sheet.signatures({"Contractor", "Inspector"});
  if (findings.shower)
    pan_drawings(sheet, job, findings);
  else
    room_plan(sheet, job, findings);
  return {"inspection-sheet.html", "Inspection sheet", sheet.html()};
}

Paper drying_log(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Drying log");
  const auto& drying = *findings.drying;
  head_facts(sheet, job, "Meter, setting");
  sheet.list(drying.words, "short-list");
  int count = 0;
  for (const auto& layer : drying.layers) {
    const std::string name = layer.support ? "Member " + *layer.support : sentence_case(layer_title(job, layer.layer));
    sheet.sub(name + (layer.at_in ? ", at " + place_words(job, *layer.at_in) : ""));
    sheet.figure(drying_chart(layer, "dry" + std::to_string(++count)),
                 "Dots are readings, the shaded band holds 8 chances in 10, the heavy line is the limit of " + format_number(layer.limit_percent, 0) +
                     " percent (" + source_words(layer.reason) + ").");
    std::vector<std::string> gains;
    for (const auto& w : layer.what_if)
      if (w.days_sooner && *w.days_sooner >= 0.5) gains.push_back(w.what + ": " + format_number(*w.days_sooner, 0) + " days sooner");
    if (!gains.empty()) sheet.say("Would help: " + joined(gains) + ".", "tight");
  }
  sheet.sub("One line a day");
  Table table{{"Date, time", "Where", "Percent", "Wood F", "Air F", "Air humidity", "By"}, {}, "blank"};
  for (const auto& layer : drying.layers)
    for (const auto& reading : layer.readings)
      table.rows.push_back({{reading.time.substr(0, 10) + " " + (reading.time.size() >= 16 ? reading.time.substr(11, 5) : ""), ""},
                            {layer.support ? *layer.support : layer.layer, ""},
                            {format_number(reading.mc_percent, 1), "num"},
                            {" ", ""},
                            {" ", ""},
                            {" ", ""},
                            {" ", ""}});
  blank_rows(table, 8);
  sheet.table(table);
  sheet.caution_box(
      {"A forecast plans; only two readings at or below the limit, a day apart, release the hold. Move no air across growth or suspect dust before it is "
       "contained."});
  sheet.signatures({"Hold released: contractor", "Owner or inspector"});
  return {"drying-log.html", "Drying log", sheet.html()};
}

Paper flood_test_sheet(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Flood test");
  const auto& test = *findings.shower->flood_test;
  head_facts(sheet, job, "Permit no.");
  std::vector<std::string> plan = {
      "Plug the drain" +
          std::string(test.dam_length_in > 0
                          ? ", set a dam " + format_length(test.dam_length_in) + " long and " + format_inches(test.dam_height_in) + " high along the entry"
                          : "") +
          ", fill to " + format_inches(test.depth_in) + " at the threshold, mark the level.",
      "Water: " + format_number(test.volume_gal, 0) + " gal, " + format_number(test.weight_lb, 0) + " lb, " + format_number(test.mean_load_psf, 0) +
          " lb a square foot against " + format_number(test.check.capacity, 0) + " that the floor is checked for" +
          (test.check.ok ? "." : ": TOO HEAVY, shore first."),
      "Hold it " + format_number(test.hours, 0) + " h (trade " + format_number(test.trade_hours, 0) + " h, code at least " +
          format_number(test.legal_hours * 60, 0) + " minutes; " + source_words(test.reason) + "). Look below every hour of the day.",
      "Passes when the level is unchanged and the underside dry. If not: drain, find, mend, and start the whole time again."};
  sheet.list(plan, "short-list");
  Table table{{"", "Mark 1", "Mark 2", "Mark 3", "Time", "Air F", "Below: dry?", "Initials"}, {}, "blank"};
  for (const char* row : {"Start", "Hour 1", "Hour 2", "Hour 4", "Hour 8", "End"}) {
    std::vector<Cell> cells{{row, ""}};
    cells.resize(8, Cell{" ", ""});
    table.rows.push_back(cells);
  }
  sheet.table(table);
  sheet.caution_box({"Do not fill over framing that is not finished, and keep people out from below."});
  sheet.signatures({"Tile setter", "Inspector"});
  pan_drawings(sheet, job, findings);
  Table heights{{"Screed at", "Place", "Above the drain", "Bed"}, {}, "grid"};
  for (const auto& height : findings.shower->pan->heights)
    heights.rows.push_back(
        {{height.at, ""}, {place_words(job, height.at_in), ""}, {format_inches(height.above_drain_in), "num"}, {format_inches(height.bed_in), "num"}});
  sheet.table(heights);
  return {"flood-test.html", "Flood test", sheet.html()};
}

}  // namespace awlmark::papers
