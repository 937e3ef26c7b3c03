#include "papers/framing_tables.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

struct Column {
  std::string kind;
  std::string head;
};

// The usual checks in the order in which a reviewer reads them; others follow under their own name.
const std::vector<Column>& usual_columns() {
  static const std::vector<Column> columns = {{"bending", "Bending"},
                                              {"shear", "Shear"},
                                              {"bearing", "Bearing"},
                                              {"deflection_live", "Live sag"},
                                              {"deflection_total", "Long-term sag"},
                                              {"lateral", "Depth to breadth"},
                                              {"top_seat", "Seat"},
                                              {"nail_holding", "Nails"},
                                              {"post", "Post"}};
  return columns;
}

bool is_deck(const Job& job, const Check& check) { return find_layer(job, check.member) != nullptr || check.kind.rfind("deck_", 0) == 0; }

std::vector<std::string> sorted_members(const Job& job, const std::vector<Check>& checks) {
  std::vector<std::string> members;
  for (const auto& check : checks)
    if (!is_deck(job, check) && std::find(members.begin(), members.end(), check.member) == members.end()) members.push_back(check.member);
  return members;
}

const Check* worst_of(const std::vector<Check>& checks, const std::string& member, const std::string& kind) {
  const Check* worst = nullptr;
  for (const auto& check : checks)
    if (check.member == member && check.kind == kind && (worst == nullptr || check.ratio > worst->ratio + 1e-12)) worst = &check;
  return worst;
}

// Of all members the one that fails this kind of check the most; the first of equals.
const Check* worst_of_kind(const Job& job, const std::vector<Check>& checks, const std::string& kind) {
  const Check* worst = nullptr;
  for (const auto& check : checks)
    if (check.kind == kind && !is_deck(job, check) && (worst == nullptr || check.ratio > worst->ratio + 1e-12)) worst = &check;
  return worst;
}

std::string species_of(const Job& job, const DrawnMember& member) {
  const auto* support = find_support(job, member.line.id);
  if (member.added || support == nullptr) return member.added ? "new, as listed under Material" : "";
  return species_words(support->species) + ", " + grade_words(support->grade);
}

struct ScheduleRow {
  std::vector<std::string> names;
  const DrawnMember* first = nullptr;
  const DrawnMember* last = nullptr;
  std::string note;
};

// "2 sisters beside j1, full length" and "... beside j2 ..." differ in the member they stand by only.
std::string plain_note(const DrawnMember& member) {
  std::string note = member.line.note;
  const auto at = member.line.id.empty() ? std::string::npos : note.find(member.line.id);
  if (member.added && at != std::string::npos) note.replace(at, member.line.id.size(), "it");
  return note;
}

bool alike(const DrawnMember& a, const DrawnMember& b) {
  const auto near = [](double x, double y) { return std::fabs(x - y) < 0.1; };
  return a.added == b.added && a.line.kind == b.line.kind && a.line.size == b.line.size && plain_note(a) == plain_note(b) && near(a.line.b_in, b.line.b_in) &&
         near(a.line.d_in, b.line.d_in) && near(distance_in(a.line.from_in, a.line.to_in), distance_in(b.line.from_in, b.line.to_in)) &&
         a.line.rests_at_in.size() == b.line.rests_at_in.size() &&
         std::equal(a.line.rests_at_in.begin(), a.line.rests_at_in.end(), b.line.rests_at_in.begin(), near);
}

std::string first_place(const Job& job, const ScheduleRow& row) {
  if (row.names.size() == 1) return place_words(job, row.first->line.from_in) + " to " + place_words(job, row.first->line.to_in);
  return "first from " + place_words(job, row.first->line.from_in) + ", last from " + place_words(job, row.last->line.from_in) + "; each place is on the plan";
}

}  // namespace

int SourceList::number_of(const Reason& reason) {
  if (reason.rule.empty() && reason.source.empty()) return 0;
  for (std::size_t i = 0; i < rows_.size(); ++i)
    if (rows_[i].rule == reason.rule && rows_[i].source == reason.source && rows_[i].edition == reason.edition && rows_[i].status == reason.status)
      return before_ + static_cast<int>(i) + 1;
  rows_.push_back(reason);
  return before_ + static_cast<int>(rows_.size());
}

void SourceList::write(Markup& out) const {
  out.open("ol", {{"class", "reasons"}, {"start", std::to_string(before_ + 1)}});
  int number = before_;
  for (const auto& row : rows_) {
    out.open("li", {{"id", "reason-" + std::to_string(++number)}});
    if (!row.rule.empty()) out.text(sentence_case(row.rule) + (row.rule.back() == '.' ? " " : ". "));
    out.text("Source: " + source_words(row) + ".").close();
  }
  out.close();
}

std::string ratio_cell(const Check& check) {
  switch (check.state) {
    case CheckState::nothing_left:
      return "nothing left";
    case CheckState::not_allowed:
      return "not allowed";
    case CheckState::passes:
    case CheckState::fails:
    case CheckState::stands:
      break;
  }
  return check.ratio > 99 ? "over 99" : format_number(check.ratio, 2);
}

Table schedule_of(const Job& job, const Framing& framing) {
  std::vector<ScheduleRow> rows;
  for (const auto& member : framing.members) {
    const auto same = std::find_if(rows.begin(), rows.end(),
                                   [&](const ScheduleRow& row) { return alike(*row.first, member) && species_of(job, *row.first) == species_of(job, member); });
    auto& row = same == rows.end() ? rows.emplace_back() : *same;
    if (row.first == nullptr) row.first = &member;
    row.last = &member;
    const bool own_name = member.name == member.line.id || member.line.id.empty();
    row.names.push_back(member.name + (own_name ? "" : " (" + member.line.id + ")"));
  }
  Table table{{"Name", "What", "Section", "Species and grade", "Place", "Long", "Rests at", "Note"}, {}, "cards"};
  for (const auto& row : rows) {
    const auto& line = row.first->line;
    std::vector<std::string> rests;
    for (const double rest : line.rests_at_in) rests.push_back(format_length(rest));
    std::string section = line.size.empty() ? "not known" : line.size;
    if (line.b_in > 0 && line.d_in > 0) section += " (" + format_inches(line.b_in) + " x " + format_inches(line.d_in) + ")";
    table.rows.push_back({{joined(row.names), "good"},
                          {spoken_id(line.kind), ""},
                          {section, ""},
                          {species_of(job, *row.first), ""},
                          {first_place(job, row), ""},
                          {format_length(distance_in(line.from_in, line.to_in)), "num"},
                          {rests.empty() ? "" : joined(rests), ""},
                          {row.names.size() > 1 ? plain_note(*row.first) : line.note, ""}});
  }
  return table;
}

Table check_grid(const Job& job, const std::vector<Check>& checks, SourceList& sources) {
  const auto members = sorted_members(job, checks);
  std::vector<Column> columns;
  const auto used = [&](const std::string& kind) {
    return std::any_of(checks.begin(), checks.end(), [&](const Check& check) { return check.kind == kind && !is_deck(job, check); });
  };
  for (const auto& column : usual_columns())
    if (used(column.kind)) columns.push_back(column);
  for (const auto& check : checks)
    if (!is_deck(job, check) && std::none_of(columns.begin(), columns.end(), [&](const Column& column) { return column.kind == check.kind; }))
      columns.push_back({check.kind, sentence_case(spoken_id(check.kind))});
  Table table{{"Member"}, {}, "grid"};
  for (const auto& column : columns) table.head.push_back(column.head);
  for (const auto& member : members) {
    std::vector<Cell> row{{member, "good"}};
    for (const auto& column : columns) {
      const auto* check = worst_of(checks, member, column.kind);
      if (check == nullptr) {
        row.push_back({"-", "num"});
        continue;
      }
      row.push_back({ratio_cell(*check), check->ok ? "num" : "num bad", sources.number_of(check->reason)});
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

Table check_rows(const Job& job, const std::vector<Check>& checks, SourceList& sources) {
  Table table{{"Of", "Check", "Asked", "Has", "Ratio", "Result"}, {}, "cards"};
  const Check* worst_deck = nullptr;
  for (const auto& check : checks)
    if (is_deck(job, check) && (worst_deck == nullptr || check.ratio > worst_deck->ratio)) worst_deck = &check;
  for (const auto& check : checks) {
    const bool shown = is_deck(job, check) ? failing(check) || &check == worst_deck : failing(check) && worst_of_kind(job, checks, check.kind) == &check;
    if (!shown) continue;
    const auto unit = check.reason.unit.empty() ? "" : " " + check.reason.unit;
    std::string kind = spoken_id(check.kind);
    for (const char* suffix : {"_at_rot", "_cut_in"})
      if (check.id.find(suffix) != std::string::npos) kind += suffix == std::string("_at_rot") ? ", at the rot" : ", planks cut in";
    table.rows.push_back({{check.member.empty() ? check.id : check.member, ""},
                          {kind, "", sources.number_of(check.reason)},
                          {figure(check.demand) + unit, "num"},
                          {check.state == CheckState::not_allowed ? "" : figure(check.capacity) + unit, "num"},
                          {ratio_cell(check), "num"},
                          {check.state == CheckState::stands ? "stands"
                           : check.ok                        ? "passes"
                                                             : "FAILS",
                           failing(check) ? "bad" : "good"}});
  }
  return table;
}

std::vector<const Check*> governing(const std::vector<Check>& checks) {
  std::vector<const Check*> out;
  for (const auto& check : checks) {
    if (check.reason.steps.empty()) continue;
    const auto same = std::find_if(out.begin(), out.end(), [&](const Check* other) { return other->kind == check.kind; });
    if (same == out.end())
      out.push_back(&check);
    else if (check.ratio > (*same)->ratio + 1e-12)
      *same = &check;
  }
  return out;
}

Table blocking_rows(const cutback::CutBack& cut) {
  struct Row {
    std::vector<std::string> names;
    double length_in = 0;
    std::string why;
  };
  std::vector<Row> rows;
  for (std::size_t i = 0; i < cut.blocking.size(); ++i) {
    const auto& block = cut.blocking[i];
    auto same =
        std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return std::fabs(row.length_in - block.length_in) < 1.0 / 16 && row.why == block.why; });
    if (same == rows.end()) same = rows.insert(rows.end(), Row{{}, block.length_in, block.why});
    same->names.push_back("B" + std::to_string(i + 1));
  }
  Table table{{"Blocking", "Count", "Length", "Why"}, {}, "cards"};
  for (const auto& row : rows)
    table.rows.push_back({{joined(row.names), "good"}, {std::to_string(row.names.size()), "num"}, {format_length(row.length_in), "num"}, {row.why, ""}});
  return table;
}

}  // namespace awlmark::papers
