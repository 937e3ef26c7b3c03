// Shower, drying, work and what came of the job.
#include "base/length.hpp"
#include "job/dates.hpp"
#include "job/judge.hpp"

namespace awlmark {
namespace {

// Least shower: 900 square inches and 30 in. each way by the IRC (P2708.1), 1,024 square inches around a
// circle of 30 in. by the UPC (408.6). Both from memory.
constexpr double kLeastSide_in = 30;
constexpr double kLeastArea_in2 = 900;
constexpr double kLeastAreaUpc_in2 = 1024;
constexpr double kNobodyFits_in = 18;
constexpr double kDrainSlack_in = 1;             // a line drain stands on the edge
constexpr double kFarDrainRun_in = 600;          // 50 ft: a slip of the point
constexpr double kSteepestFall_in_per_ft = 0.5;  // IRC P2709.1, from memory
constexpr int kHandsInARoom = 4;                 // common practice, no source

}  // namespace

void Judge::plans() {
  if (job_.shower && !judged("shower")) shower(*job_.shower);
  if (job_.drying) {
    ids("drying.readings", job_.drying->readings);
    each("drying.readings", job_.drying->readings, [&](const DryingReading& reading, const std::string& at) {
      time(reading.time, at + ".time");
      if (reading.layer) reference(at + ".layer", *reading.layer, ids_of(job_.layers), "layer");
      if (reading.support) reference(at + ".support", *reading.support, ids_of(full_.supports), "support");
    });
  }
  if (job_.work && !judged("work")) work(*job_.work);
  if (job_.rates && !judged("rates")) rates(*job_.rates);
  ids("decisions", job_.decisions);
  each("decisions", job_.decisions, [&](const Decision& decision, const std::string& at) { time_or_date(decision.time, at + ".time"); });
  if (job_.closed) date(job_.closed->finished, "closed.finished");
}

void Judge::shower(const ShowerPlan& shower) {
  polygon(shower.outline_in, "shower.outline_in");
  if (judged("shower.outline_in")) return;
  const Box box = bounds(shower.outline_in);
  const double side = std::min(box.width_in(), box.height_in()), area = area_in2(shower.outline_in);
  const bool upc = job_.job.plumbing_code == PlumbingCode::upc;
  const double least = upc ? kLeastAreaUpc_in2 : kLeastArea_in2;
  const std::string is = "is " + format_length(box.width_in()) + " by " + format_length(box.height_in());
  if (side < kNobodyFits_in)
    problem("shower.outline_in", is + "; nobody can stand in it", "lengths are inches: check the unit");
  else if (side < kLeastSide_in || area < least)
    warning("shower.outline_in", is + ", smaller than the plumbing code allows",
            "make it at least " + format_number(kLeastSide_in, 0) + " in. each way and " + format_number(least, 0) + " square inches (" +
                (upc ? "UPC 408.6" : "IRC P2708.1") + ", from memory; the local code decides)");
  if (shower.least_fall_in_per_ft.value_or(0) > kSteepestFall_in_per_ft)
    warning("shower.least_fall_in_per_ft", "is " + format_number(*shower.least_fall_in_per_ft, 2) + " in. a foot, steeper than a shower floor may be",
            "use 1/4 to 1/2 in. a foot (IRC P2709.1, from memory)");
  drain(shower);
}

void Judge::drain(const ShowerPlan& shower) {
  const auto in_pan = [&](Point p, const std::string& at) {
    const double outside = distance_to_in(shower.outline_in, p);
    if (outside > kDrainSlack_in) problem(at, "lies " + format_length(outside) + " outside the shower", "correct the point, or the shower's outline");
  };
  if (const auto& drain = shower.drain) {
    if (drain->kind == DrainKind::point && !drain->at_in)
      problem("shower.drain.at_in", "is missing", "a point drain gives its place");
    else if (drain->kind == DrainKind::point)
      in_pan(*drain->at_in, "shower.drain.at_in");
    if (drain->kind == DrainKind::line && (!drain->from_in || !drain->to_in)) {
      problem("shower.drain.from_in", "is missing", "a line drain gives from_in and to_in");
    } else if (drain->kind == DrainKind::line) {
      in_pan(*drain->from_in, "shower.drain.from_in");
      in_pan(*drain->to_in, "shower.drain.to_in");
      line(*drain->from_in, *drain->to_in, "shower.drain", "drain");
    }
  }
  if (!shower.drain_run) return;
  for (const auto& [spot, at] :
       {std::pair{shower.drain_run->vent_in, "shower.drain_run.vent_in"}, std::pair{shower.drain_run->stack_in, "shower.drain_run.stack_in"}})
    if (spot && distance_to_in(shower.outline_in, *spot) > kFarDrainRun_in)
      problem(at, "is " + format_length(distance_to_in(shower.outline_in, *spot)) + " from the shower", "give the point on this plan, in inches");
}

void Judge::work(const WorkPlan& work) {
  date(work.start, "work.start");
  date(work.signed_on, "work.signed_on");
  for (std::size_t i = 0; i < work.holidays.size(); ++i) date(work.holidays[i], "work.holidays[" + std::to_string(i) + "]");
  if (work.permit) {
    date(work.permit->applied, "work.permit.applied");
    date(work.permit->granted, "work.permit.granted");
  }
  if (work.crew.value_or(1) > kHandsInARoom)
    warning("work.crew", "is " + std::to_string(*work.crew) + " hands in one room", "tasks take as many as they have room for; the others wait");
}

}  // namespace awlmark
