// The schedule as iCalendar (RFC 5545): whole-day events, lines folded at 75 octets, text escaped.
#include "job/dates.hpp"
#include "work/work.hpp"

namespace awlmark::work {
namespace {

constexpr std::size_t kFold = 75;

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\n') {
      out += "\\n";
      continue;
    }
    if (c == '\\' || c == ';' || c == ',') out += '\\';
    if (static_cast<unsigned char>(c) >= 0x20) out += c;
  }
  return out;
}

// Never in the middle of a character of UTF-8.
void line(std::string& out, const std::string& text) {
  std::size_t start = 0, room = kFold;
  while (text.size() - start > room) {
    std::size_t end = start + room;
    while (end > start + 1 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
    out += text.substr(start, end - start) + "\r\n ";
    start = end;
    room = kFold - 1;
  }
  out += text.substr(start) + "\r\n";
}

std::string digits(const std::string& date) {
  std::string out;
  for (const char c : date)
    if (c != '-') out += c;
  return out;
}

// Letters and digits only: 64 bits of FNV-1a in hexadecimal.
std::string identity(const std::string& name) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
  std::string out;
  for (int shift = 60; shift >= 0; shift -= 4) out += "0123456789abcdef"[hash >> shift & 15];
  return out;
}

std::string day_after(const std::string& date) {
  const auto day = day_of(date);
  return day ? date_of(*day + 1) : date;
}

}  // namespace

std::string calendar_file(const Job& job, const Work& work) {
  std::string events;
  std::string first;  // the engine has no clock: the stamp is the first day of the plan
  for (const auto& task : work.tasks)
    if (!task.starts.empty() && (first.empty() || task.starts < first)) first = task.starts;
  for (const auto& task : work.tasks) {
    if (task.starts.empty()) continue;
    line(events, "BEGIN:VEVENT");
    // The same task keeps its identity when its date moves, so that a calendar moves it too.
    line(events, "UID:" + identity(job.job.name + "/" + task.id) + "@awlmark.invalid");
    line(events, "DTSTAMP:" + digits(first) + "T000000Z");
    line(events, "DTSTART;VALUE=DATE:" + digits(task.starts));
    line(events, "DTEND;VALUE=DATE:" + digits(day_after(task.ends < task.starts ? task.starts : task.ends)));
    line(events, "SUMMARY:" + escaped(task.title + " (" + task.who + ")"));
    line(events, std::string("TRANSP:") + (task.hours.high > 0 ? "OPAQUE" : "TRANSPARENT"));
    if (!task.hold.empty()) line(events, "DESCRIPTION:" + escaped("Ends when: " + task.hold));
    line(events, "END:VEVENT");
  }
  if (events.empty()) return {};
  std::string out;
  line(out, "BEGIN:VCALENDAR");
  line(out, "VERSION:2.0");
  line(out, "PRODID:-//Awlmark//work//EN");
  line(out, "CALSCALE:GREGORIAN");
  line(out, "NAME:" + escaped(job.job.name));
  out += events;
  line(out, "END:VCALENDAR");
  return out;
}

}  // namespace awlmark::work
