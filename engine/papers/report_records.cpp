// The records behind the condition report: marks, members, protection, photos, notes of the reading.
#include <algorithm>
#include <cmath>
#include <string>

#include "base/length.hpp"
#include "papers/drawing/symbols.hpp"
#include "papers/keys.hpp"
#include "papers/report_sections.hpp"
#include "papers/words.hpp"

namespace awlmark::papers {
namespace {

std::string where_words(const NumberedMark& numbered) {
  const Mark& mark = *numbered.mark;
  std::string out;
  if (mark.layer) out = spoken_id(*mark.layer);
  if (mark.support) out = "support " + *mark.support + (mark.face ? ", " + spoken_id(doc::word_of(*mark.face)) : "");
  if (mark.wall) out = "wall " + *mark.wall + (mark.part ? ", " + spoken_id(doc::word_of(*mark.part)) : "");
  if (mark.from) out += std::string(out.empty() ? "" : ", ") + "from " + spoken_id(doc::word_of(*mark.from));
  return out.empty() ? "not said" : out;
}

std::string mark_place(const Job& job, const NumberedMark& numbered) {
  const Mark& mark = *numbered.mark;
  std::string out;
  if (mark.plank) out = "plank " + std::to_string(*mark.plank) + (mark.tape_in ? " at " + format_length(*mark.tape_in) : "") + "; ";
  if (mark.along_in) out = format_length(*mark.along_in) + " along it" + (mark.height_in ? ", " + format_length(*mark.height_in) + " up the wall" : "") + "; ";
  return out + (numbered.at_in ? place_words(job, *numbered.at_in) : "place not recorded");
}

std::string when_words(const Mark& mark) {
  std::string out = mark.time ? date_of(*mark.time) : "";
  if (mark.by && !mark.by->empty()) out += (out.empty() ? "" : ", ") + *mark.by;
  return out;
}

// Stretches of a member where rot is more likely than 1 in 5, as "40" to 52" (about 9 in 10)".
std::string doubtful_stretches(const survey::LineField& line) {
  std::string out;
  const std::size_t count = std::min(line.along_in.size(), line.p_unsound.size());
  for (std::size_t i = 0; i < count;) {
    if (!(line.p_unsound[i] >= 0.2)) {
      ++i;
      continue;
    }
    std::size_t end = i;
    double worst = 0;
    while (end < count && line.p_unsound[end] >= 0.2) worst = std::max(worst, line.p_unsound[end++]);
    out += (out.empty() ? "" : "; ") + format_length(line.along_in[i]) + " to " + format_length(line.along_in[end - 1]) + ", at worst " + chances(worst);
    i = end;
  }
  return out.empty() ? "no stretch over 1 chance in 5" : out;
}

std::string support_of(const Job& job, const std::string& id) {
  const Support* support = find_support(job, id);
  return support == nullptr ? id : id + ": " + support_words(*support);
}

}  // namespace

void write_marks(const Report& report) {
  if (report.job.marks.empty()) return;
  report.sheet.section("Readings", true);
  report.sheet.say("Numbers are those of the plan. Places are measured from the two walls named.", "small");
  Table table{{"No.", "Reading", "On", "Place", "When, by whom", "Note"}, {}, "cards"};
  for (const auto& numbered : numbered(report.job))
    table.rows.push_back({{std::to_string(numbered.number), "good"},
                          {reading_words(*numbered.mark), ""},
                          {where_words(numbered), ""},
                          {mark_place(report.job, numbered), ""},
                          {when_words(*numbered.mark), ""},
                          {numbered.mark->note.value_or(""), ""}});
  report.sheet.table(table);
}

void write_members(const Report& report) {
  const auto& survey = report.findings.survey;
  const bool decay = report.findings.cut_back && !report.findings.cut_back->members.empty();
  if (survey.supports.empty() && survey.walls.empty() && !decay) return;
  report.sheet.section("Members and walls");
  if (decay) {
    report.sheet.say("Decay in members. Lengths run along the member from its first end.");
    Table table{{"Member", "From", "To", "Deep", "Wide", "Face", "How known"}, {}, "cards"};
    for (const auto& member : report.findings.cut_back->members)
      table.rows.push_back({{support_of(report.job, member.support), ""},
                            {format_length(member.from_in), "num"},
                            {format_length(member.to_in), "num"},
                            {format_inches(member.depth_in), "num"},
                            {member.width_in ? format_inches(*member.width_in) : "full", "num"},
                            {spoken_id(doc::word_of(member.face)), ""},
                            {member.known ? "read" : "likely: " + chances(member.p_unsound), member.known ? "bad" : ""}});
    report.sheet.table(table);
  }
  if (!survey.supports.empty() || !survey.walls.empty()) {
    Table table{{"Member or wall", "Where rot may be"}, {}, "cards"};
    for (const auto& line : survey.supports) table.rows.push_back({{support_of(report.job, line.id), ""}, {doubtful_stretches(line), ""}});
    for (const auto& line : survey.walls)
      table.rows.push_back({{"wall " + line.id + (line.part.empty() ? "" : ", " + spoken_id(line.part)), ""}, {doubtful_stretches(line), ""}});
    report.sheet.table(table);
  }
}

void write_protection(const Report& report) {
  if (!report.findings.hazards || report.findings.hazards->protection.empty()) return;
  report.sheet.section("Protection during the work");
  auto& out = report.sheet.out();
  out.open("ul");
  for (const auto& item : report.findings.hazards->protection) {
    out.open("li").text(item.text);
    reason_link(out, report.reasons.number_of(item.reason));
    out.close();
  }
  out.close();
}

void write_photos(const Report& report) {
  report.sheet.section("Photos taken");
  if (report.job.photos.empty()) {
    report.sheet.say("No photos are attached to the job.");
    return;
  }
  Table table{{"No.", "Photo", "Shows", "Place", "Reading", "Taken", "Fingerprint"}, {}, "grid"};
  const auto marks = numbered(report.job);
  for (const auto& photo : report.job.photos) {
    std::string number;
    for (const auto& mark : marks)
      if (photo.mark && mark.mark->id == *photo.mark) number = "no. " + std::to_string(mark.number);
    const auto place = photo_place(report.job, photo);
    table.rows.push_back({{std::to_string(table.rows.size() + 1), "good"},
                          {photo.id, ""},
                          {photo.caption.value_or(""), ""},
                          {place ? place_words(report.job, *place) : "", ""},
                          {number, ""},
                          {photo.time ? spoken_date(*photo.time) : "", "date"},
                          {photo.sha256 ? shortened(*photo.sha256, 12) : "", ""}});
  }
  report.sheet.table(table);
}

void write_assumed(const Report& report) {
  report.sheet.section("Not recorded, and what was taken instead");
  if (report.findings.assumed.empty()) {
    report.sheet.say("Nothing had to be taken for granted.");
    return;
  }
  Table table{{"About", "Not known, taken instead, and how to know better"}, {}, "grid"};
  for (const auto& item : report.findings.assumed) table.rows.push_back({{item.about.empty() ? spoken_id(item.id) : item.about, ""}, {item.words, ""}});
  report.sheet.table(table);
}

void write_warnings(const Report& report) {
  if (report.findings.warnings.empty()) return;
  report.sheet.section("Where the record was doubtful");
  std::vector<std::string> items;
  for (const auto& warning : report.findings.warnings) items.push_back(describe(warning));
  report.sheet.list(items);
}

}  // namespace awlmark::papers
