#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "papers/drawing/pieces_plan.hpp"
#include "papers/keys.hpp"
#include "papers/reasons.hpp"
#include "papers/sheet.hpp"
#include "papers/sheets.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

std::string wall_or_layer(const Job& job, const std::string& id) {
  if (id.rfind("wall:", 0) == 0) return "wall " + id.substr(5);
  return layer_title(job, id);
}

// Layers in the job's order, then the walls, each only when something of it comes out.
std::vector<std::string> layers_out(const Job& job, const cutback::CutBack& cut) {
  std::vector<std::string> ids;
  const auto has = [&](const std::string& id) {
    return std::any_of(cut.pieces.begin(), cut.pieces.end(), [&](const cutback::Piece& piece) { return piece.layer == id && piece.out; });
  };
  for (const auto& layer : job.layers)
    if (has(layer.id)) ids.push_back(layer.id);
  for (const auto& piece : cut.pieces)
    if (piece.out && std::find(ids.begin(), ids.end(), piece.layer) == ids.end()) ids.push_back(piece.layer);
  return ids;
}

void gates_list(Sheet& sheet, ReasonList& reasons, const Findings& findings) {
  sheet.section("Before the first cut");
  auto& out = sheet.out();
  if (!findings.hazards) {
    sheet.say("Hazards were not worked out. Do not cut, scrape or sand old flooring or paint until they are.", "bad");
    return;
  }
  for (const auto& gate : findings.hazards->gates) {
    if (gate.before == hazards::Before::covering || gate.before == hazards::Before::finishing) continue;  // these stand at the end
    out.open("div", {{"class", "gate"}}).open("p").open("span", {{"class", "box"}}).close().text(gate.text);
    reason_link(out, reasons.number_of(gate.reason));
    out.close();
    if (!gate.who.empty()) out.element("p", "Who: " + gate.who, {{"class", "who"}});
    out.close();
  }
  std::vector<std::string> items;
  for (const auto& item : findings.hazards->protection) items.push_back(item.text);
  sheet.list(items);
}

// What may not be covered yet.
void covering_list(Sheet& sheet, ReasonList& reasons, const Findings& findings) {
  if (!findings.hazards) return;
  bool first = true;
  auto& out = sheet.out();
  for (const auto& gate : findings.hazards->gates) {
    if (gate.before != hazards::Before::covering && gate.before != hazards::Before::finishing) continue;
    if (first) sheet.section("Before anything is covered");
    first = false;
    out.open("div", {{"class", "gate"}}).open("p").open("span", {{"class", "box"}}).close().text(gate.text);
    reason_link(out, reasons.number_of(gate.reason));
    out.close();
    if (!gate.who.empty()) out.element("p", "Who: " + gate.who, {{"class", "who"}});
    out.close();
  }
}

void shores_list(Sheet& sheet, const Findings& findings) {
  if (!findings.floor) return;
  const auto& open = findings.floor->while_open;
  if (open.shores.empty() && open.words.empty()) return;
  sheet.sub("Shore first");
  for (const auto& words : open.words) sheet.say(words);
  std::vector<std::string> items;
  for (std::size_t i = 0; i < open.shores.size(); ++i)
    items.push_back("P" + std::to_string(i + 1) + ": under " + open.shores[i].under + " at " + place_words(open.shores[i].at_in) + ", " +
                    figure(open.shores[i].load_lb) + " lb, pad of " + pad_words(open.shores[i].pad_sf) + ".");
  sheet.list(items);
}

// Sheet flooring and panels are kept as cells; people take those out by the drawing, not by a list.
bool listed(const cutback::Piece& piece) { return piece.plank > 0 || piece.kind == "plate" || piece.kind == "wallboard"; }

void layer_tables(Sheet& sheet, const Job& job, const cutback::CutBack& cut, const std::string& layer) {
  Table pieces{{"Piece", "Plank", "From", "Length", "Chance of rot", "Why"}, {}, "cards"};
  for (const auto& piece : cut.pieces) {
    if (piece.layer != layer || !piece.out || piece.outline_in.empty() || !listed(piece)) continue;
    const auto box = bounds(piece.outline_in);
    pieces.rows.push_back({{piece.id, piece.known_decay ? "bad" : ""},
                           {piece.plank > 0 ? std::to_string(piece.plank) : "", "num"},
                           {place_words({box.x0_in, box.y0_in}), ""},
                           {format_length(std::max(box.width_in(), box.height_in())), "num"},
                           {percent(piece.p_unsound), "num"},
                           {piece.why, ""}});
  }
  constexpr std::size_t kMost = 150;
  const auto left_out = pieces.rows.size() > kMost ? pieces.rows.size() - kMost : 0;
  if (left_out > 0) pieces.rows.resize(kMost);
  sheet.table(pieces);
  if (left_out > 0)
    sheet.say(count_of(left_out, "more piece", "more pieces") + " of the " + wall_or_layer(job, layer) + " come out; all are on the plan.", "small");
  Table edges{{"Saw line", "From", "To", "Length", "On", "Why there"}, {}, "cards"};
  for (const auto& edge : cut.edges)
    if (edge.layer == layer)
      edges.rows.push_back({{edge_words(edge.kind), ""},
                            {place_words(edge.from_in), ""},
                            {place_words(edge.to_in), ""},
                            {format_length(edge.length_in), "num"},
                            {edge.support, ""},
                            {edge.why, ""}});
  sheet.table(edges);
}

void edge_totals(Sheet& sheet, const cutback::CutBack& cut) {
  std::map<cutback::EdgeKind, double> length_in;
  for (const auto& edge : cut.edges) length_in[edge.kind] += edge.length_in;
  std::vector<std::string> items;
  for (const auto& [kind, length] : length_in) items.push_back(sentence_case(edge_words(kind)) + ": " + format_length(length));
  for (const auto& [wall, feet] : cut.plate_ft)
    if (feet > 0) items.push_back("Bottom plate out of wall " + wall + ": " + format_length(feet * 12));
  for (const auto& [wall, area] : cut.wallboard_sf)
    if (area > 0) items.push_back("Wallboard off wall " + wall + ": " + square_feet(area));
  sheet.list(items);
}

void cut_lists(Sheet& sheet, const takeoff::TakeOff& take_off) {
  if (take_off.cut_lists.empty()) return;
  sheet.section("Cut list");
  for (const auto& list : take_off.cut_lists) {
    sheet.sub(list.item + (list.proven ? " (no cheaper plan exists)" : ""));
    Table table{{"Sticks", "Length", "Cut each into", "Offcut", "Kerf"}, {}, "cards"};
    for (const auto& stick : list.sticks) {
      std::vector<std::string> cuts;
      for (const double cut : stick.cuts) cuts.push_back(format_length(cut));
      table.rows.push_back({{std::to_string(stick.times), "num"},
                            {format_length(stick.stock_in), "num"},
                            {joined(cuts), ""},
                            {format_length(stick.offcut_in), "num"},
                            {format_inches(list.kerf_in), "num"}});
    }
    sheet.table(table);
  }
}

}  // namespace

Paper crew_sheet(const Job& job, const Findings& findings) {
  Sheet sheet(job, findings, "Crew sheet");
  ReasonList reasons;
  const auto& cut = *findings.cut_back;
  sheet.say(
      "For the crew. Read the whole sheet before the first cut. Planks are counted from the wall at the low side, tapes are read from the datum corner 0, 0.");
  gates_list(sheet, reasons, findings);
  shores_list(sheet, findings);
  sheet.section("What comes out");
  for (const auto& words : cut.words) sheet.say(words);
  const auto layers = layers_out(job, cut);
  if (layers.empty()) sheet.say("Nothing comes out.");
  edge_totals(sheet, cut);
  int drawn = 0;
  for (const auto& layer : layers) {
    sheet.sub(wall_or_layer(job, layer));
    if (find_layer(job, layer) != nullptr) {
      ++drawn;
      sheet.figure(pieces_plan(job, findings, layer, "pieces" + std::to_string(drawn)), "What comes out of the " + layer_title(job, layer) + ".",
                   drawn == 1 ? pieces_legend() : Markup{});
    }
    layer_tables(sheet, job, cut, layer);
  }
  if (drawn == 0) sheet.figure(pieces_plan(job, findings, "", "pieces1"), "The room. No layer comes out.");
  if (!cut.blocking.empty()) {
    sheet.section("Blocking to add");
    Table table{{"Piece", "From", "To", "Length", "Why"}, {}, "cards"};
    for (std::size_t i = 0; i < cut.blocking.size(); ++i)
      table.rows.push_back({{"B" + std::to_string(i + 1), "good"},
                            {place_words(cut.blocking[i].from_in), ""},
                            {place_words(cut.blocking[i].to_in), ""},
                            {format_length(cut.blocking[i].length_in), "num"},
                            {cut.blocking[i].why, ""}});
    sheet.table(table);
  }
  if (!cut.rules.empty()) {
    sheet.section("Rules behind the lines");
    Table table{{"Rule", "State", "Pieces changed", "Costs", "In words"}, {}, "cards"};
    for (const auto& rule : cut.rules)
      table.rows.push_back({{spoken_id(rule.rule), "", reasons.number_of(rule.reason)},
                            {rule.on ? "on" : "switched off", rule.on ? "" : "bad"},
                            {std::to_string(rule.pieces_changed), "num"},
                            {rough_money(rule.added_cost), "num"},
                            {rule.words, ""}});
    sheet.table(table);
  }
  if (findings.takeoff) cut_lists(sheet, *findings.takeoff);
  covering_list(sheet, reasons, findings);
  sheet.list(cut.notes, "small");
  sheet.cautions({"Find more rot than is drawn: stop, mark it, photograph it with a tape in the picture, and have the change signed before going on.",
                  "Nobody stands below while cutting. Shores hold, they do not lift."});
  sheet.signatures({"Lead carpenter: read before the first cut", "Owner: hidden damage seen"});
  if (!reasons.empty()) {
    sheet.section("Reasons and sources");
    reasons.write(sheet.out());
  }
  return {"crew-sheet.html", "Crew sheet", sheet.html()};
}

}  // namespace awlmark::papers
